"""Tables about loans: their terms, and where the cash of a year goes in a lender's order."""

from __future__ import annotations

import numpy as np

from appraisal.appraise import Appraisal
from appraisal.measures.arrays import FloatArray
from appraisal.present.footing import Whole, whole
from appraisal.present.money_tables import money
from appraisal.present.numbers import counted, percent
from appraisal.present.tables import Table, units_of
from appraisal.present.whole_years import whole_years

FREE = "free for\nthe family"
EVERY = {1: "monthly", 3: "quarterly", 6: "half-yearly", 12: "yearly"}
ROUNDING = 2  # more than whole amounts of a statement lie off


def loans_table(appraisal: Appraisal) -> Table:
    """The terms of every loan."""
    scenario, values = appraisal.loaded.scenario, appraisal.values
    rows = tuple(
        (
            loan.label or name,
            money(float(values[f"loan.{name}.sum"][0, 0])),
            percent(loan.rate),
            f"{loan.years}",
            f"{loan.repayment.replace('_', ' ')}, {_often(loan.payment_every_months)}",
            f"{loan.interest_only_months}",
            percent(loan.fee_share),
            counted(loan.rate_fixed_years, "year") if loan.rate_fixed_years < loan.years else "whole term",
        )
        for name, loan in scenario.loan.items()
    )
    head = ("loan", "amount", "rate\na year", "years", "repayment", "months\ninterest only", "fee", "rate fixed for")
    return Table(f"Loans, {units_of(appraisal).currency}; years count from month 0", head, rows)


def _often(months: int) -> str:
    return EVERY.get(months, f"every {months} months")


def order_table(appraisal: Appraisal) -> Table:
    """A lender's order of payments by year, from full operation on while loans are owed; every row adds up to what is free."""
    bank, funding = appraisal.money.bank, appraisal.loaded.scenario.funding
    years = np.flatnonzero(np.isfinite(bank.tests.cover[0]))
    years = years[years >= int(bank.first_year[0]) - 1]
    columns = [(head, series[years]) for head, series, always in _columns(appraisal) if always or series[years].any()]
    rows = tuple((str(year + 1), *(f"{series[k]:,}" for _, series in columns)) for k, year in enumerate(years))
    told = "would be" if funding.lock_up == "shown" else "is"
    title = f"Where the cash goes, in a lender's order, {units_of(appraisal).currency}"
    rule = f"below a cover of {funding.lock_up_cover:.2f} what is left {told} held back"
    return Table(f"{title}; {rule}", ("year", *(head for head, _ in columns)), rows)


def _columns(appraisal: Appraisal) -> tuple[tuple[str, Whole, bool], ...]:
    """Head, whole amounts by year, and whether the column always stands: as the statements show them, so that they tie."""
    tests, funding, amounts = appraisal.money.bank.tests, appraisal.loaded.scenario.funding, whole_years(appraisal)
    cash = amounts["cash_available_for_debt_service"]
    interest, principal = (
        _as_stated(-exact[0], amounts[name])
        for exact, name in ((tests.interest, "interest_paid"), (tests.principal, "principal_paid"))
    )
    rest = np.array([tests.reserved[0], tests.sweep[0], tests.trapped[0], tests.short[0], tests.distributed[0]]).T
    handed = np.array(
        [whole(row, total=int(left)) for row, left in zip(rest, cash + interest + principal, strict=True)]
    ).T
    reserved, swept, trapped, short, free = handed
    return (
        ("cash\navailable", cash, True),
        ("interest", interest, True),
        ("principal", principal, True),
        ("debt\nreserve", -reserved, False),
        ("swept" if funding.sweep == "prepays" else "would be\nswept", -swept, False),
        ("held\nback", -trapped, False),
        ("family\npays in", -short, False),
        (FREE, free, True),
        ("loans owed\nat year end", _as_stated(tests.balance[0], amounts["loans_owed"]), True),
    )


def _as_stated(exact: FloatArray, stated: Whole) -> Whole:
    """The amounts of the statements, where they are these but for rounding; else the exact ones by themselves."""
    return np.where(np.abs(exact - stated) < ROUNDING, stated, np.rint(exact).astype(np.int64))
