"""The land that takes the digestate: crops, limits, and what happens to what finds no land."""

from __future__ import annotations

from typing import Literal

from appraisal.scenario.quantity import Lookup, Section, choice, number, text


def _crop(column: str) -> Lookup:
    return Lookup(table="crops", column=column, key="like")


class Crop(Section):
    """A crop and its area, a usual year."""

    like: str = text(default="", label="Crop", help="A row of `appraisal reference crops`.")
    area_ha: float = number("ha", 0, 1e5, label="Area", help="That takes manure and digestate.")
    yield_t_per_ha: float = number("t/ha", 0, 150, lookup=_crop("yield_mid"), label="Yield",
        help="A usual year, in the state the row names.")
    n_removal_kg_per_t: float = number("kg/t", 0, 100, lookup=_crop("removal_n_kg_t"), label="Nitrogen taken off",
        help="Per tonne harvested.")
    p2o5_removal_kg_per_t: float = number("kg/t", 0, 50, lookup=_crop("removal_p2o5_kg_t"), label="Phosphate taken off",
        help="As P2O5, per tonne harvested.")
    k2o_removal_kg_per_t: float = number("kg/t", 0, 80, lookup=_crop("removal_k2o_kg_t"), label="Potash taken off",
        help="As K2O, per tonne harvested.")


class Land(Section):
    """Limits of the land. As before, nothing is held against them unless `count` says so."""

    count: Literal["not_counted", "counted"] = choice(
        "not_counted", "counted", default="not_counted", label="Is the land held against the nutrients",
        help="counted: the crops below and the limits decide how much digestate stays; the rest is exported.")
    n_rule: str = text(default="eu_nitrates_170", label="Rule for nitrogen",
        help="A row of `appraisal reference nutrient_rules` in kg N per hectare, or give the limit.")
    n_limit_kg_per_ha: float = number(
        "kg/ha", 0.1, 1000, lookup=Lookup(table="nutrient_rules", column="limit", key="n_rule"), label="Limit of nitrogen",
        help="Total N a year and hectare.")
    n_counts: Literal["all", "manure"] = choice(
        "all", "manure", default="all", label="Which nitrogen counts against it",
        help="all: all of the digestate; manure: only what comes from the herds, as in the EU text.")
    p_rule: Literal["none", "per_ha", "removal"] = choice(
        "none", "per_ha", "removal", default="removal", label="Rule for phosphorus",
        help="per_ha: a limit per hectare; removal: no more than the crops take off, times a factor; none.")
    p2o5_limit_kg_per_ha: float = number(
        "kg/ha", 0.1, 500, default=75.0, source="Dutch fertilizer law, phosphate use norm (table nutrient_rules)",
        basis="memory", label="Limit of phosphate", help="As P2O5; used only when the rule is per_ha.")
    p_removal_share: float = number(
        "share", 0.1, 5, default=1.0, label="Times what the crops take off", help="1: removal; 2 where soils are poor in P.")
    more_land_ha: float = number(
        "ha", 0, 1e5, default=0.0, label="Land of others that takes digestate", help="By contract, beyond the crops below.")
    more_land_km: float = number("km", 0, 300, default=0.0, label="One way to that land", help="Mean distance.")
    haul_cost_per_t_km: float = number(
        "money/t/km", 0, 5, default=0.0, label="Haul per tonne and km", help="One way counted, empty return included.")
    export_cost_per_t: float = number(
        "money/t", -100, 200, default=0.0, label="Cost of digestate that finds no land",
        help="Positive: the farm pays for its export; negative: somebody buys it.")
    export_km: float = number("km", 0, 500, default=0.0, label="One way to where it is exported", help="Mean distance.")
