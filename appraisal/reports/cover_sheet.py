"""Cover by project year from three sides, and what a lender's order of payments would do."""

from __future__ import annotations

from typing import Any

import numpy as np

from appraisal.lines.evaluate import MONTHS, Array
from appraisal.lines.names import Ref
from appraisal.reports import subjects as where
from appraisal.reports.grid_head import grid_head, years_across
from appraisal.reports.grid_sheets import row_head
from appraisal.reports.layout import FIRST_COLUMN, FIRST_ROW, NAME, letter
from appraisal.reports.sheets import (
    PERIOD_WIDTH,
    REPEATED,
    Book,
    band,
    sheet_of,
    style,
    title,
)

RATIO, MONEY, SHARE = "0.00", "#,##0", "0.0%"
SIDES = (
    ("as_assumed", "Cover as assumed"),
    ("family_hours_paid", "Cover with the family's hours paid"),
    ("signed_contracts_only", "Cover on signed contracts only"),
)
MONEY_ROWS = (
    ("Cash available for debt service", "cash_available_for_debt_service", 1),
    ("Cash with the family's hours paid", "cash_with_family_paid", 1),
    ("Cash on signed contracts only", "cash_on_signed_contracts", 1),
    ("Debt service", "debt_service", -1),
)
ORDER_ROWS = (
    ("Cash", "order_cash"),
    ("Interest", "order_interest"),
    ("Payment of interest and principal", "order_payment"),
    ("Put into the debt reserve", "order_reserved"),
    ("Extra principal by sweep", "order_sweep"),
    ("Free for the family", "order_distributed"),
    ("Held back under the lock-up cover", "order_trapped"),
    ("What the cash lacks", "order_short"),
    ("Owed at the year's end", "order_balance"),
)
ROLLING_ROWS = 4  # left below the workings for it
ROLLING = "Cover over the twelve months that begin here"


def cover_sheet(book: Book) -> tuple[dict[str, str], dict[str, int]]:
    """Write the sheet; returns the range that least and average cover are taken from by case, and rows for pictures."""
    sheet = sheet_of(book, where.COVER)
    title(book, sheet, "Does it carry its loan? Cover is cash available over debt service", "Empty: no debt falls due.")
    grid_head(book, sheet, years=True, one="")
    sheet.set_column(NAME, NAME, None, None, {"hidden": True})
    years_across(book, sheet, first=FIRST_COLUMN, before=REPEATED, year=PERIOD_WIDTH, behind=())
    row = _money_rows(book, sheet, FIRST_ROW)
    row, rows = _cover_rows(book, sheet, row + 2)
    row, ranges = _counted_rows(book, sheet, row + 2)
    _order_rows(book, sheet, row + 2)
    return ranges, rows


def _money_rows(book: Book, sheet: Any, row: int) -> int:
    """Cash and debt service of the year; returns the last row, as do those below."""
    band(book, sheet, row, "Money of the year")
    for label, name, sign in MONEY_ROWS:
        row += 1
        mark = "" if sign > 0 else "0-"
        _line(book, sheet, row, label, Ref(name, "year_sum"), unit="money/year", mark=mark)
    return row


def _cover_rows(book: Book, sheet: Any, row: int) -> tuple[int, dict[str, int]]:
    """Cover of every year with debt from three sides, what is wanted, and the signed part; rows by case."""
    band(book, sheet, row, "Cover")
    rows = {}
    for case, label in SIDES:
        row += 1
        rows[case] = row
        _where(book, sheet, row, label, f"cover_{case}", "debt_falls_due")
    row += 1
    rows["wanted"] = row
    row_head(book, sheet, row, label="Least cover wanted", unit="1", name="judging.least_cover")
    wanted, value = book.one("judging.least_cover"), float(book.inputs["judging.least_cover"][0, 0])
    for place in range(book.plot.year_count):
        sheet.write_formula(row, FIRST_COLUMN + place, f"={wanted}", style(book, num_format=RATIO), value)
    row += 1
    _line(book, sheet, row, "Part of the income that is signed for", Ref("signed_share_of_year"), unit="share")
    return row, rows


