"""The tables on emissions, credits and land follow from themselves and from each other."""

from __future__ import annotations

import math
from itertools import pairwise

import pytest

from appraisal.scenario import reference

TEMPERATURES = range(10, 29)
SYSTEMS_2006 = sorted({row["system"] for row in reference.rows("manure_methane_2006")})
ZONES = tuple(row["id"] for row in reference.rows("climate_zones"))
SLURRY_MONTHS = ("1", "3", "4", "6", "12")


def value(table: str, id: str, column: str) -> float:
    return reference.figure(table, id, column).value


def near(got: float, expected: float, share: float) -> bool:
    return math.isclose(got, expected, rel_tol=share)


@pytest.mark.parametrize("system", SYSTEMS_2006)
def test_factors_of_2006_are_whole_and_rise_with_temperature(system: str) -> None:
    factors = [value("manure_methane_2006", f"{system}_{degree}", "mcf_pct") for degree in TEMPERATURES]
    assert all(0 < cold <= warm <= 80 for cold, warm in pairwise(factors)), factors
    assert [value("manure_methane_2006", f"{system}_{degree}", "temperature_degC") for degree in TEMPERATURES] == list(
        TEMPERATURES
    )


def test_a_crust_keeps_back_two_fifths() -> None:
    for degree in TEMPERATURES:
        bare, crust = (
            value("manure_methane_2006", f"slurry_{kind}_{degree}", "mcf_pct") for kind in ("no_crust", "crust")
        )
        assert abs(crust - 0.6 * bare) <= 2, degree  # printed in whole per cents
    for zone in ZONES:
        for months in SLURRY_MONTHS:
            bare, crust = (
                value("manure_methane_2019", f"slurry_{kind}_{zone}_{months}", "mcf_pct")
                for kind in ("no_crust", "crust")
            )
            assert near(crust, 0.6 * bare, 1e-6), (zone, months)


@pytest.mark.parametrize("zone", ZONES)
def test_longer_in_store_gives_more_methane(zone: str) -> None:
    for system in ("slurry_no_crust", "slurry_crust", "pit_over_1_month"):
        factors = [value("manure_methane_2019", f"{system}_{zone}_{m}", "mcf_pct") for m in SLURRY_MONTHS]
        assert factors == sorted(factors) and max(factors) <= 80, (system, factors)


def test_every_row_of_2019_stands_in_a_known_zone() -> None:
    for row in reference.rows("manure_methane_2019"):
        assert row["climate_zone"] in ZONES
        assert row["id"] == "_".join(p for p in (row["system"], row["climate_zone"], row["retention_months"]) if p)


@pytest.mark.parametrize("edition", ["2006", "2019"])
def test_every_store_has_its_nitrous_oxide(edition: str) -> None:
    for system in {row["system"] for row in reference.rows(f"manure_methane_{edition}")}:
        assert 0 <= value("manure_n2o", f"{edition}_direct_{system}", "mid") <= 0.1, system


def test_a_wet_climate_gives_more_nitrous_oxide_than_a_dry_one() -> None:
    wet, dry = (reference.row("field_n2o", f"ipcc_2019_{climate}") for climate in ("wet", "dry"))
    assert all(float(dry[part]) < float(wet[part]) for part in ("ef1_organic", "ef1_mineral", "ef4", "leach"))


def test_named_sets_of_warming_factors_are_rows_of_the_long_table() -> None:
    kinds = {
        "methane_biogenic": ("CH4_non-fossil", "CH4_all"),
        "methane_fossil": ("CH4_fossil", "CH4_all"),
        "nitrous_oxide": ("N2O_all",),
    }
    long = {row["id"]: row["value"] for row in reference.rows("gwp")}
    for row in reference.rows("gwp_sets"):
        name, _, years = row["id"].rpartition("_")
        for column, tried in kinds.items():
            known = [long[id] for kind in tried if (id := f"{name}_{kind}_{years}") in long]
            blank = row["id"] == "AR5_feedback_100" and column == "methane_fossil"
            assert row[column] == ("" if blank else known[0]), (row["id"], column)


def test_excreted_solids_agree_with_weight_and_with_the_animals() -> None:
    for row in reference.rows("manure_potential"):
        per_head = float(row["vs_kg_per_1000kg_d"]) * float(row["live_weight_kg"]) / 1000
        assert near(per_head, float(row["vs_kg_per_head_d"]), 0.04), row["id"]  # hens are printed with two digits
    same = {
        "ipcc19_dairy_na": "2019_dairy_na",
        "ipcc19_dairy_we": "2019_dairy_we",
        "ipcc19_other_na": "2019_other_cattle_na",
        "ipcc19_swine_fin_we": "2019_swine_finishing_we",
        "ipcc06_dairy_na": "2006_dairy_na",
        "ipcc06_dairy_we": "2006_dairy_we",
        "ipcc06_other_we": "2006_other_cattle_we",
    }
    for animal, row_id in same.items():
        for ours, theirs in (("vs_kg_per_head_d", "vs_kg_per_head_d"), ("b0_m3_per_kg_vs", "b0_m3ch4_per_kg_vs")):
            assert near(value("manure_potential", row_id, ours), value("animals", animal, theirs), 1e-3), (animal, ours)


