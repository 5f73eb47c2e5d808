"""Where every value stands in the workbook: fixed before anything is written, so that no address is glued by hand."""

from __future__ import annotations

from collections.abc import Callable, Iterable, Iterator, Mapping
from dataclasses import dataclass
from functools import partial

from xlsxwriter.utility import xl_col_to_name

from appraisal.lines.evaluate import MONTHS
from appraisal.lines.names import Ref
from appraisal.lines.plan import Node, Plan
from appraisal.reports import subjects as where
from appraisal.reports.subjects import RANK, Subject, module_of, subject_of

LABEL, UNIT, ONCE_COLUMN, NAME = (
    0,
    1,
    2,
    3,
)  # of every grid: what it is, its unit, one value or the total, name of the line
FIRST_COLUMN = 4  # first month or year
HEAD_ROW, YEAR_ROW, FIRST_ROW = 2, 3, 5  # dates or spans, project year, first line (0-based)
VALUE_COLUMN = 2  # of inputs and fixed figures
MONTHS_SHOWN = 12
SHIFTS = {"previous": -1, "next": 1}  # columns that a view looks aside
Text = Callable[[int], str]


@dataclass(frozen=True)
class Place:
    """One row of one sheet (0-based)."""

    sheet: str
    row: int


@dataclass(frozen=True)
class Heading:
    """A line of text over the rows of a module."""

    row: int
    module: str


@dataclass(frozen=True)
class Layout:
    """Place of every input, constant, series of time and line, and how many columns the grids have.

    paths, profiles: inputs with a value for each project year, or calendar month. headings: by sheet.
    """

    plan: Plan
    places: Mapping[str, Place]
    headings: Mapping[str, tuple[Heading, ...]]
    month_count: int
    year_count: int
    paths: frozenset[str]
    profiles: frozenset[str]

    def on(self, sheet: str) -> Iterator[tuple[str, int]]:
        """Names on a sheet with their rows, from the top."""
        return ((name, place.row) for name, place in self.places.items() if place.sheet == sheet)

    def address(self, ref: Ref, *, sheet: str) -> Text:
        """How a formula on `sheet` reads one value: a function of the column number in the grid, 0 for the first."""
        place = self.places[ref.name]
        home = "" if place.sheet == sheet else f"'{place.sheet}'!" if " " in place.sheet else f"{place.sheet}!"
        if ref.name in self.paths or ref.name in self.profiles:
            return self._varying(ref, home, sheet)
        grid = self.plan.grid(ref.name)
        if grid == "once":
            fixed = f"{home}${xl_col_to_name(ONCE_COLUMN)}${place.row + 1}"
            return lambda column: fixed
        return self._in_grid(ref, home, grid)

    def span(self, name: str, *, sheet: str) -> str:
        """The whole row of a month or year line, as a range."""
        place = self.places[name]
        home = "" if place.sheet == sheet else f"'{place.sheet}'!" if " " in place.sheet else f"{place.sheet}!"
        return f"{home}{self._whole(place.row, self._count(self.plan.grid(name)))}"

    def _count(self, grid: str) -> int:
        return self.year_count if grid == "year" else self.month_count

    @staticmethod
    def _whole(row: int, count: int) -> str:
        return f"${letter(0)}${row + 1}:${letter(count - 1)}${row + 1}"

    def _varying(self, ref: Ref, home: str, sheet: str) -> Text:
        """An input by calendar month or project year, looked up by what time it is in the column."""
        row, by_year = self.places[ref.name].row + 1, ref.name in self.paths
        first = xl_col_to_name(VALUE_COLUMN)
        last = xl_col_to_name(VALUE_COLUMN + (self.year_count if by_year else MONTHS_SHOWN) - 1)
        span, shift = f"{home}${first}${row}:${last}${row}", SHIFTS.get(ref.view, 0)
        if ref.view == "years_of":
            return lambda column: span
        time = "" if sheet == where.TIME else f"'{where.TIME}'!"
        when = f"${YEAR_ROW + 1}" if by_year else f"${self.places['timeline.calendar_month'].row + 1}"
        when_home = "" if by_year else time
        inside = range(self.month_count)
        return lambda column: (
            f"INDEX({span},{when_home}{letter(column + shift)}{when})" if column + shift in inside else "0"
        )

    def _in_grid(self, ref: Ref, home: str, grid: str) -> Text:
        row, count = self.places[ref.name].row, self._count(grid)
        whole, here = f"{home}{self._whole(row, count)}", row + 1
        if ref.name in self.plan.in_circle and ref.view in YEAR_VIEWS:
            return partial(YEAR_VIEWS[ref.view], home, here)
        year = f"${YEAR_ROW + 1}"
        if ref.view == "life_sum":
            return lambda column: f"SUM({whole})"
        if ref.view == "year_sum":
            numbers = f"'{where.TIME}'!{self._whole(YEAR_ROW, count)}"
            return lambda column: f"SUMIF({numbers},{letter(column)}{year},{whole})"
        if ref.view == "year_end":
            twelve = self.address(Ref("constant.months_per_year"), sheet="")(0)
            return lambda column: f"INDEX({whole},{letter(column)}{year}*{twelve})"
        if ref.view == "in_year":
            return lambda column: f"INDEX({whole},{letter(column)}{year})"
        if ref.view == "cumulative":
            return lambda column: f"SUM({home}${letter(0)}{here}:{letter(column)}{here})"
        shift = SHIFTS.get(ref.view, 0)
        return lambda column: f"{home}{letter(column + shift)}{here}" if 0 <= column + shift < count else "0"


