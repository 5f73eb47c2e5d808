"""Bad cases are the scenario read anew; a break, run again as a scenario, meets its limit."""

from __future__ import annotations

import numpy as np
import pytest

from appraisal.appraise import appraise
from appraisal.risk.cases import standard_cases
from appraisal.risk.changes import Change, changed_values
from appraisal.risk.drivers import Driver, changes_of, driver_of, standard_drivers
from appraisal.risk.points import RiskError
from appraisal.risk.reverse import Break, break_even, breaks, narrowed
from appraisal.risk.stress import stress_test
from appraisal.risk.worsening import bad_ends, values_at, worsening
from appraisal.scenario.load import Loaded, loads, with_values
from tests.risk.farms import DEMOS, plain, wide

DAIRY = "dairy_with_leftovers"


def at(loaded: Loaded, new: dict[str, float]) -> tuple[float, float]:
    """Worth and least cover of the scenario with new values, by the spine."""
    head = appraise(with_values(loaded, new)).headline
    return float(head.npv[0]), float(head.dscr_min.value[0])


@pytest.mark.parametrize("name", DEMOS)
def test_every_case_is_the_scenario_read_anew(name: str) -> None:
    loaded = plain(name)
    found = stress_test(loaded)
    assert found.plan.npv == appraise(loaded).headline.npv[0]
    possible = [each for each in found.cases if each.npv is not None]
    assert len(possible) >= 10
    for each in possible:
        npv, cover = at(loaded, {path: after for path, (_, after) in each.moved.items()})
        assert (each.npv, each.least_cover) == (npv, cover), each.case.label
    for each in found.cases:
        assert bool(each.case.impossible) == (each.npv is None)


def test_the_ready_made_cases_move_what_their_labels_say() -> None:
    loaded = plain(DAIRY)
    moved = {each.case.name: each.moved for each in stress_test(loaded).cases}
    capital = loaded.scenario.capital
    assert moved["capital_dearer"] == {
        f"capital.{name}.amount": (item.amount, pytest.approx(1.2 * item.amount)) for name, item in capital.items()
    }
    assert moved["six_months_late"] == {"project.build_months": (12.0, 18.0)}
    assert moved["engine_stands"]["engine.main.availability"][1] == pytest.approx(
        loaded.scenario.engine["main"].availability - 0.05
    )
    assert moved["less_gas"] == {"digester.gas_cut_share": (0.0, pytest.approx(0.15))}
    assert moved["dearer_loans"] == {"loan.bank.rate": (0.06, pytest.approx(0.08))}
    assert moved["no_credits"] == {"credits.price_per_t_co2e": (10.0, 0.0)}
    assert moved["lower_price"]["power.contract_price_per_kwh"][1] == pytest.approx(0.9 * 0.145)


def test_less_gas_is_less_gas() -> None:
    loaded = plain(DAIRY)
    less = appraise(with_values(loaded, {"digester.gas_cut_share": 0.15})).values["methane_made"]
    assert less == pytest.approx(0.85 * appraise(loaded).values["methane_made"])


def test_the_contract_whose_loss_hurts_most_is_lost_for_good_in_year_three() -> None:
    loaded = plain(DAIRY)
    lost = [each for each in stress_test(loaded).cases if each.case.name.startswith("lost_")]
    assert len(lost) == 1
    feed = lost[0].case.name.removeprefix("lost_")
    build = loaded.scenario.project.build_months
    worths = {
        name: at(loaded, {f"feed.{name}.contract_years": 2 - build / 12, f"feed.{name}.share_after_contract": 0.0})[0]
        for name in loaded.scenario.feed
    }
    assert min(worths, key=worths.__getitem__) == feed
    case = appraise(with_values(loaded, {path: after for path, (_, after) in lost[0].moved.items()}))
    tonnes = case.values[f"substrate.{feed}.tonnes"][0]
    assert tonnes[23] > 0 and (tonnes[24:] == 0).all()


