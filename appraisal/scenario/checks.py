"""All checks across fields, each with the paths it reads: a check that reads a refused value is left out."""

from __future__ import annotations

from collections.abc import Callable, Iterable, Set
from dataclasses import dataclass

from appraisal.errors import Fault
from appraisal.scenario import credit_checks as credit
from appraisal.scenario import emission_checks as gases
from appraisal.scenario import event_checks as event
from appraisal.scenario import feed_checks as feed
from appraisal.scenario import funding_checks as funding
from appraisal.scenario import gas_checks as gas
from appraisal.scenario import heat_checks as heat
from appraisal.scenario import land_checks as land
from appraisal.scenario import money_checks as money
from appraisal.scenario import partner_checks as partner
from appraisal.scenario import plant_checks as plant
from appraisal.scenario import tank_checks as tank
from appraisal.scenario.draft import STAND_IN
from appraisal.scenario.model import Scenario, sections
from appraisal.scenario.plant_checks import Assumptions

Parts = tuple[str, ...]
_NAMED = {place.name for place in sections() if place.named}


@dataclass(frozen=True)
class Check:
    """A function from scenario to faults, and the paths it concludes from (`*` stands for any name)."""

    run: Callable[[Scenario], list[Fault]]
    reads: tuple[str, ...]


@dataclass(frozen=True)
class OriginCheck:
    """A check that asks besides whether a value was written in the file, looked up or defaulted."""

    run: Callable[[Scenario, Assumptions], list[Fault]]
    reads: tuple[str, ...]


def _each(table: str, *fields: str) -> tuple[str, ...]:
    return tuple(f"{table}.{field}" for field in fields)


_POTENTIALS = tuple(f"{table}.*.{field}" for table in ("herd", "feed")
                    for field in ("potential_kind", "achieved_nm3_per_t", "potential_nm3_per_t_vs"))
_EACH = tuple(f"{table}.*" for table in ("herd", "feed"))
_MAKE_UP = tuple(f"{each}.{field}" for each in _EACH for field in (
    "composition", "fat_share_of_vs", "protein_share_of_vs", "carbohydrate_share_of_vs", "carbon_parts", "hydrogen_parts",
    "oxygen_parts", "nitrogen_parts", "sulphur_parts"))
_LAB = tuple(f"{each}.{field}" for each in _EACH for field in (
    "potential_from", "potential_kind", "lab_mean_nm3_per_t_vs", "lab_sd_nm3_per_t_vs", "lab_tests"))
_LOSS = ("digester.kind", "digester.heat_loss_method")
_PROJECT_TIME = ("project.years", "project.build_months")

