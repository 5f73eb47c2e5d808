"""Sheets of what the user assumes: numbers to type over, and what is fixed at export."""

from __future__ import annotations

from collections.abc import Sequence
from typing import Any

from appraisal.appraise import Appraisal
from appraisal.constants import CONSTANTS
from appraisal.present.explanation import ORIGIN
from appraisal.reports import subjects as where
from appraisal.reports.grid_sheets import calendar_row
from appraisal.reports.layout import FIRST_ROW, HEAD_ROW, MONTHS_SHOWN, VALUE_COLUMN
from appraisal.reports.sheets import GREY, PALE, Book, band, head, serial, sheet_of, style, title, widths
from appraisal.reports.worked_out import FIXED
from appraisal.scenario.assumptions import Assumption
from appraisal.scenario.quantity import Declaration
from appraisal.timeline import DAYS, HOURS_PER_DAY, MONTH_NAMES

BESIDE = ("lowest\nallowed", "highest\nallowed", "from", "name in the file", "how it is known", "source")
BESIDE_WIDTHS = (11, 11, 22, 42, 46, 90)
LONGEST_MESSAGE, LONGEST_TITLE = 250, 30  # characters that a spreadsheet shows beside a cell
THOUSAND = 1000
LIVE = {"locked": False, "bg_color": PALE, "border": 4, "border_color": "#B8C7D3"}


def input_sheets(book: Book) -> None:
    """Single numbers, twelve months, project years."""
    sheet = sheet_of(book, where.INPUTS)
    title(
        book, sheet, "Inputs", "Type over a number on pale ground and every sheet follows. Counts are fixed at export."
    )
    sheet.write_string(3, 0, "First month of spending", style(book))
    sheet.write_string(3, 1, "date", style(book, font_color=GREY))
    sheet.write_number(3, VALUE_COLUMN, serial(book.timeline, 0), style(book, num_format="mmm yyyy", **LIVE))
    _inputs(book, sheet, ("value",))
    if any(True for _ in book.plot.on(where.PROFILES)):
        sheet = sheet_of(book, where.PROFILES)
        title(book, sheet, "Inputs with a value for each calendar month")
        _inputs(book, sheet, MONTH_NAMES)
    if any(True for _ in book.plot.on(where.PATHS)):
        sheet = sheet_of(book, where.PATHS)
        title(book, sheet, "Inputs with a value for each project year")
        _inputs(book, sheet, tuple(f"year {year + 1}" for year in range(book.plot.year_count)))


def _inputs(book: Book, sheet: Any, columns: Sequence[str]) -> None:
    head(
        book,
        sheet,
        HEAD_ROW,
        ("", "unit", *columns, *BESIDE),
        lines=2,
        right=range(VALUE_COLUMN, VALUE_COLUMN + len(columns) + 2),
    )
    last = VALUE_COLUMN + len(columns) + len(BESIDE) - 1
    sheet.print_area(0, 0, max(row for _, row in book.plot.on(sheet.name)), last)
    values = [14.0 if len(columns) == 1 else 9.0] * len(columns)
    widths(sheet, (58, 15, *values, *BESIDE_WIDTHS))
    sheet.freeze_panes(HEAD_ROW + 1, VALUE_COLUMN + (len(columns) == 1))
    sheet.repeat_rows(HEAD_ROW)
    sheet.fit_to_pages(1, 0)
    for each in book.plot.headings[sheet.name]:
        band(book, sheet, each.row, section_words(each.module))
    assumptions = book.paper.loaded.assumptions if book.paper else {}
    for name, row in book.plot.on(sheet.name):
        _input(book, sheet, row, name, given=assumptions.get(name), count=len(columns))


def section_words(section: str) -> str:
    """`feed.bakery` as people say it."""
    return ": ".join(part.replace("_", " ") for part in section.split(".")).capitalize()


def _input(book: Book, sheet: Any, row: int, name: str, *, given: Assumption | None, count: int) -> None:
    label, unit = book.labels.get(name, (name, ""))
    sheet.write_string(row, 0, label, style(book))
    sheet.write_string(row, 1, book.unit(unit), style(book, font_color=GREY))
    fixed = given is not None and given.declaration.kind == "count"
    for place, value in enumerate(book.inputs[name][0].tolist()[:count]):
        form = style(book, num_format=_input_format(unit, value), **({} if fixed else LIVE))
        sheet.write_number(row, VALUE_COLUMN + place, value, form)
    if given is not None:
        _beside(book, sheet, row, given, first=VALUE_COLUMN + count)
        if not fixed:
            _limits(book, sheet, row, given.declaration, last=VALUE_COLUMN + count - 1)


