"""Findings about what the microbes bear: ammonia, carbon to nitrogen, fat."""

from __future__ import annotations

from collections.abc import Iterator

from appraisal.constants import CONSTANTS
from appraisal.errors import Finding
from appraisal.scenario.model import Scenario
from appraisal.scenario.reference import row
from appraisal.scenario.said import said
from appraisal.technical_yield.limits.band import band, band_of_span, is_hot, year_of
from appraisal.technical_yield.plant_year import PlantYear, Values, months_of

KG_PER_T = next(constant.value for constant in CONSTANTS if constant.name == "kg_per_t")
OF_A_MONTH = 0.05  # how far the manure of one month lies from that of the year, its herds coming and going; no source


def ammonia(scenario: Scenario, values: Values, plant: PlantYear) -> Iterator[Finding | None]:
    """Total ammonium nitrogen: the month with most against the high side, the mean of the year against the low side."""
    levels = months_of(values, "ammonium_level", year=plant.year)
    mean, most = float(levels.mean()), float(levels.max())
    yield band_of_span(
        "tan_thermophilic" if is_hot(scenario) else "tan_mesophilic",
        low=(mean, f"Ammonium nitrogen is {mean:.2f} g per litre on average"),
        high=(most, f"Ammonium nitrogen reaches {most:.2f} g per litre"),
        scenario=scenario,
        where="ammonium_level",
    )


def free_ammonia(scenario: Scenario, values: Values, plant: PlantYear) -> Iterator[Finding | None]:
    """Free ammonia of the worst month between the two pH of the scenario, judged at the higher one."""
    low, high = (float(months_of(values, f"free_ammonia_{end}", year=plant.year).max()) for end in ("low", "high"))
    tank = scenario.digester
    figure = (
        f"Free ammonia nitrogen reaches {low:.2f} to {high:.2f} g per litre at pH {tank.ph_low:g} to {tank.ph_high:g} "
        f"and {said(scenario, tank.temperature_degc, 'degC', '.1f')} (pH cannot be known before building; judged at "
        f"{tank.ph_high:g})"
    )
    yield band("fan", high, scenario=scenario, where="free_ammonia_high", figure=figure)


def carbon_to_nitrogen(scenario: Scenario, values: Values, plant: PlantYear) -> Iterator[Finding | None]:
    """Carbon to nitrogen of the mixed feed in its poorest and its richest month.

    Manure by itself lies under the band and is digested everywhere; its ammonia is judged as such. So up to the stop-and-ask
    limit the low side is told only where other feed makes the mix poorer in carbon than the manure is, or there is none.
    """
    ratio = months_of(values, "carbon_to_nitrogen", year=plant.year)
    if not (ratio > 0).any():
        return
    low, high = float(ratio[ratio > 0].min()), float(ratio.max())
    manure = _carbon_to_nitrogen_of_manure(scenario, values, plant)
    text = "By weight the mixed feed has {:.1f} of carbon to one of nitrogen"
    beside = f" (the manure alone {manure:.1f})" if manure else ""
    found = band_of_span(
        "c_to_n",
        low=(low, text.format(low) + beside),
        high=(high, text.format(high)),
        scenario=scenario,
        where="carbon_to_nitrogen",
    )
    is_low = found is not None and found.limit is not None and low < found.limit
    if found is not None and is_low and found.severity != "stop and ask" and 0 < manure <= low * (1 + OF_A_MONTH):
        return
    yield found


def _carbon_to_nitrogen_of_manure(scenario: Scenario, values: Values, plant: PlantYear) -> float:
    """Carbon over nitrogen of all manure fed in the plant's year [kg/kg]; 0 when there is none."""
    bought = [
        name for name, feed in scenario.feed.items() if feed.like and row("feedstocks", feed.like)["category"] == "manure"
    ]
    names = [*scenario.herd, *bought]
    carbon, nitrogen = (
        sum(year_of(values, f"substrate.{name}.{line}", plant) for name in names) for line in ("carbon", "nitrogen")
    )
    return carbon * KG_PER_T / nitrogen if nitrogen > 0 else 0.0


def fat(scenario: Scenario, values: Values, plant: PlantYear) -> Iterator[Finding | None]:
    """Fat share of the volatile solids in the month with most."""
    share = float(months_of(values, "fat_share", year=plant.year).max())
    yield band(
        "fat_share", share, scenario=scenario, where="fat_share", figure=f"Fat reaches {share:.1%} of the volatile solids fed"
    )
