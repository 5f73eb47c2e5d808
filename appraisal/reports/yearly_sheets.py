"""Statements by project year: each row adds up the months of a line, or takes its value at the year's end."""

from __future__ import annotations

from collections.abc import Iterable
from typing import Any

import numpy as np

from appraisal.appraise import Appraisal
from appraisal.lines.evaluate import VIEW, Array
from appraisal.lines.names import Ref
from appraisal.reports import subjects as where
from appraisal.reports.grid_head import grid_head, years_across
from appraisal.reports.grid_sheets import row_head
from appraisal.reports.layout import FIRST_COLUMN, FIRST_ROW, HEAD_ROW, NAME, ONCE_COLUMN, letter
from appraisal.reports.sheets import (
    GREY,
    LINE,
    REPEATED,
    Book,
    band,
    number_format,
    sheet_of,
    style,
    title,
)
from appraisal.reports.yearly_rows import (
    Block,
    Row,
    loan_blocks,
    money_blocks,
    own_blocks,
    plant_blocks,
    statement_blocks,
)

STRONG = (
    "Profit before tax",
    "Profit after tax",
    "Assets",
    "Debts",
    "The family's part",
    "Net cash",
    "Left for the family",
)
YEAR_WIDTH, COMPARED_WIDTH = 10, 13
SAME, CHANGED = "same", "changed"


def yearly_sheet(book: Book, name: str, words: str, blocks: Iterable[Block]) -> dict[str, int]:
    """Write one sheet of blocks; returns the row of each label (0-based), of a block's label and row where they repeat."""
    sheet = sheet_of(book, name)
    title(book, sheet, words, "On the right: the tool's sum at export, and whether the live row still adds to it.")
    grid_head(book, sheet, years=True, one="all years")
    last = FIRST_COLUMN + book.plot.year_count
    sheet.set_column(NAME, NAME, None, None, {"hidden": True})
    sheet.set_column(FIRST_COLUMN, last - 1, YEAR_WIDTH)
    for column, word in enumerate(("at export", "same as at export?")):
        sheet.write_string(HEAD_ROW, last + column, word, style(book, bold=True, align="right", text_wrap=True))
    sheet.set_column(last, last + 1, COMPARED_WIDTH)
    behind = (COMPARED_WIDTH,) * 2
    room = years_across(book, sheet, first=FIRST_COLUMN, before=REPEATED, year=YEAR_WIDTH, behind=behind)
    row, places, used, breaks = FIRST_ROW, dict[str, int](), 0, list[int]()
    for block in blocks:
        size = len(block.rows) + 2
        if used and used + size > room >= size:  # a block that fits a page stands whole on one
            breaks.append(row)
            used = 0
        used += size
        band(book, sheet, row, block.words)
        start = row + 1
        for place, each in enumerate(block.rows):
            _row(book, sheet, start + place, each, start=start)
            places.setdefault(f"{block.words}: {each.label}", start + place)
        row = start + len(block.rows) + 1
    sheet.set_h_pagebreaks(breaks)
    return places


def _row(book: Book, sheet: Any, row: int, each: Row, *, start: int) -> None:
    strong = each.label in STRONG
    row_head(book, sheet, row, label=each.label, unit=each.unit, name=each.name)
    if strong:
        sheet.write_string(row, 0, each.label, style(book, bold=True))
    stored = values_of(book, each)
    shown = number_format(each.unit, whole=all(value == int(value) for value in stored))
    form = style(book, num_format=shown, bold=strong, **({"top": 1, "top_color": LINE} if strong else {}))
    for place in range(book.plot.year_count):
        sheet.write_formula(
            row, FIRST_COLUMN + place, _text(book, sheet.name, each, place, start), form, float(stored[place])
        )
    _compared(book, sheet, row, each, float(stored.sum()))


def _text(book: Book, sheet: str, each: Row, place: int, start: int) -> str:
    if each.name == "opening":  # what the year before closed with, three rows of moves further down
        return f"={letter(place - 1)}{start + 5}" if place else "=0"
    if each.label.startswith("Opening +"):
        here = letter(place)
        return f"={here}{start + 1}+{here}{start + 2}+{here}{start + 3}+{here}{start + 4}-{here}{start + 5}"
    parts = [("+" if sign > 0 else "-") + book.plot.address(ref, sheet=sheet)(place) for ref, sign in each.terms]
    return "=" + "".join(parts).removeprefix("+")


def values_of(book: Book, each: Row) -> Array:
    """What the engine made of a row, by year."""
    if each.name == "opening":
        closing = VIEW["year_end"](book.stored[each.terms[0][0].name])[0]
        return np.concatenate(([0.0], closing[:-1]))
    if each.label.startswith("Opening +"):
        return np.zeros(book.plot.year_count)
    whole = sum((sign * _seen(book, ref) for ref, sign in each.terms), np.zeros(book.plot.year_count))
    return np.asarray(whole)


def _seen(book: Book, ref: Ref) -> Array:
    array = VIEW[ref.view](book.stored[ref.name])[0]
    return np.asarray(np.broadcast_to(array, (book.plot.year_count,)))


def _compared(book: Book, sheet: Any, row: int, each: Row, total: float) -> None:
    """The sum of the row, what the tool had at export, and whether they are the same."""
    last, grey = FIRST_COLUMN + book.plot.year_count, {"font_color": GREY}
    span = f"{letter(0)}{row + 1}:{letter(book.plot.year_count - 1)}{row + 1}"
    form = number_format(each.unit)
    if each.unit.endswith("/year") and not each.unit.startswith("share"):
        sheet.write_formula(row, ONCE_COLUMN, f"=SUM({span})", style(book, num_format=form, bold=True), total)
    there = letter(book.plot.year_count)
    sheet.write_number(row, last, total, style(book, num_format=form, **grey))
    gap, limit = f"ABS(SUM({span})-{there}{row + 1})", book.one("constant.check_limit")
    sheet.write_formula(
        row,
        last + 1,
        f'=IF({gap}<={limit}*MAX(SUM({span}),0-SUM({span}),1),"{SAME}","{CHANGED}")',
        style(book, align="right", **grey),
        SAME,
    )


def yearly_sheets(book: Book, paper: Appraisal) -> dict[str, dict[str, int]]:
    """All yearly statements; returns the rows by sheet."""
    taxes = ("cash_flow.tax_basis", "cash_flow.depreciation", "cash_flow.tax", "cash_flow.tax_credit")
    return {
        name: yearly_sheet(book, name, words, blocks)
        for name, words, blocks in (
            (where.STATEMENTS, "Cash, profit and balance sheet by project year", statement_blocks()),
            (where.MONEY, "Every line of money by project year", money_blocks(book)),
            (where.LOANS, "Loans by project year", loan_blocks(book, paper)),
            (where.TAX, "Depreciation and tax by project year", own_blocks(book, taxes, words="Tax")),
            (where.PLANT, "The plant by project year", plant_blocks(book)),
        )
    }
