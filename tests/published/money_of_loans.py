"""How the project's own lines answer the records on loans, drawn at the end of the first project year: whole years follow.

The lines of the model are called as they stand, on their own sheet, with what the record gives; a record by years is put
into the last months of its years.
"""

from __future__ import annotations

from typing import Any

import numpy as np
import pytest

from appraisal.cash_flow import (
    loan,
    loan_schedule,
    loan_sum,
)
from appraisal.measures.annuity import level_payment
from appraisal.measures.cover import dscr, least_cover
from appraisal.measures.loan_cover import debt_carried, life_cover
from tests.lines_alone import alone, by_year
from tests.published.money_figures import Values, flows

HOURS_PER_YEAR = 8760


def loan_of(
    principal: float,
    rate: float,
    *,
    years: int,
    interest_only_months: int = 12,
    every: int = 12,
    first: int = 11,
    **more: Any,
) -> dict[str, np.ndarray]:
    """The loan sheets with a payment every so many months, the whole sum drawn in one month."""
    spent = np.zeros(years * 12)
    spent[first] = -1.0
    choices = {
        "loan_repayment": "level",
        "loan_size": "amount",
        "loan_interest_before_repayment": "paid",
        "funding_debt_reserve": "none",
        "funding_sweep": "shown",
        **{k: v for k, v in more.items() if isinstance(v, str)},
    }
    given = {
        "loan_amount": principal, "loan_rate": rate, "loan_rate_after": rate, "loan_rate_fixed_years": 60,
        "loan_payment_every_months": every, "loan_years": years, "loan_interest_only_months": interest_only_months,
        "loan_fee_share": 0.0, "investment": spent, "feeding": np.ones(years * 12), "loan_reserve_share": 0.0,
        "loan_target_cover": 1.3, "cash_before_tax": 0.0, **{k: v for k, v in more.items() if not isinstance(v, str)},
    }  # fmt: skip
    keep = ("loan_drawn", "loan_interest", "loan_principal", "loan_closing", "loan_capitalised", "loan_accrued")
    return alone(loan_schedule, loan_sum, loan, given=given, choices=choices, years=years, keep=keep)


def service(v: dict[str, np.ndarray]) -> list[float]:
    """Interest and principal by year, as paid."""
    return [-(i + p) for i, p in zip(by_year(v["loan_interest"]), by_year(v["loan_principal"]), strict=True)]


def worth_at_start(v: dict[str, np.ndarray], rate: float) -> float:
    """Value of the debt service at the loan's rate, at the end of the first project year."""
    return sum(paid / (1 + rate) ** year for year, paid in enumerate(service(v)))


def two_repayments(i: Values) -> Values:
    level = loan_of(i["principal"], i["rate"], years=i["n"] + 1)
    equal = loan_of(i["principal"], i["rate"], years=i["n"] + 1, loan_repayment="equal_principal")
    assert service(level)[1:] == pytest.approx([service(level)[1]] * i["n"], rel=1e-12)
    assert level["loan_closing"][0, -1] == equal["loan_closing"][0, -1] == 0.0
    return {
        "annuity_payment": service(level)[1],
        "annuity_total_interest": -level["loan_interest"].sum(),
        "straight_line_payments": service(equal)[1:],
        "straight_line_total_interest": -equal["loan_interest"].sum(),
    }


def grace(i: Values) -> Values:
    years = 1 + i["grace_years"] + i["repayment_years"]
    months = 12 + 12 * i["grace_years"]
    paid, added = (
        loan_of(i["principal"], i["rate"], years=years, interest_only_months=months, loan_interest_before_repayment=how)
        for how in ("paid", "capitalised")
    )
    for v in (paid, added):
        assert worth_at_start(v, i["rate"]) == pytest.approx(i["principal"], rel=1e-12)
    return {
        "interest_only": {
            "grace_payment": service(paid)[1],
            "payment": service(paid)[-1],
            "total_interest": -paid["loan_interest"].sum(),
        },
        "capitalised": {
            "balance_after_grace": added["loan_closing"][0, months - 1],
            "payment": service(added)[-1],
            "total_interest": sum(service(added)) - i["principal"],
        },
    }


