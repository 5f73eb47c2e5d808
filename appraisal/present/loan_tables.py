"""Tables about loans: their terms, and where the cash of a year goes in a lender's order."""

from __future__ import annotations

import numpy as np

from appraisal.appraise import Appraisal
from appraisal.measures.arrays import FloatArray
from appraisal.present.money_tables import money
from appraisal.present.numbers import counted, percent
from appraisal.present.tables import Table, units_of
from appraisal.present.years import by_year

FREE = "free for\nthe family"


def loans_table(appraisal: Appraisal) -> Table:
    """The terms of every loan."""
    scenario, values = appraisal.loaded.scenario, appraisal.values
    rows = tuple(
        (
            loan.label or name,
            money(float(values[f"loan.{name}.sum"][0, 0])),
            percent(loan.rate),
            f"{loan.years}",
            loan.repayment.replace("_", " "),
            f"{loan.interest_only_months}",
            percent(loan.fee_share),
            counted(loan.rate_fixed_years, "year") if loan.rate_fixed_years < loan.years else "whole term",
        )
        for name, loan in scenario.loan.items()
    )
    head = ("loan", "amount", "rate", "years", "repayment", "months interest\nonly", "fee", "rate fixed for")
    return Table(f"Loans, {units_of(appraisal).currency}", head, rows)


def order_table(appraisal: Appraisal) -> Table:
    """A lender's order of payments by year, from full operation on while loans are owed; every row adds up to what is free."""
    bank, funding = appraisal.money.bank, appraisal.loaded.scenario.funding
    years = np.flatnonzero(np.isfinite(bank.tests.cover[0]))
    years = years[years >= int(bank.first_year[0]) - 1]
    columns = [
        (head, series)
        for head, series, always in _columns(appraisal)
        if always or np.abs(series[years]).max(initial=0.0) >= 0.5
    ]
    rows = tuple((str(year + 1), *(money(series[year]) for _, series in columns)) for year in years)
    told = "would be" if funding.lock_up == "shown" else "is"
    title = f"Where the cash goes, in a lender's order, {units_of(appraisal).currency}"
    rule = f"below a cover of {funding.lock_up_cover:.2f} what is left {told} held back"
    return Table(f"{title}; {rule}", ("year", *(head for head, _ in columns)), rows)


def _columns(appraisal: Appraisal) -> tuple[tuple[str, FloatArray, bool], ...]:
    tests, funding = appraisal.money.bank.tests, appraisal.loaded.scenario.funding
    cash = by_year(appraisal, "cash_available_for_debt_service")
    sweep = "swept" if funding.sweep == "prepays" else "would be\nswept"
    return (
        ("cash\navailable", cash, True),
        ("interest", -tests.interest[0], True),
        ("principal", -tests.principal[0], True),
        ("debt\nreserve", -tests.reserved[0], False),
        (sweep, -tests.sweep[0], False),
        ("held\nback", -tests.trapped[0], False),
        ("family\npays in", -tests.short[0], False),
        (FREE, tests.distributed[0], True),
        ("loans owed\nat year end", tests.balance[0], True),
    )
