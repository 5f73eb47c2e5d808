"""Values of engines, boiler, gas cleaning, upgrading and grid that are fine alone and wrong together."""

from __future__ import annotations

from collections.abc import Iterator

from appraisal.constants import CONSTANTS
from appraisal.errors import Fault
from appraisal.scenario.engine import Engine
from appraisal.scenario.model import Scenario
from appraisal.scenario.plant_checks import Assumptions
from appraisal.scenario.reference import row

CONSTANT = {constant.name: constant.value for constant in CONSTANTS}
ROUNDING = 1e-9


def three_quarter_efficiency(engine: Engine) -> float:
    """Electric efficiency at three-quarter load [share], given or on the usual shape."""
    if engine.part_load == "data_sheet":
        return engine.efficiency_three_quarters
    fall = engine.efficiency_full - engine.efficiency_half
    return engine.efficiency_full - fall * CONSTANT["usual_fall_by_three_quarters"]


def fuel_falls_with_load(scenario: Scenario) -> list[Fault]:
    """Half load needs less fuel than three-quarter load, and that less than full load."""
    faults = []
    for name, engine in scenario.engine.items():
        middle, path = three_quarter_efficiency(engine), f"engine.{name}"
        least = engine.efficiency_full * CONSTANT["least_three_quarters_over_full"]
        if middle < least - ROUNDING:
            faults.append(_too_low(f"{path}.efficiency_three_quarters", middle, least))
        elif engine.efficiency_half < (least := middle * CONSTANT["least_half_over_three_quarters"]) - ROUNDING:
            faults.append(_too_low(f"{path}.efficiency_half", engine.efficiency_half, least))
    return faults


def _too_low(path: str, got: float, least: float) -> Fault:
    return Fault(path, "so low that the engine would hardly burn less at lower load", got=f"{got:.4g} share",
                 allowed=f"at least {least:.4g} share")


def three_quarter_load(scenario: Scenario) -> list[Fault]:
    """A data sheet's point at three quarters lies between the others, and below the gas energy."""
    faults = []
    for name, engine in scenario.engine.items():
        middle, path = engine.efficiency_three_quarters, f"engine.{name}"
        if engine.part_load != "data_sheet":
            continue
        if not engine.efficiency_half - ROUNDING <= middle <= engine.efficiency_full + ROUNDING:
            faults.append(Fault(
                f"{path}.efficiency_three_quarters", "not between the efficiencies at half and full load",
                got=f"{middle:.4g} share", allowed=f"{engine.efficiency_half:.4g} to {engine.efficiency_full:.4g} share"))
        if (whole := middle + engine.heat_efficiency_three_quarters) >= 1:
            faults.append(Fault(path, "power and heat at three-quarter load exceed the gas energy",
                                got=f"{whole:.4g} share", allowed="below 1 share"))
    return faults


def season_of_planned_stops(scenario: Scenario) -> list[Fault]:
    """Twelve weights of zero would spread planned stops over no month."""
    return [
        Fault(f"engine.{name}.planned_stop_weight", "all twelve weights are 0", hint="planned_stop_weeks_per_year = 0 is none")
        for name, engine in scenario.engine.items()
        if engine.planned_stop_weeks_per_year > 0 and not any(engine.planned_stop_weight)
    ]


def stops_counted_once(scenario: Scenario, assumptions: Assumptions) -> list[Fault]:
    """The availability of the reference table holds planned stops already."""
    paths = (f"engine.{name}.availability" for name, engine in scenario.engine.items()
             if engine.planned_stop_weeks_per_year > 0)
    return [
        Fault(path, "needed: the reference table counts planned stops inside, and planned_stop_weeks_per_year is given",
              allowed=assumptions[path].declaration.allowed())
        for path in paths if assumptions[path].origin != "scenario"
    ]


def boiler_has_a_size(scenario: Scenario) -> list[Fault]:
    """A boiler on biogas has a rated heat."""
    if scenario.boiler.fuel == "none" or scenario.boiler.rated_kw > 0:
        return []
    return [Fault("boiler.rated_kw", "needed above 0 kW, because fuel is `biogas`")]


def stirring_is_stirring(scenario: Scenario) -> list[Fault]:
    """The row named for stirring counts in watts a cubic metre."""
    name = scenario.own_use.stirring_like
    if scenario.power.plant_use_method != "by_consumer" or row("own_use", name)["unit"].startswith("W/m3"):
        return []
    return [Fault("own_use.stirring_like", "not a row of stirring", got=f"{name}, in {row('own_use', name)['unit']}",
                  allowed="a row `stir_...` in W/m3")]


def upgrading_has_a_size(scenario: Scenario) -> list[Fault]:
    """A machine that upgrades gas has a capacity."""
    machine = scenario.upgrading
    if machine.takes == "nothing" or machine.capacity_nm3_per_hour > 0:
        return []
    return [Fault("upgrading.capacity_nm3_per_hour", "needed above 0 Nm3/hour, because gas is upgraded")]


def upgraded_methane(scenario: Scenario) -> list[Fault]:
    """What reaches the grid and what is lost are together no more than what was sent."""
    machine = scenario.upgrading
    whole = machine.recovery_share + machine.slip_share
    if machine.takes == "nothing" or whole <= 1 + ROUNDING:
        return []
    return [Fault("upgrading.slip_share", "methane won and methane lost exceed what is sent to upgrading",
                  got=f"{whole:.4g} share", allowed="at most 1 share together")]


def prices_of_what_is_chosen(scenario: Scenario, assumptions: Assumptions) -> list[Fault]:
    """What is chosen has its price, limit or upkeep written, even where it is zero."""
    return [
        Fault(path, f"needed, because {why}", allowed=assumptions[path].declaration.allowed(), hint="0 if it is meant")
        for path, why in _to_be_written(scenario) if assumptions[path].origin != "scenario"
    ]


def _to_be_written(scenario: Scenario) -> Iterator[tuple[str, str]]:
    if scenario.grid.export == "limited":
        yield "grid.export_limit_kw", "export is `limited`"
    if scenario.cleaning.iron == "yes":
        yield "cleaning.iron_price_per_kg", "iron is dosed"
    if scenario.cleaning.carbon == "yes":
        yield "cleaning.carbon_price_per_kg", "carbon is used"
    if scenario.upgrading.takes != "nothing":
        for field in ("contract_price_per_kwh", "market_price_per_kwh", "upkeep_per_year"):
            yield f"upgrading.{field}", "gas is upgraded and sold"