def building_interest(i: Values) -> Values:
    spent = np.zeros(36)
    spent[[2, 5, 8, 11]] = -np.array(i["draws"])
    v = loan_of(sum(i["draws"]), i["annual_rate"], years=3, every=3, interest_only_months=18, investment=spent,
                loan_interest_before_repayment="capitalised")  # fmt: skip
    drawn_at_end, one_quarter_more = v["loan_closing"][0, 11], v["loan_closing"][0, 14]
    return {
        "debt_at_completion_draws_at_quarter_end": drawn_at_end,
        "idc_end": v["loan_capitalised"][0, :12].sum(),
        "debt_at_completion_draws_at_quarter_start": one_quarter_more,
        "idc_start": v["loan_capitalised"][0, :15].sum(),
        "simple_half_period_rule_of_thumb": i["annual_rate"] / 2 * sum(i["draws"]),
    }


def at_year_ends(yearly: list[float], years: int) -> np.ndarray:
    """Yearly amounts in the last months of project years 2, 3, ..."""
    months = np.zeros(years * 12)
    months[23::12][: len(yearly)] = yearly
    return months


def sculpted(i: Values) -> Values:
    years = 1 + len(i["cfads"])
    v = loan_of(0.0, i["rate"], years=years, loan_size="to_cover", loan_repayment="sculpted",
                loan_target_cover=i["target_dscr"], cash_before_tax=at_year_ends(i["cfads"], years))  # fmt: skip
    interest, principal = ([-x for x in by_year(v[f"loan_{part}"])][1:] for part in ("interest", "principal"))
    debt = v["loan_sum"][0, 0]
    paid = service(v)[1:]
    rows = [list(row) for row in zip(paid, interest, principal, v["loan_closing"][0, 23::12], strict=True)]
    covers = dscr(flows(i["cfads"]), flows(paid)).value[0]
    assert covers == pytest.approx([i["target_dscr"]] * len(paid), rel=1e-12)
    return {
        "debt": debt,
        "service_interest_principal_balance": rows,
        "llcr_at_close": life_cover(flows(i["cfads"]), debt, i["rate"]).value[0],
    }


def level_cover(i: Values) -> Values:
    n, cash = i["loan_years"], flows(i["cfads"])
    v = loan_of(i["debt"], i["rate"], years=n + 1)
    cover = dscr(cash[:, :n], flows(service(v)[1:]))
    least = least_cover(cover, full_years=np.ones(n, dtype=bool))
    return {
        "payment": service(v)[1],
        "dscr": cover.value[0].tolist(),
        "min_dscr": least.value[0],
        "avg_dscr": least.average[0],
        "llcr": life_cover(cash[:, :n], i["debt"], i["rate"]).value[0],
        "plcr": life_cover(cash, i["debt"], i["rate"]).value[0],
    }


def two_cases(i: Values) -> Values:
    kw = 1000 * i["mw"]
    cash = [kw * (HOURS_PER_YEAR * cf * i["price_mwh"] / 1000 - i["fixed_om_kw"]) for cf in (i["cf_p50"], i["cf_p99"])]
    debts = [
        debt_carried(each, cover=cover, rate=i["rate"], years=i["years"])[0]
        for each, cover in zip(cash, (1.3, 1.0), strict=True)
    ]
    debt = min(debts)
    return {
        "cfads_p50": cash[0],
        "cfads_p99": cash[1],
        "annual_service_p50": level_payment(debts[0], i["rate"], periods=i["years"])[0],
        "annual_service_p99": level_payment(debts[1], i["rate"], periods=i["years"])[0],
        "debt_capacity": debt,
        "equity_share": 1 - debt / (kw * i["capex_per_kw"]),
    }
