"""A plan made ready for many blocks of draws."""

from __future__ import annotations

from collections.abc import Collection, Iterator, Mapping, Sequence
from dataclasses import dataclass
from functools import partial
from typing import Any

import numpy as np

from appraisal.lines.evaluate import Array, Held, Values, columns_of, computed, whole
from appraisal.lines.known import noticed, spread
from appraisal.lines.plan import Plan, Step
from appraisal.lines.play import Score, play, score
from appraisal.lines.tape import Stand, Tape
from appraisal.lines.trace import total

BLOCK = 1024
NO_SUMS: Mapping[str, Sequence[str]] = {}


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

    steps: what must be computed in every block, in order. fixed: inputs and lines that nothing drawn reaches, computed
    once, nought and one as `Known`. months: in the model. score: the operations of the steps, in order. drawn: where
    the drawn inputs stand in it. kept: names handed on, and where they stand, or the value where no draw changes it.
    """

    steps: tuple[Step, ...]
    fixed: Held
    months: int
    score: Score
    drawn: Mapping[str, int]
    kept: Mapping[str, int | Array]


def prepare(
    plan: Plan,
    inputs: Values,
    *,
    drawn: Collection[str],
    keep: Sequence[str],
    sums: Mapping[str, Sequence[str]] = NO_SUMS,
) -> Prepared:
    """Leave out what is not asked for, compute what nothing drawn reaches, and write down the operations that are left.

    inputs: full name -> array, of the drawn ones any; drawn: inputs that change from draw to draw; keep: full names of
    lines to hand on; sums: lines of which only the sum is handed on, by the name it is to have.
    """
    months = max((inputs[name].shape[1] for name in plan.monthly_inputs), default=1)
    fixed = {name: array for name, array in inputs.items() if name not in drawn}
    moving, steps = set(drawn), []
    asked = {*keep, *(name for names in sums.values() for name in names)}
    for step in needed(plan, asked):
        if any(ref.name in moving for node in step.nodes for ref in node.refs()):
            moving |= {node.name for node in step.nodes}
            steps.append(step)
        else:
            fixed |= computed(step, fixed, months=months)
    read = {ref.name for step in steps for node in step.nodes for ref in node.refs()} | asked
    held = noticed({name: fixed[name] for name in read if name in fixed})
    tape, columns = Tape(), {name: inputs[name].shape[1] for name in drawn}
    stands = {name: tape.stand(count) for name, count in columns.items()}
    values = _written(tape, steps, {**held, **stands}, months=months)
    order = {name: number for number, name in enumerate(values)}
    values |= {name: total([values[each] for each in sorted(names, key=order.__getitem__)]) for name, names in sums.items()}
    kept = {name: _handed_on(values[name]) for name in (*keep, *sums)}
    played = score(tape, [place for place in kept.values() if isinstance(place, int)])
    return Prepared(tuple(steps), held, months, played, {name: each.place for name, each in stands.items()}, kept)


def needed(plan: Plan, keep: Collection[str]) -> list[Step]:
    """The steps that the lines in `keep` rest on, in order."""
    wanted, steps = set(keep), []
    for step in reversed(plan.steps):
        if any(node.name in wanted for node in step.nodes):
            wanted |= {ref.name for node in step.nodes for ref in node.refs()}
            steps.append(step)
    return steps[::-1]


def _written(tape: Tape, steps: Sequence[Step], values: Held, *, months: int) -> dict[str, Any]:
    """The steps called with stand-ins for what is drawn, so that what they do goes on the tape."""
    made = dict(values)
    for step in steps:
        grouped = step.stepped or step.inner
        made.update(_grouped(tape, step, made, months=months) if grouped else whole(step.nodes[0], made, months=months))
    return made


def _handed_on(value: Any) -> int | Array:
    """Where a value stands, or itself where no draw changes it."""
    return value.place if isinstance(value, Stand) else spread(value)


def _grouped(tape: Tape, step: Step, values: Held, *, months: int) -> dict[str, Stand]:
    inside = {node.name for node in step.nodes}
    names = {ref.name for node in step.nodes for ref in node.refs()} - inside
    reads = {name: value if isinstance(value := values[name], Stand) else spread(value) for name in names}
    return tape.group(step, reads, {node.name: columns_of(node.grid, months) for node in step.nodes})


def evaluate_block(prepared: Prepared, drawn: Values) -> dict[str, Array]:
    """Compute one block of draws.

    drawn: full name -> array (draws, 1 or more columns), for every input named as drawn.
    Returns the kept names, each with the draws of the block as its first axis.
    """
    size = max((array.shape[0] for array in drawn.values()), default=1)
    inputs = {place: np.broadcast_to(drawn[name], (size, drawn[name].shape[1])) for name, place in prepared.drawn.items()}
    made = play(prepared.score, inputs, size=size, stepped=partial(computed, months=prepared.months))
    kept = {name: made[at] if isinstance(at, int) else at for name, at in prepared.kept.items()}
    return {name: np.broadcast_to(array, (size, array.shape[1])) for name, array in kept.items()}
