"""A group of lines that lean on each other's value of the period before, stepped through its periods."""

from __future__ import annotations

from collections.abc import Callable, Mapping, Sequence
from dataclasses import dataclass
from typing import Any

import numpy as np
import numpy.typing as npt

from appraisal.lines.names import Ref, View
from appraisal.lines.plan import Argument, Step

Array = npt.NDArray[np.float64]
Look = Callable[[Ref], Array]


@dataclass(frozen=True, eq=False)
class _Line:
    """One line of the group: its body, the places of its arguments, of its own value and of that before, and its result."""

    body: Callable[..., Any]
    arguments: Sequence[int | list[int]]
    own: int
    before: int
    result: Array


def stepped(step: Step, look: Look, first: Mapping[str, Array]) -> dict[str, Array]:
    """Every line of the group by full name (draws, periods); every argument from outside is laid out by period first.

    look: how a line outside the group is viewed. first: lines of the group in the period before the first, 0 where not named.
    Every value that a line of the group reads has a numbered place, so that a period costs no look-up by name.
    """
    names = [node.name for node in step.nodes]
    outside = {ref: look(ref) for node in step.nodes for ref in node.refs() if ref.name not in names}
    carried = {name: first[name] for name in names if name in first}
    draws = max((array.shape[0] for array in (*outside.values(), *carried.values())), default=1)
    periods = max(array.shape[1] for array in outside.values())
    place, lines = _program(step, outside, periods=periods, draws=draws)
    now: list[Array] = [np.zeros(draws)] * len(place)
    for line, name in zip(lines, names, strict=True):
        if name in carried:
            now[line.before] = _by_period(carried[name], draws)
    moving = _outside(outside, place, now, draws=draws)
    _run(lines, now, moving, range(periods - 1, -1, -1) if step.backward else range(periods))
    return {name: np.ascontiguousarray(line.result.T) for name, line in zip(names, lines, strict=True)}


def _program(
    step: Step, outside: Mapping[Ref, Array], *, periods: int, draws: int
) -> tuple[dict[Ref, int], tuple[_Line, ...]]:
    """A place for every value, and the lines in order."""
    lagged: View = "next" if step.backward else "previous"
    own, before = [Ref(node.name) for node in step.nodes], [Ref(node.name, lagged) for node in step.nodes]
    place = {ref: number for number, ref in enumerate((*outside, *own, *before))}
    lines = tuple(
        _Line(
            node.line.body,
            [_places(argument, place) for argument in node.arguments],
            place[ref],
            place[lag],
            np.empty((periods, draws)),
        )
        for node, ref, lag in zip(step.nodes, own, before, strict=True)
    )
    return place, lines


def _outside(
    outside: Mapping[Ref, Array], place: Mapping[Ref, int], now: list[Array], *, draws: int
) -> list[tuple[int, Array]]:
    """Put values that stand still in their places; give back those that move, each with its place."""
    moving = []
    for ref, array in outside.items():
        row = _by_period(array, draws)
        if row.ndim == 1:
            now[place[ref]] = row
        else:
            moving.append((place[ref], row))
    return moving


def _run(
    lines: Sequence[_Line], now: list[Array], moving: Sequence[tuple[int, Array]], periods: Sequence[int]
) -> None:
    """Work out every line period after period."""
    for period in periods:
        for number, row in moving:
            now[number] = row[period]
        for line in lines:
            line.result[period] = line.body(
                *[now[a] if isinstance(a, int) else [now[b] for b in a] for a in line.arguments]
            )
            now[line.own] = line.result[period]
        for line in lines:
            now[line.before] = now[line.own]


def _by_period(array: Array, draws: int) -> Array:
    if array.shape[1] == 1:
        return np.ascontiguousarray(np.broadcast_to(array, (draws, 1))[:, 0])
    return np.ascontiguousarray(np.broadcast_to(array, (draws, array.shape[1])).T)


def _places(argument: Argument, place: Mapping[Ref, int]) -> int | list[int]:
    return [place[ref] for ref in argument] if isinstance(argument, tuple) else place[argument]
