"""Energy reconciliation: does what is said of power, homes and heat hang together with the engine?"""

from __future__ import annotations

from collections.abc import Iterator

from appraisal.errors import Finding
from appraisal.scenario.model import Scenario
from appraisal.technical_yield.plant_year import HOURS_PER_YEAR, METHANE_KWH_PER_NM3, PlantYear

OVERSIZED_UNDER, SAID_ALOUD_OVER = 0.75, 0.97
TOGETHER_AT_MOST = 0.92  # power and heat of the best engines of table engines, of gas energy
BTU_PER_KWH = 3412.14
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
        f"{kwh_per_year:,.0f} kWh a year ({whose}) is {factor:.1%} of what {rated_kw:,.0f} kW could make in every hour"
    )
    source = f"{PRACTICE}; energy of a year over rated power in all {HOURS_PER_YEAR:,} hours"
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
    short = in_short(scenario, plant)
    found = (*_own(scenario, plant), *_said(scenario, plant), together(scenario, plant), short)
    return tuple(each for each in found if each)


def in_short(scenario: Scenario, plant: PlantYear) -> Finding | None:
    """The year's energy in one sentence, for every reader: gas, power, heat rate, heat and homes; None without power.

    Where US units are shown, the heat rate stands in Btu for a kWh too, as US engine makers give it.
    """
    if plant.power_gross_kwh <= 0:
        return None
    home_kwh = scenario.judging.home_kwh_per_year
    rate, gas = plant.heat_rate_kwh_per_kwh, plant.methane_burned_nm3 * METHANE_KWH_PER_NM3
    in_btu = f" ({rate * BTU_PER_KWH:,.0f} Btu)" if scenario.project.display_units == "us" else ""
    what = (
        f"Engines of {plant.rated_kw:,.0f} kW burn {gas:,.0f} kWh of gas in project year {plant.year} and make "
        f"{plant.power_gross_kwh:,.0f} kWh, {plant.capacity_factor:.1%} of what they could make in every hour: "
        f"{rate:.2f} kWh of gas for each kWh{in_btu}, {1 / rate:.1%} of the gas as power; "
        f"{plant.heat_recoverable_kwh / gas:.1%} of it is usable heat, {plant.heat_recoverable_kwh / HOURS_PER_YEAR:,.0f} kW "
        f"on average. The {plant.power_sold_kwh:,.0f} kWh sold are what {plant.power_sold_kwh / home_kwh:,.0f} homes use at "
        f"{home_kwh:,.0f} kWh a year each."
    )
    source = f"lower heating value of methane, {METHANE_KWH_PER_NM3:g} kWh/Nm3; arithmetic"
    return Finding("energy_reconciliation", what, "note", rate, None, "kWh/kWh", source)


def together(scenario: Scenario, plant: PlantYear) -> Finding | None:
    """Power and heat that somebody says, held together against the gas of the model; None when either is not said."""
    power, heat = said_to_be_sold(scenario), scenario.claims.heat_kw * HOURS_PER_YEAR
    gas = plant.methane_burned_nm3 * METHANE_KWH_PER_NM3
    if power <= 0 or heat <= 0 or gas <= 0 or (power + heat) / gas <= TOGETHER_AT_MOST:
        return None
    share = (power + heat) / gas
    what = (
        f"{power:,.0f} kWh of power and {scenario.claims.heat_kw:,.0f} kW of heat are said: together {share:.0%} of the gas "
        "that the engines burn by the model, and no engine gives so much."
    )
    source = "data sheets of engines: power and heat of the best together"
    return Finding(
        "claims.heat_kw", what, "stop and ask" if share > 1 else "warning", share, TOGETHER_AT_MOST, "share", source
    )


def said_to_be_sold(scenario: Scenario) -> float:
    """Power somebody says is sold [kWh/year], 0 when nobody says."""
    return scenario.claims.power_sold_kwh_per_year or scenario.claims.power_sold_kwh_per_month * 12


def _own(scenario: Scenario, plant: PlantYear) -> Iterator[Finding | None]:
    """The model's own year; an engine is left out of it where all gas is sold and the engine stands by."""
    if scenario.upgrading.takes != "nothing" and plant.power_gross_kwh <= 0:
        return
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
    sold = said_to_be_sold(scenario) or plant.power_sold_kwh
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