CHECKS: tuple[Check, ...] = (
    Check(money.currency_code, ("project.currency",)),
    Check(money.calendar_month, ("project.first_month",)),
    Check(money.time_to_run, (*_PROJECT_TIME, "digester.ramp_months")),
    Check(plant.something_to_digest, ("herd", "feed")),
    Check(plant.one_name_each, (f"herd.{STAND_IN}", f"feed.{STAND_IN}")),
    Check(plant.achieved_yield, _POTENTIALS),
    Check(plant.some_season, ("feed.*.monthly_weight",)),
    Check(feed.manure_figures, _each("herd.*", "manure_method", "milk_kg_per_head_day", "measured_tonnes_per_year")),
    Check(feed.laboratory_result, _LAB),
    Check(feed.whole_composition, _MAKE_UP),
    Check(feed.below_the_ceiling, (*_POTENTIALS, *_MAKE_UP, *_LAB, "digester.test_share_of_ultimate", *(
        f"{each}.{field}" for each in _EACH for field in ("ts_share", "vs_share_of_ts")))),
    Check(feed.feed_begins, (*_PROJECT_TIME, "feed.*.starts_after_months")),
    Check(plant.measured_gas, _each("digester", "gas_method", "measured_gas_nm3_per_day")),
    Check(plant.order_of_ph, _each("digester", "ph_low", "ph_high")),
    Check(plant.hot_enough, ("pasteuriser.treats", "pasteuriser.temperature_degc", "digester.temperature_degc")),
    Check(plant.energy_balance_of_engines, _each(
        "engine.*", "efficiency_full", "efficiency_half", "heat_efficiency_full", "heat_efficiency_half")),
    Check(gas.fuel_falls_with_load, _each(
        "engine.*", "efficiency_full", "efficiency_half", "efficiency_three_quarters", "part_load")),
    Check(gas.three_quarter_load, _each(
        "engine.*", "efficiency_full", "efficiency_half", "efficiency_three_quarters", "heat_efficiency_three_quarters",
        "part_load")),
    Check(gas.season_of_planned_stops, _each("engine.*", "planned_stop_weeks_per_year", "planned_stop_weight")),
    Check(gas.boiler_has_a_size, _each("boiler", "fuel", "rated_kw")),
    Check(gas.stirring_is_stirring, ("own_use.stirring_like", "power.plant_use_method")),
    Check(gas.upgrading_has_a_size, _each("upgrading", "takes", "capacity_nm3_per_hour")),
    Check(gas.upgraded_methane, _each("upgrading", "takes", "recovery_share", "slip_share")),
    Check(plant.order_of_overhauls, _each("engine.*", "top_end_interval_hours", "major_interval_hours")),
    Check(plant.overhauls_paid_once, _each("engine.*", "maintenance", "top_end_cost", "major_cost")),
    Check(event.failure_counts, _each("engine.*", "failure", "failure_month")),
    Check(event.sale_counts, _each("herd.*", "keeping", "sold_after_years")),
    Check(heat.shell_sizes, (*_LOSS, *_each(
        "shell", "areas", "wall_area_m2", "roof_area_m2", "floor_area_m2", "diameter_m", "wall_height_m", "floor",
        "cone_depth_m"))),
    Check(heat.shell_builds, (*_LOSS, *_each(
        "shell", "wall_construction", "buried_construction", "roof_construction", "floor_construction"))),
    Check(tank.volume_known, _each("digester", "volume_from", "active_volume_m3")),
    Check(tank.second_tank, _each("digester", "kind", "second_volume_m3")),
    Check(tank.growth_method, _each("digester", "kind", "kinetics")),
    Check(tank.one_retention_time, _each("digester", "volume_from", "retention")),
    Check(tank.return_flow, _each("recirculation", "amount", "returned_share", "m3_per_day")),
    Check(heat.heat_main_length, _each("heat", "main_losses", "main_length_m")),
    Check(gases.store_named, ("emissions.manure_method", *_each(
        "herd.*", "store_2006", "mcf_2006_share", "store_2019", "mcf_2019_share"))),
    Check(gases.excreted_solids, ("emissions.manure_solids", *_each("herd.*", "excreted", "excreted_kg_vs_per_head_day"))),
    Check(gases.waste_goes_once, _each("feed.*", "landfilled_share", "fed_before_share")),
    Check(gases.loss_of_a_digestate_store, ("store.loss",)),
    Check(credit.one_tonne_sold_once, (
        "carbon_claim", *_each("credits", "price_per_t_co2e", "counts_landfill", "counts_power"))),
    Check(credit.known_neighbours, ("carbon_claim",)),
    Check(land.some_land, ("land.count", "land.more_land_ha", "crop")),
    Check(land.nitrogen_rule_is_one, ("land.n_rule",)),
    Check(land.solids_go_once, _each("separation", "sold_share", "bedding_share")),
    Check(money.power_bill, _each("farm_now", "power_bill", "power_kwh")),
    Check(money.heating_fuel_bill, _each("farm_now", "heating_fuel_bill", "heating_fuel_kwh")),
    Check(money.payments_within_project, ("project.years", "capital.*.first_month", "capital.*.months")),
    Check(money.like_a_row, _each("capital.*", "like", "amount")),
    Check(money.grants_within_project, ("project.years", "grant.*.arrives_in_month")),
    Check(money.loan_terms, ("project.years", "loan.*.years", "loan.*.interest_only_months")),
    Check(money.loan_outlasts_spending, ("project.years", "loan.*.years", "capital.*.first_month", "capital.*.months")),
    Check(money.no_more_loan_than_cost, (*_each("loan.*", "size", "amount", "share_of_cost"), *_each(
        "capital.*", "amount", "contingency_share", "escalation", "first_month", "months"))),
    Check(partner.parts_add_up, _each("partner.*", "plant_share", "digestate_share")),
    Check(partner.brought_once, (f"partner.{STAND_IN}", f"herd.{STAND_IN}", f"feed.{STAND_IN}", "partner.*.brings")),
    Check(funding.one_loan_fills_the_gap, ("loan.*.size",)),
    Check(funding.payment_dates, ("loan.*.payment_every_months",)),
    Check(funding.loan_sized_on_cover, (*_each(
        "loan.*", "size", "repayment", "interest_only_months", "payment_every_months"), *_each(
        "capital.*", "first_month", "months"))),
    Check(funding.claims_before_the_last_payment, _each("grant.*", "paid", "first_claim_month", "arrives_in_month")),
    Check(funding.declining_rate, _each("capital.*", "depreciation_method", "depreciation_rate")),
    Check(funding.depreciation_table, _each(
        "capital.*", "depreciation_method", "depreciation_like", "depreciation_share_by_year")),
    Check(funding.credit_has_a_rate, _each("tax", "investment_credit", "investment_credit_rate")),
    Check(funding.bill_to_meter_against, ("power.contract", "farm_now.power_kwh")),
    Check(funding.falling_demand_charge, _each(
        "power", "demand_charge", "peak_replaced_kw", "demand_price_per_kw_month")),
    Check(funding.end_of_quote, ("capital.*.quote_ends",)),
    Check(funding.sales_tax_comes_back_in_time, ("project.years", *_each("tax", "sales_tax", "sales_tax_refund_months"),
                                                 *_each("capital.*", "first_month", "months", "sales_tax_rate"))),
)

