"""The assumption book: every input with value, unit, range, source, date, how it is known and its influence; guesses first."""

from __future__ import annotations

from collections.abc import Iterable
from dataclasses import dataclass

from appraisal.present.how_known import GROUPS, SECTIONS, UNEXPLAINED, known
from appraisal.present.naming import name_of
from appraisal.present.numbers import Units, percent, rounded
from appraisal.present.tables import Table, units_of
from appraisal.present.words import BLANK
from appraisal.present.written import LONGEST_SPAN_YEARS, allowed, limits, reader_unit, reader_value
from appraisal.risk.material import Material
from appraisal.scenario.assumptions import Assumption
from appraisal.scenario.beside import Range, parameters

OF_APPLICANT, PROOFS = ("applicant", "emergency"), ("evidence", "own_money_evidence", "supplier", "quote_ends")
WIDEST, SERIES_SHOWN = 60, 4
NOT_NAMED = "none"
MOST_MOVING = 20
ROUNDS_TO_ONE = 0.5  # money; what moves the worth by less has no rank
HEAD = ("input", "path", "value", "unit", "range", "why this range", "allowed", "source", "date", "how it is known",
        "in full", "rank of\ninfluence", "a tenth moves\nthe worth by")  # fmt: skip
OPEN_HEAD = ("input", "path", "value", "unit", "how it is known", "rank")


@dataclass(frozen=True)
class Entry:
    """One input of the book.

    brief: the value, of a long series its least and its greatest. range: how far it may lie from the value; reason: why so
    far. allowed: what the program accepts; limits: of a number, without its unit. known: one of `GROUPS`; in_full: the same
    as its source words it. rank: 1 for the input whose move of a tenth, down and up, changes the worth most (of a series
    every value moves), None where a tenth says nothing or moves nothing. swing: what the worth differs by between both ends
    [money].
    """

    label: str
    path: str
    value: str
    brief: str
    unit: str
    range: str
    reason: str
    allowed: str
    limits: str
    source: str
    date: str
    known: str
    in_full: str
    rank: int | None
    swing: float | None


def entries(found: Material) -> tuple[Entry, ...]:
    """Every input: guesses and what nobody has explained first, within each kind of knowledge the most influential first."""
    moves = {**{each.path: each.npv_width for each in found.by_share.swings}, **found.series}
    seen = {path: abs(width) for path, width in moves.items() if abs(width) >= ROUNDS_TO_ONE}
    ranks = {path: place for place, path in enumerate(sorted(seen, key=lambda path: (-seen[path], path)), start=1)}
    made = [_entry(found, path, each, ranks.get(path), seen.get(path)) for path, each in found.loaded.assumptions.items()]
    return tuple(sorted(made, key=lambda entry: (GROUPS.index(entry.known), entry.rank or len(made), entry.path)))


def _entry(found: Material, path: str, each: Assumption, rank: int | None, swing: float | None) -> Entry:
    scenario, units = found.loaded.scenario, units_of(found.appraisal)
    given = scenario.range.get(path)
    return Entry(
        label=name_of(found.loaded, path),
        path=path,
        value=_whole_value(path, each, units),
        brief=_brief(path, each, units),
        unit=unit_of(each, units),
        range=range_text(given, each, units),
        reason=given.reason if given else "",
        allowed=allowed(each.declaration, units),
        limits="" if _is_calendar_year(each) else limits(each.declaration, units),
        source=_source(each),
        date=scenario.source[path].date if path in scenario.source else "",
        known=known(each),
        in_full=each.known,
        rank=rank,
        swing=swing,
    )


def shown(each: Assumption, units: Units) -> str:
    """A value as text in the reader's units; a series that does not vary as one number."""
    if isinstance(each.value, tuple):
        cells = [_number(value, each, units) for value in each.value]
        return ", ".join(_unrepeated(cells))
    text = _words(each, each.value) if isinstance(each.value, str) else _number(float(each.value), each, units)
    return text if len(text) <= WIDEST else text[:WIDEST] + "..."


def _brief(path: str, each: Assumption, units: Units) -> str:
    if not isinstance(each.value, tuple) or len(shown(each, units).split(", ")) <= SERIES_SHOWN:
        return _whole_value(path, each, units)
    ends = (_number(end, each, units) for end in (min(each.value), max(each.value)))
    return " to ".join(ends)


def _words(each: Assumption, text: str) -> str:
    """A choice without the joints that a file needs; any other text as it is."""
    return text.replace("_", " ") if each.declaration.kind == "choice" else text


