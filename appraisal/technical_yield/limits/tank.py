"""Findings about the tank: how long, how full, how thick, how warm, and how much of the feed becomes gas."""

from __future__ import annotations

from collections.abc import Iterator

import numpy as np
import numpy.typing as npt

from appraisal.errors import Finding
from appraisal.lines.evaluate import MONTHS
from appraisal.scenario.model import Scenario
from appraisal.scenario.said import said
from appraisal.technical_yield.limits.band import band, band_of_span, feed_kind, is_heated, is_hot, year_of
from appraisal.technical_yield.plant_year import DAYS_PER_YEAR, PlantYear, Values, months_of

STATED_WITHIN = 0.1  # of volume over flow; common practice, no source
PUMPED = ("manure", "manure_food")  # feed that comes by pump, so that its dry matter has an upper limit
BY_SCREW = ("solid_feeder", "finely_ground")  # handling that needs no pump


def retention(scenario: Scenario, values: Values, plant: PlantYear) -> Iterator[Finding | None]:
    """Retention time: the shortest month against the short side, the mean of the year against the long side."""
    if not is_heated(scenario):
        return
    days = months_of(values, "retention", year=plant.year)
    kind = feed_kind(scenario, values, plant)
    if scenario.digester.kind == "plug_flow":
        kind = "plug_flow"
    elif kind == "manure" and is_hot(scenario):
        kind = "thermophilic_manure"
    shortest, mean = float(days.min()), float(days.mean())
    yield band_of_span(
        f"hrt_{kind}",
        low=(shortest, f"The feed stays {shortest:.1f} days in the shortest month"),
        high=(mean, f"The feed stays {mean:.1f} days on average"),
        scenario=scenario,
        where="retention",
    )


def stated_retention(scenario: Scenario, values: Values, plant: PlantYear) -> Iterator[Finding | None]:
    """A declared or said retention time against volume and flow."""
    by_volume = float(months_of(values, "retention_by_volume", year=plant.year).mean())
    stated = {"claims.retention_days": scenario.claims.retention_days}
    if scenario.digester.retention == "declared":
        stated["digester.declared_retention_days"] = scenario.digester.declared_retention_days
    for where, days in stated.items():
        if days > 0 and by_volume > 0 and abs(days / by_volume - 1) > STATED_WITHIN:
            yield Finding(
                where,
                f"{days:.1f} days of retention are stated, but {said(scenario, volume(values, plant), 'm3')} over the "
                f"daily flow gives {by_volume:.1f} days. One of volume, flow and retention is not right.",
                "warning",
                days,
                by_volume,
                "day",
                "volume over flow, arithmetic",
            )


def volume(values: Values, plant: PlantYear) -> float:
    """Active volume of all tanks on average of the plant's full year [m3]."""
    return sum(float(months_of(values, name, year=plant.year).mean()) for name in ("tank_volume", "second_volume"))


def loading(scenario: Scenario, values: Values, plant: PlantYear) -> Iterator[Finding | None]:
    """Organic loading rate: the heaviest month against the high side, the mean of the year against the low side."""
    if not is_heated(scenario):
        return
    rates = months_of(values, "loading_rate", year=plant.year)
    mean, most = float(rates.mean()), float(rates.max())
    text = "The tank is loaded with {} of volatile solids {}"
    yield band_of_span(
        "olr_" + feed_kind(scenario, values, plant),
        low=(mean, text.format(said(scenario, mean, "kg VS/m3/day", ".2f"), "on average")),
        high=(most, text.format(said(scenario, most, "kg VS/m3/day", ".2f"), "in the heaviest month")),
        scenario=scenario,
        where="loading_rate",
    )


