"""What changed between two readings of a plan: every input that differs, and what each does to worth and cover by itself."""

from __future__ import annotations

from dataclasses import dataclass

import numpy as np

from appraisal.appraise import Appraisal, appraise
from appraisal.errors import ScenarioError
from appraisal.risk.points import RiskError
from appraisal.scenario.assumptions import Assumption
from appraisal.scenario.load import Loaded, with_values


@dataclass(frozen=True)
class Difference:
    """One input that differs.

    old, new: its assumption in either file, None where the file has none (an item that came or went).
    npv_change [money], cover_change [1]: of the old plan with this one input as in the new; None where it cannot be set by
    itself, `why` then says so. cover_change is None too where no debt is due.
    """

    path: str
    old: Assumption | None
    new: Assumption | None
    npv_change: float | None
    cover_change: float | None
    why: str = ""


@dataclass(frozen=True, eq=False)
class Differences:
    """Two plans: their appraisals and every difference, the largest effect on worth first."""

    old: Appraisal
    new: Appraisal
    inputs: tuple[Difference, ...]


def differences(old: Loaded, new: Loaded) -> Differences:
    """Compare two plans of one currency input by input; raises RiskError where the currencies differ."""
    if old.scenario.project.currency != new.scenario.project.currency:
        raise RiskError("the plans count in different currencies")
    before, after = appraise(old), appraise(new)
    paths = dict.fromkeys((*old.assumptions, *new.assumptions))
    made = [
        _one(old, before, path, old.assumptions.get(path), new.assumptions.get(path))
        for path in paths
        if _differs(old.assumptions.get(path), new.assumptions.get(path))
    ]
    made.sort(key=lambda each: (-abs(each.npv_change or 0.0), each.path))
    return Differences(before, after, tuple(made))


def _differs(old: Assumption | None, new: Assumption | None) -> bool:
    return old is None or new is None or old.value != new.value


def _one(old: Loaded, before: Appraisal, path: str, was: Assumption | None, now: Assumption | None) -> Difference:
    if was is None or now is None:
        why = "only in the new file" if was is None else "only in the old file"
        return Difference(path, was, now, None, None, why)
    if now.origin == "computed":
        return Difference(path, was, now, None, None, "follows from other inputs")
    value = list(now.value) if isinstance(now.value, tuple) else now.value
    try:
        moved = appraise(with_values(old, {path: value}))
    except ScenarioError as error:
        return Difference(path, was, now, None, None, f"not by itself: {error.faults[0].what}")
    cover = [float(each.headline.dscr_min.value[0]) for each in (before, moved)]
    change = cover[1] - cover[0]
    return Difference(
        path,
        was,
        now,
        float(moved.headline.npv[0] - before.headline.npv[0]),
        float(change) if np.isfinite(change) else None,
    )
