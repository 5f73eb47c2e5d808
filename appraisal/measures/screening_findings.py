"""Findings about costs taken from a table or held against one: too old, out of its range, of another size, far off as a whole."""

from __future__ import annotations

from collections.abc import Iterator

from appraisal.errors import AppraisalError, Finding
from appraisal.scenario.derived_costs import factor_of, today_of
from appraisal.scenario.funding import Capital
from appraisal.scenario.model import Scenario
from appraisal.scenario.reference import Figure, figure
from appraisal.scenario.reference import row as table_row
from appraisal.scenario.said import plain, said
from appraisal.technical_yield.limits.band import sourced

OLD_AFTER_YEARS = 10  # common practice, no source: plants, wages and rules change more than an index shows
WHOLE_PLANTS = tuple(f"wp_de_{kw}kw" for kw in (75, 150, 250, 500, 750, 1000))  # in rising order of size
FAR_UNDER, FAR_OVER = 0.5, 2.5  # times the low and the high of the row; judged, no source


def findings(scenario: Scenario) -> tuple[Finding, ...]:
    """All findings about capital items that name a row of the table of capital costs, and about all capital for each kW."""
    named = {name: item for name, item in scenario.capital.items() if item.like}
    found = [finding for name, item in named.items() for finding in _of_item(scenario, name, item)]
    return (*found, *_whole_plant(scenario))


def _whole_plant(scenario: Scenario) -> Iterator[Finding]:
    """All capital over all engine power, far from what whole plants with power and heat cost."""
    cost, power = (
        sum(item.amount for item in scenario.capital.values()), sum(engine.rated_kw for engine in scenario.engine.values()))
    if cost <= 0 or scenario.upgrading.takes != "nothing":
        return
    name = next((row for row in WHOLE_PLANTS if power <= figure("capital_costs", row, "size_high").value), WHOLE_PLANTS[-1])
    row = figure("capital_costs", name, "mid")
    try:
        factor, _ = factor_of(row, place="DE", project=scenario.project.model_dump())
    except AppraisalError:
        return
    low, high = (None if end is None else end * factor for end in (row.low, row.high))
    if low is None or high is None or FAR_UNDER * low <= cost / power <= FAR_OVER * high:
        return
    money, each = scenario.project.currency, cost / power
    far, limit = ("under half", FAR_UNDER * low) if each < low else (f"over {FAR_OVER:g} times", FAR_OVER * high)
    what = (
        f"All capital is {each:,.0f} {money} for each kW of engine, {far} what whole farm plants of this size cost "
        f"({low:,.0f} to {high:,.0f} {money} in today's money): is something left out or counted twice, or a unit wrong?"
    )
    source = f"{sourced(row.source, row.basis)}; how far is too far: judged, no source"
    yield Finding("capital", what, "warning", each, limit, f"{money}/kW", source)


def _of_item(scenario: Scenario, name: str, item: Capital) -> Iterator[Finding]:
    try:
        row = figure("capital_costs", item.like, "mid")
        size = figure("capital_costs", item.like, "size_low")
        largest = figure("capital_costs", item.like, "size_high").value
    except AppraisalError:
        return
    yield from _age(scenario, name, row)
    yield from _range(scenario, name, item, row)
    if row.unit != "per plant" and size.value > 1 and not size.value <= item.size <= largest:
        smallest, biggest = (said(scenario, end, size.unit, "g") for end in (size.value, largest))
        what = f"The row {plain(item.like)} is of plants of {smallest} to {biggest}; this one is another size."
        limit = largest if item.size > largest else size.value
        yield Finding(f"capital.{name}.size", what, "note", item.size, limit, size.unit, row.source)


def _age(scenario: Scenario, name: str, row: Figure) -> Iterator[Finding]:
    today = today_of(scenario.project.model_dump())
    if row.price_year is not None and today is not None and today - row.price_year > OLD_AFTER_YEARS:
        age = today - row.price_year
        what = f"Rests on a figure of {row.price_year}, {age} years old: an index moves prices, not designs. Ask for quotes."
        source = "common practice, no source"
        yield Finding(f"capital.{name}.like", what, "warning", float(age), float(OLD_AFTER_YEARS), "year", source)


def _range(scenario: Scenario, name: str, item: Capital, row: Figure) -> Iterator[Finding]:
    """A stated cost outside the row's own range in today's money."""
    place = table_row("capital_costs", item.like)["country"]
    try:
        factor, words = factor_of(row, place=place, project=scenario.project.model_dump())
    except AppraisalError:
        return
    low, high = ((row.value if end is None else end) * item.size * factor for end in (row.low, row.high))
    if not low <= item.amount <= high * (1 + 1e-9):
        currency = scenario.project.currency
        what = (
            f"{item.amount:,.0f} {currency} is outside {low:,.0f} to {high:,.0f} {currency}, the row {plain(item.like)} in "
            f"today's money ({words})."
        )
        limit = low if item.amount < low else high
        yield Finding(f"capital.{name}.amount", what, "warning", item.amount, limit, currency, row.source)
