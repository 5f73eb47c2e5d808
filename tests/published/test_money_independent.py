"""Loan lines and yearly worths against two independent libraries: numpy-financial row by row, pyxirr on dates and many rows."""

from __future__ import annotations

from datetime import date

import numpy as np
import numpy_financial as npf
import pytest
import pyxirr

from appraisal.measures.money_view import money_view
from tests.money_cases import CASES, batch
from tests.published.money_of_loans import loan_of

PRINCIPAL, RATE, YEARS = 90_000.0, 0.0575, 9


@pytest.mark.parametrize("every", [1, 3, 6, 12])
def test_level_loan_equals_numpy_financial_for_every_payment_period(every: int) -> None:
    v = loan_of(PRINCIPAL, RATE, years=YEARS + 1, every=every)
    number = np.arange(1, YEARS * 12 // every + 1)
    rate = RATE * every / 12
    interest, principal = (-v[f"loan_{part}"][0, 12:][every - 1 :: every] for part in ("interest", "principal"))
    assert interest == pytest.approx(-npf.ipmt(rate, number, number.size, PRINCIPAL), abs=1e-6)
    assert principal == pytest.approx(-npf.ppmt(rate, number, number.size, PRINCIPAL), abs=1e-6)
    assert v["loan_closing"][0, -1] == 0.0


def test_rate_reset_equals_a_second_loan_of_what_is_left() -> None:
    """After five fixed years the rest is paid off at the new rate, as a new loan would be."""
    v = loan_of(PRINCIPAL, RATE, years=YEARS + 1, every=1, loan_rate_fixed_years=6, loan_rate_after=0.08)
    left = v["loan_closing"][0, 71]
    assert left == pytest.approx(-npf.fv(RATE / 12, 60, npf.pmt(RATE / 12, YEARS * 12, PRINCIPAL), PRINCIPAL), rel=1e-9)
    paid = -(v["loan_interest"] + v["loan_principal"])[0, 72:120]
    assert paid == pytest.approx([-npf.pmt(0.08 / 12, 48, left)] * 48, rel=1e-9)


@pytest.mark.parametrize("name", sorted(CASES))
def test_views_equal_pyxirr_on_many_rows(name: str) -> None:
    """Monthly cash of every draw as flows of equal months: worth at the discount rate, and nothing at the rate of return."""
    v = batch(name)
    view = next(
        each
        for each in money_view(v, year=3).views
        if (each.whose, each.tax, each.money) == ("owner", "after tax", "nominal")
    )
    rows = range(0, v["net_cash"].shape[0], 10)
    monthly = (1 + view.discount_rate) ** (1 / 12) - 1
    theirs = [pyxirr.npv(monthly[row], v["net_cash"][row]) for row in rows]
    assert view.npv[::10] == pytest.approx(np.array(theirs), rel=1e-9, abs=1e-4)
    one = [row for row in rows if view.irr.status[row] == 0 and view.irr.value[row] > 0]
    assert len(one) > 5
    for row in one:
        at_rate = (1 + view.irr.value[row]) ** (1 / 12) - 1
        assert abs(pyxirr.npv(at_rate, v["net_cash"][row])) < 1e-7 * np.abs(v["net_cash"][row]).sum()


def test_yearly_flows_on_dates_equal_pyxirr() -> None:
    """Flows at the year's ends, dated a year apart without leap days."""
    v = batch("upward")
    view = next(
        each
        for each in money_view(v, year=3).views
        if (each.whose, each.tax, each.money) == ("project", "after tax", "nominal")
    )
    yearly = v["project_cash"].reshape(v["project_cash"].shape[0], -1, 12).sum(axis=2)
    days = [date.fromordinal(date(2027, 3, 31).toordinal() + 365 * year) for year in range(yearly.shape[1])]
    theirs = [pyxirr.xnpv(view.discount_rate[row], days, yearly[row]) for row in range(0, 250, 10)]
    assert view.npv_year_end[::10] == pytest.approx(np.array(theirs), rel=1e-9, abs=1e-4)
