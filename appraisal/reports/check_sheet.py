"""Does the sum add up? Every check live, and one master check that all sheets repeat at their head."""

from __future__ import annotations

from collections.abc import Iterable, Iterator, Sequence
from typing import Any

from xlsxwriter.utility import xl_col_to_name

from appraisal.appraise import Appraisal
from appraisal.reports import subjects as where
from appraisal.reports.input_states import MOVED, WRONG, columns_beside
from appraisal.reports.layout import HEAD_ROW, MONTHS_SHOWN, letter
from appraisal.reports.sheets import (
    ALARM,
    GREY,
    INPUT_FAILS,
    MASTER_FAILS,
    MASTER_HOLDS,
    NOT_HOLDING,
    Book,
    band,
    head,
    sheet_of,
    style,
    title,
    widths,
)
from appraisal.reports.together import rules

Row = tuple[str, str, str, str, tuple[float, float]]  # words, unit, formulas of difference and limit, both at export
HOLDS, FAILS = "holds", "does not hold"
SMALL_NUMBERS = "[=0]0;0.0E+00"
HEAD, FIRST = 8, 10  # rows of the heads and of the first check (0-based)
IN_THE_BOOK = {
    "worth": "Net present value is that of the spreadsheet's own NPV",
    "rate_of_return": "At the rate of return the spreadsheet's own NPV finds the plant worth nothing",
}  # checks that the tool does with a library


def check_sheet(
    book: Book, paper: Appraisal, *, written: Iterable[str], cash_by_year: str, proof: tuple[str, str]
) -> None:
    """Write the sheet.

    written: sheets that hold formulas, to be looked through for error cells. cash_by_year: range of the family's cash on the
    statements, which must add to the months. proof: cells with the rate of return, and with the worth at it.
    """
    sheet = sheet_of(book, where.CHECKS)
    title(book, sheet, "Does the sum add up, and can the inputs be?")
    widths(sheet, (78, 13, 20, 20, 16))
    head(book, sheet, HEAD, ("", "unit", "largest difference", "may be", ""), right=(2, 3))
    sheet.freeze_panes(HEAD + 1, 1)
    sheet.repeat_rows(HEAD)
    sheet.fit_to_pages(1, 0)
    model = list(_model_checks(book, paper, cash_by_year, proof))
    inputs = list(_input_checks(book, paper))
    sums, row = [_block(book, sheet, FIRST, "What is worked out", model)], FIRST + len(model) + 2
    possible, row = _block(book, sheet, row, "What is put in", inputs), row + len(inputs) + 2
    band(book, sheet, row, "No cell of a sheet is in error")
    names = tuple(written)
    for place, name in enumerate(names, start=row + 1):
        _clean(book, sheet, place, name)
    sums.append((row + 1, row + len(names)))
    _answers(book, sheet, sums=sums, possible=[possible])


Span = tuple[int, int]  # first and last row of some checks (0-based)


def _block(book: Book, sheet: Any, row: int, words: str, checks: Sequence[Row]) -> Span:
    """Checks below a heading; returns their rows."""
    band(book, sheet, row, words)
    for place, each in enumerate(checks, start=row + 1):
        _check(book, sheet, place, *each)
    return row + 1, row + len(checks)


