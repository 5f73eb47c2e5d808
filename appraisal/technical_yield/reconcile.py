"""Energy reconciliation: does what is said of power, homes and heat hang together with the engine?"""

from __future__ import annotations

from collections.abc import Iterator

from appraisal.errors import Finding
from appraisal.scenario.model import Scenario
from appraisal.technical_yield.plant_year import HOURS_PER_YEAR, PlantYear

OVERSIZED_UNDER, SAID_ALOUD_OVER = 0.75, 0.97
AGREES_WITHIN = 0.10
PRACTICE = "common practice, no source"


def capacity_factor(rated_kw: float, kwh_per_year: float) -> float:
    """Energy of a year over rated power in every hour of it [1]; rated_kw [kW], kwh_per_year [kWh/year]."""
    return kwh_per_year / (rated_kw * HOURS_PER_YEAR)


def engine_against_energy(*, rated_kw: float, kwh_per_year: float, where: str, whose: str) -> Finding | None:
    """Hold a year's energy against the engine; None when it fits.

    rated_kw [kW], kwh_per_year [kWh/year]; where: path or line; whose: "said to be sold", "gross".
    """
    factor = capacity_factor(rated_kw, kwh_per_year)
    figure = (
        f"{kwh_per_year:,.0f} kWh a year ({whose}) is {factor:.3f} of what {rated_kw:,.0f} kW could make in every hour"
    )
    source = f"{PRACTICE}; capacity factor over {HOURS_PER_YEAR} hours"
    if factor > 1:
        return Finding(where, f"{figure}: impossible.", "stop and ask", factor, 1.0, "share", source)
    if factor > SAID_ALOUD_OVER:
        return Finding(
            where, f"{figure}: hardly any engine runs that well.", "warning", factor, SAID_ALOUD_OVER, "share", source
        )
    if factor < OVERSIZED_UNDER:
        return Finding(
            where,
            f"{figure}: oversized, or short of gas, unless it runs flexibly on purpose.",
            "warning",
            factor,
            OVERSIZED_UNDER,
            "share",
            source,
        )
    return None


def homes(kwh_per_year: float, said: float, *, usual_kwh: float) -> Finding:
    """Say how many kWh a year each of the homes would get.

    kwh_per_year [kWh/year] sold; said: number of homes; usual_kwh [kWh/year] of one home.
    """
    each = kwh_per_year / said
    severity = "note" if 0.5 <= each / usual_kwh <= 2 else "warning"
    what = (
        f"{said:,.0f} homes are said to be supplied: {kwh_per_year:,.0f} kWh a year give at most {each:,.0f} kWh to each; "
        f"a home is taken to use {usual_kwh:,.0f} kWh a year."
    )
    return Finding(
        "claims.homes", what, "note" if severity == "note" else "warning", each, usual_kwh, "kWh/year", PRACTICE
    )


def findings(scenario: Scenario, plant: PlantYear) -> tuple[Finding, ...]:
    """Reconcile the model's own year with the engine, and everything in `claims` with both."""
    return tuple(found for found in (*_own(plant), *_said(scenario, plant)) if found)


def _own(plant: PlantYear) -> Iterator[Finding | None]:
    yield engine_against_energy(
        rated_kw=plant.rated_kw, kwh_per_year=plant.power_gross_kwh, where="power_gross", whose="gross, by the model"
    )


def _said(scenario: Scenario, plant: PlantYear) -> Iterator[Finding | None]:
    claims = scenario.claims
    for field, year in (
        ("power_sold_kwh_per_year", claims.power_sold_kwh_per_year),
        ("power_sold_kwh_per_month", claims.power_sold_kwh_per_month * 12),
    ):
        if year > 0:
            where = f"claims.{field}"
            yield engine_against_energy(
                rated_kw=plant.rated_kw, kwh_per_year=year, where=where, whose="said to be sold"
            )
            yield _against_model(where, year, plant.power_sold_kwh, unit="kWh/year", word="power sold")
    sold = claims.power_sold_kwh_per_year or claims.power_sold_kwh_per_month * 12 or plant.power_sold_kwh
    if claims.homes > 0 and sold > 0:
        yield homes(sold, claims.homes, usual_kwh=scenario.judging.home_kwh_per_year)
    if claims.heat_kw > 0:
        yield _against_model(
            "claims.heat_kw", claims.heat_kw, plant.heat_recoverable_kwh / HOURS_PER_YEAR, unit="kW", word="engine heat"
        )


def _against_model(where: str, said: float, modelled: float, *, unit: str, word: str) -> Finding | None:
    if modelled > 0 and abs(said / modelled - 1) <= AGREES_WITHIN:
        return None
    what = f"{said:,.0f} {unit} of {word} is said; the model finds {modelled:,.0f} {unit}."
    return Finding(
        where,
        what,
        "warning",
        said,
        modelled,
        unit,
        f"the model of this scenario; agreement asked within {AGREES_WITHIN:.0%}",
    )
