"""The figure and the band: how one number of a plant is held against a row of the reference table `digester_limits`."""

from __future__ import annotations

import re
from collections.abc import Callable, Iterator

from appraisal.errors import Finding, Severity
from appraisal.scenario.model import Scenario
from appraisal.scenario.reference import row
from appraisal.scenario.said import said
from appraisal.technical_yield.plant_year import PlantYear, Values, months_of

BANDS: tuple[tuple[str, Severity], ...] = (
    ("stop_and_ask", "stop and ask"),
    ("warn", "warning"),
    ("comfortable", "note"),
)
SIDES = (("low", -1, "under", "below_means"), ("high", 1, "over", "above_means"))
WORDS = {"stop_and_ask": "stop-and-ask", "warn": "warning", "comfortable": "comfortable"}
Check = Callable[[Scenario, Values, PlantYear], Iterator[Finding | None]]
ROUNDING = 1e-9  # of the limit: a figure that meets a limit is not beyond it
HOW_KNOWN = {"memory": "from memory", "read": "read at the source"}  # words of the column `basis`, for readers
_KNOWN = re.compile(r"\b(memory|read)\b(?=[:;]|$)")
THERMOPHILIC_FROM = 46.0  # degC; between the two bands of table digester_limits


def band(limit: str, value: float, *, scenario: Scenario, where: str, figure: str) -> Finding | None:
    """Hold one figure against a row of table digester_limits; None inside the comfortable band.

    value: in the unit of the row. scenario: whose units are said. where: path or line. figure: the figure in words, with unit.
    """
    facts = row("digester_limits", limit)
    for name, severity in BANDS:
        for side, sign, word, meaning in SIDES:
            edge = facts[f"{name}_{side}"]
            if edge and sign * (value - float(edge)) > ROUNDING * abs(float(edge)):
                what = f"{figure}, {word} the {WORDS[name]} limit of {_edge(scenario, edge, facts['unit'])}. {facts[meaning]}"
                source = sourced(facts["source"], facts["basis"])
                return Finding(where, what, severity, value, float(edge), facts["unit"], source)
    return None


def band_of_span(
    limit: str, *, low: tuple[float, str], high: tuple[float, str], scenario: Scenario, where: str
) -> Finding | None:
    """Hold the lowest figure of a span against the low side of a row, and where that is well the highest against the high.

    low, high: figure in the unit of the row, and the figure in words, with unit.
    """
    found = band(limit, low[0], scenario=scenario, where=where, figure=low[1])
    if found is not None and found.limit is not None and low[0] < found.limit:
        return found
    found = band(limit, high[0], scenario=scenario, where=where, figure=high[1])
    return found if found is not None and found.limit is not None and high[0] > found.limit else None


def _edge(scenario: Scenario, edge: str, unit: str) -> str:
    """A limit with its unit, shares as per cent: `0.4` and `fraction` become 40%."""
    is_share = unit == "fraction" or unit.startswith("share")
    return f"{float(edge) * 100:g}%" if is_share else said(scenario, float(edge), unit, "g")


def sourced(source: str, basis: str) -> str:
    """Source with how it is known in brackets, once where both say the same."""
    known = _KNOWN.sub(lambda found: HOW_KNOWN[found.group()], basis)
    return f"{source} ({known})" if basis and basis != source else source


def year_of(values: Values, name: str, plant: PlantYear) -> float:
    """Sum of a line over the plant's first full year."""
    return float(months_of(values, name, year=plant.year).sum())


def feed_kind(scenario: Scenario, values: Values, plant: PlantYear) -> str:
    """What the digester mainly eats, for the choice of limits: manure, manure_food, food or crops."""
    solids = {"manure": 0.0, "crop": 0.0, "other": 0.0}
    for name in scenario.herd:
        solids["manure"] += year_of(values, f"substrate.{name}.volatile_solids", plant)
    for name, feed in scenario.feed.items():
        category = row("feedstocks", feed.like)["category"] if feed.like else "other"
        kind = category if category in ("manure", "crop") else "other"
        solids[kind] += year_of(values, f"substrate.{name}.volatile_solids", plant)
    whole = sum(solids.values()) or 1.0
    if solids["manure"] / whole > 0.9:
        return "manure"
    if solids["crop"] > solids["other"]:
        return "crops"
    return "manure_food" if solids["manure"] / whole > 0.1 else "food"


def is_hot(scenario: Scenario) -> bool:
    """Whether the digester is held in the range of the heat-loving microbes."""
    return is_heated(scenario) and scenario.digester.temperature_degc >= THERMOPHILIC_FROM


def is_heated(scenario: Scenario) -> bool:
    """Whether the digester is a heated tank: the bands of time, load and warmth are not for a lagoon."""
    return scenario.digester.kind != "covered_lagoon"
