"""Tables of the money for family, bank and grant office: cover, statements, stopping, checks, measures by view."""

from __future__ import annotations

from collections.abc import Iterable, Iterator

import numpy as np

from appraisal.appraise import Appraisal
from appraisal.measures.arrays import FloatArray, Measured
from appraisal.measures.checks import BRIDGE
from appraisal.present.footing import Whole
from appraisal.present.numbers import percent
from appraisal.present.tables import Table, units_of
from appraisal.present.whole_years import whole_years
from appraisal.present.years import at_year_end, by_year

Row = tuple[str, ...]
INCOME_ROWS = (
    ("Cash income", "cash_income"),
    ("Bills saved", "evidenced_savings"),
    ("Other savings", "modelled_savings"),
    ("Running costs", "running_costs"),
    ("Overhauls", "overhauls_paid"),
    ("Depreciation", "written_off"),
    ("Left in the books at the end", "written_off_at_end"),
    ("Grants earned", "grants_earned"),
    ("Sold, removed or paid back at the end", "disposals"),
    ("Interest", "interest_cost"),
    ("Loan fees", "fees_paid"),
    ("Interest on the bridge loan", "bridge_interest_paid"),
    ("Profit before tax", "profit_before_tax"),
    ("Tax of the year", "tax_cost"),
    ("Investment credit paid out", "tax_credits_paid_out"),
    ("Profit after tax", "profit_after_tax"),
)
BALANCE_ROWS = (
    ("Cash", "cash_held"),
    ("Reserves", "reserves_held"),
    ("Owed by customers", "receivables"),
    ("Sales tax to come back", "sales_tax_to_come"),
    ("Plant, before grants", "plant_in_books"),
    ("Less grants not yet earned", "grants_off_assets"),
    ("Assets", "assets"),
    ("Loans", "loans_owed"),
    ("Bridge loan", "bridge_owed_in_books"),
    ("Owed to suppliers", "payables"),
    ("Tax owed", "tax_owed"),
    ("Grants still to be earned", "grants_among_debts"),
    ("Debts", "debts"),
    ("Paid in by the family", "paid_in_so_far"),
    ("The family's part", "equity"),
    ("Assets less debts and the family's part", "balance_difference"),
)
ALWAYS = ("Profit before tax", "Profit after tax", "Assets", "Debts", "The family's part", BALANCE_ROWS[-1][0])


def cover_table(appraisal: Appraisal) -> Table:
    """Cover by year from three sides, and the part of the income that is signed for; years with debt only."""
    bank, amounts = appraisal.money.bank, whole_years(appraisal)
    cash, service = amounts["cash_available_for_debt_service"], -amounts["debt_service"]
    rows = []
    for year in np.flatnonzero(np.isfinite(bank.covers["as_assumed"].value[0])):
        covers = (f"{bank.covers[case].value[0, year]:z.2f}" for case in bank.covers)
        share = bank.signed_share[0, year]
        signed = percent(float(share)) if np.isfinite(share) else "no income"
        rows.append((str(year + 1), f"{cash[year]:,.0f}", f"{service[year]:,.0f}", *covers, signed))
    head = (
        "year",
        "cash\navailable",
        "debt\nservice",
        "cover",
        "family\nhours paid",
        "signed\nonly",
        "income\nsigned for",
    )
    return Table(
        f"Does it carry its loan? {units_of(appraisal).currency}; cover is cash over debt service", head, tuple(rows)
    )


def income_table(appraisal: Appraisal) -> Table:
    """Income statement by project year."""
    return _by_year(appraisal, "Income statement", INCOME_ROWS)


def balance_table(appraisal: Appraisal) -> Table:
    """Balance sheet at the end of each project year; what the family paid in and the profits so far are its part."""
    paid_in = next(place for place, (_, name) in enumerate(BALANCE_ROWS) if name == "paid_in_so_far")
    lines = (*BALANCE_ROWS[: paid_in + 1], ("Profits and losses so far", "profit_so_far"), *BALANCE_ROWS[paid_in + 1 :])
    return _by_year(appraisal, "Balance sheet at the year's end", lines)


