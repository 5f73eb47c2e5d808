"""The third reading of a line: how a figure was made, down to the inputs."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass

import numpy as np

from appraisal.lines.evaluate import MONTHS, Values
from appraisal.lines.names import Ref
from appraisal.lines.plan import Plan


@dataclass(frozen=True)
class Figure:
    """One value in an explanation.

    name: full name of the line or input; label, unit, meaning: what it is, meaning empty for an input.
    value: sum over the year for flows, as it stands for single values; months: its values of that year.
    view: how the line above reads it. parts: what it was made from.
    """

    name: str
    label: str
    unit: str
    meaning: str
    months: tuple[float, ...]
    view: str
    parts: tuple[Figure, ...]

    @property
    def value(self) -> float:
        """Sum of the months shown, in `unit` per the span they cover."""
        return float(sum(self.months))


def explain(
    plan: Plan,
    values: Values,
    name: str,
    *,
    year: int,
    labels: Mapping[str, tuple[str, str]],
    depth: int = 20,
) -> Figure:
    """Say how one line was made in one project year.

    name: full name of a line; year: project year, the first is 1; labels: input path -> (label, unit).
    depth: how many levels down to go; a quantity that refers back to its own past stops there.
    Raises KeyError when there is no such line or input.
    """
    return _figure(plan, values, Ref(name), year=year, labels=labels, above=(), depth=depth)


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
    months = _span(values[ref.name], year=year, grid=plan.grid(ref.name))
    node = plan.nodes.get(ref.name)
    if node is None:
        label, unit = labels.get(ref.name, (ref.name, ""))
        return Figure(ref.name, label, unit, "", months, ref.view, ())
    deeper = () if ref.name in above or len(above) >= depth else tuple(node.refs())
    parts = tuple(
        _figure(plan, values, part, year=year, labels=labels, above=(*above, ref.name), depth=depth) for part in deeper
    )
    return Figure(ref.name, node.label, node.line.unit, node.line.meaning, months, ref.view, parts)


def _span(array: np.ndarray[tuple[int, ...], np.dtype[np.float64]], *, year: int, grid: str) -> tuple[float, ...]:
    row = array[0]
    if grid == "once":
        return (float(row[0]),)
    if grid == "year":
        return (float(row[year - 1]),)
    return tuple(float(x) for x in row[(year - 1) * MONTHS : year * MONTHS])
