"""Awkward cash flows: each gets its status in words, and what cannot be is refused. Rates follow from the factors."""

from __future__ import annotations

import math
from collections.abc import Callable
from datetime import date

import numpy as np
import pytest

from appraisal.measures import annuity, cover, discounting, factors, payback, returns, unit_cost


def batch(*rows: list[float]) -> np.ndarray:
    """Rows as (draws, periods)."""
    return np.array(rows, dtype=np.float64)


AWKWARD: dict[str, tuple[list[float], str, float | None]] = {
    "two rates, the nearer to zero is shown": ([-1000.0, 2300.0, -1320.0], "several", 0.1),
    "no rate": ([1000.0, -3000.0, 2500.0], "none", None),
    "only touched": ([-1000.0, 2200.0, -1210.0], "one", 0.1),
    "close pair between two points of the search": ([-1.0, 2.201, -1.2111], "several", 0.1),
    "huge money": ([-1e15, 1.07e15], "one", 0.07),
    "tiny money": ([-1e-9, 0.5e-9, 0.75e-9], "one", (0.5 + 3.25**0.5) / 2.0 - 1.0),
    "negative return": ([-100.0, 0.0, 0.0, 74.0], "one", 0.74 ** (1 / 3) - 1.0),
    "all zeros": ([0.0, 0.0, 0.0], "none", None),
    "first flow zero": ([0.0, -100.0, 110.0], "one", 0.1),
    "long wait before a huge gain": ([0.0] * 150 + [-1.0, 1e12], "one", 1e12 - 1.0),
    "single flow": ([-5.0], "none", None),
    "only costs": ([-5.0, -6.0, -7.0], "none", None),
    "only income": ([5.0, 6.0], "none", None),
    "money back, not a cent more, in unround numbers": ([-0.3, 0.1, 0.2], "one", 0.0),
    "twice zero": ([1.0, -2.0, 1.0], "one", 0.0),
    "zero and a rate above it": ([-1.0, 2.2, -1.2], "several", 0.0),
    "zero and a rate below it": ([-1.0, 1.8, -0.8], "one", 0.0),
    "a speck before a fortune": ([-1e-30, 1.0], "none", None),
    "removal cost at the end": ([-100.0, 130.0, -22.0], "one", 0.1),
    "two rates below zero only": ([-1000.0, 1300.0, -420.0], "several", -0.3),
    "loan seen from the borrower": ([100.0, -60.0, -60.0], "one", 0.3 + 0.69**0.5 - 1.0),
}


@pytest.mark.parametrize("name", AWKWARD)
def test_awkward_flows_get_their_status_in_words(name: str) -> None:
    row, words, rate = AWKWARD[name]
    found = returns.irr(batch(row), 1)
    assert found.words == [words]
    assert found.value[0] == pytest.approx(math.nan if rate is None else rate, rel=1e-9, abs=1e-9, nan_ok=True)


def test_irr_roots_lists_also_what_the_status_leaves_out() -> None:
    roots = returns.irr_roots(np.array(AWKWARD["removal cost at the end"][0]), 1)
    assert roots == pytest.approx(np.array([-0.8, 0.1]), rel=1e-9)
    zero = returns.irr_roots(np.array(AWKWARD["zero and a rate below it"][0]), 1)
    assert zero == pytest.approx(np.array([-0.2, 0.0]), rel=1e-9)
    below = returns.irr_roots(np.array(AWKWARD["two rates below zero only"][0]), 1)
    assert below == pytest.approx(np.array([-0.4, -0.3]), rel=1e-9)


