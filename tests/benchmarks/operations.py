"""Counts the array operations that the lines of a prepared model do in one block."""

from __future__ import annotations

from collections.abc import Callable
from typing import Any

import numpy as np

from appraisal.lines.evaluate import Values, arguments, computed, spread_view
from appraisal.lines.known import spread
from appraisal.lines.plan import Node, Step
from appraisal.lines.play import Stretch
from appraisal.lines.prepared import Prepared


class Counted(np.ndarray):  # type: ignore[type-arg]
    """An array that counts the elements which operations on it write."""

    written = 0

    def __array_ufunc__(self, ufunc: np.ufunc, method: str, *operands: Any, **options: Any) -> Any:
        """Do the operation on plain arrays and count its result."""
        made = getattr(ufunc, method)(*[np.asarray(each) for each in operands], **options)
        return _counted(made)

    def __array_function__(self, function: Callable[..., Any], types: Any, operands: Any, options: Any) -> Any:
        """The same for functions such as `np.where`."""
        made = function(*[_plain(each) for each in operands], **options)
        return _counted(made)


def _plain(each: Any) -> Any:
    if isinstance(each, (list, tuple)):
        return type(each)(_plain(one) for one in each)
    return np.asarray(each) if isinstance(each, np.ndarray) else each


def _counted(made: Any) -> Any:
    Counted.written += np.size(made)
    return np.asarray(made).view(Counted)


def as_written(prepared: Prepared, drawn: Values) -> float:
    """How many operations on arrays (draws, months) write as many elements as the lines of one block do."""
    values: dict[str, Any] = {**{name: spread(value) for name, value in prepared.fixed.items()}, **drawn}
    count = 0.0
    for step in prepared.steps:
        values.update(computed(step, values, months=prepared.months))
        count += sum(_written(step, node, values) for node in step.nodes)
    return count / (max(array.shape[0] for array in drawn.values()) * prepared.months)


def left(prepared: Prepared, drawn: Values) -> float:
    """The same of the operations that are done in truth: those on the tape, and those of the lines stepped."""
    values: dict[str, Any] = {**{name: spread(value) for name, value in prepared.fixed.items()}, **drawn}
    draws, stepped = max(array.shape[0] for array in drawn.values()), 0.0
    for step in prepared.steps:
        values.update(computed(step, values, months=prepared.months))
        if step.stepped or step.inner:
            stepped += sum(_written(step, node, values) for node in step.nodes)
    acts = [act for part in prepared.score.parts if isinstance(part, Stretch) for act, _, _ in part.acts]
    return sum(prepared.score.places[act.makes].columns for act in acts) / prepared.months + stepped / (draws * prepared.months)


def _written(step: Step, node: Node, values: Values) -> float:
    """Elements that one line writes; of a line stepped through its periods those of its last period, times the periods."""
    Counted.written = 0
    if not step.stepped:
        node.line.body(*[_wrapped(argument) for argument in arguments(node, values)])
        return Counted.written
    period = [
        [_last(spread_view(ref, values)) for ref in argument]
        if isinstance(argument, tuple)
        else _last(spread_view(argument, values))
        for argument in node.arguments
    ]
    node.line.body(*period)
    return Counted.written * values[node.name].shape[1]


def _last(array: Any) -> Any:
    return np.ascontiguousarray(array[:, -1]).view(Counted)


def _wrapped(argument: Any) -> Any:
    if isinstance(argument, list):
        return [_wrapped(each) for each in argument]
    return np.asarray(argument).view(Counted)
