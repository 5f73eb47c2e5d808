"""The smallest grant with which the plan reaches its targets, found by a root search on the grant's share of eligible cost."""

from __future__ import annotations

from dataclasses import dataclass
from typing import Literal

from appraisal.appraise import Appraisal, appraise
from appraisal.risk.changes import changed_scenario
from appraisal.risk.reverse import Measure, break_even
from appraisal.scenario.load import Loaded

NO_CEILING = 1e9  # money; the widest limit of the field
Status = Literal["none needed", "found", "no grant reaches it", "not asked"]


@dataclass(frozen=True)
class Least:
    """One target. share [share of eligible cost] and amount [money] of the smallest grant; None where the status says why."""

    measure: Measure
    limit: float
    status: Status
    share: float | None
    amount: float | None


@dataclass(frozen=True)
class LeastGrant:
    """The smallest grant in place of the one called `grant`, all others as planned, its ceiling lifted.

    grant: short name, empty where the plan has no grant: then nothing was searched. targets: worth at least nothing, and
    cover at least the one wanted.
    """

    grant: str
    targets: tuple[Least, ...]


def without_grants(loaded: Loaded) -> Appraisal | None:
    """The same plan with every grant at nothing, loans and all else as they are; None where there is no grant."""
    names = loaded.scenario.grant
    return appraise(changed_scenario(loaded, {path(name): 0.0 for name in names})) if names else None


def path(name: str) -> str:
    """Path of a grant's share of the eligible cost."""
    return f"grant.{name}.share_of_eligible"


def least_grant(loaded: Loaded) -> LeastGrant:
    """Search for the grant asked for, the first public one of the scenario; shares up to all of the eligible cost."""
    grants = loaded.scenario.grant
    name = next((each for each, grant in grants.items() if grant.public == "yes"), "")
    if not name:
        return LeastGrant("", ())
    lifted = changed_scenario(loaded, {f"grant.{name}.at_most": NO_CEILING, path(name): 0.0})
    start = appraise(lifted)
    counted = float(start.values[f"grant.{name}.counts_from"][0].sum())
    targets: tuple[tuple[Measure, float], ...] = (("npv", 0.0), ("least_cover", loaded.scenario.judging.least_cover))
    return LeastGrant(name, tuple(_least(lifted, start, name, counted, measure, limit) for measure, limit in targets))


def _least(lifted: Loaded, start: Appraisal, name: str, counted: float, measure: Measure, limit: float) -> Least:
    head = start.headline
    least = head.dscr_min
    if measure == "least_cover" and least.words[0] == "no debt due":
        return Least(measure, limit, "not asked", None, None)
    now = float(head.npv[0]) if measure == "npv" else float(least.value[0])
    if now >= limit:
        return Least(measure, limit, "none needed", 0.0, 0.0)
    found = break_even(lifted, path(name), measure=measure, limit=limit)
    if found.value is None or found.status != "meets":
        return Least(measure, limit, "no grant reaches it", None, None)
    return Least(measure, limit, "found", found.value, found.value * counted)