def _by_year(appraisal: Appraisal, title: str, lines: Iterable[tuple[str, str]]) -> Table:
    """Lines by year; a line that is nothing in all years shown is left out."""
    amounts, chosen = whole_years(appraisal), list(years_shown(appraisal))
    rows = []
    for label, name in lines:
        series = amounts[name][chosen] * (-1 if label.startswith("Less") else 1)
        if label in ALWAYS or series.any():
            rows.append((label, *(f"{amount:,}" for amount in series)))
    head = ("", *(f"year {year + 1}" for year in chosen))
    return Table(f"{title}, {units_of(appraisal).currency}", head, tuple(rows))


def years_shown(appraisal: Appraisal) -> tuple[int, ...]:
    """Years that fit a page: the first five, that of the least cover, every fifth, that of a closing, and the last.

    A fifth year right before the last is left out. All years stand in the JSON object and in the workbook.
    """
    last, least = appraisal.timeline.years - 1, appraisal.money.bank.least["as_assumed"]
    marked = set(np.flatnonzero(by_year(appraisal, "closing_month")).tolist()) | {last}
    if least.words[0] != "no debt due":
        marked.add(int(least.year[0]) - 1)
    usual = {year for year in range(last) if year < 5 or ((year + 1) % 5 == 0 and year < last - 1)}
    return tuple(sorted(usual | marked))


def money(value: float) -> str:
    """An amount without decimals; a rounded nothing has no sign."""
    text = f"{value:,.0f}"
    return "0" if text == "-0" else text


def profit_to_cash_table(appraisal: Appraisal) -> Table:
    """The steps from profit to the family's cash, by year."""
    amounts, chosen, rows = whole_years(appraisal), list(years_shown(appraisal)), []
    for label, parts in (*BRIDGE, ("Net cash", (("net_cash", 1),))):
        series = np.asarray(sum(sign * amounts[name] for name, sign in parts))[chosen]
        if label in (BRIDGE[0][0], "Net cash") or series.any():
            rows.append((label, *(f"{amount:,}" for amount in series)))
    head = ("", *(f"year {year + 1}" for year in chosen))
    return Table(f"From profit to cash, {units_of(appraisal).currency}", head, tuple(rows))


def checks_table(appraisal: Appraisal) -> Table:
    """Every check of the sum, with the largest difference."""
    found, currency = appraisal.money.checks, units_of(appraisal).currency
    rows = tuple(
        (
            each.what,
            f"{each.difference:,.4f} {currency if each.unit == 'money' else each.unit}",
            "holds" if each.passed else "does not hold",
        )
        for each in found
    )
    passed = sum(each.passed for each in found)
    return Table(
        f"Does the sum add up? {passed} of {len(found)} checks hold", ("check", "largest difference", ""), rows
    )


def stop_table(appraisal: Appraisal) -> Table:
    """What the family would still owe if the plant stopped at the end of a year."""
    amounts, chosen = whole_years(appraisal), list(years_shown(appraisal))
    parts = [("Loans", amounts["loans_owed"] + amounts["bridge_owed_in_books"])]
    parts.append(("Less reserves", -amounts["reserves_held"]))
    owed = np.broadcast_to(appraisal.values["owed_if_stopped"][0], parts[0][1].shape)
    due = _whole_due(appraisal, total=np.rint(owed).astype(np.int64) - sum(series for _, series in parts))
    parts[1:1] = due
    rows = [(label, *(f"{amount:,}" for amount in series[chosen])) for label, series in parts if series[chosen].any()]
    rows.append(("Still owed", *(f"{amount:,}" for amount in np.sum([series for _, series in parts], axis=0)[chosen])))
    head = ("", *(f"year {year + 1}" for year in chosen))
    return Table(f"If the plant stops at the end of a year, {units_of(appraisal).currency}", head, tuple(rows))


