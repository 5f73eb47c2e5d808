"""Counts the array operations that the lines of a prepared model do in one block."""

from __future__ import annotations

from collections.abc import Callable
from typing import Any

import numpy as np

from appraisal.lines.evaluate import Prepared, Values, _arguments, _computed, _spread_view
from appraisal.lines.known import Known, spread


class Counted(np.ndarray):  # type: ignore[type-arg]
    """An array that counts the elements which operations on it write."""

    written = 0

    def __array_ufunc__(self, ufunc: np.ufunc, method: str, *operands: Any, **options: Any) -> Any:
        """Do the operation on plain arrays and count its result; what is known needs none, or sends it back here."""
        if any(isinstance(each, Known) for each in operands):
            return NotImplemented
        made = getattr(ufunc, method)(*[np.asarray(each) for each in operands], **options)
        return _counted(made)

    def __array_function__(self, function: Callable[..., Any], types: Any, operands: Any, options: Any) -> Any:
        """The same for functions such as `np.where`."""
        if any(isinstance(each, Known) for each in operands):
            return NotImplemented
        made = function(*[_plain(each) for each in operands], **options)
        return _counted(made)


def _plain(each: Any) -> Any:
    if isinstance(each, (list, tuple)):
        return type(each)(_plain(one) for one in each)
    return np.asarray(each) if isinstance(each, np.ndarray) else each


def _counted(made: Any) -> Any:
    Counted.written += np.size(made)
    return np.asarray(made).view(Counted)


def equivalents(prepared: Prepared, drawn: Values, *, as_written: bool) -> float:
    """How many operations on arrays (draws, months) write as many elements as the lines of one block do.

    as_written: every operation that stands in a line; else only those left where nought and one are known beforehand.
    """
    fixed = {name: spread(value) for name, value in prepared.fixed.items()} if as_written else prepared.fixed
    values: dict[str, Any] = {**fixed, **drawn}
    draws = max(array.shape[0] for array in drawn.values())
    Counted.written = 0
    for step in prepared.steps:
        values.update(_computed(step, values, months=prepared.months))
        for node in step.nodes:
            if step.stepped:
                one_period = [
                    [_last(_spread_view(ref, values)) for ref in argument]
                    if isinstance(argument, tuple)
                    else _last(_spread_view(argument, values))
                    for argument in node.arguments
                ]
                before = Counted.written
                node.line.body(*one_period)
                Counted.written = before + (Counted.written - before) * spread(values[node.name]).shape[1]
            else:
                node.line.body(*[_wrapped(argument) for argument in _arguments(node, values)])
    return Counted.written / (draws * prepared.months)


def _last(array: Any) -> Any:
    return np.ascontiguousarray(array[:, -1]).view(Counted)


def _wrapped(argument: Any) -> Any:
    if isinstance(argument, (list, Known)):
        return [_wrapped(each) for each in argument] if isinstance(argument, list) else argument
    return np.asarray(argument).view(Counted)
