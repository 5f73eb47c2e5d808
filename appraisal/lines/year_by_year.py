"""A circle of lines that turns through the years, worked out one project year after the other."""

from __future__ import annotations

from collections.abc import Callable, Mapping
from dataclasses import dataclass, field
from functools import partial

import numpy as np
import numpy.typing as npt

from appraisal.lines.names import MONTHS, Ref
from appraisal.lines.plan import Node, Step
from appraisal.lines.stepped import Look

Array = npt.NDArray[np.float64]
Roll = Callable[[Step, Look, Mapping[str, Array]], dict[str, Array]]


@dataclass(frozen=True, eq=False)
class _Year:
    """What is known inside a circle while one year is worked out.

    now: lines of this year, months (draws, 12) or one value (draws, 1). before: their last value of the year before.
    sums: running sums up to the end of the year before, by line.
    """

    before: Mapping[str, Array]
    sums: Mapping[str, Array]
    now: dict[str, Array] = field(default_factory=dict)


def year_by_year(step: Step, whole: Look, *, months: int, roll: Roll) -> dict[str, Array]:
    """Every line of a circle, by full name: months (draws, months), years (draws, years).

    step: the circle, with its steps inside; whole: how a line from outside is viewed over all periods; roll: computes a
    stepped group from how its arguments are viewed and from its values of the period before.
    """
    inside = {node.name for node in step.nodes}
    outside = {ref: whole(ref) for node in step.nodes for ref in node.refs() if ref.name not in inside}
    before: dict[str, Array] = {}
    sums: dict[str, Array] = {}
    parts: dict[str, list[Array]] = {name: [] for name in inside}
    for number in range(months // MONTHS):
        year = _Year(before, sums)
        cut = {ref: _cut(array, number, months) for ref, array in outside.items()}
        for part in step.inner:
            year.now.update(_computed(part, partial(_seen, cut, year), before, roll))
        for name, array in year.now.items():
            parts[name].append(array)
        before = {name: array[:, -1:] for name, array in year.now.items()}
        sums = {name: _added(array, sums.get(name))[:, -1:] for name, array in year.now.items()}
    return {name: np.concatenate(np.broadcast_arrays(*arrays), axis=1) for name, arrays in parts.items()}


def _cut(array: Array, number: int, months: int) -> Array:
    """The part of one year of months or years; one value stays."""
    width = array.shape[1] * MONTHS // months if array.shape[1] > 1 or months == MONTHS else 0
    return array[:, number * width : (number + 1) * width] if width else array


def _computed(step: Step, look: Look, before: Mapping[str, Array], roll: Roll) -> dict[str, Array]:
    if step.stepped:
        return roll(step, look, before)
    node = step.nodes[0]
    array = np.atleast_2d(np.asarray(node.line.body(*_arguments(node, look)), dtype=np.float64))
    columns = MONTHS if node.grid == "month" else array.shape[1]
    return {node.name: np.broadcast_to(array, (array.shape[0], columns))}


def _seen(cut: Mapping[Ref, Array], year: _Year, ref: Ref) -> Array:
    return cut[ref] if ref in cut else _view(ref, year)


def _arguments(node: Node, look: Look) -> list[Array | list[Array]]:
    return [[look(ref) for ref in a] if isinstance(a, tuple) else look(a) for a in node.arguments]


def _view(ref: Ref, year: _Year) -> Array:
    """A line of the circle as it is seen in this year."""
    if ref.view == "previous":
        return _previous(year.before.get(ref.name), year.now.get(ref.name))
    array = year.now[ref.name]
    if ref.view == "cumulative":
        return _added(array, year.sums.get(ref.name))
    return SEEN[ref.view](array)


def _previous(before: Array | None, now: Array | None) -> Array:
    """One period earlier; a yearly line may look at the year before while its own year is not there yet."""
    if now is None or now.shape[1] == 1:
        return np.zeros((1, 1)) if before is None else before
    first = np.zeros((now.shape[0], 1)) if before is None else np.broadcast_to(before, (now.shape[0], 1))
    return np.concatenate((first, now[:, :-1]), axis=1)


def _added(array: Array, so_far: Array | None) -> Array:
    """Running sums in the order of the months, going on from those of the years before."""
    if so_far is None:
        return np.cumsum(array, axis=1)
    return np.cumsum(np.concatenate((np.broadcast_to(so_far, (array.shape[0], 1)), array), axis=1), axis=1)[:, 1:]


def _sum(array: Array) -> Array:
    total = array[:, 0:1].copy()
    for month in range(1, array.shape[1]):
        total += array[:, month : month + 1]
    return total


SEEN: Mapping[str, Callable[[Array], Array]] = {
    "same": lambda array: array,
    "year_sum": _sum,
    "year_end": lambda array: array[:, -1:],
    "in_year": lambda array: np.repeat(array, MONTHS, axis=1),
}
