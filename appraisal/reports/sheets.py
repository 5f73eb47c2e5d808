"""What all sheets of the workbook share: the record of a book being written, number formats, titles, print set-up."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from dataclasses import dataclass, field
from textwrap import wrap
from typing import Any

from xlsxwriter.worksheet import Worksheet

from appraisal import __version__
from appraisal.appraise import Appraisal
from appraisal.lines.evaluate import Values
from appraisal.lines.names import Ref
from appraisal.present.tables import Table
from appraisal.reports import subjects as where
from appraisal.reports.layout import (
    Layout,
)
from appraisal.timeline import Timeline

INK, PALE, LINE, GREY, ALARM, ACCENT = "#1F2A33", "#EAF2F8", "#9AA7B1", "#5C6770", "#D55E00", "#0072B2"
LABEL_WIDTH, UNIT_WIDTH, VALUE_WIDTH, NAME_WIDTH, PERIOD_WIDTH = 46, 13, 14, 20, 11
REPEATED = LABEL_WIDTH, UNIT_WIDTH, VALUE_WIDTH  # columns of a grid that stand on every printed page
A4, LETTER = 9, 1
PAGE_SCALE = 55  # per cent: a project year of months fits a page
LINE_HEIGHT, MOST_LINES = 14.5, 28  # points; of a row, which is at most 409 points high
PER_WIDTH = 1.12  # letters of a text in one of a column's units of width, which are digits
START_CELL = f"{where.INPUTS}!$C$4"  # the first month of spending, a date
MASTER_CELL = f"{where.CHECKS}!$C$4"  # the one answer of all checks
MOVED_CELL = f"{where.CHECKS}!$C$7"  # how many inputs are not as at export


class PlainFormulas(Worksheet):  # type: ignore[misc]
    """A sheet that takes formulas as they are: none of ours holds a function newer than INDEX, and looking for some in every
    cell is three quarters of the writing time."""

    def _prepare_formula(self, formula: str, expand_future_functions: bool = False) -> str:
        return formula.removeprefix("=")


@dataclass(frozen=True, eq=False)
class Book:
    """A workbook being written.

    file, sheets: of XlsxWriter, sheets by name in their order. plot: where everything stands. inputs, stored: live inputs,
    and what the engine made of the lines and workings. labels: input -> (label, unit). paper: the appraisal behind a whole
    book, None for inputs and lines alone. runs: tables of results of many runs. date: ISO, printed on every
    page where it is given. styles: formats made so far.
    """

    file: Any
    sheets: Mapping[str, Any]
    plot: Layout
    inputs: Values
    stored: Values
    timeline: Timeline
    labels: Mapping[str, tuple[str, str]]
    paper: Appraisal | None
    runs: Sequence[Table] = ()
    date: str = ""
    styles: dict[tuple[tuple[str, Any], ...], Any] = field(default_factory=dict)

    @property
    def currency(self) -> str:
        """Three letters, or the word money in a book without its scenario."""
        return self.paper.structure.currency if self.paper else "money"

    @property
    def fingerprint(self) -> str:
        """Of the scenario."""
        return self.paper.loaded.fingerprint if self.paper else ""

    def unit(self, unit: str) -> str:
        """A unit with the currency in it."""
        return unit.replace("money", self.currency)

    def one(self, name: str, *, sheet: str = "") -> str:
        """Address of a single value."""
        return self.plot.address(Ref(name), sheet=sheet)(0)

    def row(self, name: str, *, sheet: str = "") -> str:
        """Range of a whole row."""
        return self.plot.span(name, sheet=sheet)

    def total(self, name: str, *, sheet: str = "") -> str:
        """Sum of a whole row."""
        return f"SUM({self.row(name, sheet=sheet)})"


def style(book: Book, **facts: Any) -> Any:
    """A cell format, made once; an indent counts only where the side is said."""
    facts = {"align": "left", **facts} if facts.get("indent") else facts
    key = tuple(sorted(facts.items()))
    if key not in book.styles:
        book.styles[key] = book.file.add_format({"font_color": INK, "valign": "top", "font_size": 10, **facts})
    return book.styles[key]


def number_format(unit: str, *, whole: bool = False) -> str:
    """How numbers of a unit are shown: money without decimals, prices with four, shares as per cent; nothing is a dash.

    whole: whether all numbers of the row are whole, as counts and flags are.
    """
    measure, _, per = unit.partition("/")
    flow = per in ("", "month", "year")
    if measure == "share":
        return "0.0%"
    if measure == "money":
        digits = "#,##0" if flow else "#,##0.0000"
    else:
        digits = "#,##0" if (measure in ("kWh", "Nm3", "kg", "L") and flow) or whole else "#,##0.00"
    return f'{digits};-{digits};"-"'


def sheet_of(book: Book, name: str) -> Any:
    """One of the sheets, given what all of them have: no grid lines, protection without a password, foot of the page."""
    sheet = book.sheets[name]
    american = book.paper is not None and book.paper.structure.display_units == "us"
    sheet.hide_gridlines(2)
    sheet.protect("", {"format_columns": True, "format_rows": True, "select_locked_cells": True})
    sheet.set_paper(LETTER if american else A4)
    sheet.set_landscape()
    sheet.set_margins(left=0.4, right=0.4, top=0.5, bottom=0.6)
    day = f", {book.date}" if book.date else ""
    left = f"Scenario {book.fingerprint}, appraisal {__version__}{day}" if book.paper else ""
    sheet.set_footer(f"&L&8{left}&R&8&A, page &P of &N")
    return sheet


def title(book: Book, sheet: Any, words: str, below: str = "") -> None:
    """First two rows of a sheet: what it is, and whether all checks hold."""
    sheet.write_string(0, 0, words, style(book, bold=True, font_size=14))
    sheet.set_row(0, 21)
    if book.paper is not None and sheet.name != where.CHECKS:
        sheet.write_formula(1, 0, f"={MASTER_CELL}", style(book, italic=True, font_color=GREY), MASTER_HOLDS)
        alarm = style(book, bold=True, font_color=ALARM)
        sheet.conditional_format(1, 0, 1, 0, {**NOT_HOLDING, "format": alarm})
    if below:
        sheet.write_string(1, 1, below, style(book, font_color=GREY))


MASTER_HOLDS, MASTER_FAILS = "All checks hold", "A CHECK FAILS: see the sheet Checks"
INPUT_FAILS = "AN INPUT IS NOT POSSIBLE: see the sheet Checks"
NOT_HOLDING = {"type": "cell", "criteria": "!=", "value": f'"{MASTER_HOLDS}"'}  # a rule for the cell that repeats it


def head(book: Book, sheet: Any, row: int, words: Sequence[str], *, lines: int = 1, right: Sequence[int] = ()) -> None:
    """A row of column heads, as high as its lines; right: columns whose words stand on the right, over numbers.

    A head behind such a column stands a little apart from it, as the words below it do.
    """
    sheet.set_row(row, LINE_HEIGHT * lines)
    facts = {"bold": True, "bottom": 1, "border_color": LINE, "text_wrap": True}
    for column, word in enumerate(words):
        apart = {"align": "left", "indent": 1} if column - 1 in right else {}
        place = {"align": "right"} if column in right else apart
        sheet.write_string(row, column, word, style(book, **facts, **place))


def wrapped_lines(text: str, width: float) -> int:
    """Lines that a text takes in a column of a width [characters], broken between words; at least one, at most a row's."""
    return min(MOST_LINES, sum(max(1, len(wrap(part, int(width * PER_WIDTH)))) for part in text.split("\n")))


def widths(sheet: Any, sizes: Sequence[float]) -> None:
    """Widths of the first columns [characters]."""
    for column, width in enumerate(sizes):
        sheet.set_column(column, column, width)


def band(book: Book, sheet: Any, row: int, words: str) -> None:
    """A heading inside a sheet."""
    sheet.write_string(row, 0, words, style(book, bold=True, font_color=ACCENT))
