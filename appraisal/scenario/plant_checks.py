"""Values of feeds, digester and engines that are fine alone and wrong together."""

from __future__ import annotations

from collections.abc import Iterator, Mapping

from appraisal.errors import Fault
from appraisal.scenario.assumptions import Assumption
from appraisal.scenario.model import Scenario
from appraisal.scenario.quantity import MONTHS_PER_YEAR
from appraisal.scenario.substrate import Substrate

Assumptions = Mapping[str, Assumption]


def substrates(scenario: Scenario) -> Iterator[tuple[str, Substrate]]:
    """Every herd and feed with its path, herds first."""
    yield from ((f"herd.{name}", herd) for name, herd in scenario.herd.items())
    yield from ((f"feed.{name}", feed) for name, feed in scenario.feed.items())


def something_to_digest(scenario: Scenario) -> list[Fault]:
    """At least one herd or feed."""
    if scenario.herd or scenario.feed:
        return []
    return [Fault("", "nothing goes into the digester", hint="write [herd.any_name] or [feed.any_name]")]


def one_name_each(scenario: Scenario) -> list[Fault]:
    """Herds and feeds stand in one list of gas sources."""
    return [
        Fault(f"feed.{name}", "a herd already has this name", hint="give one of the two another name")
        for name in scenario.feed if name in scenario.herd
    ]


def achieved_yield(scenario: Scenario) -> list[Fault]:
    """A potential of kind `achieved` is a yield per tonne, which must be there."""
    return [
        Fault(f"{path}.achieved_nm3_per_t", "needed above 0 Nm3/t, because potential_kind is `achieved`")
        for path, item in substrates(scenario) if item.potential_kind == "achieved" and item.achieved_nm3_per_t == 0
    ]


def some_season(scenario: Scenario) -> list[Fault]:
    """Twelve weights of zero would spread a year's tonnes over no month."""
    return [
        Fault(f"feed.{name}.monthly_weight", "all twelve weights are 0", hint="a feed that never comes has 0 t/year")
        for name, feed in scenario.feed.items() if not any(feed.monthly_weight)
    ]


def measured_gas(scenario: Scenario) -> list[Fault]:
    """The method `measured` needs its figure."""
    tank = scenario.digester
    if tank.gas_method != "measured" or tank.measured_gas_nm3_per_day > 0:
        return []
    return [Fault("digester.measured_gas_nm3_per_day", "needed above 0 Nm3/day, because gas_method is `measured`")]


def order_of_ph(scenario: Scenario) -> list[Fault]:
    """The lower pH is not above the higher one."""
    low, high = scenario.digester.ph_low, scenario.digester.ph_high
    if low <= high:
        return []
    return [Fault("digester.ph_low", "above the highest pH to reckon with", got=f"{low:g}", allowed=f"at most {high:g}",
                  hint="are the two exchanged?")]


def hot_enough(scenario: Scenario) -> list[Fault]:
    """A pasteuriser heats above the digester."""
    oven, tank = scenario.pasteuriser.temperature_degc, scenario.digester.temperature_degc
    if scenario.pasteuriser.treats == "nothing" or oven >= tank:
        return []
    return [Fault("pasteuriser.temperature_degc", "colder than the digester", got=f"{oven:g} degC",
                  allowed=f"at least {tank:g} degC")]


def energy_balance_of_engines(scenario: Scenario) -> list[Fault]:
    """Power and heat together stay below the gas energy, at both loads, and half load is never the more efficient."""
    faults = []
    for name, engine in scenario.engine.items():
        loads = (("full", engine.efficiency_full + engine.heat_efficiency_full),
                 ("half", engine.efficiency_half + engine.heat_efficiency_half))
        faults += [
            Fault(f"engine.{name}", f"power and heat at {load} load exceed the gas energy", got=f"{total:.4g} share",
                  allowed="below 1 share") for load, total in loads if total >= 1]
        if engine.efficiency_half > engine.efficiency_full:
            faults.append(Fault(
                f"engine.{name}.efficiency_half", "above the efficiency at full load", hint="are the two exchanged?",
                got=f"{engine.efficiency_half:.4g} share", allowed=f"at most {engine.efficiency_full:.4g} share"))
    return faults


