"""Does the sum add up? Every check live, and one master check that all sheets repeat at their head."""

from __future__ import annotations

from collections.abc import Iterable, Iterator
from typing import Any

from appraisal.appraise import Appraisal
from appraisal.reports import subjects as where
from appraisal.reports.layout import HEAD_ROW, letter
from appraisal.reports.sheets import GREY, MASTER_FAILS, MASTER_HOLDS, Book, band, head, sheet_of, style, title, widths

HOLDS, FAILS = "holds", "does not hold"
FIRST = 7  # first row of the list (0-based)


def check_sheet(book: Book, paper: Appraisal, *, written: Iterable[str], cash_by_year: str, proof: str) -> None:
    """Write the sheet.

    written: sheets that hold formulas, to be looked through for error cells. cash_by_year: range of the family's cash on the
    statements, which must add to the months. proof: cell with the worth at the rate of return.
    """
    sheet = sheet_of(book, where.CHECKS)
    title(book, sheet, "Does the sum add up?")
    widths(sheet, (70, 13, 20, 20, 16))
    head(book, sheet, HEAD_ROW + 3, ("", "unit", "largest difference", "may be", ""), right=(2, 3))
    sheet.freeze_panes(HEAD_ROW + 4, 1)
    sheet.fit_to_pages(1, 0)
    written, rows = tuple(written), list(_model_checks(book, paper, cash_by_year, proof))
    for place, (words, unit, text, limit, stored) in enumerate(rows):
        _check(book, sheet, FIRST + place, words=words, unit=unit, text=text, limit=limit, stored=stored)
    last = FIRST + len(rows)
    band(book, sheet, last + 1, "No cell of a sheet is in error")
    first_sheet = last + 2
    for place, name in enumerate(written):
        _clean(book, sheet, first_sheet + place, name)
    end = first_sheet + len(written)
    holding = f'COUNTIF(E{FIRST + 1}:E{end},"{HOLDS}")={_count(FIRST, last, first_sheet, end)}'
    master = f'=IF({holding},"{MASTER_HOLDS}","{MASTER_FAILS}")'
    sheet.write_string(3, 0, "All checks together", style(book, bold=True, font_size=12))
    sheet.write_formula(3, 2, master, style(book, bold=True, font_size=12), MASTER_HOLDS)


def _count(first: int, last: int, first_sheet: int, end: int) -> str:
    """How many checks there are, counted from their words in the first column so that the formula holds no number."""
    return f"COUNTA(A{first + 1}:A{last})+COUNTA(A{first_sheet + 1}:A{end})"


Row = tuple[str, str, str, str, tuple[float, float]]


def _model_checks(book: Book, paper: Appraisal, cash_by_year: str, proof: str) -> Iterator[Row]:
    """The checks of `measures.checks`, in spreadsheet steps; one without such steps is told by the tool alone."""
    formulas = dict(_pairs(book, cash_by_year, proof))
    for each in paper.money.checks:
        if each.name not in formulas:  # a check of the tool that this book has no formula for
            continue
        gap, size = formulas[each.name]
        limit = f"{book.one('constant.check_limit')}*MAX({size})"
        yield each.what.capitalize(), each.unit, f"={gap}", f"={limit}", (each.difference, each.limit)


