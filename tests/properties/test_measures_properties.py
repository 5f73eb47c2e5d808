"""Measures obey their identities: zero value at the rate, scale, order, closing loans, a row alone as in a batch."""

from __future__ import annotations

import math
from collections.abc import Callable
from datetime import date, timedelta

import numpy as np
import pytest
from hypothesis import assume, given, settings
from hypothesis import strategies as st

from appraisal.measures import annuity, cover, discounting, factors, inflation, payback, returns, unit_cost
from appraisal.measures.arrays import BLOCK_ROWS, Measured

MANY = settings(deadline=None, max_examples=150)  # no deadline: the first example also pays for the imports

Rows = np.ndarray
amount = st.floats(-1e6, 1e6, allow_subnormal=False).filter(lambda x: x == 0.0 or abs(x) > 1e-3)
positive = st.floats(1.0, 1e6)
any_row = st.lists(amount, min_size=2, max_size=30)
plant_row = st.builds(  # spending first, income after: one rate of return, above or below zero
    lambda spent, earned: [-x for x in spent] + earned,
    st.lists(positive, min_size=1, max_size=4),
    st.lists(positive, min_size=1, max_size=25),
)
yearly_or_monthly = st.sampled_from([1, 12])
loan = st.tuples(positive, st.one_of(st.just(0.0), st.floats(-0.02, 0.2)), st.integers(1, 360))


def batch(*rows: list[float]) -> Rows:
    """Rows as (draws, periods)."""
    return np.array(rows, dtype=np.float64)


def relative_value(row: list[float], rate: float, per_year: int) -> float:
    """Present value of a row as a share of the present value of its magnitudes."""
    value = discounting.present_value(batch(row), rate, periods_per_year=per_year)
    size = discounting.present_value(np.abs(batch(row)), rate, periods_per_year=per_year)
    return float(value[0] / size[0])


@MANY
@given(any_row, yearly_or_monthly)
def test_value_is_zero_at_every_root(row: list[float], per_year: int) -> None:
    found = returns.irr(batch(row), per_year)
    roots = returns.irr_roots(np.array(row), per_year)
    for root in roots[roots > -0.99]:
        assert abs(relative_value(row, float(root), per_year)) < 1e-9
    counted = roots[roots >= 0.0] if (roots >= 0.0).any() else roots[::-1]
    assert found.words == ["none" if roots.size == 0 else "one" if counted.size == 1 else "several"]
    assert (
        math.isnan(found.value[0])
        if roots.size == 0
        else found.value[0] == pytest.approx(counted[0], rel=1e-9, abs=1e-9)
    )


@MANY
@given(plant_row, yearly_or_monthly)
def test_single_change_of_sign_has_one_rate_that_parts_gain_from_loss(row: list[float], per_year: int) -> None:
    found = returns.irr(batch(row), per_year)
    assert found.words == ["one"]
    rate = float(found.value[0])
    assume(rate > -0.99)
    assert abs(relative_value(row, rate, per_year)) < 1e-9
    assert relative_value(row, (1.0 + rate) * 1.01 - 1.0, per_year) < 0.0
    assert relative_value(row, (1.0 + rate) * 0.99 - 1.0, per_year) > 0.0


@MANY
@given(st.lists(positive, min_size=1, max_size=25), positive, st.floats(-0.5, 1.0), st.floats(0.001, 1.0))
def test_value_falls_as_the_rate_rises(earned: list[float], outlay: float, rate: float, more: float) -> None:
    low, high = (discounting.present_value(batch([0.0, *earned]), r, periods_per_year=1) for r in (rate, rate + more))
    assert high[0] < low[0]
    assert discounting.npv(batch([-outlay, *earned]), rate, timing="end of year")[0] == pytest.approx(
        low[0] - outlay, abs=1e-9 * (low[0] + outlay)
    )


@MANY
@given(any_row, st.integers(-60, 60))
def test_rate_does_not_depend_on_the_money_unit(row: list[float], power: int) -> None:
    one, other = returns.irr(batch(row), 12), returns.irr(batch(row) * 2.0**power, 12)
    assert one.words == other.words
    assert np.array_equal(one.value, other.value, equal_nan=True)


