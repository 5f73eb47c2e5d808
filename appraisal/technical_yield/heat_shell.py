"""How large the shell of the heated tank is and what it loses: wall, roof and floor against air and ground.

Loss of each part = area x U x (liquid - outside) x hours, steady state; U from table u_values, whose layers follow ISO
6946. Valid for months, in which the heat stored in the shell evens out. All parts exist only under heat_loss_method
`from_walls`; under `given` one figure in W/K stands against the air. A covered lagoon is not heated and has none of it.
"""

import numpy as np

from appraisal.lines.define import line

HEATED = {"digester_kind": "stirred_tank|tanks_in_series|plug_flow"}
LAGOON = {"digester_kind": "covered_lagoon"}
WALLS = {**HEATED, "digester_heat_loss_method": "from_walls"}
ONE_FIGURE = {**HEATED, "digester_heat_loss_method": "given"}
GIVEN = {**WALLS, "shell_areas": "given"}
ROUND = {**WALLS, "shell_areas": "from_diameter"}


def passed(area, u, gap, hours, feeding, w_per_kw):
    """Heat through an area [kWh/month]: area [m2] x u [W/(m2 K)] x gap [K] x hours [h] in months with feeding."""
    return area * u / w_per_kw * np.maximum(gap, 0) * hours * feeding


@line(when=ROUND)
def shell_circle(circle_area_factor, shell_diameter_m):
    """Ground plan of the tank [m2]

    A quarter of pi x diameter squared.
    """
    return circle_area_factor * shell_diameter_m * shell_diameter_m


@line(when=GIVEN)
def wall_area__given(shell_wall_area_m2):
    """Wall area [m2]

    As given.
    """
    return shell_wall_area_m2


@line(when=ROUND)
def wall_area__from_diameter(circle_ratio, shell_diameter_m, shell_wall_height_m):
    """Wall area [m2]

    Pi x diameter x height.
    """
    return circle_ratio * shell_diameter_m * shell_wall_height_m


@line(when=GIVEN)
def roof_area__given(shell_roof_area_m2):
    """Roof area [m2]

    As given.
    """
    return shell_roof_area_m2


@line(when=ROUND)
def roof_area__from_diameter(shell_circle, circle_ratio, shell_roof_rise_m):
    """Roof area [m2]

    Cap of a ball: pi x (radius squared + rise squared); a rise of 0 is a flat roof.
    """
    return shell_circle + circle_ratio * shell_roof_rise_m * shell_roof_rise_m


@line(when=GIVEN)
def floor_area__given(shell_floor_area_m2):
    """Floor area [m2]

    As given.
    """
    return shell_floor_area_m2


@line(when={**ROUND, "shell_floor": "flat"})
def floor_area__flat(shell_circle):
    """Floor area [m2]

    The ground plan.
    """
    return shell_circle


@line(when={**ROUND, "shell_floor": "cone"})
def floor_area__cone(shell_circle, circle_ratio, shell_cone_depth_m):
    """Floor area [m2]

    Mantle of the cone: pi x radius x root of (radius squared + depth squared).
    """
    depth = shell_cone_depth_m
    return np.sqrt(shell_circle * shell_circle + circle_ratio * shell_circle * depth * depth)


@line(when=WALLS)
def loss_to_air(wall_area, shell_buried_share, shell_wall_u_w_per_m2_k, roof_area, shell_roof_u_w_per_m2_k):
    """Heat loss of wall and roof to the air [W/K]

    Area x U of the wall above ground and of the roof.
    """
    return wall_area * (1 - shell_buried_share) * shell_wall_u_w_per_m2_k + roof_area * shell_roof_u_w_per_m2_k


@line(when=WALLS)
def heat_lost_by_wall(
    wall_area, shell_buried_share, shell_wall_u_w_per_m2_k, digester_temperature_degc, site_air_temperature_degc,
    hours, feeding, w_per_kw,
):  # fmt: skip
    """Heat lost by the wall above ground [kWh/month]

    Area x U x distance to the air x hours.
    """
    gap = digester_temperature_degc - site_air_temperature_degc
    return passed(wall_area * (1 - shell_buried_share), shell_wall_u_w_per_m2_k, gap, hours, feeding, w_per_kw)


@line(when=WALLS)
def heat_lost_by_buried_wall(
    wall_area, shell_buried_share, shell_buried_u_w_per_m2_k, digester_temperature_degc, site_soil_temperature_degc,
    hours, feeding, w_per_kw,
):  # fmt: skip
    """Heat lost by the wall in the ground [kWh/month]

    Area x U x distance to the soil x hours.
    """
    gap = digester_temperature_degc - site_soil_temperature_degc
    return passed(wall_area * shell_buried_share, shell_buried_u_w_per_m2_k, gap, hours, feeding, w_per_kw)


@line(when=WALLS)
def heat_lost_by_roof(
    roof_area, shell_roof_u_w_per_m2_k, digester_temperature_degc, site_air_temperature_degc, hours, feeding, w_per_kw
):
    """Heat lost by the roof [kWh/month]

    Area x U x distance to the air x hours; wind and rain on a membrane are in its U only roughly.
    """
    gap = digester_temperature_degc - site_air_temperature_degc
    return passed(roof_area, shell_roof_u_w_per_m2_k, gap, hours, feeding, w_per_kw)


@line(when=WALLS)
def heat_lost_by_floor(
    floor_area, shell_floor_u_w_per_m2_k, digester_temperature_degc, site_ground_temperature_degc, hours, feeding,
    w_per_kw,
):  # fmt: skip
    """Heat lost by the floor [kWh/month]

    Area x U x distance to the ground beneath x hours.
    """
    gap = digester_temperature_degc - site_ground_temperature_degc
    return passed(floor_area, shell_floor_u_w_per_m2_k, gap, hours, feeding, w_per_kw)


@line(when=ONE_FIGURE)
def heat_lost_by_tank__given(
    digester_heat_loss_w_per_k, w_per_kw, digester_temperature_degc, site_air_temperature_degc, hours, feeding
):
    """Heat lost by the tank [kWh/month]

    Heat loss per kelvin x distance to the outside air x hours.
    """
    gap = np.maximum(digester_temperature_degc - site_air_temperature_degc, 0)
    return digester_heat_loss_w_per_k / w_per_kw * gap * hours * feeding


@line(when=WALLS)
def heat_lost_by_tank__from_walls(heat_lost_by_wall, heat_lost_by_buried_wall, heat_lost_by_roof, heat_lost_by_floor):
    """Heat lost by the tank [kWh/month]

    Wall above and in the ground, roof and floor.
    """
    return heat_lost_by_wall + heat_lost_by_buried_wall + heat_lost_by_roof + heat_lost_by_floor
