"""The operations that many futures need, written down once: the lines of a prepared plan called with stand-ins.

A stand-in records what is done to it. What is known to be nought or one drops out, an operation met before is not written
twice, and what no kept line rests on is left out. `appraisal.lines.play` does what the tape says, rows by rows. An
operation is the very one the line asks for, so a row is to the last bit what the line gives by itself.
"""

from __future__ import annotations

from collections.abc import Callable, Collection, Iterable, Mapping
from dataclasses import dataclass, field
from typing import Any

import numpy as np
import numpy.typing as npt
from numpy.lib.mixins import NDArrayOperatorsMixin

from appraisal.lines.known import SHORT, Known, plain
from appraisal.lines.plan import Step

Array = npt.NDArray[np.float64]
FLOAT = np.dtype(np.float64)


@dataclass(frozen=True)
class Place:
    """Where one value stands: columns, months, years or 1; kind of number; and for a value no draw changes, that value."""

    columns: int
    kind: np.dtype[Any]
    value: Any = None


@dataclass(frozen=True)
class Act:
    """One operation on places; `into` says that it can write into an array it is given."""

    do: Callable[..., Any]
    reads: tuple[int, ...]
    makes: int
    into: bool


@dataclass(frozen=True)
class Group:
    """Lines stepped through their periods together: where what they read stands, by name, and where they are to stand."""

    step: Step
    reads: Mapping[str, int]
    makes: Mapping[str, int]


class Stand(NDArrayOperatorsMixin):
    """A stand-in for an array (draws, columns): what is done to it goes on the tape."""

    def __init__(self, tape: Tape, place: int) -> None:
        self.tape, self.place = tape, place

    @property
    def columns(self) -> int:
        """Months, years or 1."""
        return self.tape.places[self.place].columns

    def __array_ufunc__(self, ufunc: np.ufunc, method: str, *operands: Any, **options: Any) -> Any:
        """Write down one operation on every number; a nought or one that stands in the line itself spares it."""
        if method != "__call__" or options or any(isinstance(each, Known) for each in operands):
            return NotImplemented
        short = SHORT.get(ufunc)
        found = short(*operands) if short else None
        return self.tape.act(ufunc, operands, into=True) if found is None else found

    def __array_function__(self, function: Callable[..., Any], types: Any, operands: Any, options: Any) -> Any:
        """Write down `np.where`; nothing else stands in a line."""
        if any(isinstance(each, Known) for each in operands):
            return NotImplemented
        return self.tape.act(function, operands)

    def done(self, function: Callable[..., Any], *others: Any, columns: int) -> Stand:
        """Write down a function of this value and others that lays out `columns` anew."""
        return self.tape.act(function, (self, *map(plain, others)), columns=columns)


@dataclass(eq=False)
class Tape:
    """What must be done, in order, and the places that values stand in."""

    places: list[Place] = field(default_factory=list)
    parts: list[Act | Group] = field(default_factory=list)
    met: dict[Any, int] = field(default_factory=dict)

    def stand(self, columns: int) -> Stand:
        """A new place for numbers that a draw changes."""
        return Stand(self, self._place(Place(columns, FLOAT)))

    def act(
        self, do: Callable[..., Any], operands: Iterable[Any], *, into: bool = False, columns: int | None = None
    ) -> Stand:
        """Write down an operation unless it stands on the tape already; gives the stand-in of its result."""
        reads = tuple(self.place(each) for each in operands)
        made = self.met.get((do, reads, columns))
        if made is None:
            held = [self.places[each] for each in reads]
            made = self._place(Place(columns or max(each.columns for each in held), _kind(do, held)))
            self.met[do, reads, columns] = made
            self.parts.append(Act(do, reads, made, into))
        return Stand(self, made)

    def group(self, step: Step, reads: Mapping[str, Any], columns: Mapping[str, int]) -> dict[str, Stand]:
        """Write down lines that are stepped together; columns: of each line. Gives their stand-ins by full name."""
        made = {name: self.stand(count) for name, count in columns.items()}
        places = {name: self.place(value) for name, value in reads.items()}
        self.parts.append(Group(step, places, {name: each.place for name, each in made.items()}))
        return made

    def place(self, value: Any) -> int:
        """Where a value stands; numbers and arrays that no draw changes get a place of their own."""
        if isinstance(value, Stand):
            return value.place
        value = plain(value)
        single = isinstance(value, (int, float)) or value.size == 1
        key = float(value if isinstance(value, (int, float)) else value.flat[0]) if single else ("array", id(value))
        if key not in self.met:
            self.met[key] = self._place(Place(1, FLOAT, key) if single else Place(value.shape[1], value.dtype, value))
        return self.met[key]

    def needed(self, kept: Collection[int]) -> list[Act | Group]:
        """The parts that the kept places rest on, in order."""
        wanted, found = set(kept), []
        for part in reversed(self.parts):
            if wanted.intersection(made_by(part)):
                wanted.update(read_by(part))
                found.append(part)
        return found[::-1]

    def _place(self, place: Place) -> int:
        self.places.append(place)
        return len(self.places) - 1


def made_by(part: Act | Group) -> tuple[int, ...]:
    """Places that a part fills."""
    return (part.makes,) if isinstance(part, Act) else tuple(part.makes.values())


def read_by(part: Act | Group) -> tuple[int, ...]:
    """Places that a part reads."""
    return part.reads if isinstance(part, Act) else tuple(part.reads.values())


def _kind(do: Callable[..., Any], operands: list[Place]) -> np.dtype[Any]:
    """Kind of number an operation gives: truths or floating point."""
    kinds = tuple(each.kind for each in operands)
    if isinstance(do, np.ufunc):
        return do.resolve_dtypes((*kinds, None))[-1]
    return np.result_type(*kinds[1:]) if do is np.where else FLOAT
