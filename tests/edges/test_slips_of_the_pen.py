"""Misplaced ranges and sources, and common slips of the pen."""

from __future__ import annotations

import pytest

from tests.edges.scenario_text import changed, only_fault

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
    ("\nreason =", "\nreasn =", 'range."feed.whey.tonnes_per_year".reasn', "did you mean `reason`?"),
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
    ("contract_price_per_kwh = 0.14", "contract_price_per_kwh = 14", "power.contract_price_per_kwh", '"14 ct/kWh" or 0.14'),
    ("# temperature_degc = 39", "temperature_degc = 102", "digester.temperature_degc", 'write "102 degF" if Fahrenheit'),
    ("amount = 620000", "amount = 620,000", "", "write 620000 or 620"),
    ("contract_price_per_kwh = 0.14", "contract_price_per_kwh = 0,14", "", "write 0.14"),
    ("schema_version = 1", "schema_version = 2", "schema_version", "newer release"),
    ("schema_version = 1", "schema_version = 0", "schema_version", "too old"),
    ("schema_version = 1", 'schema_version = "1"', "schema_version", "not a whole number"),
    ("schema_version = 1", "", "schema_version", "write schema_version = 1"),
], ids=lambda each: each[:30])
def test_a_slip_of_the_pen_names_what_was_meant(old: str, new: str, path: str, words: str) -> None:
    fault = only_fault(changed((old, new)))
    assert fault.path == path
    assert words in fault.text("farm.toml")