def _months_of_year(home: str, row: int, column: int) -> str:
    return f"SUM({home}{letter(column * MONTHS)}{row}:{letter(column * MONTHS + MONTHS - 1)}{row})"


# Lines that rest on their own year before name the cells of one year: a span of all years would be a circle to a spreadsheet.
YEAR_VIEWS: Mapping[str, Callable[[str, int, int], str]] = {
    "year_sum": _months_of_year,
    "year_end": lambda home, row, column: f"{home}{letter(column * MONTHS + MONTHS - 1)}{row}",
    "in_year": lambda home, row, column: f"{home}{letter(column // MONTHS)}{row}",
}
LETTERS = [str(xl_col_to_name(FIRST_COLUMN + column)) for column in range(12 * 60 + 1)]


def letter(column: int) -> str:
    """Name of a column of a grid, 0 for the first month or year."""
    return LETTERS[column]


def layout(
    plan: Plan, *, inputs: Mapping[str, int], constants: Iterable[str], series: Iterable[str], months: int, years: int
) -> Layout:
    """Give every value its row.

    inputs: full name -> how many values it has (1, twelve for a profile, more for a path); constants: full names;
    series: monthly inputs given by time; months, years: columns of the grids.
    """
    paths = frozenset(name for name, count in inputs.items() if count > MONTHS_SHOWN)
    profiles = frozenset(name for name, count in inputs.items() if count == MONTHS_SHOWN)
    single = [name for name in inputs if name not in paths | profiles]
    places: dict[str, Place] = {}
    headings: dict[str, tuple[Heading, ...]] = {}
    for sheet, names in (
        (where.INPUTS, single),
        (where.PROFILES, sorted_alike(profiles, inputs)),
        (where.PATHS, sorted_alike(paths, inputs)),
    ):
        placed, heads = _by_section(sheet, names)
        places |= placed
        headings[sheet] = heads
    places |= _rows(where.CONSTANTS, constants)
    for sheet, nodes in _sheets(plan).items():
        start = tuple(series) if sheet == where.TIME else ()
        placed, heads = _by_module(sheet, start, nodes)
        places |= placed
        headings[sheet] = heads
    return Layout(plan, places, headings, months, years, paths, profiles)


def sorted_alike(names: Iterable[str], order: Iterable[str]) -> list[str]:
    """Some names in the order of another list."""
    chosen = set(names)
    return [name for name in order if name in chosen]


def _rows(sheet: str, names: Iterable[str]) -> dict[str, Place]:
    return {name: Place(sheet, FIRST_ROW + number) for number, name in enumerate(names)}


def _by_section(sheet: str, names: Iterable[str]) -> tuple[dict[str, Place], tuple[Heading, ...]]:
    """Inputs below a heading for each section, or each item of a table."""
    row, last, places, heads = FIRST_ROW, "", {}, []
    for name in names:
        section = name.rpartition(".")[0]
        if section != last:
            heads.append(Heading(row + bool(last), section))
            row, last = row + 1 + bool(last), section
        places[name] = Place(sheet, row)
        row += 1
    return places, tuple(heads)


def _sheets(plan: Plan) -> dict[str, list[Node]]:
    """Lines by sheet, in the order in which their modules are named and their lines are written."""
    found: dict[str, list[Node]] = {}
    for node in plan.nodes.values():
        found.setdefault(_sheet(node, subject_of(node)), []).append(node)
    return {sheet: sorted(nodes, key=_written) for sheet, nodes in found.items()}


def _written(node: Node) -> tuple[int, str, int]:
    """Where a line is written: its module in the order of the sheets, then its line in the file."""
    module = module_of(node)
    return RANK.get(module, len(RANK)), module, int(node.line.body.__code__.co_firstlineno)


def _sheet(node: Node, subject: Subject) -> str:
    if node.grid != "year":
        return subject.sheet
    return where.YEARLY_WORKINGS if subject is where.WORKINGS_SUBJECT else where.YEARLY


def _by_module(sheet: str, start: Iterable[str], nodes: Iterable[Node]) -> tuple[dict[str, Place], tuple[Heading, ...]]:
    places, heads, last = dict(_rows(sheet, start)), list[Heading](), ""
    row = FIRST_ROW + len(places)
    for node in nodes:
        module = module_of(node)
        if module != last:
            heads.append(Heading(row + bool(places), module))
            row, last = row + 1 + bool(places), module
        places[node.name] = Place(sheet, row)
        row += 1
    return places, tuple(heads)
