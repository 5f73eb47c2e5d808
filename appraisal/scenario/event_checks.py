"""A time of an event that its choice would leave without effect."""

from __future__ import annotations

from appraisal.errors import Fault
from appraisal.scenario.herd import Herd
from appraisal.scenario.model import Scenario
from appraisal.scenario.quantity import declarations

STAYS = next(item.default for item in declarations(Herd) if item.name == "sold_after_years")


def failure_counts(scenario: Scenario) -> list[Fault]:
    """An engine with a month of failure counts its failure."""
    return [
        Fault(f"engine.{name}.failure_month", "would move nothing, because failure is `not_counted`",
              got=f"{engine.failure_month:g} month", hint='write failure = "counted"')
        for name, engine in scenario.engine.items() if engine.failure == "not_counted" and engine.failure_month > 0
    ]


def sale_counts(scenario: Scenario) -> list[Fault]:
    """A herd with a time of sale may be sold."""
    return [
        Fault(f"herd.{name}.sold_after_years", "would move nothing, because keeping is `stays`",
              got=f"{herd.sold_after_years:g} year", hint='write keeping = "may_be_sold"')
        for name, herd in scenario.herd.items() if herd.keeping == "stays" and herd.sold_after_years != STAYS
    ]
