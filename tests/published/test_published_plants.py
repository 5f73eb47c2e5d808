"""Published plants through the whole chain, and published handbook figures through single lines.

A scenario file in `plants/` cites its source and declares once what the source leaves open. Of the Bavarian set only
the two manure groups are here: the recipes of its two crop groups are not fully listed in the extract used. Of the food
waste plant, 405 kWh recoverable per tonne is left out: the extract does not say what it counts as used.
"""

from __future__ import annotations

import numpy as np
import pytest

from appraisal.constants import CONSTANTS
from appraisal.scenario.reference import row
from appraisal.technical_yield import feed as feed_lines
from appraisal.technical_yield import gas
from appraisal.technical_yield.reconcile import engine_against_energy
from tests.published.plant_files import Swaps, at, in_plant_year, published

CONSTANT = {constant.name: constant.value for constant in CONSTANTS}
FNR_EFFICIENCY = 0.38


# 350 kW on crops and slurry: energypedia, Substrate types and management, after the FNR guide of 2012.

WHEAT_AS_GRAIN: Swaps = (("achieved_nm3_per_t = 105", "achieved_nm3_per_t = 329"),)


def test_crop_plant_makes_the_published_methane() -> None:
    assert published("crop_plant_350_kw").plant.methane_nm3 == pytest.approx(730_000, rel=0.05)


def test_crop_plant_runs_the_published_hours() -> None:
    plant = published("crop_plant_350_kw")
    assert 7_500 < plant.plant.power_gross_kwh / 350 < 8_500
    assert not at(plant, "methane_flared") and not at(plant, "power_gross")


def test_wheat_taken_as_grain_is_questioned() -> None:
    """329 Nm3/t is the FNR yield of grain: 954,000 Nm3 would need over 10,000 hours of a 350 kW engine."""
    plant = published("crop_plant_350_kw", WHEAT_AS_GRAIN)
    assert plant.plant.methane_nm3 == pytest.approx(954_000, rel=0.05)
    assert [finding.severity for finding in at(plant, "methane_flared")] == ["stop and ask"]


def test_power_promised_from_wheat_grain_is_impossible() -> None:
    methane = published("crop_plant_350_kw", WHEAT_AS_GRAIN).plant.methane_nm3
    promised = methane * CONSTANT["methane_kwh_per_nm3"] * FNR_EFFICIENCY
    found = engine_against_energy(rated_kw=350, kwh_per_year=promised, where="promise", whose="promised")
    assert promised / 350 > 10_000
    assert found is not None and found.severity == "stop and ask" and "impossible" in found.what


# Bavarian manure plants: open parameter set of the Bavarian State Research Centre for Agriculture, 2024.

MANURE_PLANTS = [("manure_plants_arable", 23.16, 25.56), ("manure_plants_grassland", 25.34, 27.18)]


@pytest.mark.parametrize(("name", "predicted", "reported"), MANURE_PLANTS)
def test_manure_plants_yield_the_sum_of_their_recipe(name: str, predicted: float, reported: float) -> None:
    """Predicted: recipe x coefficients, within 0.3 %. Realism: plants report 0 to 31 % more than that sum."""
    plant = published(name).plant
    per_tonne = plant.methane_nm3 / plant.tonnes_fed
    assert per_tonne == pytest.approx(predicted, rel=0.003)
    assert 1.0 <= reported / per_tonne <= 1.31


@pytest.mark.parametrize(("feed", "coefficient"), [
    ("dairy_slurry", 16.17), ("cattle_solid_manure", 38.05), ("pig_slurry", 8.03), ("poultry_manure_layer", 102.8),
    ("maize_silage", 121.0), ("grass_silage", 79.7), ("cereal_whole_crop", 115.0),
])
def test_reference_rows_hold_the_bavarian_coefficients(feed: str, coefficient: float) -> None:
    facts = row("feedstocks", feed)
    solids = feed_lines.substrate_volatile_solids__feed(
        feed_lines.substrate_dry_matter__feed(np.array(1.0), float(facts["ts_pct"]) / 100), float(facts["vs_pct_of_ts"]) / 100)
    tested = gas.substrate_potential__ordinary_test(solids, float(facts["bmp_mid"]), 1.0)
    assert tested == pytest.approx(coefficient, rel=0.003)


# Household food waste: Banks, Chesshire, Heaven, Arnold 2011, Bioresource Technology 102:612-620.

FOOD_WASTE_METHANE = 642 * 0.62 * 0.244  # Nm3 per tonne fresh: gas per t VS and methane share read, VS from memory
FOOD_WASTE_ACHIEVED: Swaps = (
    ('potential_kind = "ordinary_test"', f'potential_kind = "achieved"\nachieved_nm3_per_t = {FOOD_WASTE_METHANE}'),)


def food_waste_methane(swaps: Swaps) -> float:
    """Methane per tonne fresh [Nm3/t]."""
    plant = published("household_food_waste", swaps).plant
    return plant.methane_nm3 / plant.tonnes_fed


def test_food_waste_gives_its_achieved_yield() -> None:
    """97 Nm3 and 968 kWh of gas a tonne, as they follow from the publication, within 3 %."""
    per_tonne = food_waste_methane(FOOD_WASTE_ACHIEVED)
    assert per_tonne == pytest.approx(97, rel=0.03)
    assert per_tonne * CONSTANT["methane_kwh_per_nm3"] == pytest.approx(968, rel=0.03)


