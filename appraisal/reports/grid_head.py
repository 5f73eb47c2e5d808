"""Heads of the sheets that run through months or years: live dates, and how many of them stand on a printed page."""

from __future__ import annotations

from collections.abc import Sequence
from datetime import date
from typing import Any

from xlsxwriter.utility import xl_col_to_name

from appraisal.lines.evaluate import MONTHS
from appraisal.reports import subjects as where
from appraisal.reports.layout import (
    FIRST_COLUMN,
    FIRST_ROW,
    HEAD_ROW,
    NAME,
    ONCE_COLUMN,
    UNIT,
    YEAR_ROW,
    letter,
)
from appraisal.reports.sheets import (
    GREY,
    LABEL_WIDTH,
    LINE,
    LINE_HEIGHT,
    NAME_WIDTH,
    PERIOD_WIDTH,
    START_CELL,
    UNIT_WIDTH,
    VALUE_WIDTH,
    Book,
    style,
    widths,
)
from appraisal.timeline import Timeline

YEARS_A_PAGE, PAGE_PIXELS = 12, 960  # printed across; width of a page at full size
PAGE_ROWS = 30  # below the heads of a page at full size
EPOCH = date(1899, 12, 30)  # day 0 of spreadsheet dates


def grid_head(book: Book, sheet: Any, *, years: bool, one: str) -> None:
    """Heads of a grid: dates or spans of years over project years; live, so that they follow the first month."""
    form = {"bold": True, "align": "right"}
    sheet.set_row(HEAD_ROW, LINE_HEIGHT * 2)
    for column, word in ((UNIT, "unit"), (ONCE_COLUMN, one), (NAME, "name of the line")):
        sheet.write_string(
            HEAD_ROW,
            column,
            word,
            style(
                book,
                bold=True,
                text_wrap=True,
                **({"align": "right"} if column == ONCE_COLUMN else {"indent": int(column == NAME)}),
            ),
        )
    sheet.write_string(YEAR_ROW, 0, "Project year", style(book, font_color=GREY, bottom=1, border_color=LINE))
    for column in (UNIT, ONCE_COLUMN, NAME):
        sheet.write_string(YEAR_ROW, column, "", style(book, bottom=1, border_color=LINE))
    dated, numbered = (
        style(book, num_format="mmm yyyy", **form),
        style(book, font_color=GREY, bottom=1, border_color=LINE),
    )
    for place in range(book.plot.year_count if years else book.plot.month_count):
        month = place * MONTHS if years else place
        _date_cell(book, sheet, place, month, years=years, form=dated)
        year = month // MONTHS + 1
        text = _year_text(book, place, sheet=sheet.name, years=years)
        sheet.write_formula(YEAR_ROW, FIRST_COLUMN + place, text, numbered, year)
    sheet.freeze_panes(FIRST_ROW - 1, ONCE_COLUMN + 1)
    sheet.repeat_rows(HEAD_ROW, YEAR_ROW)
    sheet.repeat_columns(0, ONCE_COLUMN)
    widths(sheet, (LABEL_WIDTH, UNIT_WIDTH, VALUE_WIDTH, NAME_WIDTH))
    sheet.set_column(
        FIRST_COLUMN, FIRST_COLUMN + (book.plot.year_count if years else book.plot.month_count) - 1, PERIOD_WIDTH
    )


def _date_cell(book: Book, sheet: Any, place: int, month: int, *, years: bool, form: Any) -> None:
    """First day of the month, or of the project year."""
    number, twelve = book.plot.places["timeline.month_number"].row + 1, book.one("constant.months_per_year")
    if years:
        on = f"({letter(place)}${YEAR_ROW + 1}-1)*{twelve}"
        text = f"=DATE(YEAR({START_CELL}),MONTH({START_CELL})+{on},1)"
    elif sheet.name == where.TIME:
        text = f"=DATE(YEAR({START_CELL}),MONTH({START_CELL})+{letter(place)}${number},1)"
    else:
        text = f"='{where.TIME}'!{letter(place)}${HEAD_ROW + 1}"
    sheet.write_formula(HEAD_ROW, FIRST_COLUMN + place, text, form, serial(book.timeline, month))


def _year_text(book: Book, place: int, *, sheet: str, years: bool) -> str:
    if years:
        before = FIRST_COLUMN + place - 1
        return f"=COUNT(${_letter(NAME)}${YEAR_ROW + 1}:{_letter(before)}${YEAR_ROW + 1})+1"
    if sheet == where.TIME:
        return f"={letter(place)}{book.plot.places['timeline.year_number'].row + 1}"
    return f"='{where.TIME}'!{letter(place)}${YEAR_ROW + 1}"


def _letter(column: int) -> str:
    return str(xl_col_to_name(column))


def serial(timeline: Timeline, month: int) -> int:
    """A model month as a spreadsheet date, its first day."""
    year, place = divmod(timeline.first_month - 1 + month, MONTHS)
    return (date(timeline.first_year + year, place + 1, 1) - EPOCH).days


def years_on_page(count: int) -> int:
    """How many of so many years, or months, stand on a printed page: as few pages as may be, evenly filled."""
    pages = -(-count // YEARS_A_PAGE)
    return -(-count // pages)


def _pixels(width: float) -> float:
    """Width of a column on the screen, of its width in digits of Arial 10: 7 to 7.4 a digit, by program."""
    return 7.5 * width + 5


def years_across(
    book: Book,
    sheet: Any,
    *,
    first: int,
    before: Sequence[float],
    year: float,
    behind: Sequence[float],
    count: int | None = None,
) -> int:
    """Print years, or months, over as many pages as keep them readable, the columns before them repeated on each.

    first: column of the first of them. before, year, behind: widths [characters] of what is repeated, of a year, of what
    follows, on a page of its own where it is much. count: how many there are; the project years when left out. Returns how
    many rows a page holds below its heads.
    """
    count = count or book.plot.year_count
    share = years_on_page(count)
    breaks = list(range(first + share, first + count, share))
    apart = sum(behind) > sum(before)
    ends = [first + count] if apart else []
    years, rest = [year] * share, [year] * (count - share * len(breaks))
    rows = ([*before, *years], [*before, *behind] if apart else [*before, *rest, *behind])
    widest = max(sum(_pixels(width) for width in row) for row in rows)
    sheet.set_v_pagebreaks(breaks + ends)
    scale = min(100, int(100 * PAGE_PIXELS / widest))
    sheet.set_print_scale(scale)
    return PAGE_ROWS * 100 // scale
