"""Operating limits as findings: every figure of a year's running held against its band, never silently corrected."""

from __future__ import annotations

from appraisal.errors import Finding
from appraisal.scenario.model import Scenario
from appraisal.technical_yield.limits import chemistry, digestion, feeds, gas, heat, machines, tank
from appraisal.technical_yield.limits.band import Check
from appraisal.technical_yield.plant_year import PlantYear, Values

CHECKS: tuple[Check, ...] = (
    tank.retention,
    tank.stated_retention,
    tank.loading,
    tank.dry_matter,
    tank.liquid,
    tank.temperature,
    tank.solids_digested,
    tank.gas_of_the_tank,
    tank.yield_against_potential,
    digestion.growth_range,
    digestion.two_methods,
    digestion.sized,
    digestion.grit,
    digestion.pond,
    digestion.pond_record,
    digestion.soured,
    digestion.honest_accuracy,
    feeds.peak_day,
    feeds.contracts,
    feeds.milk,
    feeds.measured_manure,
    feeds.above_the_row,
    feeds.laboratory,
    chemistry.ammonia,
    chemistry.free_ammonia,
    chemistry.carbon_to_nitrogen,
    chemistry.fat,
    gas.no_gas,
    gas.strength,
    gas.flared,
    gas.lost,
    gas.under_contract,
    gas.measured,
    gas.sulphide_raw,
    gas.sulphide_at_engine,
    gas.air,
    gas.storage,
    gas.flare,
    machines.engine_load,
    machines.minimum_load,
    machines.own_use,
    machines.heat_in_winter,
    machines.pasteurising,
    machines.power_per_cow,
    heat.on_the_coldest_day,
    heat.digester_share,
    heat.feed_warmer_than_the_air,
    heat.heat_main,
)


def findings(scenario: Scenario, values: Values, plant: PlantYear) -> tuple[Finding, ...]:
    """All findings on how the plant would run, for one case (the first draw)."""
    return tuple(found for check in CHECKS for found in check(scenario, values, plant) if found)
