"""Sheets of lines: one row a line, one column a month or year, the same formula along a row."""

from __future__ import annotations

from collections.abc import Callable
from typing import Any

from appraisal.lines.names import Ref
from appraisal.lines.plan import Node
from appraisal.lines.trace import formula
from appraisal.reports import subjects as where
from appraisal.reports.grid_head import grid_head, years_across
from appraisal.reports.layout import FIRST_COLUMN, LABEL, NAME, ONCE_COLUMN, UNIT, YEAR_ROW, letter
from appraisal.reports.sheets import (
    GREY,
    NAME_WIDTH,
    PAGE_SCALE,
    PERIOD_WIDTH,
    REPEATED,
    Book,
    band,
    number_format,
    sheet_of,
    style,
    title,
)
from appraisal.reports.subjects import MONTHLY, WORKINGS_SUBJECT, heading
from appraisal.timeline import MONTHS, SERIES_LABELS

YEARLY_TITLES = {
    where.YEARLY: "Lines with one value a project year",
    where.YEARLY_WORKINGS: "How the results are worked out, year by year",
}


def month_sheets(book: Book) -> None:
    """Every monthly sheet that has a line, in the order of the house; the workings last."""
    for subject in MONTHLY:
        if any(True for _ in book.plot.on(subject.sheet)):
            _month_sheet(book, subject.sheet, subject.title)


def back_sheets(book: Book) -> None:
    """Yearly lines, and the workings of a whole book."""
    _year_sheet(book, where.YEARLY)
    if book.paper is not None:
        _month_sheet(book, where.WORKINGS, WORKINGS_SUBJECT.title)
        _year_sheet(book, where.YEARLY_WORKINGS)


def _month_sheet(book: Book, name: str, words: str) -> None:
    sheet = sheet_of(book, name)
    title(book, sheet, words, "Sums of flows, and values that hold for the whole project, stand in the third column.")
    grid_head(book, sheet, years=False, one="one value,\nor the sum")
    sheet.set_print_scale(PAGE_SCALE)
    sheet.set_v_pagebreaks([FIRST_COLUMN + month for month in range(MONTHS, book.plot.month_count, MONTHS)])
    _lines(book, sheet)


def _year_sheet(book: Book, name: str) -> None:
    sheet = sheet_of(book, name)
    title(book, sheet, YEARLY_TITLES[name])
    grid_head(book, sheet, years=True, one="")
    before = (*REPEATED, NAME_WIDTH)
    years_across(book, sheet, first=FIRST_COLUMN, before=before, year=PERIOD_WIDTH, behind=())
    _lines(book, sheet)


def _lines(book: Book, sheet: Any) -> None:
    for each in book.plot.headings[sheet.name]:
        band(book, sheet, each.row, heading(each.module))
    for name, row in book.plot.on(sheet.name):
        node = book.plot.plan.nodes.get(name)
        if node is None:
            _time_row(book, sheet, row, name)
        else:
            line_row(book, sheet, row, node)


def line_row(book: Book, sheet: Any, row: int, node: Node) -> None:
    """One line: label, unit, name, and its formula in one cell or along the row."""
    unit = node.line.unit
    row_head(book, sheet, row, label=node.label, unit=unit, name=node.name)
    text, stored = template(book, node, sheet.name), book.stored[node.name][0].tolist()
    whole = all(value == int(value) for value in stored)
    form = style(book, num_format=number_format(unit, whole=whole))
    if node.grid == "once":
        sheet.write_formula(row, ONCE_COLUMN, text(0), form, stored[0])
        return
    for place, value in enumerate(stored):
        sheet.write_formula(row, FIRST_COLUMN + place, text(place), form, value)
    if unit.endswith("/month"):
        summed = f"=SUM({letter(0)}{row + 1}:{letter(len(stored) - 1)}{row + 1})"
        bold = style(book, num_format=number_format(unit, whole=whole), bold=True)
        sheet.write_formula(row, ONCE_COLUMN, summed, bold, float(book.stored[node.name][0].sum()))


def row_head(book: Book, sheet: Any, row: int, *, label: str, unit: str, name: str) -> None:
    """What stands before the values of a row."""
    sheet.write_string(row, LABEL, label, style(book, shrink=True))
    sheet.write_string(row, UNIT, book.unit(unit), style(book, font_color=GREY))
    sheet.write_string(row, NAME, name, style(book, font_color=GREY, font_size=8, indent=1))


def template(book: Book, node: Node, sheet: str) -> Callable[[int], str]:
    """Trace the line once; the text for a column then only fills in addresses."""
    found: list[Callable[[int], str]] = []

    def token(ref: Ref) -> str:
        found.append(book.plot.address(ref, sheet=sheet))
        return f"{{{len(found) - 1}}}"

    text = "=" + formula(node, token)
    return lambda column: text.format(*[address(column) for address in found])


def _time_row(book: Book, sheet: Any, row: int, name: str) -> None:
    """One row of what time gives, worked out from the first month of spending."""
    series = name.removeprefix("timeline.")
    label, unit = SERIES_LABELS[series]
    row_head(book, sheet, row, label=label, unit=unit, name=name)
    for place, value in enumerate(book.stored[name][0].tolist()):
        sheet.write_formula(row, FIRST_COLUMN + place, _time_text(book, series, place), style(book), value)


def _time_text(book: Book, series: str, place: int) -> str:
    here, row = letter(place), {name: book.plot.places[f"timeline.{name}"].row + 1 for name in SERIES_LABELS}
    twelve, month, year = (
        book.one("constant.months_per_year"),
        f"{here}{row['month_number']}",
        f"{here}{row['year_number']}",
    )
    before = f"${'ABCDEFGH'[NAME]}${row['month_number']}"
    last = letter(place - 1) if place else "ABCDEFGH"[NAME]
    return {
        "month_number": f"=COUNT({before}:{last}${row['month_number']})",
        "calendar_month": f"=MONTH({here}${YEAR_ROW})",
        "year_number": f"=INT({month}/{twelve})+1",
        "last_of_year": f"=IF({month}+1={year}*{twelve},1,0)",
        "years_on": f"={year}-1",
        "days": f"=INDEX({days_span(book)},{here}{row['calendar_month']})",
        "hours": f"={here}{row['days']}*{hours_cell(book)}",
    }[series]


def days_span(book: Book) -> str:
    """Where the days of the calendar months stand on the sheet of fixed figures, one below the other."""
    first = calendar_row(book) + 1
    return f"'{where.CONSTANTS}'!$C${first}:$C${first + MONTHS - 1}"


def hours_cell(book: Book) -> str:
    """Where the hours of a day stand."""
    return f"'{where.CONSTANTS}'!$C${calendar_row(book) + MONTHS + 1}"


def calendar_row(book: Book) -> int:
    """Row of the calendar below the constants (0-based)."""
    return max(row for _, row in book.plot.on(where.CONSTANTS)) + 2