def _input_format(unit: str, value: float) -> str:
    """An input shows what was typed: shares with two decimals of a per cent, large whole numbers with their thousands."""
    return (
        "0.00%"
        if unit.startswith("share")
        else "#,##0"
        if value == int(value) and abs(value) >= THOUSAND
        else "General"
    )


def _beside(book: Book, sheet: Any, row: int, given: Assumption, *, first: int) -> None:
    item, plain = given.declaration, style(book, font_color=GREY, align="left", indent=1)
    for place, value in enumerate((item.low, item.high)):
        if value is not None:
            bound = style(book, font_color=GREY, num_format=_input_format(item.unit, value))
            sheet.write_number(row, first + place, value, bound)
    origin = "count, fixed at export" if item.kind == "count" else ORIGIN[given.origin]
    for place, word in enumerate((origin, given.path, given.known or "nobody said", given.source or "")):
        sheet.write_string(row, first + 2 + place, word, plain)


def _limits(book: Book, sheet: Any, row: int, item: Declaration, *, last: int) -> None:
    """The allowed range, held by the spreadsheet itself, with the unit in its message."""
    low, high = item.low, item.high
    limits: dict[str, Any] = {"criteria": "between", "minimum": low, "maximum": high}
    if low is None or high is None:
        limits = {"criteria": ">=", "value": low} if low is not None else {"criteria": "<=", "value": high}
    if low is None and high is None:
        return
    message = f"{item.help} Allowed: {book.unit(item.allowed())}."
    limits |= {
        "validate": "decimal",
        "input_title": item.label[:LONGEST_TITLE],
        "input_message": message[:LONGEST_MESSAGE],
    }
    sheet.data_validation(row, VALUE_COLUMN, row, last, {**limits, "error_message": message[:LONGEST_MESSAGE]})


def choices_sheet(book: Book, paper: Appraisal) -> None:
    """What fixes the shape of the model: choices, names and notes, as they were when the book was written."""
    sheet = sheet_of(book, where.CHOICES)
    title(book, sheet, "Choices, fixed at export", "To change one, change it in the scenario file and export again.")
    head(book, sheet, HEAD_ROW, ("", "chosen", "could be", "name in the file"))
    widths(sheet, (46, 44, 60, 44))
    sheet.freeze_panes(HEAD_ROW + 1, 1)
    sheet.repeat_rows(HEAD_ROW)
    sheet.fit_to_pages(1, 0)
    row, last, plain = FIRST_ROW - 1, "", style(book)
    for path, each in paper.loaded.assumptions.items():
        if each.declaration.kind not in ("choice", "text") or each.value == "":
            continue
        section = path.rpartition(".")[0]
        if section != last:
            band(book, sheet, row + 1, section_words(section))
            row, last = row + 2, section
        cells = (each.declaration.label, str(each.value), ", ".join(each.declaration.options), path)
        for column, word in enumerate(cells):
            sheet.write_string(row, column, word, plain)
        row += 1


def constants_sheet(book: Book) -> None:
    """Figures that do not change from farm to farm, and the calendar."""
    sheet = sheet_of(book, where.CONSTANTS)
    title(book, sheet, "Figures that do not change from farm to farm")
    head(book, sheet, HEAD_ROW, ("", "unit", "value", "how it is known", "source", "name"))
    widths(sheet, (60, 14, 14, 26, 60, 34))
    sheet.freeze_panes(HEAD_ROW + 1, 1)
    sheet.repeat_rows(HEAD_ROW)
    sheet.fit_to_pages(1, 0)
    wrapped = style(book)
    for constant in (*CONSTANTS, *FIXED):
        place = book.plot.places.get(f"constant.{constant.name}")
        if place is None:
            continue
        sheet.write_number(place.row, VALUE_COLUMN, constant.value, style(book, num_format="General"))
        for column, word in (
            (0, constant.meaning),
            (1, book.unit(constant.unit)),
            (3, constant.basis),
            (4, constant.source),
            (5, constant.name),
        ):
            sheet.write_string(place.row, column, word, wrapped)
    _calendar(book, sheet)


def _calendar(book: Book, sheet: Any) -> None:
    row, plain = calendar_row(book), style(book)
    for month, days in enumerate(DAYS):
        sheet.write_string(row + month, 0, f"Days of {MONTH_NAMES[month]}, in every model year", plain)
        sheet.write_string(row + month, 1, "day", plain)
        sheet.write_number(row + month, VALUE_COLUMN, days, plain)
    sheet.write_string(row + MONTHS_SHOWN, 0, "Hours of a day", plain)
    sheet.write_string(row + MONTHS_SHOWN, 1, "hour", plain)
    sheet.write_number(row + MONTHS_SHOWN, VALUE_COLUMN, HOURS_PER_DAY, plain)