@MANY
@given(plant_row, st.sampled_from([1e15, 1e-9, 3.7, 1e-200]))
def test_rate_holds_from_tiny_to_huge_money(row: list[float], factor: float) -> None:
    one, other = returns.irr(batch(row), 1).value[0], returns.irr(batch(row) * factor, 1).value[0]
    assert 1.0 + other == pytest.approx(1.0 + one, rel=1e-11)


@MANY
@given(
    st.floats(-0.9, 3.0),
    st.integers(1, 40),
    st.sampled_from(["end of year", "mid year", "start of year", "spread evenly"]),
)
def test_factors_agree_with_the_sum_they_stand_for(rate: float, years: int, timing: discounting.YearlyTiming) -> None:
    row = batch([0.0] + [1.0] * years)
    closed = factors.present_worth_factor(rate, escalation=0.0, years=years, timing=timing)
    assert discounting.npv(row, rate, timing=timing) == pytest.approx(closed, rel=1e-9)
    by_period = discounting.discount_factors(rate, periods=years + 1, timing=timing)[:, 1:].sum(axis=1)
    assert by_period == pytest.approx(closed, rel=1e-9)
    recovery = unit_cost.capital_recovery_factor(rate, years=years)
    assert recovery * factors.annuity_factor(rate, periods=years) == pytest.approx(np.ones(1), rel=1e-12)


@MANY
@given(st.floats(-0.5, 1.0), st.floats(-0.2, 1.0), any_row)
def test_real_and_nominal_give_one_value(nominal: float, prices: float, row: list[float]) -> None:
    real = inflation.real_rate(nominal, prices)
    assert inflation.nominal_rate(real, prices)[0] == pytest.approx(nominal, abs=1e-12)
    in_real = discounting.present_value(inflation.deflate(batch(row), prices), real)
    size = discounting.present_value(np.abs(batch(row)), nominal)
    assert in_real == pytest.approx(discounting.present_value(batch(row), nominal), abs=1e-10 * size[0] + 1e-300)


@MANY
@given(loan)
def test_loan_pays_interest_and_principal_and_closes_at_zero(terms: tuple[float, float, int]) -> None:
    lent, rate, periods = terms
    plan, payment = annuity.schedule(lent, rate, periods=periods), annuity.level_payment(lent, rate, periods=periods)
    assert plan.interest + plan.principal == pytest.approx(np.full((1, periods), payment[0]), abs=1e-9 * lent)
    assert plan.opening - plan.principal == pytest.approx(plan.closing, abs=1e-9 * lent)
    assert plan.closing[0, -1] == 0.0
    assert plan.principal.sum() == pytest.approx(lent, rel=1e-9)
    count = annuity.number_of_periods(lent, rate, payment=payment)
    if payment[0] > 1.0001 * lent * rate:  # otherwise the last digits of the payment decide the count
        assert count.words == ["paid off"]
        assert count.value[0] == pytest.approx(periods, rel=1e-6)


@MANY
@given(st.lists(positive, min_size=3, max_size=20), st.floats(-0.1, 0.5), positive, st.floats(0.0, 1e5))
def test_ratios_agree_with_net_present_value(earned: list[float], rate: float, outlay: float, upkeep: float) -> None:
    benefits, costs = batch([0.0, *earned]), batch([outlay, *[upkeep] * len(earned)])
    ratio = unit_cost.benefit_cost_ratio(benefits, costs, rate=rate, timing="mid year")
    net = discounting.npv(benefits - costs, rate, timing="mid year")
    assert (ratio.value - 1.0) * discounting.npv(costs, rate, timing="mid year") == pytest.approx(
        net, rel=1e-6, abs=1e-6 * sum(earned)
    )
    price = unit_cost.levelised_cost(costs, benefits, rate=rate)
    assert discounting.npv(benefits * price.value[0] - costs, rate) == pytest.approx(
        np.zeros(1), abs=1e-9 * costs.sum()
    )
    assert unit_cost.levelised_cost(costs, np.zeros_like(costs), rate=rate).words == ["nothing to divide by"]


