"""The shell of the digester: how large its walls, roof and floor are and how much heat they let through."""

from __future__ import annotations

from typing import Literal

from appraisal.scenario.quantity import Lookup, Section, choice, number, text

_WALLS = "Used only when digester.heat_loss_method is `from_walls`."


def _passes(key: str) -> Lookup:
    return Lookup(table="u_values", column="u_mid", key=key)


class Shell(Section):
    """Walls, roof and floor of the heated tank; read only when digester.heat_loss_method is `from_walls`."""

    areas: Literal["given", "from_diameter"] = choice(
        "given", "from_diameter", default="given", label="Where the areas come from",
        help="given: the three areas below, of all heated tanks together; from_diameter: one round tank.")
    wall_area_m2: float = number(
        "m2", 0, 100000, default=0.0, label="Wall area", help=f"Outside, the part in the ground included. {_WALLS}")
    roof_area_m2: float = number(
        "m2", 0, 100000, default=0.0, label="Roof area", help=f"Outside; of a gas membrane its bulging surface. {_WALLS}")
    floor_area_m2: float = number("m2", 0, 100000, default=0.0, label="Floor area", help=f"On the ground. {_WALLS}")
    diameter_m: float = number(
        "m", 0, 100, default=0.0, label="Diameter of the tank", help="Used only when areas are `from_diameter`.")
    wall_height_m: float = number(
        "m", 0, 40, default=0.0, label="Height of the wall",
        help="From floor to roof, the space above the liquid included. Used only when areas are `from_diameter`.")
    roof_rise_m: float = number(
        "m", 0, 20, default=0.0, label="Rise of the roof", help="0 is a flat roof; a gas membrane rises like a cap of a ball.")
    floor: Literal["flat", "cone"] = choice(
        "flat", "cone", default="flat", label="Shape of the floor", help="Used only when areas are `from_diameter`.")
    cone_depth_m: float = number(
        "m", 0, 20, default=0.0, label="Depth of the cone", help="From the foot of the wall to the lowest point.")
    buried_share: float = number(
        "share", 0, 1, default=0.0, label="Part of the wall in the ground", help="It loses heat to the soil, not to the air.")
    wall_construction: str = text(
        default="wall_concrete_air_100", label="Build of the wall above ground",
        help="A row of `appraisal reference u_values`.")
    wall_u_w_per_m2_k: float = number(
        "W/m2/K", 0.05, 10, lookup=_passes("wall_construction"), label="Heat passed by the wall above ground",
        help="Per m2 and kelvin between the liquid and the air.")
    buried_construction: str = text(
        default="wall_concrete_soil_100", label="Build of the wall in the ground",
        help="A row of `appraisal reference u_values`; groundwater doubles the loss.")
    buried_u_w_per_m2_k: float = number(
        "W/m2/K", 0.05, 10, lookup=_passes("buried_construction"), label="Heat passed by the wall in the ground",
        help="Per m2 and kelvin between the liquid and the soil.")
    roof_construction: str = text(
        default="roof_double_membrane", label="Build of the roof",
        help="A row of `appraisal reference u_values`; of a gas membrane it is the weakest figure of the balance.")
    roof_u_w_per_m2_k: float = number(
        "W/m2/K", 0.05, 10, lookup=_passes("roof_construction"), label="Heat passed by the roof",
        help="Per m2 and kelvin between the liquid, or the gas above it, and the air.")
    floor_construction: str = text(
        default="floor_insulated_80", label="Build of the floor", help="A row of `appraisal reference u_values`.")
    floor_u_w_per_m2_k: float = number(
        "W/m2/K", 0.05, 10, lookup=_passes("floor_construction"), label="Heat passed by the floor",
        help="Per m2 and kelvin between the liquid and the ground beneath.")
