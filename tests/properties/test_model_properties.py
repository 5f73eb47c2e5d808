"""What must hold for every plant: money is counted once, loans are paid back, a batch row is the single run."""

from __future__ import annotations

from collections import Counter

import numpy as np
import numpy.testing as npt
import pytest

from appraisal import model
from appraisal.lines.evaluate import year_sum
from appraisal.lines.prepared import evaluate_in_blocks
from appraisal.measures.headline import headline
from appraisal.scenario.funding import Loan
from tests.properties.adding_up import CLOSE, TOTALS, equal
from tests.properties.cases import DEMOS, appraised, batch, drawn, lines


@pytest.mark.parametrize("name", DEMOS)
def test_a_batch_row_is_exactly_the_single_run(name: str) -> None:
    moved, whole = drawn(name), batch(name)
    measured = headline(whole)
    for row in (0, 7, 123, 349):
        single = lines(
            name, {path: array[row : row + 1] if array.shape[0] > 1 else array for path, array in moved.items()}
        )
        for line, array in whole.items():
            got = array[row : row + 1] if array.shape[0] > 1 else array
            assert np.array_equal(got, single[line]), line
        alone = headline(single)
        assert alone.npv[0] == measured.npv[row]
        assert np.array_equal(alone.irr.value[:1], measured.irr.value[row : row + 1], equal_nan=True)
        assert np.array_equal(alone.cover.value[0], measured.cover.value[row], equal_nan=True)


@pytest.mark.parametrize("name", DEMOS)
def test_blocks_are_exactly_the_batch(name: str) -> None:
    case, keep = appraised(name), ["net_cash", "project_cash", "methane_made", "cover"]
    parts = list(evaluate_in_blocks(case.plan, model.inputs(case.structure, drawn(name)), keep=keep, block=100))
    for line in keep:
        assert np.array_equal(np.concatenate([part[line] for part in parts]), batch(name)[line])


@pytest.mark.parametrize("name", DEMOS)
def test_each_money_line_is_in_exactly_one_total(name: str) -> None:
    nodes = appraised(name).plan.nodes
    counted = Counter(ref.name for total in TOTALS.values() for ref in nodes[total].refs())
    money = {full for full, node in nodes.items() if node.line.role}
    assert set(counted) == money
    assert set(counted.values()) == {1}
    assert {node.line.role for node in nodes.values() if node.line.role} <= set(TOTALS)


@pytest.mark.parametrize("name", DEMOS)
def test_net_cash_is_the_sum_of_all_money_lines(name: str) -> None:
    v, nodes = batch(name), appraised(name).plan.nodes
    equal(sum(v[full] for full, node in nodes.items() if node.line.role), v["net_cash"])


@pytest.mark.parametrize("name", DEMOS)
def test_loans_end_at_zero_and_every_payment_is_interest_and_principal(name: str) -> None:
    v, case = batch(name), appraised(name)
    for loan in case.structure.items["loan"]:
        facts = case.loaded.scenario.loan[loan]
        last = facts.years * 12 - 1
        debt = v[f"loan.{loan}.closing"]
        assert (np.abs(debt[:, last:]) <= CLOSE * debt.max(axis=1, keepdims=True)).all()
        assert (debt >= -CLOSE * debt.max()).all()
        start = max(
            facts.interest_only_months, max(c.first_month + c.months for c in case.loaded.scenario.capital.values())
        )
        due = first_due(facts, start)
        paid = (v[f"loan.{loan}.interest"] + v[f"loan.{loan}.principal"])[:, due : last + 1 : facts.payment_every_months]
        for same in (paid[:, : at_fixed_rate(facts, due)], paid[:, at_fixed_rate(facts, due) :]):
            npt.assert_allclose(same, np.broadcast_to(same[:, :1], same.shape), rtol=1e-9)


def first_due(facts: Loan, start: int) -> int:
    """First month from `start` at whose end a payment is due."""
    every = facts.payment_every_months
    return next(month for month in range(start, start + every) if (month + 1) % every == 0)


def at_fixed_rate(facts: Loan, due: int) -> int:
    """Payments from month `due` on that stand at the first rate."""
    return len(range(due, min(facts.rate_fixed_years, facts.years) * 12, facts.payment_every_months))


@pytest.mark.parametrize("name", DEMOS)
def test_a_loan_without_interest_is_paid_in_equal_parts(name: str) -> None:
    case = appraised(name)
    for loan in case.structure.items["loan"]:
        none = np.array([[0.0]])
        v = lines(name, {**case.inputs, f"loan.{loan}.rate": none, f"loan.{loan}.rate_after": none})
        facts = case.loaded.scenario.loan[loan]
        start = max(
            facts.interest_only_months, max(c.first_month + c.months for c in case.loaded.scenario.capital.values())
        )
        paid = v[f"loan.{loan}.principal"][0, first_due(facts, start) : facts.years * 12 : facts.payment_every_months]
        npt.assert_allclose(paid, paid[0], rtol=1e-9)
        assert (v[f"loan.{loan}.interest"] == 0).all()
        assert abs(v[f"loan.{loan}.closing"][0, -1]) < 1e-6


@pytest.mark.parametrize("name", DEMOS)
def test_twice_the_price_is_twice_the_revenue(name: str) -> None:
    case = appraised(name)
    prices = ["power.contract_price_per_kwh", "power.market_price_per_kwh"]
    twice = lines(name, {**case.inputs, **{path: 2 * case.inputs[path] for path in prices}})
    equal(twice["power_sales"], 2 * case.values["power_sales"])
    assert case.values["power_sales"].sum() > 0


@pytest.mark.parametrize("name", DEMOS)
def test_savings_never_exceed_the_bill(name: str) -> None:
    v, moved = batch(name), drawn(name)
    spread = model.inputs(appraised(name).structure, moved)
    for saved, bill, index in (
        ("power_bill_saved", "farm_now.power_bill", "bought_power_index"),
        ("fuel_bill_saved", "farm_now.heating_fuel_bill", "fuel_index"),
    ):
        assert (v[saved] <= spread[bill] * v[index] * (1 + CLOSE)).all(), saved
    assert (
        v["fertilizer_saved"]
        <= moved["farm_now.fertilizer_bill"] * v["timeline.days"] / 365 * v["fertilizer_index"] * (1 + CLOSE) + 1e-9
    ).all()


@pytest.mark.parametrize("name", DEMOS)
def test_months_add_up_to_years_and_present_value_at_the_rate_of_return_is_zero(name: str) -> None:
    v = batch(name)
    equal(year_sum(v["net_cash"]).sum(axis=1, keepdims=True), v["net_cash"].sum(axis=1, keepdims=True))
    found = headline(v).irr
    month = np.arange(v["project_cash"].shape[1])
    rows = np.flatnonzero((found.status == 0) & (found.value > -0.5))[:50]
    assert rows.size > 10
    for row in rows:
        terms = v["project_cash"][row] * (1 + found.value[row]) ** (-month / 12)
        assert abs(terms.sum()) < 1e-9 * np.abs(terms).sum()
