"""The first reading of a line: numbers, over draws x months."""

from __future__ import annotations

from collections.abc import Callable, Collection, Iterator, Mapping, Sequence
from dataclasses import dataclass
from functools import partial
from typing import Any

import numpy as np
import numpy.typing as npt

from appraisal.lines.known import Known, noticed, spread
from appraisal.lines.names import MONTHS as MONTHS
from appraisal.lines.names import Ref, View
from appraisal.lines.plan import Argument, Node, Plan, Step
from appraisal.lines.stepped import stepped
from appraisal.lines.year_by_year import year_by_year

Array = npt.NDArray[np.float64]
Values = Mapping[str, Array]
Held = Mapping[str, Any]  # arrays, and nought and one that are known
BLOCK = 1024


def evaluate(plan: Plan, inputs: Values) -> dict[str, Array]:
    """Compute every line once for all draws.

    inputs: full name -> array (1 or draws, 1) for single values, (1 or draws, months) for series.
    Returns inputs and lines by full name: once (draws, 1), month (draws, months), year (draws, years); the first
    axis is 1 where nothing a line reads was drawn.
    """
    values = dict(inputs)
    months = max((inputs[name].shape[1] for name in plan.monthly_inputs), default=1)
    for step in plan.steps:
        values.update(_computed(step, values, months=months))
    return values