def order_of_overhauls(scenario: Scenario) -> list[Fault]:
    """A major overhaul comes after more hours than a top-end one."""
    return [
        Fault(f"engine.{name}.major_interval_hours", "not above the interval of top-end overhauls",
              got=f"{engine.major_interval_hours:g} hour", allowed=f"above {engine.top_end_interval_hours:g} hour")
        for name, engine in scenario.engine.items() if engine.major_interval_hours <= engine.top_end_interval_hours
    ]


def overhauls_paid_once(scenario: Scenario) -> list[Fault]:
    """A full-service price holds the overhauls already."""
    hint = 'take the cost out, or choose maintenance = "routine"'
    return [
        Fault(f"engine.{name}.{field}", "paid twice: full service holds overhauls", got=f"{cost:g} money", hint=hint)
        for name, engine in scenario.engine.items() if engine.maintenance == "full_service"
        for field, cost in (("top_end_cost", engine.top_end_cost), ("major_cost", engine.major_cost)) if cost > 0
    ]


def overhaul_costs_given(scenario: Scenario, assumptions: Assumptions) -> list[Fault]:
    """Under routine maintenance overhauls are paid apart, so their costs must be stated, even where they are zero."""
    return [
        Fault(path, "needed: under routine maintenance overhauls are paid apart",
              hint='write the cost, 0 if it is meant, or maintenance = "full_service"')
        for name, engine in scenario.engine.items() if engine.maintenance == "routine"
        for path in (f"engine.{name}.top_end_cost", f"engine.{name}.major_cost") if assumptions[path].origin == "default"
    ]


def declared_retention(scenario: Scenario, assumptions: Assumptions) -> list[Fault]:
    """A declared retention time is written in the file, not taken from the default."""
    path = "digester.declared_retention_days"
    if scenario.digester.retention != "declared" or assumptions[path].origin == "scenario":
        return []
    return [Fault(path, "needed, because retention is `declared`", allowed=assumptions[path].declaration.allowed())]


def reference_potential(scenario: Scenario, assumptions: Assumptions) -> list[Fault]:
    """Potentials of the reference table come from ordinary tests and may not stand as ultimate ones."""
    return [
        Fault(f"{path}.potential_nm3_per_t_vs", "needed, because potential_kind is `ultimate`: the reference table "
              "holds ordinary tests", allowed=assumptions[f"{path}.potential_nm3_per_t_vs"].declaration.allowed())
        for path, item in substrates(scenario)
        if item.potential_kind == "ultimate" and assumptions[f"{path}.potential_nm3_per_t_vs"].origin == "reference"
    ]


def end_of_contract(scenario: Scenario, assumptions: Assumptions) -> list[Fault]:
    """A feed under contract says for how long."""
    paths = (f"feed.{name}.contract_years" for name, feed in scenario.feed.items() if feed.supply_by == "contract")
    return [
        Fault(path, "needed, because supply_by is `contract`", allowed=assumptions[path].declaration.allowed())
        for path in paths if assumptions[path].origin != "scenario"
    ]


def fee_after_contract(scenario: Scenario, assumptions: Assumptions) -> list[Fault]:
    """A feed that is bought is not free after its contract unless the file says so."""
    running = scenario.project.years - scenario.project.build_months / MONTHS_PER_YEAR
    paths = (
        f"feed.{name}.gate_fee_after_per_t" for name, feed in scenario.feed.items()
        if feed.gate_fee_per_t < 0 and feed.share_after_contract > 0
        and feed.starts_after_months / MONTHS_PER_YEAR + feed.contract_years < running)
    return [
        Fault(path, "needed: the plant buys this feed, and the contract ends within the project",
              allowed=assumptions[path].declaration.allowed())
        for path in paths if assumptions[path].origin != "scenario"
    ]