def test_all_together_is_every_ready_made_case_on_its_bad_side() -> None:
    loaded = plain(DAIRY)
    found = {each.case.name: each for each in stress_test(loaded).cases}
    joint = found["all_together"]
    for name, each in found.items():
        apart = ("all_together", "less_inflation", "more_inflation", *loaded.scenario.stress)
        if name not in apart and each.npv is not None:
            assert set(each.moved) <= set(joint.moved), name
    worse = min(("less_inflation", "more_inflation"), key=lambda name: found[name].npv or 0.0)
    assert joint.moved["project.inflation"] == found[worse].moved["project.inflation"]
    assert joint.npv is not None and joint.npv < min(
        each.npv for each in found.values() if each.npv is not None and each != joint
    )


def test_the_users_own_cases_stand_behind_the_ready_made() -> None:
    text = plain(DAIRY).text + (
        '\n[stress.dry]\nlabel = "Dry summer"\ntimes = { "feed.*.tonnes_per_year" = 0.8 }\n'
        'plus = { "loan.bank.rate" = "1 %/year" }\nto = { "power.contract_price_per_kwh" = "13 ct/kWh" }\n'
    )
    loaded = loads(text)
    last = stress_test(loaded).cases[-1]
    assert (last.case.name, last.case.label) == ("dry", "Dry summer")
    assert last.moved["loan.bank.rate"] == (0.06, pytest.approx(0.07))
    assert last.moved["power.contract_price_per_kwh"][1] == pytest.approx(0.13)
    for name, feed in loaded.scenario.feed.items():
        assert last.moved[f"feed.{name}.tonnes_per_year"][1] == pytest.approx(0.8 * feed.tonnes_per_year)


def test_a_case_that_a_scenario_cannot_have_says_why() -> None:
    small = {each.case.name: each for each in stress_test(plain("small_herd_manure_only")).cases}
    assert small["no_credits"].case.impossible == "no credits are sold"
    high = with_values(plain(DAIRY), {"loan.bank.rate": 0.39})
    cases = {each.case.name: each for each in stress_test(high).cases}
    assert "above the allowed range" in cases["dearer_loans"].case.impossible
    assert cases["dearer_loans"].npv is None
    assert cases["all_together"].npv is not None


def test_changes_add_up_in_their_order() -> None:
    loaded = plain(DAIRY)
    new = changed_values(
        loaded,
        [
            Change("loan.*.rate", "plus", 0.02),
            Change("loan.bank.rate", "times", 2.0),
            Change("digester.gas_cut_share", "less", 0.5),
        ],
    )
    assert new == {"loan.bank.rate": pytest.approx(0.16), "digester.gas_cut_share": 0.5}
    with pytest.raises(RiskError, match="no single number"):
        changed_values(loaded, [Change("loan.*.rat", "plus", 0.02)])


def met(loaded: Loaded, found: Break) -> None:
    """The scenario at the break meets the limit to 1e-6, by the spine and nothing of the search."""
    assert found.move is not None
    new = changed_values(loaded, changes_of(found.driver, found.move))
    npv, cover = at(loaded, new)
    spent = sum(item.amount for item in loaded.scenario.capital.values())
    if found.measure == "least_cover":
        assert cover == pytest.approx(found.limit, rel=1e-6)
    elif found.measure == "npv":
        assert abs(npv) <= 1e-6 * spent
    else:
        assert abs(paid_in_again(loaded, new)) <= 1e-6 * spent


def paid_in_again(loaded: Loaded, new: dict[str, float]) -> float:
    """Lowest the account and reserves come to against the start of the first full year, added up month by month."""
    case = appraise(with_values(loaded, new))
    start = 12 * (case.plant.year - 1)
    held = (case.values["bank_balance"] + case.values["reserves_held"])[0]
    return min(float(held[month] - held[start - 1]) for month in range(start, held.size))


@pytest.mark.parametrize("name", DEMOS)
def test_reverse_stress_is_verified_by_the_scenario_at_the_break(name: str) -> None:
    loaded = plain(name)
    found = breaks(loaded, standard_drivers(loaded))
    reached = [each for each in found if each.status == "meets"]
    assert len(reached) >= (1 if name == "small_herd_manure_only" else 6)
    for each in reached:
        met(loaded, each)