def _whole(node: Node, values: Held, *, months: int) -> dict[str, Any]:
    made = node.line.body(*_arguments(node, values))
    if isinstance(made, Known):
        return {node.name: Known(float(made.value), {"month": months, "year": months // MONTHS}.get(node.grid, 1))}
    array = np.atleast_2d(np.asarray(made, dtype=np.float64))
    if node.grid == "month" and array.shape[1] == 1:
        array = np.broadcast_to(array, (array.shape[0], months))
    return {node.name: array}


def evaluate_in_blocks(
    plan: Plan,
    inputs: Values,
    *,
    keep: Sequence[str],
    block: int = BLOCK,
) -> Iterator[dict[str, Array]]:
    """Compute block after block of draws, so that arrays stay in cache, and hand on only the lines in `keep`.

    inputs: as for `evaluate`; keep: full names; block: draws at a time.
    Yields one mapping a block: full name -> array whose first axis is the draws of the block.
    """
    drawn = {name: array for name, array in inputs.items() if array.shape[0] > 1}
    prepared = prepare(plan, inputs, drawn=drawn, keep=keep)
    draws = max((array.shape[0] for array in drawn.values()), default=1)
    for start in range(0, draws, block):
        yield evaluate_block(prepared, {name: array[start : start + block] for name, array in drawn.items()})


@dataclass(frozen=True, eq=False)
class Prepared:
    """A plan made ready for many blocks of draws.

    steps: what must be computed in every block, in order. drops: names no later step reads, beside each step.
    fixed: inputs and lines that nothing drawn reaches, computed once, nought and one as `Known`. months: in the model.
    keep: names handed on.
    """

    steps: tuple[Step, ...]
    drops: tuple[tuple[str, ...], ...]
    fixed: Held
    months: int
    keep: tuple[str, ...]


def prepare(plan: Plan, inputs: Values, *, drawn: Collection[str], keep: Sequence[str]) -> Prepared:
    """Leave out what `keep` does not need, compute what nothing drawn reaches, and note when a value is done with.

    inputs: full name -> array, of the drawn ones any; drawn: inputs that change from draw to draw; keep: full names.
    """
    months = max((inputs[name].shape[1] for name in plan.monthly_inputs), default=1)
    fixed = {name: array for name, array in inputs.items() if name not in drawn}
    moving, steps = set(drawn), []
    for step in needed(plan, keep):
        if any(ref.name in moving for node in step.nodes for ref in node.refs()):
            moving |= {node.name for node in step.nodes}
            steps.append(step)
        else:
            fixed |= _computed(step, fixed, months=months)
    last = {name: number for number, step in enumerate(steps) for node in step.nodes for name in _touched(node)}
    drops = [
        tuple(name for name, place in last.items() if place == number and name in moving and name not in keep)
        for number in range(len(steps))
    ]
    read = {ref.name for step in steps for node in step.nodes for ref in node.refs()} | set(keep)
    return Prepared(
        tuple(steps), tuple(drops), noticed({name: fixed[name] for name in read if name in fixed}), months, tuple(keep)
    )


def needed(plan: Plan, keep: Collection[str]) -> list[Step]:
    """The steps that the lines in `keep` rest on, in order."""
    wanted, steps = set(keep), []
    for step in reversed(plan.steps):
        if any(node.name in wanted for node in step.nodes):
            wanted |= {ref.name for node in step.nodes for ref in node.refs()}
            steps.append(step)
    return steps[::-1]


def _touched(node: Node) -> Iterator[str]:
    yield node.name
    yield from (ref.name for ref in node.refs())


def evaluate_block(prepared: Prepared, drawn: Values) -> dict[str, Array]:
    """Compute one block of draws; every value is freed after its last use, so that a block stays in the cache.

    drawn: full name -> array (draws, 1 or more columns), for every input named as drawn.
    Returns the kept names, each with the draws of the block as its first axis.
    """
    values: dict[str, Any] = {**prepared.fixed, **drawn}
    for step, drops in zip(prepared.steps, prepared.drops, strict=True):
        values.update(_computed(step, values, months=prepared.months))
        for name in drops:
            del values[name]
    size = max((array.shape[0] for array in drawn.values()), default=1)
    kept = {name: spread(values[name]) for name in prepared.keep}
    return {name: np.broadcast_to(array, (size, array.shape[1])) for name, array in kept.items()}


def _computed(step: Step, values: Held, *, months: int) -> dict[str, Any]:
    if step.inner:
        return year_by_year(step, partial(_spread_view, values=values), months=months, roll=stepped)
    if step.stepped:
        return stepped(step, partial(_spread_view, values=values), {})
    return _whole(step.nodes[0], values, months=months)


def _arguments(node: Node, values: Held) -> list[Any]:
    return [_argument(argument, values) for argument in node.arguments]


def _argument(argument: Argument, values: Held) -> Any:
    if isinstance(argument, tuple):
        return [_view(ref, values) for ref in argument]
    return _view(argument, values)


def _view(ref: Ref, values: Held) -> Any:
    value = values[ref.name]
    if ref.view == "same" or (isinstance(value, Known) and not value.value and ref.view != "years_of"):
        return value
    return _spread_view(ref, values)


def _spread_view(ref: Ref, values: Held) -> Array:
    return VIEW[ref.view](spread(values[ref.name]))


def _previous(x: Array) -> Array:
    return np.concatenate((np.zeros_like(x[:, :1]), x[:, :-1]), axis=1)


def _next(x: Array) -> Array:
    return np.concatenate((x[:, 1:], np.zeros_like(x[:, :1])), axis=1)


def _cumulative(x: Array) -> Array:
    return np.cumsum(x, axis=1)


def _life_sum(x: Array) -> Array:
    return np.cumsum(x, axis=1)[:, -1:]


def year_sum(x: Array) -> Array:
    """Sum months (draws, 12 x years) by project year (draws, years), in the order of the months for every shape."""
    total = x[:, 0::MONTHS].copy()
    for month in range(1, MONTHS):
        total += x[:, month::MONTHS]
    return total


VIEW: dict[View, Callable[[Array], Array]] = {
    "same": lambda x: x,
    "previous": _previous,
    "next": _next,
    "cumulative": _cumulative,
    "life_sum": _life_sum,
    "year_sum": year_sum,
    "year_end": lambda x: x[:, MONTHS - 1 :: MONTHS],
    "in_year": lambda x: np.repeat(x, MONTHS, axis=1),
    "years_of": lambda x: x[:, ::MONTHS],
}
