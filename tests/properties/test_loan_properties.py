"""What must hold for the loans and reserves of every plant: debt ends at nothing, what is held comes back.

Over a thousand random plants: the five cases of tests/money_cases.py, 250 draws each, and the demos. Every draw moves
every number. What debt service is worth: test_thousand_plants.py.
"""

from __future__ import annotations

import numpy as np
import numpy.testing as npt
import pytest

from appraisal.appraise import appraise
from appraisal.lines.evaluate import year_sum
from appraisal.measures.discounting import npv
from appraisal.measures.money_view import money_view
from appraisal.scenario.load import loads
from tests.money_cases import appraised, batch, changed_demo, drawn, lines
from tests.properties.adding_up import CLOSE
from tests.properties.cases import DEMOS
from tests.properties.money_plants import NAMES, nothing, of_both


@pytest.mark.parametrize("name", [*NAMES, *DEMOS])
def test_debt_ends_at_exactly_nothing_and_is_never_negative(name: str) -> None:
    v, case = of_both(name)
    for loan, facts in case.loaded.scenario.loan.items():
        debt = v[f"loan.{loan}.closing"]
        assert (debt[:, facts.years * 12 - 1 :] == 0).all()
        assert (debt >= 0).all()
        assert (v[f"loan.{loan}.accrued"][:, facts.years * 12 - 1 :] == 0).all()
        assert debt.max() > 0


def test_a_loan_sized_to_cover_has_that_cover_at_every_payment() -> None:
    """Without overhauls, so that no year is so poor that the schedule must be held at no principal."""
    covers = np.linspace(1.2, 4.0, 40)[:, None]
    case = appraised("gap")
    free = {path: np.array([[0.0]]) for path in case.inputs if path.endswith(("top_end_cost", "major_cost"))}
    v = lines("gap", {**case.inputs, **free, "loan.bank.target_cover": covers})
    assert case.loaded.scenario.loan["bank"].payment_every_months == 6
    cash, paid = v["loan.bank.cash_for_payment"], -(v["loan.bank.interest"] + v["loan.bank.principal"])
    pays = v["loan.bank.payments_left"][0] > 0
    assert pays.sum() == 21 and (v["loan.bank.principal"][:, pays] < 0).all()
    ratio = np.broadcast_to(cash, paid.shape)[:, pays] / paid[:, pays]
    npt.assert_allclose(ratio, np.broadcast_to(covers, ratio.shape), rtol=1e-9)


@pytest.mark.parametrize(("name", "loan"), [("gap", "second"), ("upward", "bank")])
def test_sources_equal_uses_where_a_loan_fills_the_gap(name: str, loan: str) -> None:
    v, moved = batch(name), drawn(name, draws=250)
    own, gap = moved["funding.own_money"], v["gap_to_fund"]
    filled = (gap > 0)[:, 0]
    assert filled.any()
    npt.assert_allclose(v["own_money_needed"][filled], own[filled], rtol=1e-9)
    assert (v[f"loan.{loan}.sum"][~filled] == 0).all()
    assert (v["uses_less_sources"] == 0).all()


@pytest.mark.parametrize("name", ["lender", "upward"])
def test_the_bridge_is_paid_back_by_the_grants(name: str) -> None:
    v = batch(name)
    assert v["bridge_owed"].max() > 0
    assert (v["bridge_owed"] >= 0).all() and (v["bridge_owed"][:, -1] == 0).all()
    share = drawn(name, draws=250)["funding.bridge_share"]
    assert (v["bridge_owed"] <= share * (v["grants"].sum(axis=1, keepdims=True)) * (1 + CLOSE)).all()


def test_what_only_moves_in_time_leaves_nothing_but_costs_interest() -> None:
    v, rate = batch("lender"), drawn("lender", draws=250)["judging.discount_rate"]
    for line in ("sales_tax_moves", "working_capital_moves", "debt_reserve_moves", "overhaul_reserve_moves"):
        left = v[line].sum(axis=1)
        npt.assert_allclose(left, 0.0, atol=1e-9 * np.abs(v[line]).max())
        assert np.abs(npv(v[line], rate)).max() > 1, line


