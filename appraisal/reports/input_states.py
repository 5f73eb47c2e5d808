"""What stands beside an input: its value at export, whether it may be as it stands, and its source by number."""

from __future__ import annotations

from collections.abc import Iterable, Mapping, Sequence
from dataclasses import dataclass
from typing import Any

from xlsxwriter.utility import xl_col_to_name

from appraisal.reports.layout import VALUE_COLUMN
from appraisal.reports.sheets import ACCENT, ALARM, GREY, LINE_HEIGHT, Book, band, style, wrapped_lines
from appraisal.scenario.assumptions import Assumption

FIRST_MONTH_ROW = 3  # the first month of spending (0-based)
MOVED, WRONG = "changed", "NOT"  # how the words of a moved input, and of one that cannot be, begin
NO_NUMBER, OUTSIDE, FIXED_COUNT = f"{WRONG} A NUMBER", f"{WRONG} IN RANGE", f"{WRONG} TO CHANGE"
KNOWN_WIDTH = 46  # of a column


COLUMNS = {  # behind the values of an input: head of the column, width [characters]
    "low": ("lowest\nallowed", 13),
    "high": ("highest\nallowed", 13),
    "exported": ("at export", 12),
    "state": ("as at export,\nand possible?", 15),
    "origin": ("from", 21),
    "known": ("how it is known", KNOWN_WIDTH),
    "number": ("source", 8),
    "path": ("name in the file", 46),
    "source": ("source in full (by number below)", 90),
}
ONE_OF_MANY = 9  # width of a value at export where there are several


@dataclass(frozen=True)
class Beside:
    """Columns behind the values of a sheet of inputs (0-based); `number`, of the source, is the last that is printed.

    count: how many values a row has. exported: the first of their values at export. words, sizes: heads and widths of all.
    """

    count: int
    low: int
    high: int
    exported: int
    state: int
    origin: int
    known: int
    number: int
    path: int
    source: int
    words: tuple[str, ...]
    sizes: tuple[float, ...]


def columns_beside(count: int) -> Beside:
    """A single value has its value at export beside it; where there are many, those at export stand behind everything."""
    names = list(COLUMNS) if count == 1 else [*(name for name in COLUMNS if name != "exported"), "exported"]
    places = {name: VALUE_COLUMN + count + place for place, name in enumerate(names)}
    heads, widths = zip(*(COLUMNS[name] for name in names), strict=True)
    if count > 1:
        heads, widths = (*heads, *[""] * (count - 1)), (*widths[:-1], *[ONE_OF_MANY] * count)
    return Beside(count, **places, words=heads, sizes=widths)


def exported(book: Book, sheet: Any, row: int, beside: Beside, values: Sequence[float], form: dict[str, Any]) -> None:
    """What an input was when the book was written."""
    for place, value in enumerate(values):
        sheet.write_number(row, beside.exported + place, value, style(book, font_color=GREY, **form))


def state(book: Book, sheet: Any, row: int, beside: Beside, *, fixed: bool, bounds: tuple[bool, bool]) -> None:
    """One live word: nothing when all is as at export, `changed`, or why the input cannot be.

    fixed: a count, which may not move. bounds: whether it has a lowest and a highest value.
    """
    text = _fixed(row, beside) if fixed else _moving(row, beside, bounds)
    alarm = style(book, bold=True, font_color=ALARM)
    sheet.write_formula(row, beside.state, text, style(book, font_color=ACCENT, align="right"), "")
    rule = {"type": "text", "criteria": "begins with", "value": WRONG, "format": alarm}
    sheet.conditional_format(row, beside.state, row, beside.state, rule)


def _spans(row: int, beside: Beside) -> tuple[str, str]:
    """Values now, and at export."""
    first, last = xl_col_to_name(VALUE_COLUMN), xl_col_to_name(VALUE_COLUMN + beside.count - 1)
    then, end = xl_col_to_name(beside.exported), xl_col_to_name(beside.exported + beside.count - 1)
    return f"{first}{row + 1}:{last}{row + 1}", f"{then}{row + 1}:{end}{row + 1}"


def _fixed(row: int, beside: Beside) -> str:
    now, then = _spans(row, beside)
    return f'=IF(COUNT({now})<COUNT({then}),"{NO_NUMBER}",IF(SUMXMY2({now},{then})=0,"","{FIXED_COUNT}"))'


def _moving(row: int, beside: Beside, bounds: tuple[bool, bool]) -> str:
    now, then = _spans(row, beside)
    low, high = (f"{xl_col_to_name(column)}{row + 1}" for column in (beside.low, beside.high))
    inside = [f"MIN({now})>={low}"] * bounds[0] + [f"MAX({now})<={high}"] * bounds[1] or ["1=1"]
    same = f'IF(SUMXMY2({now},{then})=0,"","{MOVED}")'
    return f'=IF(COUNT({now})<COUNT({then}),"{NO_NUMBER}",IF(AND({",".join(inside)}),{same},"{OUTSIDE}"))'


@dataclass(frozen=True)
class Sources:
    """The sources of a sheet of inputs by number, and the row (0-based) of the heading above their list."""

    numbers: Mapping[str, int]
    row: int


def sources_of(book: Book, sheet: Any, shown: Iterable[Assumption]) -> Sources:
    """Number the sources in the order in which they are met; their list stands below the inputs."""
    met = dict.fromkeys(each.source for each in shown if each.source)
    numbers = {source: number for number, source in enumerate(met, start=1)}
    return Sources(numbers, max(row for _, row in book.plot.on(sheet.name)) + 2)


def cite(book: Book, sheet: Any, row: int, column: int, *, source: str, sources: Sources) -> None:
    """The number of a source, which leads to its line in the list."""
    number = sources.numbers[source]
    link = style(book, font_color=ACCENT, align="left", indent=1)
    sheet.write_url(row, column, f"internal:'{sheet.name}'!A{sources.row + number + 1}", link, f"[{number}]")


def list_sources(book: Book, sheet: Any, sources: Sources, *, last: int, width: float) -> int:
    """Each source over the columns up to `last`, which are so wide together; returns the last row of the sheet."""
    if not sources.numbers:
        return sources.row - 2
    band(book, sheet, sources.row, "Sources")
    form = style(book, text_wrap=True, font_color=GREY)
    for source, number in sources.numbers.items():
        row, words = sources.row + number, f"[{number}] {source}"
        sheet.merge_range(row, 0, row, last, "", form)
        sheet.write_string(row, 0, words, form)
        sheet.set_row(row, LINE_HEIGHT * wrapped_lines(words, width))
    return sources.row + len(sources.numbers)
