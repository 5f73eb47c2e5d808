"""Ready-made other ways: each is a scenario of its own, read through every check, or says what is missing."""

from __future__ import annotations

import json

import numpy as np
import pytest
from click.testing import CliRunner

from appraisal.appraise import appraise
from appraisal.cli import main
from appraisal.risk.alternatives import Alternative, alternative, alternatives
from appraisal.risk.compare import compare
from appraisal.risk.draws import Settings
from appraisal.risk.points import RiskError
from appraisal.scenario.load import Loaded, loads
from appraisal.scenario.starter_short import starter_short
from tests.risk.farms import DEMOS, edited, plain

DAIRY, SMALL, SHARED = "dairy_with_leftovers", "small_herd_manure_only", "shared_plant_three_farms"
INSTEAD = """
[instead]
rent_per_year = 12000
rent_digestate_value_per_year = 3000
cover_cost = 90000
cover_income_per_year = 14000
cover_upkeep_per_year = 2000
separator_cost = 50000
separator_saving_per_year = 9000
separator_upkeep_per_year = 1500
upgrading_cost = 900000

[upgrading]
contract_price_per_kwh = 0.08
market_price_per_kwh = 0.03
upkeep_per_year = 40000
capacity_nm3_per_hour = 200
"""


def _plan(loaded: Loaded, name: str) -> Loaded:
    found = alternative(loaded, name).plan
    assert found is not None
    return found


def _with_others() -> Loaded:
    return loads(plain(DAIRY).text + INSTEAD)


@pytest.mark.parametrize("name", DEMOS)
def test_every_way_is_a_scenario_or_says_why_not(name: str) -> None:
    found = alternatives(plain(name))
    assert len({each.name for each in found}) == len(found)
    for each in found:
        assert (each.plan is None) == bool(each.missing)
        if each.plan is not None:
            assert loads(each.plan.text).fingerprint == each.plan.fingerprint
            assert each.plan.scenario.project.name == each.label


@pytest.mark.parametrize("name", DEMOS)
def test_the_farm_as_it_is_moves_no_money_at_all(name: str) -> None:
    case = appraise(_plan(plain(name), "as_it_is"))
    money = [case.values[line] for line, node in case.plan.nodes.items() if node.line.role]
    assert money and all(not array.any() for array in money)


def test_against_the_farm_as_it_is_a_plan_is_worth_its_own_worth() -> None:
    plan = plain(DAIRY)
    found = compare([_plan(plan, "as_it_is"), plan], Settings(600))
    assert found.against[0].npv_difference == appraise(plan).headline.npv[0]


def test_rent_is_what_the_contract_says_and_nothing_else() -> None:
    case = appraise(_plan(_with_others(), "rent"))
    scenario = case.loaded.scenario
    start, income = int(scenario.project.build_months), scenario.other_income["rent"]
    assert (income.per_year, scenario.other_income["digestate"].per_year) == (12000, 3000)
    paid = case.values["other_income.rent.received"][0]
    assert not paid[:start].any()
    assert paid[start : start + 12].sum() == pytest.approx(12000, rel=0.03)  # months' lengths, and the yearly rise
    moved = {line for line, node in case.plan.nodes.items() if node.line.role and case.values[line].any()}
    assert moved == {"other_income.rent.received", "other_income.digestate.worth", "tax_paid"}


@pytest.mark.parametrize("name", ["cover_and_flare", "separator", "gas"])
def test_what_is_given_can_be_compared(name: str) -> None:
    plan = _plan(_with_others(), name)
    cost = {"cover_and_flare": 90000, "separator": 50000, "gas": 900000}[name]
    items = plan.scenario.capital.values()
    assert cost in [item.amount for item in items]
    assert not any(item.category == "engine" for item in items)
    assert np.isfinite(appraise(plan).headline.npv[0])


@pytest.mark.parametrize(
    ("name", "path"),
    [("rent", "instead.rent_per_year"), ("separator", "instead.separator_cost"), ("gas", "upgrading.contract_price")],
)
def test_what_is_missing_is_named(name: str, path: str) -> None:
    with pytest.raises(RiskError, match=path):
        alternative(plain(DAIRY), name)


