"""Findings about how the gas is worked out: the range of a method, the size of the tank, grit, a pond, a soured tank."""

from __future__ import annotations

from collections.abc import Iterator

import numpy as np

from appraisal.errors import Finding, Severity
from appraisal.scenario.model import Scenario
from appraisal.scenario.reference import row
from appraisal.scenario.said import said
from appraisal.technical_yield.limits.band import band, feed_kind, is_heated, sourced, year_of
from appraisal.technical_yield.plant_year import PlantYear, Values, months_of

THIN_UP_TO = 80.0  # kg VS/m3, table kinetics, ch_k_cattle_a
SIZED_WITHIN = 0.1  # of the volume that is said; common practice, no source
DAYS_PER_YEAR = 365
COLD_POND = 20.0  # degC: colder than the trials that rates come from; from memory
GRIT_NOTED, GRIT_WARNED = 0.1, 0.25  # share of the tank; common practice, no source
GROWTH = "Chen and Hashimoto model, rows ch_ of table kinetics (from memory, slope read)"
PRACTICE = "common practice, no source"
# Middle of the model for the cows of the record's plants, by tests/published: what is said of it is kept true by a test.
MODEL_OF_THE_RECORD = {"kwh": 5.33, "feet": 93.8}


def growth_range(scenario: Scenario, values: Values, plant: PlantYear) -> Iterator[Finding | None]:
    """The growth method outside what it was fitted to: other feed than manure, thick manure, microbes washed out."""
    if scenario.digester.kinetics != "chen_hashimoto":
        return
    where = "digester.kinetics"
    outside = sum(year_of(values, f"substrate.{name}.volatile_solids", plant) for name in scenario.feed)
    if outside > 0:
        share = outside / year_of(values, "volatile_solids_fed", plant)
        what = (
            f"{share:.1%} of the solids are no manure, but the growth method was fitted to manure alone: choose first-order "
            "rates."
        )
        yield Finding(where, what, "warning", share, 0.0, "share", GROWTH)
    thick = float(months_of(values, "solids_in_flow", year=plant.year).max())
    if thick > THIN_UP_TO:
        what = (
            f"What flows into the tank holds {said(scenario, thick, 'kg VS/m3')} of volatile solids; the growth method was "
            f"fitted up to about {said(scenario, THIN_UP_TO, 'kg VS/m3')} and beyond it only guesses."
        )
        yield Finding(where, what, "warning", thick, THIN_UP_TO, "kg VS/m3", GROWTH)
    stay = float(months_of(values, "retention", year=plant.year).min())
    growth = float(np.broadcast_to(values["growth_rate"], (1, 1))[0, 0])
    if stay * growth <= 1:
        least = 1 / growth if growth > 0 else np.inf
        what = (
            f"The feed stays {stay:.1f} days; under {least:.1f} days the microbes leave faster than they grow, and no gas "
            "comes."
        )
        yield Finding("retention", what, "stop and ask", stay, least, "day", GROWTH)


def two_methods(scenario: Scenario, values: Values, plant: PlantYear) -> Iterator[Finding | None]:
    """What the other method would give, where both may be used: manure alone in one stirred tank."""
    tank = scenario.digester
    chosen = tank.kinetics == "chen_hashimoto"
    if tank.kind != "stirred_tank" or (not chosen and not growth_fits(scenario, values, plant)):
        return
    items = {**scenario.herd, **scenario.feed}
    tested = [name for name, item in items.items() if item.potential_kind != "achieved"]
    first, growth = (_won(values, plant, names=tested, line=line) for line in ("first_order_conversion", ""))
    if first > 0:
        what = (
            f"By first-order rates the mature tank would make {said(scenario, first, 'Nm3')} of methane a year, by growth "
            "of the microbes "
            f"{said(scenario, growth, 'Nm3')}: {growth / first - 1:+.0%}. Both are in use, and neither is wrong; these "
            "figures stand on "
            f"{'the second' if chosen else 'the first'}."
        )
        yield Finding("digester.kinetics", what, "note", growth, first, "Nm3/year", f"this scenario by both methods; {GROWTH}")