@pytest.mark.parametrize("name", ["lender", "upward", "gap"])
def test_the_debt_reserve_is_at_its_target_or_the_shortfall_is_shown(name: str) -> None:
    v = batch(name)
    held, wanted, short = v["debt_reserve"], v["debt_reserve_target"], v["debt_reserve_short"]
    nothing(held + short - np.maximum(wanted, held), np.maximum(wanted, 1.0))
    assert (held >= 0).all()
    if name != "gap":  # filled from the start: nothing lacks when full operation begins
        begins = v["before_full_years"] > 0
        assert (short[np.broadcast_to(begins, short.shape)] == 0).all()


@pytest.mark.parametrize("name", NAMES)
def test_a_lenders_order_of_payments_spends_every_unit_of_cash_once(name: str) -> None:
    v, case = batch(name), appraised(name)
    seen = money_view(v, year=3).bank
    tests = seen.tests
    cash = year_sum(v["cash_available_for_debt_service"])
    counts = np.arange(cash.shape[1]) >= (seen.first_year - 1)[:, None]
    spent = (
        tests.interest
        + tests.principal
        + tests.reserved
        + tests.sweep
        + tests.distributed
        + tests.trapped
        + tests.short
    )
    nothing(np.where(counts, cash, 0.0) - spent, cash)
    if case.loaded.scenario.funding.sweep_share == 0:
        owed = v["loans_owed"][:, 11::12]
        nothing(np.where(counts, tests.balance - owed, 0.0), owed)


def test_locked_cash_is_held_until_the_cover_is_met_or_nothing_is_owed() -> None:
    """Stepped by hand, year by year and draw by draw, against the lines; what is never released would be a loss."""
    v = batch("upward")
    cash, due = year_sum(v["cash_available_for_debt_service"]), -year_sum(v["debt_service"])
    reserve, owed = year_sum(v["debt_reserve_moves"]), v["loans_owed"][:, 11::12]
    fed, level = year_sum(v["feeding"]), np.ravel(v["funding.lock_up_cover"])
    account, seen = v["lock_up_account"], set()
    for draw in range(account.shape[0]):
        held = 0.0
        for year in range(account.shape[1]):
            left = cash[draw, year] - due[draw, year] + reserve[draw, year]
            under = due[draw, year] > 0 and cash[draw, year] / due[draw, year] < level[draw % level.size]
            if under and fed[draw % fed.shape[0], year] >= 12 and owed[draw, year] > 1:
                seen.add("held" if left > 0 else "drawn" if held > 0 else "nothing there")
                held = max(held + left, 0.0) if left < 0 else held + left
            else:
                seen.add("released" if held > 0 else "free")
                held = 0.0
            assert account[draw, year] == pytest.approx(held, abs=1e-3)
    assert {"held", "drawn", "released", "free"} <= seen
    assert (account[:, -1] == 0).all()


def test_held_cash_costs_the_owner_time_and_leaves_the_project_alone() -> None:
    held = appraise(loads(changed_demo({"funding": {"lock_up": "held", "lock_up_cover": 1.6}})))
    free = appraise(loads(changed_demo({"funding": {"lock_up": "shown", "lock_up_cover": 1.6}})))
    npt.assert_array_equal(held.values["project_cash"], free.values["project_cash"])
    npt.assert_array_equal(held.values["cover"], free.values["cover"])
    owner = [next(float(view.npv[0]) for view in each.money.views if (view.whose, view.tax, view.money)
                  == ("owner", "after tax", "nominal")) for each in (held, free)]  # fmt: skip
    assert owner[0] < owner[1]
    npt.assert_allclose(held.values["bank_balance"][0, -1], free.values["bank_balance"][0, -1], rtol=1e-9)