def _whole_due(appraisal: Appraisal, *, total: Whole) -> list[tuple[str, Whole]]:
    """What stopping makes due in whole amounts that add up to `total` by year; the largest of a year takes the rounding."""
    labels, series = zip(*_due_if_stopped(appraisal), strict=True)
    made = np.rint(exact := np.array(series)).astype(np.int64)
    there = np.abs(exact).max(axis=0) > 0
    made[np.abs(exact).argmax(axis=0), np.arange(total.size)] += np.where(there, total - made.sum(axis=0), 0)
    return list(zip(labels, made, strict=True))


def _due_if_stopped(appraisal: Appraisal) -> Iterator[tuple[str, FloatArray]]:
    """What falls due beside the loans, by year; what a closing made due is paid then and no longer owed."""
    values, years = appraisal.values, (appraisal.timeline.years,)
    still = 1 - at_year_end(appraisal, "plant_gone")
    of_items = {
        "Removal": "removed_if_stopped",
        "Grants to pay back": "back_if_stopped",
        "Less resale": "sold_if_stopped",
    }
    for label, ending in of_items.items():
        names = [name for name in values if name.startswith(("capital.", "grant.")) and name.endswith("." + ending)]
        series = sum((np.broadcast_to(values[name][0], years) for name in names), np.zeros(years))
        yield label, series * still if label.startswith("Grants") else -series if label.startswith("Less") else series
    yield "Investment credit to pay back", np.broadcast_to(values["tax_credit_back_if_stopped"][0], years) * still
    yield "Contract penalties", np.full(years, float(values["funding.stop_penalty_cost"][0, 0])) * still


def views_table(appraisal: Appraisal) -> Table:
    """Worth and return from every side."""
    rows = tuple(
        (
            view.whose,
            view.tax,
            view.money,
            percent(float(view.discount_rate[0])),
            money(float(view.npv[0])),
            _shown(view.irr, percent),
            _shown(view.payback_years, _years),
            money(float(view.equivalent_annual_value[0])),
        )
        for view in appraisal.money.views
    )
    head = (
        "whose",
        "tax",
        "money",
        "discounted\nat",
        "net present\nvalue",
        "rate of\nreturn",
        "back\nafter",
        "worth\na year",
    )
    return Table(f"From every side, {units_of(appraisal).currency}; months dated, month 0 is today", head, rows)


def unit_cost_table(appraisal: Appraisal) -> Table:
    """What a kWh costs, and quotients that programmes ask for."""
    costs, quotients = appraisal.money.unit_costs, appraisal.money.ratios
    per_kwh = f"{units_of(appraisal).currency}/kWh"
    rows = (
        ("Cost of a kWh sold, all costs", _shown(costs.gross_sold, "{:.4f}".format), per_kwh),
        ("Cost of a kWh sold or used, all costs", _shown(costs.gross_used, "{:.4f}".format), per_kwh),
        ("Cost of a kWh sold, less other income and savings", _shown(costs.net_sold, "{:.4f}".format), per_kwh),
        ("Cost of a kWh sold or used, less other income and savings", _shown(costs.net_used, "{:.4f}".format), per_kwh),
        ("Benefits with grants over all costs", _shown(quotients.all_costs_below, "{:.2f}".format), "to 1"),
        ("Benefits with grants less running costs, over capital", _shown(quotients.capital_below, "{:.2f}".format), "to 1"),
        ("Savings to investment, grants off the investment", _shown(quotients.savings.sir, "{:.2f}".format), "to 1"),
        (
            "Eligible cost before grants over a full year's energy and by-products",
            _shown(quotients.regulatory_payback_years, "{:.1f}".format),
            "years",
        ),
    )
    title = "What a kWh costs: project, before tax and grants, nominal, months dated; quotients: project, before tax, with grants"
    return Table(title, ("", "amount", "unit"), rows)


def _years(value: float) -> str:
    return f"{value:.1f} years"


def _shown(measure: Measured, form: object) -> str:
    """Value of the first draw, or its status where there is none."""
    value = float(measure.value[0])
    return form(value) if callable(form) and np.isfinite(value) else measure.words[0]
