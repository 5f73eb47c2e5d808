"""Values that are fine alone and wrong together, misplaced ranges and sources, and common slips of the pen."""

from __future__ import annotations

from collections.abc import Mapping

import pytest

from appraisal.scenario.checks import CHECKS, ORIGIN_CHECKS
from tests.edges.scenario_text import TABLES, changed, only_fault, toml

# For every check: what to change in the starter, and the path and words of the one fault that follows.
CASES: Mapping[str, tuple[tuple[tuple[str, str], ...], str, str]] = {
    "currency_code": ((('currency = "USD"', 'currency = "usd"'),), "project.currency", "write USD"),
    "calendar_month": ((('"2027-04"', '"2027-13"'),), "project.first_month", "2027-04"),
    "time_to_run": ((("# build_months = 12", "build_months = 59"), ("years = 21", "years = 5"), (
        "# ramp_months = 6", "ramp_months = 1"), ("\nyears = 12", "\nyears = 4")), "project.build_months", "60 month"),
    "something_to_digest": ((("[herd.cows]", "[x]"), ("[feed.whey]", "[y]")), "", "nothing goes into"),
    "one_name_each": ((("[herd.cows]", "[herd.whey]"),), "feed.whey", "already has this name"),
    "achieved_yield": ((('like = "sweet_whey"', 'like = "sweet_whey"\npotential_kind = "achieved"'),),
                       "feed.whey.achieved_nm3_per_t", "0 Nm3/t"),
    "some_season": ((("# monthly_weight = 1", "monthly_weight = 0"),), "feed.whey.monthly_weight", "all twelve"),
    "measured_gas": ((('# gas_method = "model"', 'gas_method = "measured"'),),
                     "digester.measured_gas_nm3_per_day", "0 Nm3/day"),
    "hot_enough": ((('treats = "nothing"', 'treats = "everything"\ntemperature_degc = 55'), (
        'kind = "stirred_tank"', 'kind = "stirred_tank"\ntemperature_degc = 57')),
        "pasteuriser.temperature_degc", "57 degC"),
    "energy_balance_of_engines": ((("rated_kw = 75", "rated_kw = 75\nefficiency_full = 0.5\nheat_efficiency_full = 0.6"),),
                                  "engine.main", "below 1 share"),
    "order_of_overhauls": ((("# major_interval_hours = 30000", "major_interval_hours = 12000"),),
                           "engine.main.major_interval_hours", "12000 hour"),
    "overhauls_paid_once": ((('# maintenance = "routine"', 'maintenance = "full_service"'), (
        "top_end_cost = 6000", "top_end_cost = 0")), "engine.main.major_cost", "28000 money"),
    "power_bill": ((('power_kwh = "9000 kWh/month"', "power_kwh = 0"),), "farm_now.power_bill", "16200 money/year"),
    "heating_fuel_bill": ((("# heating_fuel_kwh = 0", "heating_fuel_kwh = 100"),),
                          "farm_now.heating_fuel_kwh", "1200 kWh/year"),
    "payments_within_project": ((("# first_month = 0", "first_month = 241"),), "capital.plant.first_month", "month 252"),
    "grants_within_project": ((("# arrives_in_month = 18", "arrives_in_month = 252"),),
                              "grant.public.arrives_in_month", "below month 252"),
    "loan_terms": ((("# interest_only_months = 12", "interest_only_months = 120"), ("\nyears = 12", "\nyears = 10")),
                   "loan.bank.interest_only_months", "below 120 month"),
    "no_more_loan_than_cost": ((("amount = 380000", "amount = 682001"),), "loan", "at most 682000 USD"),
    "overhaul_costs_given": ((("top_end_cost = 6000", ""),), "engine.main.top_end_cost", "full_service"),
    "declared_retention": ((('# retention = "from_volume"', 'retention = "declared"'),),
                           "digester.declared_retention_days", "1 to 400 day"),
    "reference_potential": ((('like = "sweet_whey"', 'like = "sweet_whey"\npotential_kind = "ultimate"'),),
                            "feed.whey.potential_nm3_per_t_vs", "Nm3/t VS"),
    "end_of_contract": ((("contract_years = 10", ""),), "feed.whey.contract_years", "0 to 60 year"),
    "fee_after_contract": ((("gate_fee_per_t = 4", "gate_fee_per_t = -4"),), "feed.whey.gate_fee_after_per_t", "money/t"),
}


def test_every_check_has_a_case() -> None:
    assert set(CASES) == {check.run.__name__ for check in (*CHECKS, *ORIGIN_CHECKS)}


@pytest.mark.parametrize("name", [name for name in CASES if name != "something_to_digest"])
def test_values_that_do_not_go_together_are_refused(name: str) -> None:
    swaps, path, words = CASES[name]
    fault = only_fault(changed(*swaps))
    assert fault.path == path
    assert words in fault.text("farm.toml")


def test_a_digester_without_any_feed_is_refused() -> None:
    tables = {name: table for name, table in TABLES.items() if name not in ("herd", "feed", "range", "source")}
    assert CASES["something_to_digest"][2] in only_fault("\n".join(toml(tables))).what


@pytest.mark.parametrize(("swaps", "path", "words"), [
    (("rated_kw = 75", "rated_kw = 75\nefficiency_full = 0.3\nefficiency_half = 0.31"),
     "engine.main.efficiency_half", "exchanged"),
    (("rated_kw = 75", "rated_kw = 75\nefficiency_half = 0.35\nheat_efficiency_half = 0.65"), "engine.main", "half load"),
    (("\nyears = 12", "\nyears = 22"), "loan.bank.years", "at most 21 year"),
    (("power_bill = 1350", "power_bill = 0"), "farm_now.power_kwh", "108000 kWh/year"),
], ids=lambda each: each if isinstance(each, str) else "")
def test_the_other_side_of_a_check(swaps: tuple[str, str], path: str, words: str) -> None:
    fault = only_fault(changed(swaps))
    assert fault.path == path
    assert words in fault.text("farm.toml")


