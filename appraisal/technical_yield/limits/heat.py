"""Findings about heat: the coldest day, the digester's share of the engine's heat, and a heat main that loses too much."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass

from appraisal.constants import CONSTANTS
from appraisal.errors import Finding
from appraisal.scenario.model import Scenario
from appraisal.scenario.reference import row
from appraisal.scenario.said import said
from appraisal.technical_yield.limits.band import feed_kind, is_heated, sourced, year_of
from appraisal.technical_yield.plant_year import PlantYear, Values, months_of

HOURS_PER_DAY = 24
MAIN_LOSES_MUCH = 0.3  # of the heat sent in a year
FEED_OVER_AIR = 6.0  # K over the mean air of the year; judged, no source
CONSTANT = {constant.name: constant.value for constant in CONSTANTS}


@dataclass(frozen=True)
class ColdestDay:
    """The digester on the coldest day of the coldest month of a project year.

    air_degc [degC]: mean of that day. need_kw: heat the digester needs. full_load_kw: heat of all engines at full load and
    of a gas boiler. month_kw: heat the engines give on average in that month. cooling_k_per_day [K/day]: how fast the full
    tank would cool on what is lacking at full load, 0 when nothing is.
    """

    air_degc: float
    need_kw: float
    full_load_kw: float
    month_kw: float
    cooling_k_per_day: float


def coldest_day(scenario: Scenario, values: Values, plant: PlantYear) -> ColdestDay:
    """Hold the digester's need on the coldest day against the engines, in the coldest month of the plant's full year."""
    air, need, heat, hours = (
        months_of(values, name, year=plant.year)
        for name in ("site.air_temperature_degc", "coldest_day_need", "heat_recoverable", "timeline.hours")
    )
    month = int(air.argmin())
    full = sum(float(values[f"engine.{name}.heat_at_full_load"][0, 0]) for name in scenario.engine)
    full += scenario.boiler.rated_kw if scenario.boiler.fuel == "biogas" else 0.0
    tank = float(values["clean_volume"][0, 0]) * CONSTANT["mix_t_per_m3"] * CONSTANT["heat_capacity_kwh_per_t_k"]
    return ColdestDay(
        air_degc=min(scenario.site.coldest_day_degc, float(air[month])),
        need_kw=float(need[month]),
        full_load_kw=full,
        month_kw=float(heat[month] / hours[month]),
        cooling_k_per_day=max(float(need[month]) - full, 0.0) * HOURS_PER_DAY / tank if tank > 0 else 0.0,
    )


def on_the_coldest_day(scenario: Scenario, values: Values, plant: PlantYear) -> Iterator[Finding | None]:
    """Short of heat on the coldest day: at full load a warning, at the month's mean load a note."""
    day = coldest_day(scenario, values, plant)
    if day.need_kw <= min(day.full_load_kw, day.month_kw):
        return
    figure = (
        f"On the coldest day, {said(scenario, day.air_degc, 'degC')}, the digester needs {day.need_kw:,.0f} kW of heat. "
        "Engine and gas "
        f"boiler give {day.full_load_kw:,.0f} kW at full load, the engine {day.month_kw:,.0f} kW at that month's mean load"
    )
    source = "coldest day of the site against the heat balance of this scenario"
    if day.need_kw > day.full_load_kw:
        what = (
            f"{figure}. Without another {day.need_kw - day.full_load_kw:,.0f} kW the tank cools by "
            f"{said(scenario, day.cooling_k_per_day, 'K/day', '.2g')}: plan a boiler, more insulation or warmer feed."
        )
        yield Finding("coldest_day_need", what, "warning", day.need_kw, day.full_load_kw, "kW", source)
    else:
        what = f"{figure}. On that day it needs more gas than the month has on average, or the tank cools a little."
        yield Finding("coldest_day_need", what, "note", day.need_kw, day.month_kw, "kW", source)


def digester_share(scenario: Scenario, values: Values, plant: PlantYear) -> Iterator[Finding | None]:
    """Digester heat of a year over engine heat, against what such plants usually take."""
    kind = "crops" if feed_kind(scenario, values, plant) == "crops" else "slurry"
    usual = row("own_use", f"digester_heat_share_{kind}")
    need, have = year_of(values, "heat_to_digester", plant), year_of(values, "heat_recoverable", plant)
    if scenario.digester.kind == "covered_lagoon":
        return
    share = need / have if have > 0 else 0.0
    for edge, word in (("low", "less"), ("high", "more")):
        limit = float(usual[edge])
        if have > 0 and ((share < limit) if edge == "low" else (share > limit)):
            what = (
                f"The digester takes {share:.0%} of the engine's heat in a year, {word} than the usual "
                f"{float(usual['low']):.0%} "
                f"to {float(usual['high']):.0%} of a {usual['class']}: look again at feed temperature, water and insulation."
            )
            source = sourced(usual["source"], usual["basis"])
            yield Finding("heat_to_digester", what, "note", share, limit, "share", source)


def feed_warmer_than_the_air(scenario: Scenario, values: Values, plant: PlantYear) -> Iterator[Finding | None]:
    """One figure for the warmth of the feed in all months, far over the mean air of the place; a profile was thought about."""
    site = scenario.site
    flat = max(site.feed_temperature_degc) == min(site.feed_temperature_degc)
    if not is_heated(scenario) or site.feed_temperature != "given" or not flat or year_of(values, "tonnes_fed", plant) <= 0:
        return
    feed, air = (
        float(months_of(values, name, year=plant.year).mean()) for name in ("feed_temperature", "site.air_temperature_degc")
    )
    if feed - air > FEED_OVER_AIR:
        what = (
            f"The feed is taken to arrive at {said(scenario, feed, 'degC')} over the year where the air is "
            f"{said(scenario, air, 'degC')}. Warm from a barn it may; from a pit outdoors or off a lorry it is colder and "
            "takes "
            "more heat: try it as warm as the air."
        )
        yield Finding("site.feed_temperature_degc", what, "note", feed - air, FEED_OVER_AIR, "K", "judged, no source")


def heat_main(scenario: Scenario, values: Values, plant: PlantYear) -> Iterator[Finding | None]:
    """Heat lost in the main over heat sent into it."""
    sent, lost = year_of(values, "heat_into_main", plant), year_of(values, "heat_lost_in_main", plant)
    if sent > 0 and lost > MAIN_LOSES_MUCH * sent:
        what = f"The heat main loses {lost / sent:.0%} of the heat sent to the buyer: too long or too little heat for it."
        yield Finding("heat_lost_in_main", what, "note", lost / sent, MAIN_LOSES_MUCH, "share", "common practice, no source")
