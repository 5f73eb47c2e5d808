"""Points in the unit cube, block after block: scrambled Sobol points, Latin hypercubes, or plain random numbers.

Every sample is made of sixteen independent samples of one kind, laid in turns: draw i belongs to sample i mod 16. What
the sixteen say apart from each other gives the standard error of anything that all of them say together, for every kind
of sampling alike; for Sobol points, which are not independent among themselves, nothing else does (Owen 1997, from memory).
"""

from __future__ import annotations

from dataclasses import dataclass, field
from typing import Any, Literal

import numpy as np
import numpy.typing as npt

from appraisal.errors import AppraisalError
from appraisal.lines.prepared import BLOCK

Array = npt.NDArray[np.float64]
Method = Literal["sobol", "latin", "plain"]
METHODS: tuple[Method, ...] = ("sobol", "latin", "plain")
SAMPLES = 16
EACH = BLOCK // SAMPLES  # points of one sample in a block; a power of two
NOTHING_DRAWN = (
    "nothing to draw: no value of this scenario carries a range and no price wanders; `appraisal check --ranges` offers ranges"
)
HALF_STEP = 2.0**-31  # Sobol points stand on steps of 2**-30; half a step in, none is 0


class RiskError(AppraisalError):
    """A question about many futures that cannot be answered as asked; the message says why."""


@dataclass(eq=False)
class Points:
    """A source of points, the same for the same settings whichever block is asked for first.

    method: kind of sampling. seed: whole number from 0. draws: points in all. dimensions: coordinates of a point.
    """

    method: Method
    seed: int
    draws: int
    dimensions: int
    _engines: list[Any] = field(default_factory=list)
    _next: int = 0
    _whole: Array | None = None

    @property
    def blocks(self) -> int:
        """Number of blocks; the last may be shorter."""
        return -(-self.draws // BLOCK)

    def size(self, number: int) -> int:
        """Points in block `number`, counted from 0."""
        return min(BLOCK, self.draws - number * BLOCK)

    def block(self, number: int) -> Array:
        """Points of one block (size, dimensions), every coordinate above 0 and below 1."""
        size = self.size(number)
        if self.method == "latin":
            return self.whole()[number * BLOCK : number * BLOCK + size]
        made = self._sobol(number) if self.method == "sobol" else self._plain(number)
        return made[:size]

    def whole(self) -> Array:
        """All points at once (draws, dimensions); a Latin hypercube exists only as a whole and is held."""
        if self._whole is None:
            if self.method == "latin":
                self._whole = self._latin()
            else:
                self._whole = np.concatenate([self.block(number) for number in range(self.blocks)])
        return self._whole

    def _plain(self, number: int) -> Array:
        made = _generator(self.seed, 0, number).random((BLOCK, self.dimensions))
        return np.maximum(made, HALF_STEP)

    def _sobol(self, number: int) -> Array:
        if not self._engines or number < self._next:
            self._engines = [_scrambled(self.dimensions, _generator(self.seed, 1, k)) for k in range(SAMPLES)]
            self._next = 0
        skip = (number - self._next) * EACH
        out = np.empty((EACH, SAMPLES, self.dimensions))
        for place, engine in enumerate(self._engines):
            if skip:
                engine.fast_forward(skip)
            out[:, place] = engine.random(EACH)
        self._next = number + 1
        return out.reshape(BLOCK, self.dimensions) + HALF_STEP

    def _latin(self) -> Array:
        out = np.empty((self.draws, self.dimensions))
        for place in range(min(SAMPLES, self.draws)):
            rng = _generator(self.seed, 2, place)
            count = out[place::SAMPLES].shape[0]
            for column in range(self.dimensions):
                cell = (rng.permutation(count) + rng.random(count)) / count
                out[place::SAMPLES, column] = np.maximum(cell, HALF_STEP)
        return out


def points(method: Method, *, seed: int, draws: int, dimensions: int) -> Points:
    """Points for a sample; raises RiskError on an unknown method, no draws or nothing to draw."""
    if method not in METHODS:
        raise RiskError(f"no way of sampling is called {method!r}; there are: {', '.join(METHODS)}")
    if draws < 1 or seed < 0:
        raise RiskError("the number of draws must be at least 1 and the seed at least 0")
    if dimensions < 1:
        raise RiskError(NOTHING_DRAWN)
    return Points(method, seed, draws, dimensions)


def _generator(seed: int, kind: int, number: int) -> np.random.Generator:
    """An own stream of random numbers for each kind of use and each block or sample."""
    return np.random.Generator(np.random.PCG64(np.random.SeedSequence(seed, spawn_key=(kind, number))))


def _scrambled(dimensions: int, rng: np.random.Generator) -> Any:
    from scipy.stats import qmc  # half a second; only Sobol points need it

    return qmc.Sobol(dimensions, scramble=True, rng=rng)
