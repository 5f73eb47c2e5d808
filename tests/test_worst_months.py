"""The worst month: what is put by is no cost, what falls due is named, and the month is the least of all full ones."""

from __future__ import annotations

import numpy as np
import pytest

from appraisal.appraise import Appraisal, appraise
from appraisal.demos import demos
from appraisal.measures import worst_months
from appraisal.present.month_words import short_years, worst_month, worst_running
from appraisal.scenario.load import load
from tests.money_cases import CASES, appraised

DEMOS = sorted(demos())
ALL = [*DEMOS, *sorted(CASES)]


def case_of(name: str) -> Appraisal:
    """A demo or a case of money."""
    return appraised(name) if name in CASES else appraise(load(demos()[name]))


@pytest.mark.parametrize("name", ALL)
def test_it_is_the_least_of_all_months_of_full_operation_by_hand(name: str) -> None:
    v = case_of(name).values
    found, running = worst_months.of_account(v), worst_months.of_running(v)
    aside = sum(np.minimum(v[line][0], 0) for line in worst_months.SET_ASIDE)
    fed = np.broadcast_to(v["feeding"][0] + v["closed"][0], v["net_cash"][0].shape)
    cash, plain = {}, {}
    for month in range(fed.size):
        year = month // 12
        if fed[12 * year : 12 * year + 12].sum() == 12:
            cash[month] = v["net_cash"][0, month] - np.broadcast_to(aside, fed.shape)[month]
            plain[month] = (v["operating_result"] + v["overhauls_paid"])[0, month]
    assert found.month == min(cash, key=cash.__getitem__) and found.cash == min(cash.values())
    assert running.month == min(plain, key=plain.__getitem__) and running.cash == min(plain.values())


@pytest.mark.parametrize("name", ALL)
def test_it_is_told_with_a_cause_that_is_there(name: str) -> None:
    case = case_of(name)
    found = worst_months.of_account(case.values)
    assert found.causes and all(each.amount < each.ordinary for each in found.causes)
    words = " ".join((worst_month(case), *worst_running(case), *short_years(case)))
    assert case.timeline.in_words(found.month) in words and found.causes[0].what in words


def test_a_reserve_filled_at_the_years_end_is_no_cost_of_that_month() -> None:
    """The three-year reserve of the lender's case takes its money in the last month of each year."""
    v = appraised("lender").values
    found = worst_months.of_account(v)
    plain = np.where(worst_months.full_months(v), v["net_cash"][0], np.inf)
    assert plain.min() < found.cash
    assert (v["overhaul_reserve_moves"] + v["debt_reserve_moves"])[0, int(plain.argmin())] < 0
