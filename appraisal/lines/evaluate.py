"""The first reading of a line: numbers, over draws x months."""

from __future__ import annotations

from collections.abc import Mapping
from functools import partial
from typing import Any

import numpy as np
import numpy.typing as npt

from appraisal.lines.define import Grid
from appraisal.lines.known import Known, spread
from appraisal.lines.names import MONTHS as MONTHS
from appraisal.lines.names import Ref
from appraisal.lines.plan import Argument, Node, Plan, Step
from appraisal.lines.stepped import stepped
from appraisal.lines.tape import Stand
from appraisal.lines.views import COLUMNS
from appraisal.lines.views import VIEW as VIEW
from appraisal.lines.views import year_sum as year_sum
from appraisal.lines.year_by_year import year_by_year

Array = npt.NDArray[np.float64]
Values = Mapping[str, Array]
Held = Mapping[str, Any]  # arrays, and nought and one that are known


def evaluate(plan: Plan, inputs: Values) -> dict[str, Array]:
    """Compute every line once for all draws.

    inputs: full name -> array (1 or draws, 1) for single values, (1 or draws, months) for series.
    Returns inputs and lines by full name: once (draws, 1), month (draws, months), year (draws, years); the first
    axis is 1 where nothing a line reads was drawn.
    """
    values = dict(inputs)
    months = max((inputs[name].shape[1] for name in plan.monthly_inputs), default=1)
    for step in plan.steps:
        values.update(computed(step, values, months=months))
    return values


def whole(node: Node, values: Held, *, months: int) -> dict[str, Any]:
    """One line in one piece, by its full name; values: what it reads, months: in the model."""
    made = node.line.body(*arguments(node, values))
    if isinstance(made, Known):
        return {node.name: Known(float(made.value), columns_of(node.grid, months))}
    if isinstance(made, Stand):
        wide = node.grid == "month" and made.columns == 1
        return {node.name: made.done(partial(np.repeat, repeats=months, axis=1), columns=months) if wide else made}
    array = np.atleast_2d(np.asarray(made, dtype=np.float64))
    if node.grid == "month" and array.shape[1] == 1:
        array = np.broadcast_to(array, (array.shape[0], months))
    return {node.name: array}


def computed(step: Step, values: Held, *, months: int) -> dict[str, Any]:
    """The lines of one step by full name; values: what they read, months: in the model."""
    if step.inner:
        return year_by_year(step, partial(spread_view, values=values), months=months, roll=stepped)
    if step.stepped:
        return stepped(step, partial(spread_view, values=values), {})
    return whole(step.nodes[0], values, months=months)


def arguments(node: Node, values: Held) -> list[Any]:
    """What a line is called with."""
    return [_argument(argument, values) for argument in node.arguments]


def _argument(argument: Argument, values: Held) -> Any:
    if isinstance(argument, tuple):
        return [_view(ref, values) for ref in argument]
    return _view(argument, values)


def _view(ref: Ref, values: Held) -> Any:
    value = values[ref.name]
    if ref.view == "same" or (isinstance(value, Known) and not value.value and ref.view != "years_of"):
        return value
    if isinstance(value, Stand):
        return value.done(VIEW[ref.view], columns=COLUMNS[ref.view](value.columns))
    return spread_view(ref, values)


def spread_view(ref: Ref, values: Held) -> Array:
    """A value as an array, as a line looks at it."""
    return VIEW[ref.view](spread(values[ref.name]))


def columns_of(grid: Grid, months: int) -> int:
    """Columns of a line of that grid: months, years or 1."""
    return {"month": months, "year": months // MONTHS}.get(grid, 1)