def dry_matter(scenario: Scenario, values: Values, plant: PlantYear) -> Iterator[Finding | None]:
    """Dry matter of the mixed feed on the thin side, and of what is pumped on the thick side.

    Solids fed to a stirred tank by screw may be as dry as they like, so only a feed that is pumped meets the upper limit.
    """
    plug = scenario.digester.kind == "plug_flow"
    pumped = plug or feed_kind(scenario, values, plant) in PUMPED
    items = {**scenario.herd, **scenario.feed}
    by_pump = [name for name, item in items.items() if plug or item.handling not in BY_SCREW]
    mixed = _dry_matter(values, list(items), plant)
    if mixed.size == 0:
        return
    thin = float(mixed.min())
    thick = float(_dry_matter(values, by_pump, plant).max(initial=0.0)) if pumped else thin
    yield band_of_span(
        "feed_ts_plug_flow" if plug else "feed_ts_stirred",
        low=(thin, f"The mixed feed holds {thin:.1f}% dry matter in its thinnest month"),
        high=(thick, f"What is pumped in holds {thick:.1f}% dry matter in its thickest month"),
        scenario=scenario,
        where="dry_matter_fed",
    )


def _dry_matter(values: Values, names: list[str], plant: PlantYear) -> npt.NDArray[np.float64]:
    """Dry matter of some substrates and all water by month, where anything comes [%]."""
    solids = sum((months_of(values, f"substrate.{name}.dry_matter", year=plant.year) for name in names), np.zeros(MONTHS))
    mass = months_of(values, "water_tonnes", year=plant.year) + sum(
        months_of(values, f"substrate.{name}.tonnes", year=plant.year) for name in names
    )
    return np.asarray(solids[mass > 0] / mass[mass > 0] * 100)


def liquid(scenario: Scenario, values: Values, plant: PlantYear) -> Iterator[Finding | None]:
    """Dry matter of the liquid in a mixed tank, on average of the year: the tank evens out its months."""
    if scenario.digester.kind != "plug_flow" and plant.tonnes_fed > 0:
        share = float(months_of(values, "tank_dry_matter", year=plant.year).mean()) * 100
        figure = f"The liquid in the tank holds {share:.1f}% dry matter"
        yield band("reactor_ts", share, scenario=scenario, where="tank_dry_matter", figure=figure)


def temperature(scenario: Scenario, values: Values, plant: PlantYear) -> Iterator[Finding | None]:
    """Digester temperature against the band of its regime."""
    if not is_heated(scenario):
        return
    value = scenario.digester.temperature_degc
    limit = "temperature_thermophilic" if is_hot(scenario) else "temperature_mesophilic"
    yield band(
        limit,
        value,
        scenario=scenario,
        where="digester.temperature_degc",
        figure=f"The digester is held at {said(scenario, value, 'degC', '.1f')}",
    )


def solids_digested(scenario: Scenario, values: Values, plant: PlantYear) -> Iterator[Finding | None]:
    """Share of the volatile solids that becomes gas, month by month."""
    share = months_of(values, "volatile_solids_gone_share", year=plant.year)
    least, most = float(share.min()), float(share.max())
    yield band_of_span(
        "vs_destroyed",
        low=(least, f"{least:.1%} of the volatile solids become gas in the poorest month"),
        high=(most, f"{most:.1%} of the volatile solids become gas in the best month"),
        scenario=scenario,
        where="volatile_solids_gone_share",
    )


def gas_of_the_tank(scenario: Scenario, values: Values, plant: PlantYear) -> Iterator[Finding | None]:
    """Biogas per cubic metre of tank and day."""
    if not is_heated(scenario):
        return
    rate = plant.biogas_nm3 / DAYS_PER_YEAR / volume(values, plant)
    figure = f"For its size the tank gives {said(scenario, rate, 'Nm3/m3/day', '.2f')} of gas"
    yield band("gas_productivity", rate, scenario=scenario, where="biogas_made", figure=figure)


def yield_against_potential(scenario: Scenario, values: Values, plant: PlantYear) -> Iterator[Finding | None]:
    """Methane won over what ordinary tests of the same feeds give; feeds with an achieved yield have no test to compare."""
    items = {**scenario.herd, **scenario.feed}
    tested = [name for name, item in items.items() if item.potential_kind != "achieved"]
    won, ultimate = (
        sum(year_of(values, f"substrate.{name}.{line}", plant) for name in tested) for line in ("methane", "potential")
    )
    held = ultimate * scenario.digester.test_share_of_ultimate
    if held > 0:
        figure = f"The tank wins {won / held:.1%} of the methane that ordinary tests of its feed give"
        yield band("yield_against_potential", won / held, scenario=scenario, where="methane_made", figure=figure)
