"""The assumption book: every input with value, unit, range, source, date, how it is known and its influence; guesses first."""

from __future__ import annotations

from collections.abc import Iterable
from dataclasses import dataclass

from appraisal.present.citing import without
from appraisal.present.naming import name_of
from appraisal.present.numbers import Units, rounded
from appraisal.present.tables import Table, units_of
from appraisal.present.words import BLANK
from appraisal.present.written import reader_unit, reader_value, several
from appraisal.risk.material import Material
from appraisal.scenario.assumptions import Assumption
from appraisal.scenario.beside import Range, parameters

SECTIONS = {
    "guess": "Still a guess",
    "not said": "Given, but nobody said from where",
    "memory": "From memory, not checked at the source",
    "common practice": "Common practice, no source",
    "invented": "Invented for this example",
    "published": "Published",
    "quote": "Quoted",
    "measured": "Measured",
    "computed": "Worked out from other inputs",
    "choice": "Choices, names and counts",
}
GROUPS = tuple(SECTIONS)  # ways to know a value, the weakest first
OF_WORDS = {
    "guess": "guess", "memory": "memory", "practice": "common practice", "invented": "invented", "quote": "quote",
    "measured": "measured", "read": "published", "published": "published", "computed": "computed",
}  # fmt: skip
OF_APPLICANT, PROOFS = ("applicant", "emergency"), ("evidence", "own_money_evidence", "supplier", "quote_ends")
WIDEST, SERIES_SHOWN = 60, 4
CALENDAR, NOT_NAMED = 1900, "none"
HEAD = ("input", "path", "value", "unit", "range", "source", "date", "how it is known", "rank of\ninfluence",
        "moves the\nworth by")  # fmt: skip


@dataclass(frozen=True)
class Entry:
    """One input of the book.

    known: one of `GROUPS`. rank: 1 for the input whose move of a tenth changes the worth most, None where it is no single
    number or moves nothing. swing: what that move changes the worth by [money].
    """

    label: str
    path: str
    value: str
    unit: str
    range: str
    source: str
    date: str
    known: str
    rank: int | None
    swing: float | None


def entries(found: Material) -> tuple[Entry, ...]:
    """Every input: guesses and what nobody has explained first, within each kind of knowledge the most influential first."""
    moved = [each for each in found.by_share.swings if each.npv_width]
    ranks = {each.path: place for place, each in enumerate(moved, start=1)}
    widths = {each.path: abs(each.npv_width) for each in moved}
    scenario, units = found.loaded.scenario, units_of(found.appraisal)
    made = [
        Entry(
            label=name_of(found.loaded, path),
            path=path,
            value=_whole_value(path, each, units),
            unit=unit_of(each, units),
            range=range_text(scenario.range.get(path), each, units),
            source=_source(each),
            date=scenario.source[path].date if path in scenario.source else "",
            known=known(each),
            rank=ranks.get(path),
            swing=widths.get(path),
        )
        for path, each in found.loaded.assumptions.items()
    ]
    return tuple(sorted(made, key=lambda entry: (GROUPS.index(entry.known), entry.rank or len(made), entry.path)))


def known(each: Assumption) -> str:
    """How a value is known, in the words of the book.

    What the scenario states without a source is `not said`; choices and texts are the user's own and are `choice`.
    """
    words = each.known.lower()
    for word, group in OF_WORDS.items():
        if words.startswith(word) or f" {word}" in f" {words}":
            return group
    if each.declaration.kind in ("choice", "text", "count") and each.origin in ("scenario", "default"):
        return "choice"
    if each.origin == "computed":
        return "computed"
    if each.origin == "reference":
        return "published"
    if each.origin == "default":
        return "common practice"
    return "not said"


def shown(each: Assumption, units: Units) -> str:
    """A value as text in the reader's units; a series that does not vary as one number."""
    if isinstance(each.value, tuple):
        cells = [_number(value, each, units) for value in each.value]
        return ", ".join(_unrepeated(cells))
    text = each.value if isinstance(each.value, str) else _number(float(each.value), each, units)
    return text if len(text) <= WIDEST else text[:WIDEST] + "..."


def _whole_value(path: str, each: Assumption, units: Units) -> str:
    """A value of the book: texts uncut, empty ones as what the applicant must say or as none."""
    if not isinstance(each.value, str):
        return shown(each, units)
    asked = path.split(".")[0] in OF_APPLICANT or path.split(".")[-1] in PROOFS
    return each.value or (BLANK if asked else NOT_NAMED)


def unit_of(each: Assumption, units: Units) -> str:
    """The unit in which the value is shown; a year of the calendar has none."""
    if _is_calendar_year(each):
        return ""
    return units.cells(0.0, each.declaration.unit)[1] if each.declaration.unit else ""


def _is_calendar_year(each: Assumption) -> bool:
    """A count of years that reaches so far is a year of the calendar, as 2026."""
    return each.declaration.unit == "year" and (each.declaration.high or 0) >= CALENDAR