@pytest.mark.parametrize(
    ("row", "words", "value", "settled"),
    [
        ([-100.0, 60.0, 80.0], "paid back", 1.5, 1.5),
        ([0.0, -50.0, -50.0, 200.0], "paid back", 1.5, 1.5),
        ([-0.8, 0.1, 0.7], "paid back", 2.0, 2.0),
        ([-100.0, 150.0, -80.0, 60.0], "paid back, then below zero again", 2 / 3, 2.5),
        ([-100.0, 150.0, -80.0], "paid back, then below zero again", 2 / 3, None),
        ([-100.0, 50.0], "never", None, None),
        ([0.0, 50.0], "nothing spent", None, None),
    ],
)
def test_payback_says_when_and_whether(
    row: list[float], words: str, value: float | None, settled: float | None
) -> None:
    for found, per_year in (
        (payback.simple_payback(batch(row), periods_per_year=1), 1),
        (payback.discounted_payback(batch(row), 0.0, periods_per_year=12), 12),
    ):
        assert found.words == [words]
        for ours, expected in ((found.value[0], value), (found.settled[0], settled)):
            wanted = math.nan if expected is None else expected / per_year
            assert ours == pytest.approx(wanted, rel=1e-12, nan_ok=True)


def test_cover_by_year_with_its_least_year_in_words() -> None:
    cash = batch([50.0, 120.0, 90.0, 130.0], [80.0, 80.0, 80.0, 80.0])
    found = cover.dscr(cash, batch([100.0, 100.0, 100.0, 0.0], [0.0, 0.0, 0.0, 0.0]))
    assert found.words == [
        "short of debt service",
        "covered",
        "short of debt service",
        "no debt due",
        *["no debt due"] * 4,
    ]
    least = cover.least_cover(found, full_years=np.array([False, True, True, True]))
    assert least.words == ["short of debt service", "no debt due"]
    assert (least.value[0], least.year[0], least.average[0]) == pytest.approx((0.9, 3.0, 1.05))
    assert np.isnan([least.value[1], least.year[1], least.average[1]]).all()


def test_payment_that_only_meets_the_interest_never_ends() -> None:
    counts = annuity.number_of_periods(1000.0, 0.01, payment=np.array([10.0, 9.0, 10.1]))
    assert counts.words == ["never paid off", "never paid off", "paid off"]
    assert annuity.number_of_periods(1200.0, 0.0, payment=100.0).value[0] == 12.0


@pytest.mark.parametrize(
    ("says", "wrong"),
    [
        ("shape", lambda: discounting.present_value(np.ones(3), 0.1)),
        ("at least one period", lambda: returns.irr(np.ones((2, 0)), 1)),
        ("finite", lambda: discounting.present_value(np.array([[1.0, math.nan]]), 0.1)),
        ("finite", lambda: discounting.present_value(np.ones((1, 2)), math.inf)),
        ("each of 2 draws", lambda: discounting.present_value(np.ones((2, 3)), np.ones(3) * 0.1)),
        ("one number per draw", lambda: discounting.present_value(np.ones((2, 3)), np.ones((1, 2)) * 0.1)),
        ("above -1", lambda: discounting.present_value(np.ones((2, 3)), -1.0)),
        ("timing must be one of", lambda: discounting.timing_shift(0.1, "dated months")),  # type: ignore[arg-type]
        ("must not be negative", lambda: factors.annuity_factor(0.1, periods=-1)),
        ("between 0 and 1", lambda: factors.growing_annuity(1.0, 0.1, growth=0.0, share_indexed=1.1, years=3)),
        ("at least one payment", lambda: annuity.level_payment(1.0, 0.1, periods=0)),
        ("must be positive", lambda: annuity.number_of_periods(1.0, 0.1, payment=0.0)),
        ("at least one year", lambda: unit_cost.capital_recovery_factor(0.1, years=0)),
        ("one row", lambda: returns.irr_roots(np.ones((1, 3)), 1)),
        ("later than the one before", lambda: returns.xirr(np.ones((1, 2)), [date(2027, 1, 1), date(2027, 1, 1)])),
        ("one date for each flow", lambda: returns.xirr(np.ones((1, 3)), [date(2027, 1, 1), date(2027, 1, 2)])),
        ("must not be negative", lambda: cover.dscr(np.ones((1, 2)), -np.ones((1, 2)))),
        ("one shape", lambda: cover.dscr(np.ones((1, 2)), np.ones((1, 3)))),
    ],
)
def test_what_cannot_be_is_refused(says: str, wrong: Callable[[], object]) -> None:
    with pytest.raises(ValueError, match=says):
        wrong()
