"""Plays a tape for many draws: operation after operation for some rows at a time, so that their numbers stay near at hand."""

from __future__ import annotations

from collections.abc import Callable, Iterable, Iterator, Mapping, Sequence
from dataclasses import dataclass
from typing import Any

import numpy as np
import numpy.typing as npt

from appraisal.lines.plan import Step
from appraisal.lines.tape import Act, Group, Place, Tape, made_by, read_by

Array = npt.NDArray[Any]
Stepped = Callable[[Step, Mapping[str, Array]], Mapping[str, Array]]
Shape = tuple[int, np.dtype[Any]]
ROWS = 128  # an array of that many rows and twenty years of months is 0.26 MB, so a handful fit a processor's own cache


@dataclass(frozen=True, eq=False)
class Stretch:
    """Operations between two groups: rows of different draws know nothing of each other.

    acts: in order, each with the number of the buffer it writes into, or -1, and the places it reads as the last.
    comes, leaves: places filled before, and read later. buffers: columns and kind of each.
    """

    acts: tuple[tuple[Act, int, tuple[int, ...]], ...]
    comes: tuple[int, ...]
    leaves: tuple[int, ...]
    buffers: tuple[Shape, ...]


@dataclass(frozen=True, eq=False)
class Score:
    """A tape ready to be played: its places, its parts, and after each part the places nobody reads any more."""

    places: Sequence[Place]
    parts: tuple[Stretch | Group, ...]
    done: tuple[tuple[int, ...], ...]


def score(tape: Tape, kept: Iterable[int]) -> Score:
    """Leave out what the kept places do not need, and say what is held for how long."""
    kept = set(kept)
    cut = _cut(tape.needed(kept))
    last = {place: number for number, part in enumerate(cut) for act in part for place in (*read_by(act), *made_by(act))}
    parts: list[Stretch | Group] = []
    for number, acts in enumerate(cut):
        if isinstance(acts[0], Group):
            parts.append(acts[0])
            continue
        leaves = {act.makes for act in acts if act.makes in kept or last[act.makes] > number}
        parts.append(_stretch(tape.places, acts, leaves))
    done = tuple(
        tuple(place for place, end in last.items() if end == number and place not in kept) for number in range(len(cut))
    )
    return Score(tuple(tape.places), tuple(parts), done)


def _cut(parts: Sequence[Act | Group]) -> list[list[Any]]:
    """Groups by themselves, and the operations between them, each as late as what rests on it allows.

    Late, since most lines rest on a group only through others: then they pass on in the same stretch what they make.
    """
    groups = sum(isinstance(part, Group) for part in parts)
    stage, latest = groups, dict[int, int]()
    stretches: list[list[Act]] = [[] for _ in range(groups + 1)]
    between: list[Group] = []
    for part in reversed(parts):
        if isinstance(part, Group):
            between.append(part)
            stage -= 1
            here = stage
        else:
            here = latest.get(part.makes, groups)
            stretches[here].append(part)
        for place in read_by(part):
            latest[place] = min(here, latest.get(place, groups))
    cut: list[list[Any]] = [list(reversed(stretches[0]))]
    for group, acts in zip(reversed(between), stretches[1:], strict=True):
        cut += [[group], list(reversed(acts))]
    return [acts for acts in cut if acts]


def _stretch(places: Sequence[Place], acts: Sequence[Act], leaves: set[int]) -> Stretch:
    """Give every passing value a buffer, the one used last first."""
    made = {act.makes for act in acts}
    comes = {place for act in acts for place in act.reads if place not in made and places[place].value is None}
    last = {place: number for number, act in enumerate(acts) for place in (*act.reads, act.makes)}
    free: dict[Shape, list[int]] = {}
    held: dict[int, int] = {}
    buffers: list[Shape] = []
    given = []
    for number, act in enumerate(acts):
        over = tuple(place for place in set(act.reads) if last[place] == number and place in made - leaves)
        for place in over:
            if place in held:
                free.setdefault(buffers[held[place]], []).append(held[place])
        if act.into and act.makes not in leaves:
            held[act.makes] = _buffer((places[act.makes].columns, places[act.makes].kind), buffers, free)
        given.append((act, held.get(act.makes, -1), over))
    return Stretch(tuple(given), tuple(comes), tuple(leaves), tuple(buffers))


def _buffer(shape: Shape, buffers: list[Shape], free: dict[Shape, list[int]]) -> int:
    if not free.get(shape):
        buffers.append(shape)
        return len(buffers) - 1
    return free[shape].pop()


def play(score: Score, inputs: Mapping[int, Array], *, size: int, stepped: Stepped) -> dict[int, Array]:
    """Do what the tape says for all draws.

    inputs: place -> array (draws, columns) of what is drawn. size: draws. stepped: works out a group from what it reads.
    Returns place -> array (draws, columns), of those kept and of inputs.
    """
    whole = dict(inputs)
    for part, done in zip(score.parts, score.done, strict=True):
        if isinstance(part, Group):
            reads = {name: _held(score.places[place], whole.get(place)) for name, place in part.reads.items()}
            made = stepped(part.step, reads)
            for name, place in part.makes.items():
                whole[place] = np.broadcast_to(made[name], (size, made[name].shape[1]))
        else:
            _play_stretch(score.places, part, whole, size=size)
        for place in done:
            whole.pop(place, None)
    return whole


def _held(place: Place, array: Array | None) -> Array:
    fixed: Array = np.atleast_2d(np.asarray(place.value)) if array is None else array
    return fixed


def _play_stretch(places: Sequence[Place], part: Stretch, whole: dict[int, Array], *, size: int) -> None:
    """Work out one stretch, some rows after the others, and put what leaves it into `whole`."""
    for place in part.leaves:
        whole[place] = np.empty((size, places[place].columns), dtype=places[place].kind)
    for start, stop in _rows(size):
        now: list[Any] = [place.value for place in places]
        for place in (*part.comes, *part.leaves):
            now[place] = whole[place][start:stop]
        buffers = [np.empty((stop - start, columns), dtype=kind) for columns, kind in part.buffers]
        for act, buffer, over in part.acts:
            if buffer >= 0:
                now[act.makes] = buffers[buffer]
            if act.into:
                act.do(*[now[place] for place in act.reads], out=now[act.makes])
            elif now[act.makes] is None:
                now[act.makes] = act.do(*[now[place] for place in act.reads])
            else:
                now[act.makes][...] = act.do(*[now[place] for place in act.reads])
            for place in over:
                now[place] = None


def _rows(size: int) -> Iterator[tuple[int, int]]:
    for start in range(0, size, ROWS):
        yield start, min(start + ROWS, size)