@pytest.mark.xfail(
    strict=True, reason="The middle potential of the reference row, 420 Nm3/t VS by an ordinary test, stands between "
    "plants and laboratories of several countries; with its rate constant (from memory) and 80 days the model gives "
    "105.5 Nm3/t, 8.7 % over the 97.1 of this plant; what the two ends of the row give encloses it (next test).")
def test_food_waste_by_the_reference_row_within_three_percent() -> None:
    assert food_waste_methane(()) == pytest.approx(FOOD_WASTE_METHANE, rel=0.03)


def test_food_waste_plant_lies_in_the_range_of_the_reference_row() -> None:
    facts, here = row("feedstocks", "food_waste_household"), "vs_share_of_ts = 0.881"
    low, high = (food_waste_methane(((here, f"potential_nm3_per_t_vs = {facts[name]}\n{here}"),))
                 for name in ("bmp_low", "bmp_high"))
    assert low < FOOD_WASTE_METHANE < high


@pytest.mark.parametrize("swaps", [(), FOOD_WASTE_ACHIEVED])
def test_food_waste_alone_raises_the_ammonia_finding(swaps: Swaps) -> None:
    """8.9 kg N a tonne, 60 % of it as ammonium, is 5.3 g per litre: past the warning of 4.5."""
    found = at(published("household_food_waste", swaps), "ammonium_level")
    assert [finding.severity in ("warning", "stop and ask") for finding in found] == [True]
    assert found[0].value is not None and found[0].value >= 8.9 * 0.6


def test_ammonium_of_food_waste_lies_where_digestates_were_published() -> None:
    """60 % of the nitrogen (Banks et al. 2011, from memory) to 80 % (British field trials, read second-hand)."""
    plant = published("household_food_waste")
    share = plant.values["digestate_ammonium"][0, -1] / plant.values["nitrogen_fed"][0, -1]
    assert 0.6 < share < 0.8


def test_food_waste_retention_without_dilution_water_is_questioned() -> None:
    """2.5 kg VS a m3 and day is 98 days of undiluted feed, against the 80 that are recalled."""
    found = at(published("household_food_waste"), "digester.declared_retention_days")
    assert found[0].limit == pytest.approx(98, abs=0.5)


# Plug flow on 750 cows: Nelson & Lamb, final report, The Minnesota Project, August 2002.

SPLIT_OF_POWER: Swaps = (
    ("[digester]", "[farm_now]\npower_kwh = 41062.5\npower_bill = 2977.03\npower_bill_energy_share = 1\n\n[digester]"),
    ('contract_price_per_kwh = "7.25 ct/kWh"', 'contract_price_per_kwh = "2.5 ct/kWh"\nfarm_use_matched_share = 1'),
)
PAID = 355_000


def test_plug_flow_earns_the_published_income() -> None:
    income = in_plant_year(published("plug_flow_750_cows"), "cash_income")
    assert income == pytest.approx(81_000, rel=0.03)
    assert income == pytest.approx(3_000 * 365 * 0.0725, rel=0.03)


def test_plug_flow_energy_per_cow_and_hour() -> None:
    """4 kWh a cow and day; 92.6 % of its real output in every hour."""
    plant = published("plug_flow_750_cows").plant
    assert plant.power_gross_kwh / 365 / 750 == pytest.approx(4.0, rel=0.03)
    assert plant.capacity_factor == pytest.approx(0.926, rel=0.01)


def test_plug_flow_funding_adds_up_exactly() -> None:
    values = published("plug_flow_750_cows").values
    names = ("investment", "grants", "loans_drawn", "fees_paid", "interest_paid")
    paid, grants, drawn, fees, interest = (float(values[name].sum()) for name in names)
    assert (round(-paid, 6), round(grants, 6), round(drawn, 6), fees, interest) == (PAID, 127_500, 150_000, 0, 0)
    assert -paid - grants - drawn == pytest.approx(77_500, abs=1e-6)
    assert values["loan.interest_free.closing"][0, -1] == pytest.approx(0, abs=1e-6)


def test_plug_flow_pays_back_as_said() -> None:
    """4.4 to 5.4 years before running costs, 5.5 to 6.6 after upkeep."""
    plant = published("plug_flow_750_cows")
    assert 4.4 <= PAID / in_plant_year(plant, "cash_income") <= 5.4
    assert 5.5 <= PAID / in_plant_year(plant, "operating_result") <= 6.6


def test_plug_flow_without_the_full_price_for_its_surplus() -> None:
    """45 % used on the farm at 7.25 ct, 55 % sold at 2.5 ct: 50,800 USD, 7 years before upkeep, over 10 after it."""
    plant = published("plug_flow_750_cows", SPLIT_OF_POWER)
    gained = in_plant_year(plant, "cash_income") + in_plant_year(plant, "evidenced_savings")
    assert gained == pytest.approx(50_800, rel=0.01)
    assert PAID / gained == pytest.approx(7, rel=0.03)
    assert PAID / in_plant_year(plant, "operating_result") > 10


def test_plug_flow_three_weeks_are_questioned() -> None:
    found = at(published("plug_flow_750_cows"), "claims.retention_days")
    assert [finding.limit for finding in found] == [pytest.approx(15.9, abs=0.05)]
