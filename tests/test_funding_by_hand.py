"""Loans sized by hand: a gap filled by going round until nothing moves, and a loan shaped to a cover by present value."""

from __future__ import annotations

import numpy as np
import numpy_financial as npf
import pytest

from appraisal.appraise import Appraisal, appraise
from appraisal.scenario.load import loads
from tests.money_cases import changed_demo

BUILD = 12


def plan(
    loan: dict[str, object], funding: dict[str, object], *, without_overhauls: bool = False, build_months: int = BUILD
) -> Appraisal:
    changes = {"project": {"build_months": build_months}, "loan": {"bank": loan}, "funding": funding}
    free = {"engine": {"main": {"top_end_cost": 0, "major_cost": 0}}} if without_overhauls else {}
    return appraise(loads(changed_demo({**changes, **free})))


@pytest.mark.parametrize("months", [0, 6])
def test_a_loan_that_fills_the_gap_is_what_a_circle_comes_to(months: int) -> None:
    """Fee, interest while building and reserve rest on the loan, and the loan on them: round after round, as a sheet would."""
    rate, years, fee, own = 0.07, 13, 0.015, 400_000.0
    loan = {"size": "fills_the_gap", "amount": None, "rate": rate, "years": years, "fee_share": fee,
            "interest_only_months": BUILD}  # fmt: skip
    reserve = {"debt_reserve": "from_start", "debt_reserve_months": months} if months else {}
    case = plan(loan, {"own_money": own, **reserve})
    spent = -case.values["investment"][0]
    grants, sum_lent = float(case.values["grants"].sum()), 0.0
    for _ in range(200):
        owed = interest = 0.0
        for month in range(BUILD):
            interest += owed * rate / 12
            owed += spent[month] / spent.sum() * sum_lent
        payment = -float(npf.pmt(rate / 12, years * 12 - BUILD, sum_lent))
        sum_lent = spent.sum() + fee * sum_lent + interest + payment * months - own - grants
    assert float(case.values["loan.bank.sum"][0, 0]) == pytest.approx(sum_lent, rel=1e-9)
    assert float(case.values["own_money_needed"][0, 0]) == pytest.approx(own, rel=1e-9)
    assert sum_lent > 500_000


def test_while_the_plant_waits_for_the_grid_income_waits_and_interest_does_not() -> None:
    """Six months more until the first feeding, paid for as before: every month of them costs its interest."""
    loan = {"rate": 0.06, "interest_only_months": 24}
    waits, soon = (plan(loan, {}, build_months=months) for months in (BUILD + 6, BUILD))
    whole = float(soon.values["loan.bank.sum"][0, 0])
    assert np.array_equal(waits.values["investment"], soon.values["investment"])
    assert not waits.values["cash_income"][0, : BUILD + 6].any() and soon.values["cash_income"][0, BUILD : BUILD + 6].all()
    more = -float(waits.values["interest_while_building"].sum() - soon.values["interest_while_building"].sum())
    assert more == pytest.approx(6 * whole * 0.06 / 12, rel=1e-9)
    assert float(waits.values["own_money_needed"][0, 0] - soon.values["own_money_needed"][0, 0]) == pytest.approx(more, rel=1e-6)


@pytest.mark.parametrize(("cover", "every"), [(1.3, 6), (1.8, 12), (2.5, 3)])
def test_a_loan_shaped_to_a_cover_is_the_value_of_its_payments(cover: float, every: int) -> None:
    """Cash before tax of each period over the cover, brought back at the loan's rate to the end of the interest-only time.

    Without overhauls: where a period's cash over the cover is less than its interest, no principal is paid and later payments
    are smaller, for nothing is lent anew.
    """
    rate, years = 0.055, 9
    loan = {"size": "to_cover", "amount": None, "repayment": "sculpted", "target_cover": cover, "rate": rate, "years": years,
            "payment_every_months": every, "interest_only_months": BUILD}  # fmt: skip
    case = plan(loan, {}, without_overhauls=True)
    v = case.values
    cash = (v["cash_income"] + v["evidenced_savings"] + v["running_costs"] + v["overhauls_paid"])[0, BUILD : years * 12]
    gathered = cash.reshape(-1, every).sum(axis=1)
    payments = np.maximum(gathered, 0) / cover  # a loss, as in the first quarter of the ramp, counts as nothing
    value = float(npf.npv(rate * every / 12, [0.0, *payments]))
    assert float(v["loan.bank.sum"][0, 0]) == pytest.approx(value, rel=1e-9)
    paid = -(v["loan.bank.interest"] + v["loan.bank.principal"])[0, BUILD : years * 12].reshape(-1, every).sum(axis=1)
    assert (gathered < 0).any() == (every == 3)
    if every > 3:
        np.testing.assert_allclose(paid, payments, rtol=1e-9)
    assert v["loan.bank.closing"][0, years * 12 - 1] == 0.0
    tax = v["taxes"][0, BUILD : years * 12].sum()
    assert tax <= 0 and float(case.headline.dscr_min.value[0]) <= cover + 1e-9  # after tax, cover can only be less