def growth_fits(scenario: Scenario, values: Values, plant: PlantYear) -> bool:
    """Whether the plant lies in the range of the growth method: manure alone, and thin enough."""
    thick = float(months_of(values, "solids_in_flow", year=plant.year).max())
    return not scenario.feed and 0 < thick <= THIN_UP_TO


def _won(values: Values, plant: PlantYear, *, names: list[str], line: str) -> float:
    """Methane of a mature tank in the plant's year by one conversion, growth where `line` is empty [Nm3/year]."""
    won = 0.0
    for name in names:
        share = f"substrate.{name}.{line}" if line else "growth_conversion"
        potential = months_of(values, f"substrate.{name}.potential", year=plant.year)
        won += float((potential * months_of(values, share, year=plant.year)).sum())
    return won * float(values["digester.availability"][0, 0])


def sized(scenario: Scenario, values: Values, plant: PlantYear) -> Iterator[Finding | None]:
    """The size that was worked out, against the volume that is said and the busiest month."""
    tank = scenario.digester
    if tank.volume_from != "sized":
        return
    volume, wanted = float(values["clean_volume"][0, 0]), tank.wanted_retention_days
    stay = "first_retention" if tank.kind == "tanks_in_series" else "retention"
    shortest = float(months_of(values, stay, year=plant.year).min())
    what = (
        f"The tank is sized to {said(scenario, volume, 'm3')} for {wanted:.3g} days at the mean flow; in the busiest month "
        "the feed stays "
        f"in it for {shortest:.1f} days. The capital entered must be for a tank of this size."
    )
    yield Finding("clean_volume", what, "note", volume, None, "m3", "wanted retention time x flow, arithmetic")
    stated = tank.active_volume_m3
    if stated > 0 and abs(stated / volume - 1 if volume > 0 else 1.0) > SIZED_WITHIN:
        what = (
            f"{said(scenario, stated, 'm3')} are said, but {wanted:.3g} days need {said(scenario, volume, 'm3')}. "
            "The second figure is used."
        )
        yield Finding("digester.active_volume_m3", what, "warning", stated, volume, "m3", f"{PRACTICE}: within 10 %")


def grit(scenario: Scenario, values: Values, plant: PlantYear) -> Iterator[Finding | None]:
    """Room that grit takes before it is cleaned out, and clean-outs that nobody reckons with."""
    most = float(values["grit_share"].max())
    if most > GRIT_NOTED:
        what = (
            f"Grit takes up to {most:.0%} of the tank before it is cleaned out: the feed stays that much shorter, and what "
            "settles hard is costly to remove."
        )
        limit = GRIT_WARNED if most > GRIT_WARNED else GRIT_NOTED
        yield Finding("grit_share", what, "warning" if most > GRIT_WARNED else "note", most, limit, "share", PRACTICE)
    if scenario.clean_out.every_years == 0 and is_heated(scenario):
        what = (
            "No clean-out is reckoned with. Tanks are opened every 5 to 10 years: weeks without gas, a crane and many loads of "
            "grit. Enter one, or ask who does it and what it costs."
        )
        yield Finding("clean_out.every_years", what, "note", 0.0, None, "year", PRACTICE)


def pond(scenario: Scenario, values: Values, plant: PlantYear) -> Iterator[Finding | None]:
    """Gas of the coldest months of a pond, and how long its liquid stays."""
    if is_heated(scenario):
        return
    warmth = months_of(values, "digester_temperature", year=plant.year)
    gas = months_of(values, "methane_made", year=plant.year) / months_of(values, "timeline.days", year=plant.year)
    if gas.max() > 0:
        what = (
            f"The pond is {said(scenario, warmth.min(), 'degC')} to {said(scenario, warmth.max(), 'degC')} warm, so its "
            "poorest month gives "
            f"{gas.min() / gas.max():.0%} of the gas of its best. Under {said(scenario, COLD_POND, 'degC')} published rates "
            "lie far apart, and solids that settle in winter gasify in summer: trust the year more than the month."
        )
        source = "monthly air temperature one month late (IPCC 2019, Annex 10A.3, read second-hand); rates from memory"
        yield Finding("digester_temperature", what, "note", float(gas.min() / gas.max()), None, "share", source)
    days = float(months_of(values, "retention", year=plant.year).mean())
    yield band("hrt_lagoon", days, scenario=scenario, where="retention", figure=f"The liquid stays {days:.0f} days in the pond")