def _answers(book: Book, sheet: Any, *, sums: Sequence[Span], possible: Sequence[Span]) -> None:
    """The one answer that all sheets repeat, what it consists of, and how many inputs are not as at export."""
    large = style(book, bold=True, font_size=12)
    sheet.write_string(3, 0, "All checks together", large)
    master = f'=IF(C5<>"{HOLDS}","{MASTER_FAILS}",IF(C6<>"{HOLDS}","{INPUT_FAILS}","{MASTER_HOLDS}"))'
    sheet.write_formula(3, 2, master, large, MASTER_HOLDS)
    alarm = style(book, bold=True, font_color=ALARM, font_size=12)
    sheet.conditional_format(3, 2, 3, 2, {**NOT_HOLDING, "format": alarm})
    words = (
        "What is worked out adds up, no cell is in error",
        "Every input is a number in its range, and they can be together",
    )
    for row, (label, spans) in enumerate(zip(words, (sums, possible), strict=True), start=4):
        counted = "+".join(f'COUNTIF(E{first + 1}:E{last + 1},"{HOLDS}")' for first, last in spans)
        wanted = "+".join(f"COUNTA(A{first + 1}:A{last + 1})" for first, last in spans)  # no number in the formula
        sheet.write_string(row, 0, label, style(book))
        sheet.write_formula(row, 2, f'=IF({counted}={wanted},"{HOLDS}","{FAILS}")', style(book), HOLDS)
    sheet.write_string(6, 0, "Inputs that are not as at export", style(book))
    moved = "+".join(f'COUNTIF({span},"{MOVED}")+COUNTIF({span},"{WRONG}*")' for span in _state_spans(book).values())
    sheet.write_formula(6, 2, f"={moved}", style(book, align="left"), 0)


def _state_spans(book: Book) -> dict[str, str]:
    """Where the sheets of inputs say of each row whether it is as at export."""
    counts = {where.INPUTS: 1, where.PROFILES: MONTHS_SHOWN, where.PATHS: book.plot.year_count}
    spans = {}
    for name, count in counts.items():
        rows = [row for _, row in book.plot.on(name)]
        if rows:
            column = xl_col_to_name(columns_beside(count).state)
            spans[name] = f"'{name}'!${column}${HEAD_ROW + 2}:${column}${max(rows) + 1}"
    return spans


def _input_checks(book: Book, paper: Appraisal) -> Iterator[Row]:
    """Inputs outside their ranges, counted by sheet, and rules between inputs, one a row: 0 where it holds."""
    for name, span in _state_spans(book).items():
        yield f"{name}: numbers missing or outside their range", "input", f'=COUNTIF({span},"{WRONG}*")', "=0", (0, 0)
    for words, condition in rules(book, paper.loaded.scenario):
        yield words, "", f"=IF({condition},0,1)", "=0", (0, 0)


def _model_checks(book: Book, paper: Appraisal, cash_by_year: str, proof: tuple[str, str]) -> Iterator[Row]:
    """Every check of `measures.checks`, in spreadsheet steps; raises KeyError for one that has none."""
    formulas = dict(_pairs(book, cash_by_year, proof))
    for each in paper.money.checks:
        gap, size = formulas[each.name]
        limit = f"{book.one('constant.check_limit')}*MAX({size})"
        words = IN_THE_BOOK.get(each.name) or each.what.capitalize()
        yield words, each.unit, f"={gap}", f"={limit}", (each.difference, each.limit)


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
    book: Book, sheet: Any, row: int, words: str, unit: str, text: str, limit: str, stored: tuple[float, float]
) -> None:
    sheet.write_string(row, 0, words, style(book))
    sheet.write_string(row, 1, book.unit(unit), style(book, font_color=GREY))
    form = style(book, num_format=SMALL_NUMBERS)
    sheet.write_formula(row, 2, text, form, stored[0])
    sheet.write_formula(row, 3, limit, form, stored[1])
    verdict = f'=IF(C{row + 1}<=D{row + 1},"{HOLDS}","{FAILS}")'
    sheet.write_formula(
        row, 4, verdict, style(book, align="left", indent=1), HOLDS if stored[0] <= stored[1] else FAILS
    )


def _clean(book: Book, sheet: Any, row: int, name: str) -> None:
    """A sum passes an error on, so that one sum looks through a whole sheet."""
    sheet.write_string(row, 0, f"No error on {name}", style(book))
    last = letter(max(book.plot.month_count, book.plot.year_count + 1))
    text = f"=IF(ISERROR(SUM('{name}'!$C$5:${last}$9999)),1,0)"
    sheet.write_formula(row, 2, text, style(book), 0)
    sheet.write_formula(row, 4, f'=IF(C{row + 1}=0,"{HOLDS}","{FAILS}")', style(book, align="left", indent=1), HOLDS)
