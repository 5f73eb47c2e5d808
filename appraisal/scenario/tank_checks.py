"""Values of the digester, its start and its bad times that are fine alone and wrong together."""

from __future__ import annotations

from appraisal.errors import Fault
from appraisal.scenario.model import Scenario
from appraisal.scenario.plant_checks import Assumptions


def volume_known(scenario: Scenario) -> list[Fault]:
    """A volume that is given stands in the file."""
    tank = scenario.digester
    if tank.volume_from != "given" or tank.active_volume_m3 > 0:
        return []
    hint = 'or write volume_from = "sized" with wanted_retention_days'
    return [Fault("digester.active_volume_m3", "needed above 0 m3, because volume_from is `given`", hint=hint)]


def second_tank(scenario: Scenario) -> list[Fault]:
    """Tanks in series have a second volume, the other kinds have none."""
    tank, path = scenario.digester, "digester.second_volume_m3"
    if tank.kind == "tanks_in_series" and tank.second_volume_m3 == 0:
        return [Fault(path, "needed above 0 m3, because kind is `tanks_in_series`")]
    if tank.kind != "tanks_in_series" and tank.second_volume_m3 > 0:
        hint = 'write kind = "tanks_in_series", or take it out'
        return [Fault(path, f"kind `{tank.kind}` has no second tank", got=f"{tank.second_volume_m3:g} m3", hint=hint)]
    return []


def growth_method(scenario: Scenario) -> list[Fault]:
    """The growth method was made for one fully mixed tank."""
    tank = scenario.digester
    if tank.kinetics != "chen_hashimoto" or tank.kind == "stirred_tank":
        return []
    return [Fault("digester.kinetics", f"`chen_hashimoto` holds for one stirred tank, not for `{tank.kind}`",
                  allowed="first_order")]


def one_retention_time(scenario: Scenario) -> list[Fault]:
    """A tank that is sized for a wanted retention time has no declared one besides."""
    tank = scenario.digester
    if tank.volume_from != "sized" or tank.retention != "declared":
        return []
    return [Fault("digester.retention", "the tank is sized for wanted_retention_days, so it has no other retention time",
                  got='"declared"', allowed="from_volume")]


def return_flow(scenario: Scenario) -> list[Fault]:
    """Liquid that comes back has an amount."""
    back = scenario.recirculation
    field = {"share_of_feed": "returned_share", "per_day": "m3_per_day"}.get(back.amount)
    if field is None or getattr(back, field) > 0:
        return []
    return [Fault(f"recirculation.{field}", f"needed above 0, because amount is `{back.amount}`")]


def clean_out_cost(scenario: Scenario, assumptions: Assumptions) -> list[Fault]:
    """A clean-out costs money, and somebody must say how much."""
    path = "clean_out.each_cost"
    if scenario.clean_out.every_years == 0 or assumptions[path].origin == "scenario":
        return []
    return [Fault(path, "needed, because the tank is cleaned out", hint="write the cost, 0 if it is meant")]


def seed_cost(scenario: Scenario, assumptions: Assumptions) -> list[Fault]:
    """Seed sludge has a price, be it only its haul."""
    path = "start_up.seed_cost_per_t"
    bought = any(part.seed_t > 0 for part in (scenario.start_up, scenario.clean_out, scenario.upset))
    if not bought or assumptions[path].origin == "scenario":
        return []
    return [Fault(path, "needed, because seed sludge is brought", hint="write the cost with haul, 0 if it is meant")]
