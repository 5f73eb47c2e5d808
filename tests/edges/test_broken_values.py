"""Values that are fine alone and wrong together."""

from __future__ import annotations

from collections.abc import Mapping

import pytest

from appraisal.scenario.checks import CHECKS, ORIGIN_CHECKS
from tests.edges.scenario_text import TABLES, changed, only_fault, toml

UPGRADED = 'takes = "share_of_gas"\ncontract_price_per_kwh = 0.06\nmarket_price_per_kwh = 0.03\nupkeep_per_year = 9\n'

WALLED = ("heat_loss_w_per_k = 450", 'heat_loss_method = "from_walls"')
SIZED = 'areas = "from_diameter"\ndiameter_m = 12\nwall_height_m = 8'
CLIMATE_BY_HAND = ('climate = "us_new_york_syracuse"', "air_temperature_degc = 8\nground_temperature_degc = 9")

WHEY = 'like = "sweet_whey"'
MAKE_UP = 'composition = "make_up"\nfat_share_of_vs = 0.05\nprotein_share_of_vs = 0.129'
GLUCOSE = "carbon_parts = 6\nhydrogen_parts = 12\noxygen_parts = 6"

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
    "manure_figures": ((('# manure_method = "per_animal"', 'manure_method = "by_milk"'),),
                       "herd.cows.milk_kg_per_head_day", "0 kg/head/day"),
    "laboratory_result": (((WHEY, f'{WHEY}\npotential_from = "lab_and_table"\nlab_mean_nm3_per_t_vs = 9\nlab_tests = 2'),),
        "feed.whey.lab_sd_nm3_per_t_vs", "needed above 0"),
    "whole_composition": (((WHEY, f"{WHEY}\n{MAKE_UP}\ncarbohydrate_share_of_vs = 0.7"),),
        "feed.whey.carbohydrate_share_of_vs", "0.879 share together"),
    "below_the_ceiling": (((WHEY, f'{WHEY}\ncomposition = "elements_by_mol"\n{GLUCOSE}'),),
        "feed.whey.potential_nm3_per_t_vs", "at most 373.2 Nm3/t VS"),
    "feed_begins": ((("# starts_after_months = 0", "starts_after_months = 240"),),
                    "feed.whey.starts_after_months", "below 240 month"),
    "given_twice": (((WHEY, f'{WHEY}\npotential_from = "table"\npotential_nm3_per_t_vs = 300'),),
        "feed.whey.potential_nm3_per_t_vs", "potential_from = \"own\""),
    "make_up_given": (((WHEY, f"{WHEY}\n{MAKE_UP}"),),
        "feed.whey.carbohydrate_share_of_vs", "0 if it is meant"),
    "measured_gas": ((('# gas_method = "model"', 'gas_method = "measured"'),),
                     "digester.measured_gas_nm3_per_day", "0 Nm3/day"),
    "hot_enough": ((('treats = "nothing"', 'treats = "everything"\ntemperature_degc = 55'), (
        'kind = "stirred_tank"', 'kind = "stirred_tank"\ntemperature_degc = 57')),
        "pasteuriser.temperature_degc", "57 degC"),
    "order_of_ph": ((('# ph_low = 7.2', 'ph_low = 8.5'),), "digester.ph_low", "at most 8.1"),
    "energy_balance_of_engines": ((("rated_kw = 75", "rated_kw = 75\nefficiency_full = 0.5\nheat_efficiency_full = 0.6"),),
                                  "engine.main", "below 1 share"),
    "fuel_falls_with_load": ((("rated_kw = 75", "rated_kw = 75\nefficiency_full = 0.4\nefficiency_half = 0.2"),),
                             "engine.main.efficiency_half", "at least 0.2322 share"),
    "three_quarter_load": ((('# part_load = "usual_shape"', 'part_load = "data_sheet"\nefficiency_three_quarters = 0.4'),),
                           "engine.main.efficiency_three_quarters", "0.334 to 0.365 share"),
    "season_of_planned_stops": ((("# planned_stop_weeks_per_year = 0", "planned_stop_weeks_per_year = 1"), (
        "# planned_stop_weight = 1", "planned_stop_weight = 0"), ("rated_kw = 75", "rated_kw = 75\navailability = 0.9")),
        "engine.main.planned_stop_weight", "all twelve"),
    "boiler_has_a_size": ((('# fuel = "none"', 'fuel = "biogas"'),), "boiler.rated_kw", "above 0 kW"),
    "stirring_is_stirring": ((('# plant_use_method = "per_tonne"', 'plant_use_method = "by_consumer"'), (
        '# stirring_like = "stir_manure_food"', 'stirring_like = "feed_pump"')), "own_use.stirring_like", "kWh/m3"),
    "upgrading_has_a_size": ((('# takes = "nothing"', UPGRADED),), "upgrading.capacity_nm3_per_hour", "above 0 Nm3/hour"),
    "upgraded_methane": ((('# takes = "nothing"', UPGRADED + "capacity_nm3_per_hour = 90\nslip_share = 0.02"),),
                         "upgrading.slip_share", "1.01 share"),
    "stops_counted_once": ((("# planned_stop_weeks_per_year = 0", "planned_stop_weeks_per_year = 1"),),
                           "engine.main.availability", "planned stops inside"),
    "prices_of_what_is_chosen": ((('# iron = "no"', 'iron = "yes"'),), "cleaning.iron_price_per_kg", "0 if it is meant"),
    "order_of_overhauls": ((("# major_interval_hours = 30000", "major_interval_hours = 12000"),),
                           "engine.main.major_interval_hours", "12000 hour"),
    "overhauls_paid_once": ((('# maintenance = "routine"', 'maintenance = "full_service"'), (
        "top_end_cost = 6000", "top_end_cost = 0")), "engine.main.major_cost", "28000 money"),
    "failure_counts": ((("rated_kw = 75", "rated_kw = 75\nfailure_month = 30"),), "engine.main.failure_month", "not_counted"),
    "sale_counts": ((("# sold_after_years = 60", "sold_after_years = 8"),), "herd.cows.sold_after_years", "stays"),
    "shell_sizes": ((WALLED, ('# areas = "given"', 'areas = "from_diameter"\ndiameter_m = 12')),
                    "shell.wall_height_m", "needed above 0"),
    "shell_builds": ((WALLED, ('# areas = "given"', SIZED), (
        '# buried_construction = "wall_concrete_soil_100"', 'buried_construction = "wall_concrete_air_100"')),
        "shell.buried_construction", "a wall against soil"),
    "parts_add_up": ((("plant_share = 1", "plant_share = 0.9"),), "partner.we_alone.plant_share", "1 share together"),
    "brought_once": ((('# brings = ""', 'brings = "whay"'),), "partner.we_alone.brings", "did you mean `whey`"),
    "heat_main_length": ((('# main_losses = "none"', 'main_losses = "by_length"'),), "heat.main_length_m", "above 0 m"),
    "heat_loss_given": ((("heat_loss_w_per_k = 450", ""),), "digester.heat_loss_w_per_k", "0 to 20000 W/K"),
    "soil_known": ((WALLED, ('# areas = "given"', SIZED), CLIMATE_BY_HAND), "site.soil_temperature_degc", "name a climate"),
    "coldest_day": ((("# coldest_day_degc = -17.2", "coldest_day_degc = -4"),), "site.coldest_day_degc", "at most -4.1 degC"),
    "backup_fuel": ((('# backup_fuel = "not_named"', 'backup_fuel = "propane"\nbackup_boiler_efficiency = 0.88'),),
                    "heat.backup_fuel_price_per_kwh", "`propane`"),
    "store_named": ((('# manure_method = "stated_share"', 'manure_method = "ipcc_2019"'),), "herd.cows.store_2019",
                    "manure_method is `ipcc_2019`"),
    "excreted_solids": ((('# manure_solids = "as_fed"', 'manure_solids = "as_excreted"'),), "herd.cows.excreted",
                        "manure_solids is `as_excreted`"),
    "waste_goes_once": ((("# landfilled_share = 0", "landfilled_share = 0.7"), (
        "# fed_before_share = 0", "fed_before_share = 0.6")), "feed.whey.landfilled_share", "1.3 share"),
    "loss_of_a_digestate_store": ((('# loss = ""', 'loss = "boiler"'),), "store.loss", "open_store_long"),
    "one_tonne_sold_once": ((("[carbon_claim.guarantee]", '[carbon_claim.rival]\nkind = "voluntary_offset"\nof = "power"\n'
                              "[carbon_claim.guarantee]"),), "carbon_claim.guarantee", "sold twice"),
    "known_neighbours": ((('# allowed_beside = ""', 'allowed_beside = "credit"'),), "carbon_claim.guarantee.allowed_beside",
                         "guarantee"),
    "some_land": ((('# count = "not_counted"', 'count = "counted"'), ("[crop.grass]", ""), (
        'like = "grass_silage"', ""), ('area_ha = "200 acre"', "")), "crop", "land.count is `counted`"),
    "nitrogen_rule_is_one": ((('# n_rule = "eu_nitrates_170"', 'n_rule = "dk_phosphorus"'),), "land.n_rule", "kg N/ha"),
    "solids_go_once": ((("# bedding_share = 0", "bedding_share = 0.7"), ("# sold_share = 0", "sold_share = 0.4")),
                       "separation.bedding_share", "1.1 share"),
    "power_bill": ((('power_kwh = "9000 kWh/month"', "power_kwh = 0"),), "farm_now.power_bill", "16200 money/year"),
    "heating_fuel_bill": ((("# heating_fuel_kwh = 0", "heating_fuel_kwh = 100"),),
                          "farm_now.heating_fuel_kwh", "1200 kWh/year"),
    "payments_within_project": ((("# first_month = 0", "first_month = 241"),), "capital.plant.first_month", "month 252"),
    "like_a_row": ((("[capital.plant]", '[capital.plant]\nlike = "wp_us_completemix_2005_kww"'),),
                   "capital.plant.like", "did you mean `wp_us_completemix_2005_kw`"),
    "grants_within_project": ((("# arrives_in_month = 18", "arrives_in_month = 252"),),
                              "grant.public.arrives_in_month", "below month 252"),
    "loan_terms": ((("# interest_only_months = 12", "interest_only_months = 120"), ("\nyears = 12", "\nyears = 10")),
                   "loan.bank.interest_only_months", "below 120 month"),
    "loan_outlasts_spending": ((("# first_month = 0", "first_month = 150"),), "loan.bank.years", "above 13.5 year"),
    "no_more_loan_than_cost": ((("amount = 380000", "amount = 682001"),), "loan", "at most 682000 USD"),
    "one_loan_fills_the_gap": ((("amount = 380000", 'size = "fills_the_gap"'), (
        "# own_money = 0", "own_money = 9"), (
        "[tax]\n", "[loan.second]\nsize = \"fills_the_gap\"\nrate = 0.06\nyears = 9\n\n[tax]\n")),
        "loan.second.size", "another loan"),
    "payment_dates": ((("# payment_every_months = 1\n", "payment_every_months = 5\n"),),
                      "loan.bank.payment_every_months", "5 month"),
    "loan_sized_on_cover": ((("amount = 380000", 'size = "to_cover"'),), "loan.bank.repayment", "sculpted"),
    "claims_before_the_last_payment": ((('# paid = "at_once"', 'paid = "by_claims"\nfirst_claim_month = 18'), (
        "# first_claim_month = 6", "")), "grant.public.first_claim_month", "below month 18"),
    "declining_rate": ((('# depreciation_method = "straight_line"', 'depreciation_method = "declining_balance"'),),
                       "capital.plant.depreciation_rate", "above 0"),
    "depreciation_table": ((('# depreciation_method = "straight_line"', 'depreciation_method = "table"'),),
                           "capital.plant.depreciation_share_by_year", "depreciation_like"),
    "credit_has_a_rate": ((("# investment_credit_rate = 0\n", "investment_credit_rate = 0.3\n"),),
                          "tax.investment_credit_rate", "against_tax"),
    "bill_to_meter_against": ((('# contract = "fixed_price"', 'contract = "net_metering"'), (
        'power_kwh = "9000 kWh/month"', ""), ("power_bill = 1350", "")), "farm_now.power_kwh", "net_metering"),
    "falling_demand_charge": ((('# demand_charge = "stays"', 'demand_charge = "falls"\npeak_replaced_kw = 40'), (
        "# peak_replaced_kw = 0", "")), "power.demand_price_per_kw_month", "falls"),
    "end_of_quote": ((('# quote_ends = ""', 'quote_ends = "June 2027"'),), "capital.plant.quote_ends", "2027-04"),
    "sales_tax_comes_back_in_time": ((('# sales_tax = "none"', 'sales_tax = "counted"'), (
        "# sales_tax_rate = 0", "sales_tax_rate = 0.2"), ("# first_month = 0", "first_month = 238"), (
        "\nyears = 12", "\nyears = 21")), "tax.sales_tax_refund_months", "month 253"),
    "figures_of_choices": ((("# rate_fixed_years = 60", "rate_fixed_years = 5"),), "loan.bank.rate_after", "share/year"),
    "overhaul_costs_given": ((("top_end_cost = 6000", ""),), "engine.main.top_end_cost", "full_service"),
    "volume_known": ((('active_volume_m3 = "240000 US_gal"', "active_volume_m3 = 0"),), "digester.active_volume_m3", "sized"),
    "second_tank": ((('kind = "stirred_tank"', 'kind = "tanks_in_series"'),), "digester.second_volume_m3", "above 0 m3"),
    "growth_method": ((('kind = "stirred_tank"', 'kind = "plug_flow"'), (
        '# kinetics = "first_order"', 'kinetics = "chen_hashimoto"')), "digester.kinetics", "one stirred tank"),
    "one_retention_time": ((('# volume_from = "given"', 'volume_from = "sized"'), (
        '# retention = "from_volume"', 'retention = "declared"\ndeclared_retention_days = 20')), "digester.retention", "sized"),
    "return_flow": ((("[recirculation]", '[recirculation]\namount = "per_day"'),), "recirculation.m3_per_day", "above 0"),
    "clean_out_cost": ((("# every_years = 0", "every_years = 8"),), "clean_out.each_cost", "0 if it is meant"),
    "seed_cost": ((("[upset]", "[upset]\nseed_t = 50"),), "start_up.seed_cost_per_t", "seed sludge"),
    "declared_retention": ((('# retention = "from_volume"', 'retention = "declared"'),),
                           "digester.declared_retention_days", "1 to 400 day"),
    "reference_potential": ((('like = "sweet_whey"', 'like = "sweet_whey"\npotential_kind = "ultimate"'),),
                            "feed.whey.potential_nm3_per_t_vs", "Nm3/t VS"),
    "end_of_contract": ((("\ncontract_years = 10", ""),), "feed.whey.contract_years", "0 to 60 year"),
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
    ((WHEY, f'{WHEY}\npotential_kind = "achieved"\nachieved_nm3_per_t = 30\ncomposition = "elements_by_mass"\n{GLUCOSE}'),
     "feed.whey.carbon_parts", "exchanged"),
    ((WHEY, f'{WHEY}\npotential_kind = "achieved"\nachieved_nm3_per_t = 30\ncomposition = "elements_by_mol"\n{GLUCOSE}'),
     "feed.whey.achieved_nm3_per_t", "543.5 Nm3/t VS"),
    ((WHEY, f'{WHEY}\npotential_from = "table"\nmethane_share_from = "composition"\nmethane_share = 0.5'),
     "feed.whey.methane_share", 'methane_share_from = "own"'),
    (('# manure_method = "per_animal"', 'manure_method = "measured"'), "herd.cows.measured_tonnes_per_year", "0 t/year"),
    (("\nyears = 12", "\nyears = 22"), "loan.bank.years", "at most 21 year"),
    (("# second_volume_m3 = 0", "second_volume_m3 = 200"), "digester.second_volume_m3", "has no second tank"),
    (("power_bill = 1350", "power_bill = 0"), "farm_now.power_kwh", "108000 kWh/year"),
    (('# wall_construction = "wall_concrete_air_100"', 'wall_construction = "wall_concrete_air_90"'),
     "shell.wall_construction", "did you mean"),
], ids=lambda each: each if isinstance(each, str) else "")
def test_the_other_side_of_a_check(swaps: tuple[str, str], path: str, words: str) -> None:
    fault = only_fault(changed(swaps))
    assert fault.path == path
    assert words in fault.text("farm.toml")