def pond_record(scenario: Scenario, values: Values, plant: PlantYear) -> Iterator[Finding | None]:
    """Power of a pond on the manure of dairy cows alone, for each animal, beside what such ponds report."""
    dairy = all(herd.animal.startswith("dairy") for herd in scenario.herd.values())
    if is_heated(scenario) or scenario.feed or not scenario.herd or not dairy or plant.power_gross_kwh <= 0:
        return
    animals = sum(float(months_of(values, f"substrate.{name}.heads", year=plant.year).mean()) for name in scenario.herd)
    if animals <= 0:
        return
    facts, ours = row("kinetics", "record_power_per_cow_pond"), plant.power_gross_kwh / animals / DAYS_PER_YEAR
    low, mid, high = (float(facts[side]) for side in ("low", "mid", "high"))
    what = (
        f"This plan makes {ours:.1f} kWh of gross power for each animal and day. Of nine US dairies with a covered pond on "
        f"manure alone half report {low:.1f} to {high:.1f} kWh a cow, the middle one {mid:.1f}. Flushed barns take "
        "sand and solids out before the pond: count as collected only what reaches it."
    )
    grave: Severity = "warning" if ours > high else "note"
    yield Finding("methane_made", what, grave, ours, mid, "kWh/head/day", sourced(facts["source"], facts["basis"]))


def soured(scenario: Scenario, values: Values, plant: PlantYear) -> Iterator[Finding | None]:
    """What the soured tank of the scenario costs in gas."""
    if scenario.upset.month == 0:
        return
    names = [*scenario.herd, *scenario.feed]
    well = sum(values[f"substrate.{name}.mature_methane"][0] for name in names)
    others = values["ramp"][0] * values["settling"][0] * values["reseeding"][0]
    lost = float((well * others * (1 - values["upset"][0])).sum())
    what = (
        f"In month {scenario.upset.month:.0f} of feeding the tank turns sour and {said(scenario, lost, 'Nm3')} of methane "
        "are lost, beside "
        "fees, seed and heat. It is an assumption of this scenario, not a forecast."
    )
    yield Finding("upset.month", what, "note", lost, None, "Nm3", "entered in the scenario")


def honest_accuracy(scenario: Scenario, values: Values, plant: PlantYear) -> Iterator[Finding | None]:
    """How far working plants on manure lie apart: no prediction is better than that."""
    if feed_kind(scenario, values, plant) not in ("manure", "manure_food") or not is_heated(scenario):
        return
    power, gas = (row("kinetics", f"record_{what}_per_cow") for what in ("power", "gas"))
    (low, high), (least, most) = (
        tuple(float(facts[side]) / float(facts["mid"]) for side in ("low", "high")) for facts in (power, gas)
    )
    ours = MODEL_OF_THE_RECORD["kwh"] / float(power["mid"]), MODEL_OF_THE_RECORD["feet"] / float(gas["mid"])
    what = (
        "How sure is the gas of manure? Of US dairy plants with a heated tank on manure alone, half report "
        f"{low:.0%} to {high:.0%} of the middle one's {power['mid']} kWh per cow and day, and {least:.0%} to {most:.0%} of its "
        f"gas; the others lie still further off. For the cows of those plants this model gives {ours[0]:.0%} of that power and "
        f"{ours[1]:.0%} of that gas. No forecast for a plant not yet built is surer than that: judge the plan at both ends."
    )
    yield Finding("methane_made", what, "note", low, high, "share", sourced(power["source"], power["basis"]))
