"""Ranges carried along when their values are moved, so that what could go wrong can be asked of the moved plan too."""

from __future__ import annotations

from collections.abc import Iterable, Mapping
from typing import Any

from appraisal.errors import ScenarioError
from appraisal.risk.changes import Change, changed_scenario, numbers
from appraisal.scenario.beside import Range, parameters
from appraisal.scenario.load import Loaded, with_values
from appraisal.scenario.named_asides import matching
from appraisal.scenario.quantity import Declaration

WIDTHS = ("sd_before_cut",)
FREE = ("weights", "per_year")  # of no value's unit
Given = dict[str, Any]


def with_ranges(loaded: Loaded, new: Mapping[str, float], changes: Iterable[Change]) -> Loaded:
    """The scenario with new values and the ranges that fit them, read anew.

    new: path -> value after all changes. changes: what moved them: a range is stretched with a factor and shifted with
    anything added; that of a value put in another's place is left out, but for hazards. Raises RiskError where the values
    are not valid together; where only the moved ranges are not, those are left out.
    """
    known = numbers(loaded)
    kinds = {path: change.kind for change in changes for path in matching(change.pattern, known)}
    unmoved = {path: _given(item) for path, item in loaded.scenario.range.items() if path not in new}
    moved = {
        path: made
        for path, item in loaded.scenario.range.items()
        if path in new
        and (made := moved_range(item, kinds[path], before=known[path], after=new[path],
                                 field=loaded.assumptions[path].declaration)) is not None
    }  # fmt: skip
    for ranges in ({**unmoved, **moved}, unmoved):
        try:
            return with_values(loaded, new, ranges=ranges)
        except ScenarioError:
            continue
    return changed_scenario(loaded, new)


def _given(item: Range) -> Given:
    return {"shape": item.shape, "reason": item.reason, **parameters(item)}


def moved_range(item: Range, kind: str, *, before: float, after: float, field: Declaration) -> Given | None:
    """A range moved with its value from `before` to `after` [unit of the field], cut at the field's limits; None for none."""
    given = _given(item)
    if item.shape == "hazard":
        return given
    if kind == "to" or (kind == "times" and not after / before > 0):
        return None
    factor, shift = (after / before, 0.0) if kind == "times" else (1.0, after - before)

    def place(value: float) -> float:
        moved = value * factor + shift
        moved = moved if field.low is None else max(moved, field.low)
        return moved if field.high is None else min(moved, field.high)

    for name, value in parameters(item).items():
        if name in WIDTHS:
            given[name] = value * factor
        elif name not in FREE:
            given[name] = [place(each) for each in value] if isinstance(value, list) else place(value)
    return given