def test_store_model_sets_are_whole_and_give_their_printed_ends() -> None:
    needed = (
        "activation_energy",
        "gas_constant",
        "reference_temperature",
        "ceiling_temperature",
        "design_practice_factor",
        "methane_density",
        "carry_over_after_emptying",
    )
    for set_ in ("us_livestock_offset", "ipcc_2019_annex"):
        assert all(value("store_model", f"{set_}_{name}", "value") >= 0 for name in needed)
    us = {
        name: value("store_model", f"us_livestock_offset_{name}", "value")
        for name in (*needed, "floor_temperature", "factor_at_floor", "factor_at_ceiling", "kelvin_offset")
    }
    for end, printed in (("floor", us["factor_at_floor"]), ("ceiling", us["factor_at_ceiling"])):
        kelvin = us[f"{end}_temperature"] + us["kelvin_offset"]
        exponent = (
            us["activation_energy"]
            * (kelvin - us["reference_temperature"])
            / (us["gas_constant"] * us["reference_temperature"] * kelvin)
        )
        assert near(math.exp(exponent), printed, 0.011), end


def test_gas_collected_over_the_life_of_food_waste_follows_from_the_schedule() -> None:
    rate = value("landfill", "us_epa_2023_k_food_national_mix", "mid")
    schedule = [row for row in reference.rows("landfill") if row["parameter"] == "collection_efficiency"]
    ends = [(float(row["year_from"]), float(row["year_to"]), float(row["mid"])) for row in schedule]
    assert all(before[1] + 1 == after[0] for before, after in pairwise(ends))
    mean = sum(share * (math.exp(-rate * first) - math.exp(-rate * (last + 1))) for first, last, share in ends)
    assert near(mean, value("landfill", "us_epa_2023_collected_life_average", "mid"), 1e-3)


def test_food_rots_faster_where_it_is_wet() -> None:
    for climate in ("boreal_temperate", "tropical"):
        dry, wet = (value("landfill", f"ipcc_2006_k_food_{climate}_{rain}", "mid") for rain in ("dry", "wet"))
        assert dry < wet


def test_grid_factors_follow_from_the_three_gases() -> None:
    pound = 0.45359237
    for row in reference.rows("grid_factors"):
        assert 0 <= float(row["kg_co2e_per_kwh"]) < 1.5, row["id"]
        if row["co2_lb_per_mwh"]:
            made = float(row["co2_lb_per_mwh"]) + 28 * float(row["ch4_lb_per_mwh"]) + 265 * float(row["n2o_lb_per_mwh"])
            assert abs(made * pound / 1000 - float(row["kg_co2e_per_kwh"])) < 1e-4, row["id"]


def test_fuel_columns_agree() -> None:
    for row in reference.rows("fuels"):
        if row["kg_co2_per_gj_lhv"]:
            per_kwh = float(row["kg_co2_per_gj_lhv"]) * 0.0036
            assert near(per_kwh, float(row["kg_co2_per_kwh_lhv"]), 1e-3) or per_kwh == 0, row["id"]
            gross = float(row["kg_co2_per_kwh_lhv"]) / float(row["hhv_over_lhv"])
            assert near(gross, float(row["kg_co2_per_kwh_hhv"]), 2e-3) or gross == 0, row["id"]
        if row["kg_co2_per_mmbtu_hhv"]:
            assert near(float(row["kg_co2_per_mmbtu_hhv"]) / 293.071, float(row["kg_co2_per_kwh_hhv"]), 1e-3), row["id"]


def test_crops_and_separators_stay_within_nature() -> None:
    for row in reference.rows("crops"):
        taken = float(row["removal_n_kg_t"]) * float(row["yield_mid"])
        assert 40 <= taken <= 300, (row["id"], taken)  # kg N/ha
    for row in reference.rows("separation"):
        mass, solids = float(row["solids_mass_share_mid"]), float(row["solids_ts_share_mid"])
        assert mass < solids < 1 and float(row["solids_k_share_mid"]) <= mass, row["id"]


def test_closed_months_lie_inside_the_closed_dates() -> None:
    for row in reference.rows("closed_periods"):
        months = [int(text) for text in row["closed_months"].split(";") if text]
        assert all(later == earlier % 12 + 1 for earlier, later in pairwise(months)), row["id"]
        if months:
            first, last = int(row["closed_from_mm_dd"][:2]), int(row["closed_to_mm_dd"][:2])
            assert months[0] in (first, first % 12 + 1) and months[-1] in (last, (last - 2) % 12 + 1), row["id"]


def test_programmes_are_kinds_or_instances_of_kinds() -> None:
    table = reference.rows("credit_programmes")
    kinds = {row["kind"] for row in table if row["level"] == "kind"}
    assert len(kinds) == sum(row["level"] == "kind" for row in table)
    assert all(row["kind"] in kinds and row["cannot_stack_with"] for row in table)
