"""Findings about engine, own use, winter heat and pasteuriser, and power per cow."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import replace

import numpy as np
import numpy.typing as npt

from appraisal.errors import Finding, Severity
from appraisal.lines.evaluate import MONTHS
from appraisal.scenario.model import Scenario
from appraisal.scenario.reference import row
from appraisal.scenario.said import plain, said
from appraisal.technical_yield.limits.band import band, is_heated, sourced, year_of
from appraisal.technical_yield.plant_year import DAYS_PER_YEAR, PlantYear, Values, months_of

COWS = ("dairy", "lfl_cow")  # in the name of a row of table animals
NO_COWS = ("heifer", "calf")


def engine_load(scenario: Scenario, values: Values, plant: PlantYear) -> Iterator[Finding | None]:
    """Mean load of each engine while it runs, of what it can give at this height."""
    for name in scenario.engine:
        power, hours = (year_of(values, f"engine.{name}.{line}", plant) for line in ("power", "hours"))
        at_site = float(values[f"engine.{name}.site_kw"][0, 0])
        if hours > 0 and at_site > 0:
            load = power / hours / at_site
            figure = f"Engine {plain(name)} runs at {load:.0%} load on average"
            yield band("engine_load", load, scenario=scenario, where=f"engine.{name}.load", figure=figure)


def minimum_load(scenario: Scenario, values: Values, plant: PlantYear) -> Iterator[Finding | None]:
    """Months in which the gas does not keep an engine at its minimum load; an engine that runs with stops is meant to."""
    for name, engine in scenario.engine.items():
        if engine.running != "modulated":
            continue
        got = months_of(values, "fuel_fraction", year=plant.year)
        least = _series(values, f"engine.{name}.lowest_fuel_rate", plant)
        short = (got > 0) & (got < least)
        if short.any():
            share, wanted = float(got[short].mean()), float(least[short].mean())
            never = "It never reaches it all year: too large for this gas. " if short.all() else ""
            what = (
                f"In {int(short.sum())} of 12 months engine {plain(name)} gets {share:.0%} of its full-load fuel on "
                "average, under the "
                f"{wanted:.0%} of its minimum load. {never}It stops and waits for gas, and every start wears it."
            )
            source = f"engine.{name}.minimum_load of this scenario, {engine.minimum_load:.0%}"
            severity: Severity = "warning" if short.all() else "note"
            yield Finding(f"engine.{name}.minimum_load", what, severity, share, wanted, "share", source)


def _series(values: Values, name: str, plant: PlantYear) -> npt.NDArray[np.float64]:
    """Twelve months of a line that may hold one value for all of them."""
    held = values[name].shape[1] == 1
    return np.full(MONTHS, values[name][0, 0]) if held else months_of(values, name, year=plant.year)


def own_use(scenario: Scenario, values: Values, plant: PlantYear) -> Iterator[Finding | None]:
    """Power the plant takes for itself, of gross power."""
    if plant.power_gross_kwh > 0:
        share = plant.power_own_use_kwh / plant.power_gross_kwh
        yield band(
            "own_use_share",
            share,
            scenario=scenario,
            where="power_own_use",
            figure=f"The plant uses {share:.1%} of its own power",
        )


def heat_in_winter(scenario: Scenario, values: Values, plant: PlantYear) -> Iterator[Finding | None]:
    """Heat from the gas over digester need in the worst month; a plant that sells its gas means to buy heat."""
    need, engine, boiler = (
        months_of(values, name, year=plant.year) for name in ("heat_to_digester", "heat_recoverable", "heat_from_boiler")
    )
    have = engine + boiler
    covered = float(np.min(have / np.where(need > 0, need, np.inf))) if (need > 0).all() else np.inf
    lacking = plant.heat_shortfall_kwh
    bought = f"; these figures buy the rest, {lacking:,.0f} kWh in the year" if lacking >= 1 else ""
    figure = f"In the worst month heat from the gas is {covered:.0%} of what the digester needs{bought}"
    found = band("heat_cover_coldest_month", covered, scenario=scenario, where="heat_to_digester", figure=figure)
    meant = found is not None and found.severity == "stop and ask" and scenario.upgrading.takes != "nothing"
    yield replace(found, severity="warning") if found is not None and meant else found


def pasteurising(scenario: Scenario, values: Values, plant: PlantYear) -> Iterator[Finding | None]:
    """Feeds that must be pasteurised against what the pasteuriser treats, and how hot it gets."""
    oven, facts = scenario.pasteuriser, row("digester_limits", "pasteurising_temperature")
    must = [name for name, feed in scenario.feed.items() if feed.regulated == "yes"]
    if oven.treats == "nothing" and must:
        tonnes = sum(year_of(values, f"substrate.{name}.tonnes", plant) for name in must)
        what = (
            f"{said(scenario, tonnes, 't')} a year of {', '.join(map(plain, must))} must be pasteurised, and nothing is: "
            "without it the waste may not be "
            "taken and the digestate not be spread. Plan a pasteuriser with its heat, or ask the authority in writing."
        )
        source = sourced(facts["source"], facts["basis"])
        yield Finding("pasteuriser.treats", what, "stop and ask", tonnes, 0.0, "t/year", source)
    if oven.treats != "nothing":
        figure = f"The pasteuriser heats to {said(scenario, oven.temperature_degc, 'degC', '.1f')}"
        yield band(
            "pasteurising_temperature",
            oven.temperature_degc,
            scenario=scenario,
            where="pasteuriser.temperature_degc",
            figure=figure,
        )


def power_per_cow(scenario: Scenario, values: Values, plant: PlantYear) -> Iterator[Finding | None]:
    """Gross power of the manure of dairy cows, by its share of the methane, per cow and day."""
    cows = [
        name
        for name, herd in scenario.herd.items()
        if any(word in herd.animal for word in COWS) and not any(word in herd.animal for word in NO_COWS)
    ]
    heads = sum(float(_series(values, f"substrate.{name}.heads", plant).mean()) for name in cows)
    sells_gas = scenario.upgrading.takes != "nothing"  # power then says little of the manure
    if not is_heated(scenario) or heads <= 0 or plant.methane_nm3 <= 0 or sells_gas:
        return
    share = sum(year_of(values, f"substrate.{name}.methane", plant) for name in cows) / plant.methane_nm3
    each = plant.power_gross_kwh * share / heads / DAYS_PER_YEAR
    figure = f"The manure of one cow gives {each:.2f} kWh of power a day, other feed left out"
    yield band("kwh_per_cow_day", each, scenario=scenario, where="power_per_cow", figure=figure)