def test_a_plan_that_carries_its_loan_breaks_where_the_search_says() -> None:
    loaded = with_values(plain(DAIRY), {"power.contract_price_per_kwh": 0.25, "judging.least_cover": 1.25})
    assert at(loaded, {})[1] > 1.25
    found = breaks(loaded, standard_drivers(loaded), measures=("least_cover",))
    reached = [each for each in found if each.status == "meets"]
    assert len(reached) >= 4
    for each in reached:
        met(loaded, each)
        half = changed_values(loaded, changes_of(each.driver, 0.5 * (each.move or 0.0)))
        assert at(loaded, half)[1] > 1.25, each.driver.label  # nothing broke on the way


def test_break_even_of_any_single_number() -> None:
    loaded = plain(DAIRY)
    for path in ("feed.bakery.tonnes_per_year", "labour.hired_wage_per_hour", "digester.availability"):
        found = break_even(loaded, path)
        assert found.status == "meets" and found.value is not None
        assert abs(at(loaded, {path: found.value})[0]) < 1e-6 * 2e6
    with pytest.raises(RiskError, match="no single number"):
        break_even(loaded, "project.years")


def test_what_never_breaks_says_that_it_holds() -> None:
    found = break_even(plain(DAIRY), "loan.bank.rate")  # worth is counted without loans
    assert (found.status, found.move) == ("holds", None)


def test_a_measure_that_jumps_past_its_limit_is_told_as_a_jump() -> None:
    loaded = plain(DAIRY)
    hours = "engine.main.major_interval_hours"
    here, there = (at(loaded, {hours: value})[0] for value in (60_000.0, 50_000.0))
    assert here != there  # one overhaul more or less
    found = break_even(loaded, hours, limit=(here + there) / 2)
    assert found.status in ("jumps", "meets")
    if found.status == "jumps":
        assert found.before is not None and found.after is not None
        assert (found.before - found.limit) * (found.after - found.limit) < 0


def test_brackets_close_on_zeros_and_on_jumps() -> None:
    def function(chosen: np.ndarray, x: np.ndarray) -> np.ndarray:
        return np.where(chosen == 0, x**3 - 0.2, np.where(chosen == 1, np.exp(-x) - 0.5, np.where(x < 0.3, -1.0, 2.0)))

    ends = narrowed(function, np.array([[0.0, 1.0], [3.0, 0.0], [0.0, 1.0]]), close=np.full(3, 1e-12))
    assert ends[0] == pytest.approx([0.2 ** (1 / 3)] * 2, rel=1e-10)
    assert ends[1] == pytest.approx([np.log(2)] * 2, rel=1e-10)
    assert ends[2, 0] < 0.3 <= ends[2, 1] and ends[2, 1] - ends[2, 0] < 1e-15


def test_a_driver_is_tried_no_further_than_its_fields_allow() -> None:
    loaded = plain(DAIRY)
    for driver in (
        *standard_drivers(loaded),
        driver_of(loaded, "digester.availability"),
        driver_of(loaded, "tax.rate"),
    ):
        for move in (driver.low, driver.high):
            for path, value in changed_values(loaded, changes_of(driver, move)).items():
                field = loaded.assumptions[path].declaration
                assert field.low is not None and field.high is not None
                assert field.low <= value <= field.high, path
    assert isinstance(driver_of(loaded, "tax.rate"), Driver)


def test_the_nearest_break_when_all_worsen_together() -> None:
    loaded = wide(DAIRY)
    cover, worth = worsening(loaded)
    assert worth.part is not None and 0 < worth.part < 2
    npv, _ = at(loaded, dict(worth.values))
    bad = bad_ends(loaded)
    assert worth.values == values_at(bad, worth.part)
    before, after = (at(loaded, values_at(bad, worth.part * step))[0] for step in (1 - 1e-6, 1 + 1e-6))
    assert before >= 0 >= after  # an overhaul that moves by a month makes a step, and a break may lie in one
    assert abs(npv) <= max(abs(before), abs(after))
    assert at(loaded, values_at(bad, 0.5 * worth.part))[0] > 0
    assert cover.broken == (at(loaded, {})[1] < cover.limit)
    for path, (plan, quantile, end) in bad.items():
        assert min(plan, end) <= quantile <= max(plan, end)
        assert at(loaded, {path: quantile})[0] <= at(loaded, {path: plan})[0] or plan == quantile


def test_the_table_of_cases_is_stable() -> None:
    names = [case.name for case in standard_cases(plain(DAIRY))]
    assert len(set(names)) == len(names) >= 11