def _counted_rows(book: Book, sheet: Any, row: int) -> tuple[int, dict[str, str]]:
    """Cover of the years that count; ranges by case."""
    band(book, sheet, row, "Years that count for the least and the average: full operating years with debt")
    ranges = {}
    for case, label in SIDES:
        row += 1
        ranges[case] = _where(book, sheet, row, label, f"cover_{case}", "counted_year")
    row += 1
    part = "Cover in years with debt that are no full year"
    ranges["part_year"] = _where(book, sheet, row, part, "cover_as_assumed", "part_year")
    return row, ranges


def _order_rows(book: Book, sheet: Any, row: int) -> None:
    """What a lender's order of payments would do."""
    band(book, sheet, row, "A lender's order of payments, from the first full operating year on")
    for label, name in ORDER_ROWS:
        row += 1
        _line(book, sheet, row, label, Ref(name), unit="money/year")
    _where(book, sheet, row + 1, "Cover of the payment", "order_cover", "order_indebted")


def _line(book: Book, sheet: Any, row: int, label: str, ref: Ref, *, unit: str, mark: str = "") -> None:
    row_head(book, sheet, row, label=label, unit=unit, name=ref.name)
    text = book.plot.address(ref, sheet=sheet.name)
    array = book.stored[ref.name][0]
    values = array.reshape(-1, MONTHS).sum(axis=1) if ref.view == "year_sum" else array
    form = style(book, num_format=SHARE if unit == "share" else MONEY)
    for place in range(book.plot.year_count):
        value = float(values[place if values.size > 1 else 0])
        sheet.write_formula(row, FIRST_COLUMN + place, f"={mark}{text(place)}", form, -value if mark else value)


def _where(book: Book, sheet: Any, row: int, label: str, name: str, flag: str) -> str:
    """A cover, empty in years that do not count; returns its range."""
    row_head(book, sheet, row, label=label, unit="1", name=name)
    cover, counts = (book.plot.address(Ref(each), sheet=sheet.name) for each in (name, flag))
    values, flags = book.stored[name][0], book.stored[flag][0]
    form = style(book, num_format=RATIO, align="right")
    for place in range(book.plot.year_count):
        text = f'=IF({counts(place)}=0,"",{cover(place)})'
        sheet.write_formula(row, FIRST_COLUMN + place, text, form, float(values[place]) if flags[place] else "")
    return f"{sheet.name}!${letter(0)}${row + 1}:${letter(book.plot.year_count - 1)}${row + 1}"


def rolling_row(book: Book, sheet: Any) -> str:
    """Below the workings: cover over any twelve full months, empty where the twelve are not complete; returns its range."""
    row = max(place for _, place in book.plot.on(where.WORKINGS)) + 2
    row_head(book, sheet, row, label=ROLLING, unit="1", name="")
    names = ("full_months", "debt_service", "cash_available_for_debt_service")
    stored = [_windows(book.stored[name][0], book.plot.month_count) for name in names]
    form = style(book, num_format=RATIO)
    for place in range(book.plot.month_count):
        full, debt, cash = (_window(book, name, place) for name in names)
        text = f'=IF({full}={book.one("constant.months_per_year")},IF({debt}<0,0-{cash}/{debt},""),"")'
        f, d, c = (each[place] for each in stored)
        value = -float(c) / float(d) if f == MONTHS and d < 0 else ""
        sheet.write_formula(row, FIRST_COLUMN + place, text, form, value)
    return f"{where.WORKINGS}!${letter(0)}${row + 1}:${letter(book.plot.month_count - 1)}${row + 1}"


def _window(book: Book, name: str, place: int) -> str:
    """Sum over twelve columns; the last windows run past the end and are not complete."""
    home = book.plot.places[name]
    sheet = "" if home.sheet == where.WORKINGS else f"'{home.sheet}'!"
    return f"SUM({sheet}{letter(place)}{home.row + 1}:{letter(place + MONTHS - 1)}{home.row + 1})"


def _windows(row: Array, months: int) -> Array:
    wide = np.concatenate((np.broadcast_to(row, (months,)), np.zeros(MONTHS)))
    return np.array([wide[place : place + MONTHS].sum() for place in range(months)])
