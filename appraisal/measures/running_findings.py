"""Findings about what a plan leaves out of its running: too few hours of work, nothing for the upkeep of tank and pumps."""

from __future__ import annotations

from collections.abc import Iterator, Mapping

from appraisal.errors import Finding
from appraisal.lines.evaluate import year_sum
from appraisal.measures.arrays import FloatArray
from appraisal.scenario.model import Scenario
from appraisal.scenario.reference import row
from appraisal.scenario.said import said
from appraisal.technical_yield.limits.band import sourced

Values = Mapping[str, FloatArray]
HOURS_PER_YEAR = 8760
PER_CENT = 100


def findings(scenario: Scenario, values: Values, *, year: int) -> tuple[Finding, ...]:
    """All findings about the running of one case (the first draw). year: its first full operating year, from 1."""
    return (*_hours(scenario, values, year), *_upkeep(scenario, values, year))


def _of_year(values: Values, name: str, year: int) -> float:
    return float(year_sum(values[name][:1])[0, year - 1])


def _hours(scenario: Scenario, values: Values, year: int) -> Iterator[Finding]:
    """Hours of work against the low end of what farm plants with a tank take at this power, and of what food waste adds."""
    if scenario.digester.kind == "covered_lagoon":
        return
    small, large, waste = (row("running_costs", name) for name in ("labour_kw_75", "labour_kw_300", "labour_waste"))
    power = _of_year(values, "power_gross", year) / HOURS_PER_YEAR
    per_kw = small if power < float(small["size_high"]) else large
    tonnes = sum(_of_year(values, f"substrate.{name}.tonnes", year) for name in _waste(scenario))
    wanted = min(power, float(large["size_high"])) * float(per_kw["low"]) + tonnes * float(waste["low"])
    given = _of_year(values, "family_hours", year) + _of_year(values, "hired_hours", year)
    if given < wanted:
        extra = f" and {said(scenario, tonnes, 't')} of food waste" if tonnes else ""
        what = (
            f"The plan has {given:,.0f} hours of work a year, family and hired. Farm plants take {wanted:,.0f} and more for "
            f"{power:,.0f} kW on average{extra}: who does the rest, and what does it cost?"
        )
        source = f"{sourced(per_kw['source'], per_kw['basis'])}, for food waste {waste['source']}; low ends"
        yield Finding("labour.family_hours_per_week", what, "warning", given, wanted, "hour/year", source)


def _waste(scenario: Scenario) -> tuple[str, ...]:
    """Feeds that need the care of food waste."""
    return tuple(
        name
        for name, feed in scenario.feed.items()
        if feed.regulated == "yes" or (feed.like and row("feedstocks", feed.like)["category"] == "food_waste")
    )


def _upkeep(scenario: Scenario, values: Values, year: int) -> Iterator[Finding]:
    """All yearly running costs that are no engine, feed or labour, against the least that upkeep alone takes."""
    cost = sum(item.amount for item in scenario.capital.values() if item.category != "engine")
    spent = -sum(_of_year(values, f"running_cost.{name}.paid", year) for name in scenario.running_cost)
    civil = row("running_costs", "upkeep_civil")
    least = float(civil["low"]) / PER_CENT
    if cost > 0 and spent < least * cost:
        what = (
            f"All yearly running costs are {spent:,.0f} {scenario.project.currency}, {spent / cost:.1%} of the "
            f"capital without engines. Upkeep alone takes {least:.0%} of tanks and buildings and 4% to 6% of pumps, mixers and "
            "covers, and insurance and laboratory come on top: is a cost left out?"
        )
        source = sourced(civil["source"], civil["basis"])
        yield Finding("running_costs", what, "warning", spent / cost, least, "share", source)
