"""A plant that closes before its obliged years are over pays back what it was given for them, in the month it closes."""

from __future__ import annotations

import numpy as np
import pytest

from appraisal.appraise import Appraisal, appraise
from appraisal.measures import worst_months
from appraisal.measures.checks import CHECKS
from appraisal.present.money_tables import years_shown
from appraisal.scenario.load import loads
from tests.money_cases import Tables, changed_demo, drawn, lines, merged
from tests.properties.adding_up import CLOSE
from tests.properties.money_plants import NAMES

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


PLACES: Tables = {
    "capital": {
        "digester": {"removal_cost": 90_000, "resale_share": 0.3, "end_value": 60_000},
        "engine_set": {
            "resale_share": 0.5, "depreciation_method": "declining_balance", "depreciation_rate": 0.25, "months": 4}},
}  # fmt: skip


def test_machines_are_sold_and_removed_in_the_month_of_closing() -> None:
    """For what a stop at that time would bring by the page; nothing is left to sell, deduct or owe after it."""
    case, on = closing(RAN / 12, PLACES), closing(60, PLACES)
    inflation = float(case.values["project.inflation"][0, 0])
    for item, share, removal in (("digester", 0.3, 90_000), ("engine_set", 0.5, 0)):
        cost = -paid(case, f"capital.{item}.spend").sum()
        years = case.loaded.scenario.capital[item].depreciation_years
        book = cost * (1 - RAN / 12 / years)
        brought = paid(case, f"capital.{item}.left_at_closing")
        assert brought[CLOSED] == pytest.approx(book * share - removal * (1 + inflation) ** (CLOSED // 12))
        assert np.count_nonzero(brought) == 1 and not paid(case, f"capital.{item}.left_at_end").any()
        assert not paid(on, f"capital.{item}.left_at_closing").any()
    assert paid(on, "capital.digester.left_at_end")[-1] != 0
    for line in ("depreciation", "written_off", "basis_left_at_end", "written_off_at_end", "plant_in_books"):
        assert not paid(case, line)[CLOSED + 1 :].any(), line
    assert paid(case, "basis_left_at_end")[CLOSED] < 0 and paid(case, "written_off_at_end")[CLOSED] < 0
    assert not any(array[0, CLOSED // 12 + 1 :].any() for name, array in case.values.items()
                   if name.endswith(("sold_if_stopped", "removed_if_stopped")))  # fmt: skip


def test_a_plant_that_closes_pays_for_what_is_begun_and_buys_no_more() -> None:
    """One item half paid at the closing, one planned for later."""
    case = closing(RAN / 12, {"capital": {"digester": {"first_month": CLOSED - 2, "months": 6},
                                          "engine_set": {"first_month": CLOSED, "months": 3}}})  # fmt: skip
    spent = -paid(case, "capital.digester.paid_share")
    assert list(-spent[CLOSED - 2 : CLOSED + 2] * 6) == pytest.approx([1, 1, 4, 0])
    assert not paid(case, "capital.engine_set.paid_share").any()
    assert [each.name for each in case.money.checks if not each.passed] == []


CREDIT: Tables = {
    "tax": {"investment_credit": "against_tax", "investment_credit_rate": 0.3, "credit_kept_years": 5},
    "power": {"contract_price_per_kwh": 0.4},  # so that there is a profit to tax
}


def test_of_a_credit_against_tax_only_what_was_used_is_paid_back() -> None:
    """What is forfeited comes first off the part not yet used; by hand, year by year."""
    seen = set()
    for rate, losses in ((0.05, "lost"), (0.3, "lost"), (0.3, "carried_forward"), (0.7, "lost")):
        case = closing(RAN / 12, merged(CREDIT, {"tax": {"rate": rate, "losses": losses}}))
        whole = float(case.values["tax_credit_in_all"][0, 0])
        left = earned = back = 0.0
        for year in range(CLOSED // 12 + 1):
            earned = whole if year == BUILT // 12 else 0.0
            used = min(left + earned, max(float(case.values["taxed"][0, year]) * rate, 0))
            left += earned - used
            if year == CLOSED // 12:
                back, left = max(whole / 2 - left, 0.0), max(left - whole / 2, 0.0)
        assert case.values["tax_credit_recaptured"][0, CLOSED // 12] == pytest.approx(back)
        assert case.values["tax_credit_left"][0, CLOSED // 12] == pytest.approx(left)
        assert case.values["tax_credit_used"].sum() - case.values["tax_credit_recaptured"].sum() <= whole / 2 + 1e-6
        seen.add("nothing" if back == 0 else "all" if back == pytest.approx(whole / 2) else "part")
    assert {"nothing", "part"} <= seen


def test_the_projects_own_cash_knows_no_loan_also_when_a_credit_is_paid_back() -> None:
    taxed = merged(CREDIT, {"tax": {"rate": 0.4, "losses": "lost"}})
    dear, cheap = (closing(RAN / 12, merged(taxed, {"loan": {"bank": {"rate": rate}}})) for rate in (0.15, 0.01))
    assert np.array_equal(dear.values["project_cash"], cheap.values["project_cash"])
    assert not np.array_equal(dear.values["tax_credit_recaptured"], cheap.values["tax_credit_recaptured"])
    assert cheap.values["tax_credit_recaptured_without_loans"].max() > 0


@pytest.mark.parametrize("name", NAMES)
def test_every_check_holds_whenever_the_plant_closes(name: str) -> None:
    """200 random plants of each money case, closed after a few months to many years."""
    draws = 200
    years = np.random.default_rng(3).uniform(0.2, 25, (draws, 1))
    moved = {**drawn(name, draws=draws), "project.closes_after_years": years}
    v = lines(name, moved)
    for what, _, _, of in CHECKS:
        gap, size = of(v)
        scale = np.maximum(np.abs(size).max(axis=1, keepdims=True), 1.0)
        assert (np.abs(gap) <= CLOSE * scale).all(), what
    assert (v["balance_difference"] == 0).all() and (v["plant_goes"].sum(axis=1) == 1).all()
    gone = np.cumsum(v["plant_goes"], axis=1) > 0
    assert (np.abs(v["plant_in_books"]) <= CLOSE * v["building_cost"])[gone].all()
    assert all((array[:, -1] == 0).all() for line, array in v.items() if line.startswith("loan.") and line.endswith(".closing"))
    single = lines(name, {path: array[57:58] if array.shape[0] > 1 else array for path, array in moved.items()})
    assert all(np.array_equal(array[57:58] if array.shape[0] > 1 else array, single[line]) for line, array in v.items())
    assert not v["overhauls_paid"][v["closed"] > 0].any() and not v["running_costs"][v["closed"] > 0].any()


def test_pages_show_the_year_of_closing_and_compare_with_months_in_which_the_plant_runs() -> None:
    year = CLOSED // 12
    assert year in years_shown(EARLY) or year < 5
    late = closing(5.5)
    tightest = {int(case.money.bank.least["as_assumed"].year[0]) - 1 for case in (late, FULL)}
    assert set(years_shown(late)) - tightest == {0, 1, 2, 3, 4, 6, 9, 14, 20} - tightest
    assert set(years_shown(FULL)) - tightest == {0, 1, 2, 3, 4, 9, 14, 20} - tightest
    assert all(int(case.money.bank.least["as_assumed"].year[0]) - 1 in years_shown(case) for case in (late, FULL))
    worst = worst_months.of_account(EARLY.values)
    fed = np.broadcast_to(EARLY.values["feeding"][0] > 0, paid(EARLY, "net_cash").shape)
    full = worst_months.full_months(EARLY.values) & fed
    for cause in worst.causes:
        if cause.what == "running costs":
            assert cause.ordinary == pytest.approx(float(np.median(paid(EARLY, "running_costs")[full])))
    assert full.any() and worst.causes