def _pairs(book: Book, cash_by_year: str, proof: str) -> Iterator[tuple[str, tuple[str, str]]]:
    """For each check: the difference, and the amounts it is measured against."""
    total, one = book.total, book.one

    def large(name: str) -> str:
        return f"MAX({book.row(name)},0-MIN({book.row(name)}))"

    def last(name: str) -> str:
        return f"INDEX({book.row(name)},{one('months_in_all')})"

    def future(name: str) -> tuple[str, str]:
        place = book.plot.places[name]
        ends = f"${letter(1)}${place.row + 1}:${letter(book.plot.month_count - 1)}${place.row + 1}"
        return f"'{place.sheet}'!{ends}", f"'{place.sheet}'!${letter(0)}${place.row + 1}"

    cost, owed, cash = one("building_cost"), large("loans_owed"), large("net_cash")
    ends = f"ABS({last('loans_owed')}+{last('bridge_owed_in_books')})"
    yield "balance", (large("check_balance"), large("assets"))
    yield "debt_at_end", (ends, f"{owed},{large('bridge_owed_in_books')},{cost}")
    yield "debt_not_negative", (large("check_overpaid"), f"{owed},{cost}")
    yield "uses_and_sources", (f"ABS({one('uses_less_sources')})", f"ABS({one('uses_of_funds')})")
    taken = f"ABS({total('depreciation')}+{total('basis_left_at_end')}+{one('depreciation_basis')})"
    yield "depreciation", (taken, f"{one('depreciation_basis')},1")
    yield "books", (f"ABS({total('written_off')}+{total('written_off_at_end')}+{cost})", f"{cost},1")
    yield "grants", (f"ABS({total('grants_earned')}-{total('grants')})", f"{total('grants')},1")
    yield "profit_to_cash", (large("check_profit_to_cash"), cash)
    yield "tax", (f"ABS({total('taxes')}-{total('tax_due')})", f"ABS({total('tax_due')}),1")
    reserves = ("debt_reserve_moves", "overhaul_reserve_moves", "lock_up_moves")
    moves = ("sales_tax_moves", "working_capital_moves", *reserves, "bridge_moves")
    left = f"MAX({','.join(f'ABS({total(name)})' for name in moves)})"
    yield "time_only", (left, f"ABS({total('investment')})+{cash}")
    yield "years", (f"ABS({total('net_cash')}-SUM({cash_by_year}))", total("owner_after_nominal_size"))
    yield "gas", (large("check_gas"), large("methane_made"))
    yield "mass", (large("check_mass"), large("tonnes_fed"))
    on, twelve = total("in_first_full_year"), one("constant.months_per_year")
    yield "flags", (f"MIN(ABS({on}-{twelve}),ABS({on}))", twelve)
    rate = f"(1+{one('judging.discount_rate')})^(1/{twelve})-1"
    rest, today = future("project_cash")
    ours, sizes = total("project_after_nominal_present"), total("project_after_nominal_size")
    yield "worth", (f"ABS(NPV({rate},{rest})+{today}-{ours})", sizes)
    yield "rate_of_return", (f"IF(ISNUMBER({proof}),ABS({proof}),0)", sizes)
    yield "power", (large("check_power"), large("power_gross"))
    yield "power_money", (large("check_power_money"), large("power_sales"))


def _check(
    book: Book, sheet: Any, row: int, *, words: str, unit: str, text: str, limit: str, stored: tuple[float, float]
) -> None:
    sheet.write_string(row, 0, words, style(book))
    sheet.write_string(row, 1, book.unit(unit), style(book, font_color=GREY))
    form = style(book, num_format="0.0000E+00")
    sheet.write_formula(row, 2, text, form, stored[0])
    sheet.write_formula(row, 3, limit, form, stored[1])
    verdict = f'=IF(C{row + 1}<=D{row + 1},"{HOLDS}","{FAILS}")'
    sheet.write_formula(row, 4, verdict, style(book), HOLDS if stored[0] <= stored[1] else FAILS)


def _clean(book: Book, sheet: Any, row: int, name: str) -> None:
    """A sum passes an error on, so that one sum looks through a whole sheet."""
    sheet.write_string(row, 0, f"No error on {name}", style(book))
    last = letter(max(book.plot.month_count, book.plot.year_count + 1))
    text = f"=IF(ISERROR(SUM('{name}'!$C$5:${last}$9999)),1,0)"
    sheet.write_formula(row, 2, text, style(book), 0)
    sheet.write_formula(row, 4, f'=IF(C{row + 1}=0,"{HOLDS}","{FAILS}")', style(book), HOLDS)
