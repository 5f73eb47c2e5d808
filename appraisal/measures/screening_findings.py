"""Findings about costs taken from a table or held against one: too old, out of the row's range, of another size."""

from __future__ import annotations

from collections.abc import Iterator

from appraisal.errors import AppraisalError, Finding
from appraisal.scenario.derived_costs import factor_of, today_of
from appraisal.scenario.funding import Capital
from appraisal.scenario.model import Scenario
from appraisal.scenario.reference import Figure, figure
from appraisal.scenario.reference import row as table_row

OLD_AFTER_YEARS = 10  # common practice, no source: plants, wages and rules change more than an index shows
TABLE = "table capital_costs"


def findings(scenario: Scenario) -> tuple[Finding, ...]:
    """All findings about capital items that name a row of the table of capital costs."""
    named = {name: item for name, item in scenario.capital.items() if item.like}
    return tuple(found for name, item in named.items() for found in _of_item(scenario, name, item))


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
        what = f"The row {item.like} is of plants of {size.value:g} to {largest:g} {size.unit}; this one is another size."
        limit = largest if item.size > largest else size.value
        yield Finding(f"capital.{name}.size", what, "note", item.size, limit, size.unit, f"{TABLE}, row {item.like}")


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
            f"{item.amount:,.0f} {currency} is outside {low:,.0f} to {high:,.0f} {currency}, the row {item.like} in "
            f"today's money ({words})."
        )
        limit = low if item.amount < low else high
        yield Finding(f"capital.{name}.amount", what, "warning", item.amount, limit, currency, row.source)
