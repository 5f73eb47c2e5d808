"""Where every value stands in the workbook: fixed before anything is written, so that no address is glued by hand."""

from __future__ import annotations

from collections.abc import Callable, Iterable, Mapping
from dataclasses import dataclass

from xlsxwriter.utility import xl_col_to_name

from appraisal.lines.names import Ref
from appraisal.lines.plan import Plan

INPUTS, CONSTANTS, MONTHS, YEARS, RESULTS = SHEETS = ("Inputs", "Constants", "Months", "Years", "Results")
VALUE_COLUMN = 3  # of Inputs and Constants: path, label, unit, value
ONCE_COLUMN = 4  # of Months: name, label, unit, sheet, single value
FIRST_COLUMN = 5  # first month or year
FIRST_ROW = 2
MONTHS_SHOWN = 12
SHIFTS = {"previous": -1, "next": 1}  # columns that a view looks aside
YEAR_NUMBER, YEAR_LAST_MONTH = "project year", "last month"


@dataclass(frozen=True)
class Layout:
    """Rows of every input, constant, month line and year line (0-based), and how many columns the grids have.

    paths: inputs with a value for each project year; the other series have one for each calendar month.
    """

    inputs: Mapping[str, int]
    constants: Mapping[str, int]
    months: Mapping[str, int]
    years: Mapping[str, int]
    month_count: int
    year_count: int
    plan: Plan
    paths: frozenset[str]

    def address(self, ref: Ref, *, sheet: str) -> Callable[[int], str]:
        """How a formula on `sheet` reads one value: a function of the column number in the grid, 0 for the first."""
        if ref.name in self.inputs and ref.name in self.plan.monthly_inputs:
            row = self.inputs[ref.name] + 1
            by_year = ref.name in self.paths
            last = xl_col_to_name(VALUE_COLUMN + (self.year_count if by_year else MONTHS_SHOWN) - 1)
            if ref.view == "years_of":
                return lambda column: f"{INPUTS}!$D${row}:${last}${row}"
            place = self.months["timeline.year_number" if by_year else "timeline.calendar_month"] + 1
            span, shift = f"{INPUTS}!$D${row}:${last}${row}", SHIFTS.get(ref.view, 0)
            return lambda column: (
                f"INDEX({span},{self._letter(column + shift)}${place})" if 0 <= column + shift < self.month_count else "0")
        if ref.name in self.inputs or ref.name in self.constants:
            home, rows = (INPUTS, self.inputs) if ref.name in self.inputs else (CONSTANTS, self.constants)
            text = f"{home}!$D${rows[ref.name] + 1}"
            return lambda column: text
        if ref.name in self.years:
            return self._of_year(ref)
        return self._of_month(ref, sheet)

    def _of_month(self, ref: Ref, sheet: str) -> Callable[[int], str]:
        row = self.months[ref.name] + 1
        home = "" if sheet == MONTHS else f"{MONTHS}!"
        whole = f"{home}$F${row}:${self._letter(self.month_count - 1)}${row}"
        if ref.view == "life_sum":
            return lambda column: f"SUM({whole})"
        if self.plan.grid(ref.name) == "once":
            return lambda column: f"{home}$E${row}"
        if ref.view == "year_sum":
            numbers = whole.replace(f"${row}", f"${self.months['timeline.year_number'] + 1}")
            return lambda column: f"SUMIF({numbers},{self._letter(column)}${self.years[YEAR_NUMBER] + 1},{whole})"
        if ref.view == "year_end":
            return lambda column: f"INDEX({whole},{self._letter(column)}${self.years[YEAR_LAST_MONTH] + 1})"
        if ref.view == "cumulative":
            return lambda column: f"SUM($F{row}:{self._letter(column)}{row})"
        return self._beside(ref, row, self.month_count)

    def _of_year(self, ref: Ref) -> Callable[[int], str]:
        row = self.years[ref.name] + 1
        if ref.view == "in_year":
            number = self.months["timeline.year_number"] + 1
            last = self._letter(self.year_count - 1)
            return lambda column: f"INDEX({YEARS}!$F${row}:${last}${row},{self._letter(column)}${number})"
        if ref.view == "life_sum":
            return lambda column: f"SUM({YEARS}!$F${row}:${self._letter(self.year_count - 1)}${row})"
        if ref.view == "cumulative":
            return lambda column: f"SUM($F{row}:{self._letter(column)}{row})"
        return self._beside(ref, row, self.year_count)

    def _beside(self, ref: Ref, row: int, count: int) -> Callable[[int], str]:
        shift = SHIFTS.get(ref.view, 0)
        return lambda column: f"{self._letter(column + shift)}{row}" if 0 <= column + shift < count else "0"

    @staticmethod
    def _letter(column: int) -> str:
        return str(xl_col_to_name(FIRST_COLUMN + column))


def layout(
    plan: Plan, *, inputs: Mapping[str, int], constants: list[str], series: list[str], months: int, years: int
) -> Layout:
    """Give every value its row.

    inputs: full name -> how many values it has (1, twelve for a profile, more for a path); constants: full names;
    series: monthly inputs given by time; months, years: columns of the grids.
    """
    monthly = [*series, *(name for name, node in plan.nodes.items() if node.grid != "year")]
    yearly = [YEAR_NUMBER, YEAR_LAST_MONTH, *(name for name, node in plan.nodes.items() if node.grid == "year")]

    def rows(names: Iterable[str]) -> dict[str, int]:
        return {name: FIRST_ROW + place for place, name in enumerate(names)}

    paths = frozenset(name for name, count in inputs.items() if count > MONTHS_SHOWN)
    return Layout(rows(inputs), rows(constants), rows(monthly), rows(yearly), months, years, plan, paths)
