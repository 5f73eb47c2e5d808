"""Own row-wise measures against two independent libraries, numpy-financial on one row and pyxirr on many."""

from __future__ import annotations

from datetime import date, timedelta

import numpy as np
import numpy_financial as npf
import pytest
import pyxirr

from appraisal.measures.annuity import level_payment, number_of_periods, schedule
from appraisal.measures.discounting import present_value
from appraisal.measures.returns import irr, mirr, xirr, xnpv

ROWS, YEARS = 200, 25
ROW = np.array([[-250_000.0, 21_000.0, 34_000.0, -5_000.0, 48_000.0, 61_000.0, 77_000.0, 52_000.0, 39_000.0]])


@pytest.fixture(scope="module")
def plants() -> np.ndarray:
    """Invented yearly flows (rows, years + 1): an outlay, uneven years with an overhaul, some losing money overall."""
    generator = np.random.default_rng(20)
    rows = generator.normal(90.0, 45.0, (ROWS, YEARS + 1))
    rows[:, 0] = -generator.uniform(400.0, 2500.0, ROWS)
    rows[:, 12] -= 250.0
    return rows


@pytest.mark.parametrize("rate", [-0.05, 0.0, 0.08, 0.6])
def test_npv_equals_numpy_financial(rate: float) -> None:
    ours = present_value(ROW, rate, periods_per_year=1)[0]
    assert ours == pytest.approx(npf.npv(rate, ROW[0]), rel=1e-12)


def test_irr_equals_numpy_financial() -> None:
    assert irr(ROW, 1).value[0] == pytest.approx(npf.irr(ROW[0]), rel=1e-10)


@pytest.mark.parametrize(("finance", "reinvest"), [(0.06, 0.04), (0.0, 0.0), (0.1, -0.02)])
def test_mirr_equals_numpy_financial(finance: float, reinvest: float) -> None:
    ours = mirr(ROW, finance_rate=finance, reinvest_rate=reinvest, periods_per_year=1).value[0]
    assert ours == pytest.approx(npf.mirr(ROW[0], finance, reinvest), rel=1e-10)


@pytest.mark.parametrize("rate", [0.0, 0.004, 0.03])
@pytest.mark.parametrize("periods", [1, 7, 240])
def test_loan_equals_numpy_financial(rate: float, periods: int) -> None:
    payment = level_payment(90_000.0, rate, periods=periods)
    plan, number = schedule(90_000.0, rate, periods=periods), np.arange(1, periods + 1)
    assert payment[0] == pytest.approx(-npf.pmt(rate, periods, 90_000.0), rel=1e-11)
    if rate > 0.0:  # numpy-financial 1.0 divides by zero in the parts of a payment without interest
        assert plan.interest[0] == pytest.approx(-npf.ipmt(rate, number, periods, 90_000.0), abs=1e-6)
        assert plan.principal[0] == pytest.approx(-npf.ppmt(rate, number, periods, 90_000.0), abs=1e-6)


@pytest.mark.parametrize("rate", [-0.001, 0.002, 0.006])  # at zero, numpy-financial 1.0 gives the wrong sign
def test_number_of_periods_equals_numpy_financial(rate: float) -> None:
    ours = number_of_periods(8_000.0, rate, payment=150.0)
    assert ours.words == ["paid off"]
    assert ours.value[0] == pytest.approx(float(npf.nper(rate, -150.0, 8_000.0)), rel=1e-11)


def test_npv_equals_pyxirr_on_many_rows(plants: np.ndarray) -> None:
    rates = np.linspace(-0.2, 0.4, ROWS)
    theirs = [pyxirr.npv(rate, row) for rate, row in zip(rates, plants, strict=True)]
    assert present_value(plants, rates, periods_per_year=1) == pytest.approx(np.array(theirs), rel=1e-10, abs=1e-7)


def test_irr_equals_pyxirr_on_many_rows(plants: np.ndarray) -> None:
    ours = irr(plants, 1)
    single = np.flatnonzero(ours.status == 0)
    assert single.size > 0.9 * ROWS
    assert (ours.value[single] < 0.0).any()
    theirs = np.array([pyxirr.irr(plants[k]) for k in single], dtype=np.float64)
    assert ours.value[single] == pytest.approx(theirs, rel=1e-8, abs=1e-10)


def test_mirr_equals_pyxirr_on_many_rows(plants: np.ndarray) -> None:
    ours = mirr(plants, finance_rate=0.07, reinvest_rate=0.03, periods_per_year=1)
    assert ours.value == pytest.approx(np.array([pyxirr.mirr(row, 0.07, 0.03) for row in plants]), rel=1e-10)


def test_dated_flows_equal_pyxirr_on_many_rows(plants: np.ndarray) -> None:
    days = [date(2027, 3, 1) + timedelta(days=11 * k * k + 40 * k) for k in range(YEARS + 1)]
    ours = xirr(plants, days)
    single = np.flatnonzero(ours.status == 0)
    assert single.size > 0.9 * ROWS
    theirs = np.array([pyxirr.xirr(days, plants[k]) for k in single], dtype=np.float64)
    assert ours.value[single] == pytest.approx(theirs, abs=1e-8)  # pyxirr stops at about nine decimals
    left = [pyxirr.xnpv(ours.value[k], days, plants[k]) for k in single]
    assert left == pytest.approx(np.zeros(single.size), abs=1e-9 * np.abs(plants).max())
    values = np.array([pyxirr.xnpv(0.065, days, row) for row in plants])
    assert xnpv(plants, 0.065, dates=days) == pytest.approx(values, rel=1e-10, abs=1e-8)