RANGE, SOURCE = '[range."feed.whey.tonnes_per_year"]', '[source."feed.whey.tonnes_per_year"]'


@pytest.mark.parametrize(("old", "new", "path", "words"), [
    (RANGE, '[range."feed.wey.tonnes_per_year"]', 'range."feed.wey.tonnes_per_year"', "did you mean `feed.whey.tonnes"),
    (RANGE, "[range.feed.whey.tonnes_per_year]", "range.feed", 'write [range."feed.whey.tonnes_per_year"]'),
    (RANGE, '[range."project.years"]', 'range."project.years"', "make a second scenario instead"),
    (RANGE, '[range."digester.kind"]', 'range."digester.kind"', "make a second scenario instead"),
    (RANGE, '[range."project.name"]', 'range."project.name"', "a text has no range"),
    (RANGE, '[range."heat.barn_kwh"]', 'range."heat.barn_kwh"', "twelve monthly values"),
    ('low = "1650 short_ton/year"', "low = -1", 'range."feed.whey.tonnes_per_year".low', "0 to 1000000 t/year"),
    ('low = "1650 short_ton/year"', 'low = "9 kW"', 'range."feed.whey.tonnes_per_year".low', "the field counts t/year"),
    ('low = "1650 short_ton/year"', "low = nan", 'range."feed.whey.tonnes_per_year".low', "not a finite number"),
    ('low = "1650 short_ton/year"', "", 'range."feed.whey.tonnes_per_year".low', "needed"),
    ('low = "1650 short_ton/year"', "low = 5000", 'range."feed.whey.tonnes_per_year"', "low must lie under high"),
    ('high = "4000 short_ton/year"', "high = 2000", 'range."feed.whey.tonnes_per_year"', "2993.71 t/year"),
    ('shape = "triangular"', 'shape = "round"', 'range."feed.whey.tonnes_per_year".shape', "triangular or pert"),
    ("reason =", "reasn =", 'range."feed.whey.tonnes_per_year".reasn', "did you mean `reason`?"),
    (SOURCE, '[source."feed.whey.tonnes"]', 'source."feed.whey.tonnes"', "did you mean `feed.whey.tonnes_per_year`?"),
    (SOURCE, '[source."feed.whey.ts_share"]', 'source."feed.whey.ts_share"', "leaves out"),
    ('known = "invented"', 'known = "gues"', 'source."feed.whey.tonnes_per_year".known', "did you mean `guess`?"),
])
def test_a_range_or_source_that_cannot_be_used_is_refused(old: str, new: str, path: str, words: str) -> None:
    fault = only_fault(changed((old, new)))
    assert fault.path == path
    assert words in fault.text("farm.toml")
    assert fault.line is not None


def test_a_refused_value_does_not_make_its_range_a_second_fault() -> None:
    assert only_fault(changed(('= "3300 short_ton/year"', "= -1"))).path == "feed.whey.tonnes_per_year"


@pytest.mark.parametrize(("old", "new", "path", "words"), [
    ('like = "sweet_whey"', 'like = "sweet_wey"', "feed.whey.like", "did you mean `sweet_whey`?"),
    ('like = "sweet_whey"\n', "", "feed.whey.like", "ts_share, vs_share_of_ts"),
    ('animal = "dairy_lactating"', "", "herd.cows.animal", "manure_t_per_head_year, b0_m3_per_kg_vs"),
    ('climate = "us_new_york_syracuse"', 'climate = "syracuse"', "site.climate", "us_new_york_syracuse"),
    ('first_month = "2027-04"', "first_month = 2027-04-01", "project.first_month", 'write it in quotes: "2027-04-01"'),
    ('# regulated = "no"', "regulated = true", "feed.whey.regulated", 'write "yes", in quotes'),
    ("gate_fee_per_t = 4", 'gate_fee_per_t = "4 EUR/t"', "feed.whey.gate_fee_per_t", "the scenario counts in USD"),
    ("power_bill = 1350", "power_bill = [1, 2, 3]", "farm_now.power_bill", "January first"),
    ("power_bill = 1350", "power_bill = [1,2,3,4,5,true,7,-8,9,10,11,12]", "farm_now.power_bill",
     "entry 6 (June), and 1 more: not a number"),
    ("power_bill = 1350", "power_bill = [1,2,3,4,5,6,7,-8,9,10,11,12]", "farm_now.power_bill",
     "entry 8 (August): below the allowed range"),
    ('= "90 %"', "= [1,1,1,1,1,1,1,90,1,1,1,1]", "herd.cows.collected_share", "write 0.9 for 90 %"),
    ("schema_version = 1", "schema_version = 2", "schema_version", "newer release"),
    ("schema_version = 1", "schema_version = 0", "schema_version", "too old"),
    ("schema_version = 1", 'schema_version = "1"', "schema_version", "not a whole number"),
    ("schema_version = 1", "", "schema_version", "write schema_version = 1"),
], ids=lambda each: each[:30])
def test_a_slip_of_the_pen_names_what_was_meant(old: str, new: str, path: str, words: str) -> None:
    fault = only_fault(changed((old, new)))
    assert fault.path == path
    assert words in fault.text("farm.toml")
