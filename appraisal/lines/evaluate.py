"""The first reading of a line: numbers, over draws x months."""

from __future__ import annotations

from collections.abc import Callable, Iterator, Mapping, Sequence

import numpy as np
import numpy.typing as npt

from appraisal.lines.names import Ref, View
from appraisal.lines.plan import Argument, Node, Plan, Step

Array = npt.NDArray[np.float64]
Values = Mapping[str, Array]
MONTHS = 12
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
        values.update(_stepped(step, values) if step.stepped else _whole(step.nodes[0], values, months=months))
    return values


def _whole(node: Node, values: Values, *, months: int) -> dict[str, Array]:
    array = np.atleast_2d(np.asarray(node.line.body(*_arguments(node, values)), dtype=np.float64))
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
    draws = max(array.shape[0] for array in inputs.values())
    for start in range(0, draws, block):
        part = {name: array[start : start + block] if array.shape[0] > 1 else array for name, array in inputs.items()}
        values = evaluate(plan, part)
        size = min(block, draws - start)
        yield {name: np.broadcast_to(values[name], (size, values[name].shape[1])) for name in keep}


def _arguments(node: Node, values: Values) -> list[Array | list[Array]]:
    return [_argument(argument, values) for argument in node.arguments]


def _argument(argument: Argument, values: Values) -> Array | list[Array]:
    if isinstance(argument, tuple):
        return [_view(ref, values) for ref in argument]
    return _view(argument, values)


def _view(ref: Ref, values: Values) -> Array:
    return VIEW[ref.view](values[ref.name])


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
}


def _stepped(step: Step, values: Values) -> dict[str, Array]:
    """Step a group of lines through its periods; every argument from outside is laid out period by period first."""
    names = {node.name for node in step.nodes}
    outside = {ref: _view(ref, values) for node in step.nodes for ref in node.refs() if ref.name not in names}
    draws = max((array.shape[0] for array in outside.values()), default=1)
    periods = max(array.shape[1] for array in outside.values())
    rows = {ref: _by_period(array, draws) for ref, array in outside.items()}
    out = {node.name: np.empty((periods, draws)) for node in step.nodes}
    zero = np.zeros(draws)
    lagged: View = "next" if step.backward else "previous"
    last = {Ref(name, lagged): zero for name in names}
    for period in range(periods - 1, -1, -1) if step.backward else range(periods):
        now = {ref: row[period] if row.ndim == 2 else row for ref, row in rows.items()} | last
        for node in step.nodes:
            value = node.line.body(*[_at(argument, now) for argument in node.arguments])
            out[node.name][period] = value
            now[Ref(node.name)] = out[node.name][period]
        last = {Ref(name, lagged): out[name][period] for name in names}
    return {name: np.ascontiguousarray(array.T) for name, array in out.items()}


def _by_period(array: Array, draws: int) -> Array:
    if array.shape[1] == 1:
        return np.ascontiguousarray(np.broadcast_to(array, (draws, 1))[:, 0])
    return np.ascontiguousarray(np.broadcast_to(array, (draws, array.shape[1])).T)


def _at(argument: Argument, now: Mapping[Ref, Array]) -> Array | list[Array]:
    return [now[ref] for ref in argument] if isinstance(argument, tuple) else now[argument]
