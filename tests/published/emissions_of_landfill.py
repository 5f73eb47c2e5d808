"""How the project's own lines answer the records on waste in a landfill."""

from __future__ import annotations

import math

from appraisal.technical_yield import (
    emissions,
    emissions_landfill,
)
from tests.published.emission_figures import FIXED, KG, Values, of


def potential(tonnes: float, i: Values, *, model: float = 1.0) -> float:
    """Methane [t] that waste gives in all its years."""
    return float(
        emissions_landfill.substrate_landfill_potential(
            tonnes, 1.0, i["DOC"], i["DOCf"], i["F"], i["MCF"], model, FIXED["methane_per_carbon"]
        )
    )


def food_lifetime(i: Values) -> Values:
    made = potential(1.0, i)
    escaping = made * emissions_landfill.landfill_escaping_share(0.0, i["OX"], 0.0)
    return {
        "CH4_kg_per_t_generated": made * KG,
        "CH4_kg_per_t_after_OX": escaping * KG,
        "CO2e_t_per_t": emissions.without_landfill([escaping], i["GWP_CH4"]),
    }


def left_after_a_year(k: float) -> float:
    """Part of buried waste that is left after a year: the line's month taken as a year."""
    return float(emissions_landfill.landfill_left_share(k, 1))


def wet_profile(i: Values) -> Values:
    kept, stock, made = left_after_a_year(i["k"]), 0.0, []
    for year in range(11):
        made.append(emissions_landfill.substrate_landfill_made__month_after(stock, kept))
        buried = i["L0_kg_per_t"] * i["waste_t"] if year == 0 else 0.0
        stock = emissions_landfill.substrate_landfill_stock(buried, stock, kept)
    ten = sum(made)
    return {
        "CH4_kg_years_1_to_10": made[1:],
        "cumulative_10y_kg": ten,
        "share_by_year_10": ten / i["L0_kg_per_t"],
    }


def half_lives(i: Values) -> Values:
    rate = -math.log(0.5) / i["half_life_years"]
    assert math.isclose(left_after_a_year(rate) ** i["half_life_years"], 0.5)
    lives = [math.log(0.5) / math.log(left_after_a_year(k)) for k in i["k_values"]]
    return {"k_from_half_life": rate, "half_lives_years": lives}


def volume_form(i: Values) -> Values:
    assert of("landfill", "us_rule_lo_volume_per_doc") == i["multiplier"]
    volume = of("landfill", "us_rule_lo_volume_per_doc") * i["DOC"]
    us = {name: of("landfill", f"us_rule_{name.lower()}") for name in ("DOCf", "F", "MCF")}
    return {"Lo_m3_per_Mg": volume, "implied_density_kg_per_m3": potential(1.0, {"DOC": i["DOC"], **us}) * KG / volume}


def stream(tonnes: float, years: int, i: Values, *, model: float) -> list[float]:
    """Methane [t] year by year when the same waste comes every year, first gas in the year of burial."""
    kept, stock, made = left_after_a_year(i["k"]), 0.0, []
    for _ in range(years):
        stock = emissions_landfill.substrate_landfill_stock(potential(tonnes, i, model=model), stock, kept)
        made.append(float(emissions_landfill.substrate_landfill_made__month_of_burial(stock, kept)))
    return made


def tool_04(i: Values) -> Values:
    escaping = emissions_landfill.landfill_escaping_share(i["f_captured"], i["OX"], 1.0)
    rows = [
        emissions.without_landfill([emissions_landfill.substrate_landfill_methane__feed(made, escaping)], i["GWP"])
        for made in stream(i["W_t_per_year"], i["years"], i, model=i["phi"])
    ]
    lifetime = potential(i["W_t_per_year"] * i["years"], i, model=i["phi"]) * escaping * i["GWP"]
    return {"BE_tCO2e_by_year": rows, "sum_10y": sum(rows), "naive_lifetime_x10": lifetime}


def gas_collection(i: Values) -> Values:
    collected = of("landfill", "us_epa_2023_collected_life_average")
    return {
        "fraction_not_collected": 1 - collected,
        "fraction_emitted_after_oxidation": emissions_landfill.landfill_escaping_share(collected, i["OX"], i["DE"]),
        "published_headline": of("landfill", "us_epa_2023_share_not_captured_published_food"),
    }


def ten_years(i: Values) -> Values:
    waste = {"DOC": 1.0, "DOCf": 1.0, "F": 1.0, "MCF": 1.0, "k": i["k"]}
    years = i["years_of_diversion"]
    return {"share": sum(stream(1.0, years, waste, model=1.0)) / potential(float(years), waste)}
