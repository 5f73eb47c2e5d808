"""A plant that closes before its obliged years are over pays back what it was given for them, in the month it closes."""

from __future__ import annotations

import numpy as np
import pytest

from appraisal.appraise import Appraisal, appraise
from appraisal.scenario.load import loads
from tests.money_cases import Tables, changed_demo, merged

BUILT, RAN = 12, 30  # months
CLOSED = BUILT + RAN
PENALTY = 40_000.0


def closing(after_years: float, more: Tables | None = None) -> Appraisal:
    """The dairy with a credit paid out and a penalty in its contracts, closed so long after its first feeding."""
    changes: Tables = {
        "project": {"build_months": BUILT, "closes_after_years": after_years},
        "funding": {"stop_penalty_cost": PENALTY, "bridge": "until_grants"},
        "tax": {"investment_credit": "paid_out", "investment_credit_rate": 0.1, "credit_kept_years": 5},
    }
    return appraise(loads(changed_demo(merged(changes, more or {}))))


EARLY, FULL = closing(RAN / 12), closing(60)


def paid(case: Appraisal, line: str) -> np.ndarray[tuple[int], np.dtype[np.float64]]:
    """A line by month."""
    return np.asarray(case.values[line][0])


@pytest.mark.parametrize(
    ("line", "share_of"),
    [("grant.state_energy.paid_back", "grant.state_energy.promised"), ("tax_credit_paid_back", "tax_credit_in_all")],
)
def test_half_of_the_years_lacking_is_half_paid_back(line: str, share_of: str) -> None:
    """30 of 60 obliged months were run."""
    given = float(EARLY.values[share_of][0, 0])
    assert given > 1_000
    due = paid(EARLY, line)
    assert due[CLOSED] == pytest.approx(-given / 2) and np.count_nonzero(due) == 1


def test_penalties_fall_due_once_and_nothing_of_it_in_a_plant_that_runs_on() -> None:
    assert paid(EARLY, "stop_penalty_paid")[CLOSED] == -PENALTY
    assert np.count_nonzero(paid(EARLY, "stop_penalty_paid")) == 1
    for line in ("stop_penalty_paid", "grant.state_energy.paid_back", "tax_credit_paid_back"):
        assert not paid(FULL, line).any()


def test_after_the_obliged_years_no_grant_is_paid_back() -> None:
    assert not paid(closing(6), "grant.state_energy.paid_back").any()


def test_the_account_falls_by_it_and_it_is_no_longer_owed() -> None:
    lines = ("grant.state_energy.paid_back", "stop_penalty_paid", "tax_credit_paid_back")
    back = {case: sum(float(paid(case, line).sum()) for line in lines) for case in (EARLY, FULL)}
    assert back[EARLY] < -PENALTY and back[FULL] == 0
    assert paid(EARLY, "disposals")[CLOSED] + paid(EARLY, "tax_credits_paid_out")[CLOSED] == pytest.approx(back[EARLY])
    assert paid(EARLY, "net_cash")[CLOSED] < back[EARLY]
    at_end = {line: float(EARLY.values[line][0, CLOSED // 12 * 12 + 11]) for line in ("loans_owed", "reserves_held")}
    owed = float(EARLY.values["owed_if_stopped"][0, CLOSED // 12])
    assert owed == pytest.approx(at_end["loans_owed"] - at_end["reserves_held"])


def test_what_building_costs_and_what_must_be_borrowed_stay_as_they_are() -> None:
    """Interest after the closing is no interest while building, nor is it borrowed."""
    for line in ("interest_while_building", "bridge_cost_while_building", "own_money_needed", "loan.bank.sum"):
        assert np.array_equal(EARLY.values[line], FULL.values[line]), line
    gap = {"loan": {"bank": {"size": "fills_the_gap"}}, "funding": {"own_money": 500_000}}
    lent = [closing(years, gap).values["loan.bank.sum"][0, 0] for years in (RAN / 12, 60)]
    assert lent[0] == lent[1] > 0


def test_every_check_holds() -> None:
    assert [each.name for each in EARLY.money.checks if not each.passed] == []