def test_a_lost_feed_takes_its_ranges_and_sources_along() -> None:
    plan = _plan(plain(DAIRY), "manure_only")
    assert not plan.scenario.feed and "reception" not in plan.scenario.capital
    assert not any(path.startswith("feed.") for path in plan.scenario.range)
    assert "capital.digester.amount" in plan.scenario.range
    shared = _plan(plain(SHARED), "without_potato_peel")
    assert all("potato_peel" not in partner.brings for partner in shared.scenario.partner.values())


def test_a_larger_engine_carries_its_cost_and_the_range_of_it() -> None:
    before, after = plain(DAIRY), _plan(plain(DAIRY), "larger_engine")
    path, factor = "capital.engine_set.amount", 1.25**0.7
    assert after.scenario.engine["main"].rated_kw == 375
    assert after.scenario.capital["engine_set"].amount == pytest.approx(610000 * factor)
    high = before.scenario.range[path].high
    assert high is not None and after.scenario.range[path].high == pytest.approx(high * factor)


def test_waiting_raises_money_by_inflation_and_moves_the_start() -> None:
    before, after = plain(DAIRY).scenario, _plan(plain(DAIRY), "wait").scenario
    rise = 1.023**2
    assert after.project.first_month == "2029-04"
    assert after.capital["digester"].amount == pytest.approx(before.capital["digester"].amount * rise)
    assert after.farm_now.power_bill[3] == pytest.approx(before.farm_now.power_bill[3] * rise)
    assert after.grant["state_energy"].at_most == before.grant["state_energy"].at_most
    assert after.engine["main"].rated_kw == before.engine["main"].rated_kw
    path = "power.contract_price_per_kwh"
    assert after.range[path].low == pytest.approx(0.13 * rise)


def test_the_smallest_grant_leaves_a_worth_of_nothing() -> None:
    plan = _plan(plain(SMALL), "least_grant")
    assert appraise(plan).headline.npv[0] == pytest.approx(0, abs=1e-3)


def test_a_plan_with_moved_levers_is_not_edited() -> None:
    from appraisal.risk.changes import changed_scenario

    moved = changed_scenario(plain(DAIRY), {"power.contract_price_per_kwh": 0.12})
    found: tuple[Alternative, ...] = alternatives(moved)
    assert all(each.plan is None and "levers" in each.missing for each in found)


def test_commands_list_and_compare() -> None:
    run = CliRunner().invoke
    listed = run(main, ["compare", "--demo", DAIRY, "--ways", "--json"])
    assert listed.exit_code == 0
    names = [each["name"] for each in json.loads(listed.stdout)["ways"]]
    told = {each["name"]: each["figures"] for each in json.loads(listed.stdout)["ways"]}
    assert told["as_it_is"] == {"npv": 0, "least_cover": None, "lowest_cash": 0, "payback_years": None}
    assert told["rent"] is None and set(told["wait"]) == set(told["as_it_is"])
    page = run(main, ["compare", "--demo", DAIRY, "--ways"]).stdout
    assert f"{told['manure_only']['npv']:,.0f}" in page and "--with NAME" in page
    assert {"as_it_is", "manure_only", "without_whey", "wait", "rent"} <= set(names)
    made = run(main, ["compare", "--demo", DAIRY, "--with", "as_it_is", "--with", "wait", "--draws", "64", "--json"])
    assert made.exit_code == 0, made.output
    assert [each["npv"] for each in json.loads(made.stdout)["plans"]][1] == 0
    unknown = run(main, ["compare", "--demo", DAIRY, "--with", "nuclear"])
    assert unknown.exit_code == 2 and "without_bakery" in unknown.output


def test_ranges_of_a_multiplied_value_can_be_edited_from_a_file_too() -> None:
    dearer = edited(DAIRY, ('bought_price_per_kwh = "14 ct/kWh"', "bought_price_per_kwh = 0.2"))
    assert _plan(dearer, "wait").scenario.power.bought_price_per_kwh == pytest.approx(0.2 * 1.023**2)


def test_a_farm_just_begun_without_any_range_has_its_ways_too() -> None:
    """As `appraisal new` writes it: no ranges, no sources, no correlations to take along."""
    begun = loads(starter_short())
    assert not begun.scenario.range
    assert {each.name for each in alternatives(begun) if each.plan is not None} >= {"as_it_is", "without_grant", "least_grant"}
