"""Sheets of what is fixed at export: choices, names and notes, figures that are the same for all farms, the calendar."""

from __future__ import annotations

from typing import Any

from appraisal.appraise import Appraisal
from appraisal.constants import CONSTANTS
from appraisal.reports import subjects as where
from appraisal.reports.grid_sheets import calendar_row
from appraisal.reports.input_sheets import section_words
from appraisal.reports.layout import FIRST_ROW, HEAD_ROW, MONTHS_SHOWN, VALUE_COLUMN
from appraisal.reports.sheets import LINE_HEIGHT, Book, band, head, sheet_of, style, title, widths, wrapped_lines
from appraisal.reports.worked_out import FIXED
from appraisal.timeline import DAYS, HOURS_PER_DAY, MONTH_NAMES

CHOICE_WIDTHS = 46, 40, 60, 44  # of the sheet of choices [characters]
CONSTANT_WIDTHS = 60, 14, 14, 26, 60, 34  # of the sheet of constants [characters]
FOLDED = 1, 2  # its columns whose text goes on below


def choices_sheet(book: Book, paper: Appraisal) -> None:
    """What fixes the shape of the model: choices, names and notes, as they were when the book was written."""
    sheet = sheet_of(book, where.CHOICES)
    title(book, sheet, "Choices, fixed at export", "To change one, change it in the scenario file and export again.")
    head(book, sheet, HEAD_ROW, ("", "chosen", "could be", "name in the file"))
    widths(sheet, CHOICE_WIDTHS)
    sheet.freeze_panes(HEAD_ROW + 1, 1)
    sheet.repeat_rows(HEAD_ROW)
    sheet.fit_to_pages(1, 0)
    row, last, plain, folded = FIRST_ROW - 1, "", style(book), style(book, text_wrap=True)
    for path, each in paper.loaded.assumptions.items():
        if each.declaration.kind not in ("choice", "text") or each.value == "":
            continue
        section = path.rpartition(".")[0]
        if section != last:
            band(book, sheet, row + 1, section_words(section))
            row, last = row + 2, section
        cells = (each.declaration.label, str(each.value), ", ".join(each.declaration.options), path)
        for column, word in enumerate(cells):
            sheet.write_string(row, column, word, folded if column in FOLDED else plain)
        sheet.set_row(row, LINE_HEIGHT * max(wrapped_lines(cells[column], CHOICE_WIDTHS[column]) for column in FOLDED))
        row += 1


def constants_sheet(book: Book) -> None:
    """Figures that do not change from farm to farm, and the calendar."""
    sheet = sheet_of(book, where.CONSTANTS)
    title(book, sheet, "Figures that do not change from farm to farm")
    head(book, sheet, HEAD_ROW, ("", "unit", "value", "how it is known", "source", "name"))
    widths(sheet, CONSTANT_WIDTHS)
    sheet.freeze_panes(HEAD_ROW + 1, 1)
    sheet.repeat_rows(HEAD_ROW)
    sheet.fit_to_pages(1, 0)
    folded, beside = style(book, text_wrap=True), style(book, text_wrap=True, indent=1)
    for constant in (*CONSTANTS, *FIXED):
        place = book.plot.places.get(f"constant.{constant.name}")
        if place is None:
            continue
        sheet.write_number(place.row, VALUE_COLUMN, constant.value, style(book, num_format="General"))
        told = {0: constant.meaning, 1: book.unit(constant.unit), 3: constant.basis, 4: constant.source, 5: constant.name}
        for column, word in told.items():
            sheet.write_string(place.row, column, word, beside if column == VALUE_COLUMN + 1 else folded)
        lines = max(wrapped_lines(word, CONSTANT_WIDTHS[column]) for column, word in told.items())
        sheet.set_row(place.row, LINE_HEIGHT * lines)
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