def _number(value: float, each: Assumption, units: Units) -> str:
    if _is_calendar_year(each):
        return f"{value:.0f}" if value else NOT_NAMED
    return units.cells(value, each.declaration.unit)[0] if each.declaration.unit else rounded(value)


def _unrepeated(cells: list[str]) -> list[str]:
    """A series without the repeats at its end."""
    while len(cells) > 1 and cells[-1] == cells[-2]:
        cells = cells[:-1]
    return cells


def range_text(given: Range | None, each: Assumption, units: Units) -> str:
    """The declared range with its shape; else the reference figure's own range; else nothing."""
    if given is not None:
        parts = (f"{name} {_parameter(name, value, each, units)}" for name, value in parameters(given).items())
        return f"{given.shape.replace('_', ' ')}: {', '.join(parts)}"
    if each.low is not None and each.high is not None and each.low != each.high:
        return f"{_number(each.low, each, units)} to {_number(each.high, each, units)} (reference)"
    return ""


def _parameter(name: str, value: object, each: Assumption, units: Units) -> str:
    """A parameter of a range; chances, weights and widths have units of their own and stay as written."""
    own = name in ("per_year", "weights", "sd_before_cut")
    numbers = [float(str(one)) for one in value] if isinstance(value, list) else [float(str(value))]
    return " ".join(rounded(one) if own else _number(one, each, units) for one in numbers)


def _source(each: Assumption) -> str:
    if each.source:
        return each.source
    return {"default": "default of the program", "scenario": "", "computed": "worked out from other inputs"}.get(
        each.origin, ""
    )


def book_table(found: Material) -> Table:
    """The whole book."""
    return Table(
        "Assumption book: what is still a guess comes first", HEAD, tuple(_row(each) for each in entries(found))
    )


def tables_for_paper(found: Material) -> dict[str, Table]:
    """The whole book in fewer columns, a table for each kind of knowledge by its title, guesses first."""
    listed = entries(found)
    head = ("input", "path", "value", "range", "source, date", "rank")
    made = {}
    for group, title in SECTIONS.items():
        rows = tuple(_for_paper(each) for each in listed if each.known == group)
        if rows:
            empty = [name for name, *cells in zip(head, *rows, strict=True) if not any(cells)]
            made[title] = without(Table(f"{title}: {len(rows)} inputs", head, rows), *empty)
    return made


def _for_paper(each: Entry) -> tuple[str, ...]:
    return (
        each.label,
        each.path,
        _with_unit(each),
        each.range,
        ", ".join(part for part in (each.source, each.date) if part),
        "" if each.rank is None else str(each.rank),
    )


def _with_unit(each: Entry) -> str:
    """A value with its unit; a long series as its number of values with first and last, for all of them stand in the files."""
    if not each.unit:
        return each.value
    cells = each.value.split(", ")
    unit = "" if each.unit == "1" else several(cells[-1], each.unit)
    short = each.value if len(cells) <= SERIES_SHOWN else f"{cells[0]} ... {cells[-1]}, {len(cells)} values,"
    return f"{short} {unit}".rstrip()


def open_table(found: Material, *, most: int) -> Table:
    """What is still a guess or was never explained, the most influential first, at most so many rows."""
    waiting = [each for each in entries(found) if each.known in ("guess", "not said") and each.rank]
    waiting.sort(key=lambda entry: entry.rank or 0)
    more = f"; {len(waiting) - most} with less influence stand in the assumption book" if len(waiting) > most else ""
    given, units = found.loaded.assumptions, units_of(found.appraisal)
    rows = tuple((e.label, e.path, *_as_written(given[e.path], units), e.known, str(e.rank)) for e in waiting[:most])
    return Table(
        f"Still a guess or not explained, the most influential first{more}",
        ("input", "path", "value", "unit", "how it is known", "rank"),
        rows,
    )


def _as_written(each: Assumption, units: Units) -> tuple[str, str]:
    """A value and its unit as its reader would write them: shares in per cent."""
    unit = each.declaration.unit
    if not unit.startswith("share") or isinstance(each.value, (str, tuple)):
        return shown(each, units), unit_of(each, units)
    return rounded(reader_value(float(each.value), unit, units)), reader_unit(unit, units)


def counts(found: Iterable[Entry]) -> Table:
    """How many inputs are known in which way."""
    listed = [entry.known for entry in found]
    rows = tuple((group, str(listed.count(group))) for group in GROUPS if group in listed)
    return Table("How the inputs are known", ("", "inputs"), (*rows, ("all", str(len(listed)))))


def _row(each: Entry) -> tuple[str, ...]:
    rank = "" if each.rank is None else str(each.rank)
    moved = "" if each.swing is None else f"{each.swing:,.0f}"
    return (each.label, each.path, each.value, each.unit, each.range, each.source, each.date, each.known, rank, moved)