def _whole_value(path: str, each: Assumption, units: Units) -> str:
    """A value of the book: texts uncut, empty ones as what the applicant must say or as none."""
    if not isinstance(each.value, str):
        return shown(each, units)
    asked = path.split(".")[0] in OF_APPLICANT or path.split(".")[-1] in PROOFS
    return _words(each, each.value) or (BLANK if asked else NOT_NAMED)


def unit_of(each: Assumption, units: Units) -> str:
    """The unit in which the value is shown, shares in per cent; a year of the calendar has none."""
    return "" if _is_calendar_year(each) else reader_unit(each.declaration.unit, units)


def _is_calendar_year(each: Assumption) -> bool:
    """A count of years that reaches so far is a year of the calendar, as 2026."""
    return each.declaration.unit == "year" and (each.declaration.high or 0) >= LONGEST_SPAN_YEARS


def _number(value: float, each: Assumption, units: Units) -> str:
    if _is_calendar_year(each):
        return f"{value:.0f}" if value else NOT_NAMED
    return rounded(reader_value(value, each.declaration.unit, units))


def _unrepeated(cells: list[str]) -> list[str]:
    """A series without the repeats at its end."""
    while len(cells) > 1 and cells[-1] == cells[-2]:
        cells = cells[:-1]
    return cells


def range_text(given: Range | None, each: Assumption, units: Units) -> str:
    """The declared range with its shape; else the reference figure's own range; else nothing."""
    if given is not None:
        parts = (
            f"{name.replace('_', ' ')} {_parameter(name, value, each, units)}" for name, value in parameters(given).items()
        )
        return f"{given.shape.replace('_', ' ')}: {', '.join(parts)}"
    if each.low is not None and each.high is not None and each.low != each.high:
        return f"{_number(each.low, each, units)} to {_number(each.high, each, units)} (reference)"
    return ""


def _parameter(name: str, value: object, each: Assumption, units: Units) -> str:
    """A parameter of a range; chances, weights and widths have units of their own and stay as written."""
    numbers = [float(str(one)) for one in value] if isinstance(value, list) else [float(str(value))]
    if name == "per_year":
        return percent(numbers[0])
    own = name in ("weights", "sd_before_cut")
    return " ".join(rounded(one) if own else _number(one, each, units) for one in numbers)


def _source(each: Assumption) -> str:
    return each.source or {"default": "default of the program"}.get(each.origin, "")


def book_table(found: Material) -> Table:
    """The whole book."""
    rows = tuple(_row(each) for each in entries(found))
    currency = units_of(found.appraisal).currency
    return Table(f"Assumption book: what is still a guess comes first; worth in {currency}", HEAD, rows)


def _row(each: Entry) -> tuple[str, ...]:
    rank = "" if each.rank is None else str(each.rank)
    cells = (each.label, each.path, each.value, each.unit, each.range, each.reason, each.allowed, each.source, each.date)
    return (*cells, each.known, each.in_full, rank, moved_by(each))


def moved_by(each: Entry) -> str:
    """What the worth differs by between a tenth less and a tenth more [whole money]; empty where nothing moves."""
    return "" if each.swing is None else f"{each.swing:,.0f}"


def open_table(found: Material, *, most: int) -> Table:
    """What is still a guess or was never explained, the most influential first, at most so many rows."""
    waiting = [each for each in entries(found) if each.known in UNEXPLAINED and each.rank]
    waiting.sort(key=lambda entry: entry.rank or 0)
    more = f"; {len(waiting) - most} with less influence stand in the assumption book" if len(waiting) > most else ""
    rows = tuple((e.label, e.path, e.value, e.unit, e.known, str(e.rank)) for e in waiting[:most])
    return Table(f"Still a guess or not explained, the most influential first{more}", OPEN_HEAD, rows)


def counts(found: Iterable[Entry]) -> Table:
    """How many inputs are known in which way, and how many of those that move the worth most."""
    listed = list(found)
    ranks = {group: [each.rank for each in listed if each.known == group] for group in GROUPS}
    rows = [
        (SECTIONS[group], f"{len(held):,}", str(sum(0 < (rank or 0) <= MOST_MOVING for rank in held)))
        for group, held in ranks.items()
        if held
    ]
    moving = min(MOST_MOVING, sum(each.rank is not None for each in listed))
    head = ("", "inputs", f"of the {moving} that move\nthe worth most")
    return Table("How the inputs are known", head, (*rows, ("all", f"{len(listed):,}", str(moving))))