ORIGIN_CHECKS: tuple[OriginCheck, ...] = (
    OriginCheck(funding.figures_of_choices, (*_each(
        "loan.*", "size", "amount", "share_of_cost", "rate_fixed_years", "rate_after", "years"),
        "funding.own_money", *_each("power", "contract", "contract_premium_per_kwh"))),
    OriginCheck(plant.overhaul_costs_given, _each("engine.*", "maintenance", "top_end_cost", "major_cost")),
    OriginCheck(heat.heat_loss_given, (*_LOSS, "digester.heat_loss_w_per_k")),
    OriginCheck(heat.soil_known, (*_LOSS, *_each(
        "site", "climate", "soil_temperature_degc", "ground_temperature_degc"))),
    OriginCheck(heat.coldest_day, _each("site", "climate", "coldest_day_degc", "air_temperature_degc")),
    OriginCheck(tank.clean_out_cost, _each("clean_out", "every_years", "each_cost")),
    OriginCheck(tank.seed_cost, ("start_up.seed_t", "start_up.seed_cost_per_t", "clean_out.seed_t", "upset.seed_t")),
    OriginCheck(heat.backup_fuel, _each(
        "heat", "backup_fuel", "backup_fuel_price_per_kwh", "backup_boiler_efficiency")),
    OriginCheck(gas.stops_counted_once, _each("engine.*", "planned_stop_weeks_per_year", "availability")),
    OriginCheck(gas.prices_of_what_is_chosen, (
        *_each("grid", "export", "export_limit_kw"),
        *_each("cleaning", "iron", "carbon", "iron_price_per_kg", "carbon_price_per_kg"),
        *_each("upgrading", "takes", "contract_price_per_kwh", "market_price_per_kwh", "upkeep_per_year"))),
    OriginCheck(plant.declared_retention, _each("digester", "retention", "declared_retention_days")),
    OriginCheck(plant.reference_potential, _POTENTIALS),
    OriginCheck(feed.given_twice, tuple(f"{each}.{field}" for each in _EACH for field in (
        "potential_from", "potential_nm3_per_t_vs", "methane_share_from", "methane_share"))),
    OriginCheck(feed.make_up_given, _MAKE_UP),
    OriginCheck(plant.end_of_contract, _each("feed.*", "supply_by", "contract_years")),
    OriginCheck(plant.fee_after_contract, (*_PROJECT_TIME, *_each(
        "feed.*", "starts_after_months", "gate_fee_per_t", "gate_fee_after_per_t", "contract_years", "share_after_contract"))),
)


def run_checks(scenario: Scenario, assumptions: Assumptions, *, doubtful: Iterable[str] = ()) -> list[Fault]:
    """Every fault that the checks find.

    Parameters
    ----------
    scenario : whole, or with stand-ins at the doubtful paths.
    assumptions : of every path that is not doubtful.
    doubtful : paths of refused values, tables or sections.
    """
    doubts = {parts for path in doubtful for parts in _any_item(path)}
    around = {doubt[:length] for doubt in doubts for length in range(1, len(doubt) + 1)}
    found: list[Fault] = []
    for check in CHECKS:
        if not _touched(check.reads, doubts, around):
            found += check.run(scenario)
    for asking in ORIGIN_CHECKS:
        if not _touched(asking.reads, doubts, around):
            found += asking.run(scenario, assumptions)
    return found


def _any_item(path: str) -> set[Parts]:
    """The parts of a path, an item of a table of items taken for any of them, as the patterns of the checks are written."""
    parts = tuple(path.split("."))
    if len(parts) == 1 or parts[0] not in _NAMED:
        return {parts}
    anyone = (parts[0], "*", *parts[2:])
    return {parts, anyone} if parts[1] == STAND_IN else {anyone}


def _touched(reads: Iterable[str], doubts: Set[Parts], around: Set[Parts]) -> bool:
    """True when a pattern and a doubtful path agree as far as the shorter of the two goes; around: all they lie in."""
    patterns = [tuple(pattern.split(".")) for pattern in reads]
    return any(
        pattern in around or any(pattern[:length] in doubts for length in range(1, len(pattern))) for pattern in patterns)
