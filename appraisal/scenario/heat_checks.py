"""Values of heat, tank shell and site that are fine alone and wrong together."""

from __future__ import annotations

from appraisal.errors import Fault
from appraisal.scenario.model import Scenario
from appraisal.scenario.plant_checks import Assumptions
from appraisal.scenario.reference import row

_BUILDS = {  # field -> elements of table u_values that it may name, and whether they stand in the ground
    "wall_construction": (("wall",), False),
    "buried_construction": (("wall",), True),
    "roof_construction": (("roof", "membrane"), False),
    "floor_construction": (("floor",), True),
}
_AREAS = ("wall_area_m2", "roof_area_m2", "floor_area_m2")


def _from_walls(scenario: Scenario) -> bool:
    """Whether walls, roof and floor are read: a covered lagoon is not heated."""
    return scenario.digester.kind != "covered_lagoon" and scenario.digester.heat_loss_method == "from_walls"


def shell_sizes(scenario: Scenario) -> list[Fault]:
    """Heat loss from the walls needs their areas, or the sizes that give them."""
    shell = scenario.shell
    if not _from_walls(scenario):
        return []
    sizes = ("diameter_m", "wall_height_m", *(("cone_depth_m",) if shell.floor == "cone" else ()))
    why = f"because heat_loss_method is `from_walls` and areas are `{shell.areas}`"
    return [
        Fault(f"shell.{name}", f"needed above 0, {why}")
        for name in (_AREAS if shell.areas == "given" else sizes) if getattr(shell, name) == 0
    ]


def shell_builds(scenario: Scenario) -> list[Fault]:
    """A row for walls stands for a wall, one for the ground stands in the ground."""
    faults = []
    for name, (elements, in_ground) in _BUILDS.items():
        build = getattr(scenario.shell, name)
        if _from_walls(scenario) and build:
            facts = row("u_values", build)
            if facts["element"] not in elements or ("soil" in facts["boundary"]) != in_ground:
                faults.append(Fault(
                    f"shell.{name}", f"this is a {facts['element']} against {facts['boundary']}", got=f'"{build}"',
                    allowed=f"a {' or '.join(elements)} against {'soil' if in_ground else 'air'}"))
    return faults


def heat_main_length(scenario: Scenario) -> list[Fault]:
    """Losses by length need the length."""
    if scenario.heat.main_losses != "by_length" or scenario.heat.main_length_m > 0:
        return []
    return [Fault("heat.main_length_m", "needed above 0 m, because main_losses are `by_length`")]


def heat_loss_given(scenario: Scenario, assumptions: Assumptions) -> list[Fault]:
    """A heat loss that is given is written in the file, even where it is zero."""
    path = "digester.heat_loss_w_per_k"
    tank = scenario.digester
    if tank.kind == "covered_lagoon" or tank.heat_loss_method != "given" or assumptions[path].origin == "scenario":
        return []
    return [Fault(path, "needed, because heat_loss_method is `given`", allowed=assumptions[path].declaration.allowed(),
                  hint='or choose heat_loss_method = "from_walls" and fill [shell]')]


def soil_known(scenario: Scenario, assumptions: Assumptions) -> list[Fault]:
    """Heat loss into the ground needs the ground's temperature."""
    paths = ("site.soil_temperature_degc", "site.ground_temperature_degc")
    if not _from_walls(scenario):
        return []
    return [
        Fault(path, "needed, because heat_loss_method is `from_walls`", hint="or name a climate",
              allowed=assumptions[path].declaration.allowed())
        for path in paths if assumptions[path].origin == "default"
    ]


def coldest_day(scenario: Scenario, assumptions: Assumptions) -> list[Fault]:
    """The coldest day is no warmer than the mean of the coldest month."""
    path, site = "site.coldest_day_degc", scenario.site
    coldest = min(site.air_temperature_degc)
    if assumptions[path].origin != "scenario" or site.coldest_day_degc <= coldest:
        return []
    return [Fault(path, "warmer than the mean of the coldest month", got=f"{site.coldest_day_degc:g} degC",
                  allowed=f"at most {coldest:g} degC")]


def backup_fuel(scenario: Scenario, assumptions: Assumptions) -> list[Fault]:
    """A fuel that is named comes with its price and its boiler."""
    paths = ("heat.backup_fuel_price_per_kwh", "heat.backup_boiler_efficiency")
    if scenario.heat.backup_fuel == "not_named":
        return []
    return [
        Fault(path, f"needed, because backup_fuel is `{scenario.heat.backup_fuel}`",
              allowed=assumptions[path].declaration.allowed())
        for path in paths if assumptions[path].origin != "scenario"
    ]