DAYS = [date(2027, 1, 31) + timedelta(days=37 * k) for k in range(26)]
SINGLE_RUNS: dict[str, Callable[[Rows, Rows], object]] = {
    "present value": lambda f, r: discounting.present_value(f, r),
    "npv mid year": lambda f, r: discounting.npv(f, r, timing="mid year"),
    "npv spread": lambda f, r: discounting.npv(f, r, timing="spread evenly"),
    "factors": lambda f, r: discounting.discount_factors(r, periods=30),
    "deflate": lambda f, r: inflation.deflate(f, r),
    "real rate": lambda f, r: inflation.real_rate(r, r / 3),
    "escalation": lambda f, r: factors.present_worth_factor(r, escalation=r / 2, years=20, timing="spread evenly"),
    "growing": lambda f, r: factors.growing_annuity(f[:, -1], r, growth=0.02, share_indexed=0.4, years=15),
    "irr": lambda f, r: returns.irr(f, 1),
    "irr monthly": lambda f, r: returns.irr(f, 12),
    "xirr": lambda f, r: returns.xirr(f, DAYS),
    "xnpv": lambda f, r: returns.xnpv(f, r, dates=DAYS),
    "mirr": lambda f, r: returns.mirr(f, finance_rate=r, reinvest_rate=r / 2, periods_per_year=1),
    "payback": lambda f, r: payback.discounted_payback(f, r, periods_per_year=12),
    "cover": lambda f, r: cover.least_cover(cover.dscr(f, np.maximum(-f, 0.0)), full_years=np.arange(26) > 0),
    "levelised": lambda f, r: unit_cost.levelised_cost(f, np.abs(f), rate=r),
    "annual value": lambda f, r: unit_cost.equivalent_annual_value(f[:, 0], r, years=20),
    "payment": lambda f, r: annuity.level_payment(np.abs(f[:, 0]), r / 12, periods=180),
    "schedule": lambda f, r: annuity.schedule(np.abs(f[:, 0]), r / 12, periods=60),
    "count": lambda f, r: annuity.number_of_periods(np.abs(f[:, 0]), r / 12, payment=9.0),
}


def parts(result: object) -> list[Rows]:
    """The arrays of a result, one by one."""
    return [result] if isinstance(result, np.ndarray) else [np.asarray(part) for part in vars(result).values()]


@pytest.fixture(scope="module")
def mixed() -> Rows:
    """More rows than one block, of every kind: paying plants, losing ones, several rates, none, zeros."""
    generator = np.random.default_rng(7)
    rows = generator.normal(12.0, 30.0, (BLOCK_ROWS + 77, 26))
    rows[::2, 0] = -generator.uniform(50.0, 400.0, rows[::2].shape[0])
    rows[3], rows[4, :5], rows[5, -9:] = 0.0, 0.0, 0.0
    return rows


@pytest.mark.parametrize("name", SINGLE_RUNS)
@pytest.mark.parametrize("order", ["C", "F"])
def test_row_of_a_batch_is_the_single_run_to_the_last_bit(name: str, order: str, mixed: Rows) -> None:
    flows = np.array(mixed, order=order)  # type: ignore[call-overload]
    rates = np.linspace(-0.03, 0.25, flows.shape[0])[:, np.newaxis]
    rates[11] = 0.0
    together = SINGLE_RUNS[name](flows, rates)
    if isinstance(together, Measured) and name.startswith(("irr", "xirr")):
        assert set(together.words) == {"one", "several", "none"}
    for k in [*range(40), BLOCK_ROWS - 1, BLOCK_ROWS, BLOCK_ROWS + 76]:
        alone = SINGLE_RUNS[name](flows[k : k + 1].copy(), rates[k : k + 1])
        for batched, single in zip(parts(together), parts(alone), strict=True):
            assert np.array_equal(batched[k : k + 1], single, equal_nan=True)
