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


def check_sheet(
    book: Book, paper: Appraisal, *, written: Iterable[str], cash_by_year: str, proof: tuple[str, str]
) -> None:
    """Write the sheet.

    written: sheets that hold formulas, to be looked through for error cells. cash_by_year: range of the family's cash on the
    statements, which must add to the months. proof: cells with the rate of return, and with the worth at it.
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


def _model_checks(book: Book, paper: Appraisal, cash_by_year: str, proof: tuple[str, str]) -> Iterator[Row]:
    """Every check of `measures.checks`, in spreadsheet steps; raises KeyError for one that has none."""
    formulas = dict(_pairs(book, cash_by_year, proof))
    for each in paper.money.checks:
        gap, size = formulas[each.name]
        limit = f"{book.one('constant.check_limit')}*MAX({size})"
        yield each.what.capitalize(), each.unit, f"={gap}", f"={limit}", (each.difference, each.limit)


Pairs = Iterator[tuple[str, tuple[str, str]]]


def _pairs(book: Book, cash_by_year: str, proof: tuple[str, str]) -> Pairs:
    """For each check: the difference, and the amounts it is measured against."""
    yield from _books_pairs(book)
    yield from _cash_pairs(book, cash_by_year)
    yield from _plant_pairs(book)
    yield from _worth_pairs(book, proof)


def _largest(book: Book, name: str) -> str:
    """The largest of a row, whatever its sign."""
    return f"MAX({book.row(name)},0-MIN({book.row(name)}))"


def _books_pairs(book: Book) -> Pairs:
    """Balance sheet, debt, depreciation and grants."""
    total, one = book.total, book.one

    def last(name: str) -> str:
        return f"INDEX({book.row(name)},{one('months_in_all')})"

    cost, owed = one("building_cost"), _largest(book, "loans_owed")
    ends = f"ABS({last('loans_owed')}+{last('bridge_owed_in_books')})"
    yield "balance", (_largest(book, "check_balance"), _largest(book, "assets"))
    yield "debt_at_end", (ends, f"{owed},{_largest(book, 'bridge_owed_in_books')},{cost}")
    yield "debt_not_negative", (_largest(book, "check_overpaid"), f"{owed},{cost}")
    yield "uses_and_sources", (f"ABS({one('uses_less_sources')})", f"ABS({one('uses_of_funds')})")
    taken = f"ABS({total('depreciation')}+{total('basis_left_at_end')}+{one('depreciation_basis')})"
    yield "depreciation", (taken, f"{one('depreciation_basis')},1")
    yield "books", (f"ABS({total('written_off')}+{total('written_off_at_end')}+{cost})", f"{cost},1")
    yield "grants", (f"ABS({total('grants_earned')}-{total('grants')})", f"{total('grants')},1")


def _cash_pairs(book: Book, cash_by_year: str) -> Pairs:
    """From profit to cash, tax, reserves and the lender's order of payments."""
    total, cash = book.total, _largest(book, "net_cash")
    yield "profit_to_cash", (_largest(book, "check_profit_to_cash"), cash)
    yield "tax", (f"ABS({total('taxes')}-{total('tax_due')})", f"ABS({total('tax_due')}),1")
    reserves = ("debt_reserve_moves", "overhaul_reserve_moves", "lock_up_moves")
    moves = ("sales_tax_moves", "working_capital_moves", *reserves, "bridge_moves")
    left = f"MAX({','.join(f'ABS({total(name)})' for name in moves)})"
    yield "time_only", (left, f"ABS({total('investment')})+{cash}")
    yield "years", (f"ABS({total('net_cash')}-SUM({cash_by_year}))", total("owner_after_nominal_size"))
    yield "order_of_payments", (_largest(book, "check_order"), f"{_largest(book, 'cash_of_year')},1")
    kept = "check_debt_reserve" in book.plot.places
    target = f"{_largest(book, 'debt_reserve_target')},1" if kept else "1"
    yield "debt_reserve", (_largest(book, "check_debt_reserve") if kept else "0", target)


def _plant_pairs(book: Book) -> Pairs:
    """Gas, mass, power and feeds, and what is paid for them."""
    for name, size in (("gas", "methane_made"), ("mass", "tonnes_fed"), ("power", "power_gross")):
        yield name, (_largest(book, f"check_{name}"), _largest(book, size))
    yield "power_money", (_largest(book, "check_power_money"), _largest(book, "power_sales"))
    yield "fees", (_largest(book, "check_fees"), f"{_largest(book, 'fees_due')},1")


def _apart(book: Book, name: str) -> tuple[str, str]:
    """All months of a row but the first, and the first, which NPV would discount."""
    place = book.plot.places[name]
    home, row = f"'{place.sheet}'!", place.row + 1
    return f"{home}${letter(1)}${row}:${letter(book.plot.month_count - 1)}${row}", f"{home}${letter(0)}${row}"


def _worth_pairs(book: Book, proof: tuple[str, str]) -> Pairs:
    """The first full year, net present value and the rate of return by the program's own NPV."""
    on, twelve = book.total("in_first_full_year"), book.one("constant.months_per_year")
    yield "flags", (f"MIN(ABS({on}-{twelve}),ABS({on}))", twelve)
    rest, today = _apart(book, "project_cash")
    rate = f"(1+{book.one('judging.discount_rate')})^(1/{twelve})-1"
    ours, sizes = book.total("project_after_nominal_present"), book.total("project_after_nominal_size")
    yield "worth", (f"ABS(NPV({rate},{rest})+{today}-{ours})", sizes)
    found, worth = proof
    near = f"(1+{found})^(1/{twelve})-1"
    later, now = _apart(book, "project_after_nominal_size")
    yield (
        "rate_of_return",
        (f"IF(ISNUMBER({worth}),ABS({worth}),0)", f"IF(ISNUMBER({found}),NPV({near},{later})+{now},{sizes})"),
    )


def _check(
    book: Book, sheet: Any, row: int, *, words: str, unit: str, text: str, limit: str, stored: tuple[float, float]
) -> None:
    sheet.write_string(row, 0, words, style(book))
    sheet.write_string(row, 1, book.unit(unit), style(book, font_color=GREY))
    form = style(book, num_format="0.0000E+00")
    sheet.write_formula(row, 2, text, form, stored[0])
    sheet.write_formula(row, 3, limit, form, stored[1])
    verdict = f'=IF(C{row + 1}<=D{row + 1},"{HOLDS}","{FAILS}")'
    sheet.write_formula(row, 4, verdict, style(book, align="left", indent=1), HOLDS if stored[0] <= stored[1] else FAILS)


def _clean(book: Book, sheet: Any, row: int, name: str) -> None:
    """A sum passes an error on, so that one sum looks through a whole sheet."""
    sheet.write_string(row, 0, f"No error on {name}", style(book))
    last = letter(max(book.plot.month_count, book.plot.year_count + 1))
    text = f"=IF(ISERROR(SUM('{name}'!$C$5:${last}$9999)),1,0)"
    sheet.write_formula(row, 2, text, style(book), 0)
    sheet.write_formula(row, 4, f'=IF(C{row + 1}=0,"{HOLDS}","{FAILS}")', style(book, align="left", indent=1), HOLDS)
