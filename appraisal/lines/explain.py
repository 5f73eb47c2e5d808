"""The third reading of a line: how a figure was made, one step down at a time and down to the inputs."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass
from typing import Literal

from appraisal.lines.evaluate import MONTHS, VIEW, Array, Values
from appraisal.lines.names import Ref
from appraisal.lines.plan import Plan

Summary = Literal["sum", "mean", "last", "single"]


@dataclass(frozen=True)
class Figure:
    """One value in an explanation.

    name: full name of the line or input; label, unit, meaning: what it is, meaning empty for an input.
    periods: its twelve months of the project year, or the one value that holds in all of them, as the line above reads it.
    view: how the line above reads it. summary: how `value` stands for the year. parts: what it was made from.
    """

    name: str
    label: str
    unit: str
    meaning: str
    periods: tuple[float, ...]
    view: str
    summary: Summary
    parts: tuple[Figure, ...]

    @property
    def value(self) -> float:
        """One number for the year: flows added up, balances at the year's end, shares and prices as the mean of the months."""
        if self.summary == "sum":
            return float(sum(self.periods))
        return float(sum(self.periods) / len(self.periods)) if self.summary == "mean" else self.periods[-1]


def explain(
    plan: Plan, values: Values, name: str, *, year: int, labels: Mapping[str, tuple[str, str]], depth: int = 1
) -> Figure:
    """Say how one line was made in one project year.

    name: full name of a line or input; year: project year, the first is 1; labels: input -> (label, unit).
    depth: how many levels down to go; a quantity that refers back to its own past stops there.
    Raises KeyError when there is no such line or input.
    """
    return _figure(plan, values, Ref(name), year=year, labels=labels, above=(), depth=depth)


def leaves(plan: Plan, name: str) -> tuple[str, ...]:
    """Every input a line rests on, the nearest first: those it reads itself, then those its parts read, and so on."""
    seen, level, found = {name}, [name], dict[str, None]()
    while level:
        below = dict.fromkeys(ref.name for each in level if each in plan.nodes for ref in plan.nodes[each].refs())
        level = [each for each in below if each not in seen]
        seen.update(level)
        found.update(dict.fromkeys(each for each in level if each not in plan.nodes))
    return tuple(found)


def _figure(
    plan: Plan,
    values: Values,
    ref: Ref,
    *,
    year: int,
    labels: Mapping[str, tuple[str, str]],
    above: tuple[str, ...],
    depth: int,
) -> Figure:
    node = plan.nodes.get(ref.name)
    label, unit, meaning = (
        (node.label, node.line.unit, node.line.meaning) if node else (*labels.get(ref.name, (ref.name, "")), "")
    )
    periods = _span(VIEW[ref.view](values[ref.name]), ref, year=year, grid=plan.grid(ref.name))
    deeper = node.refs() if node and ref.name not in above and len(above) < depth else ()
    parts = tuple(
        _figure(plan, values, part, year=year, labels=labels, above=(*above, ref.name), depth=depth) for part in deeper
    )
    return Figure(ref.name, label, unit, meaning, periods, ref.view, _summary(ref, unit, len(periods)), parts)


def _span(array: Array, ref: Ref, *, year: int, grid: str) -> tuple[float, ...]:
    """The values that count in one project year, of an array already read through its view."""
    row, once = array[0], ref.view == "life_sum" or grid == "once"
    if once or array.shape[1] == 1:
        return (float(row[0]),)
    if ref.view in ("year_sum", "year_end", "years_of") or (grid == "year" and ref.view != "in_year"):
        return (float(row[year - 1]),)
    return tuple(float(x) for x in row[(year - 1) * MONTHS : year * MONTHS])


def _summary(ref: Ref, unit: str, count: int) -> Summary:
    if count == 1:
        return "single"
    if ref.view == "cumulative" or unit == "money":
        return "last"
    return "sum" if unit.endswith("/month") else "mean"
