"""From the ranges of a scenario to columns of drawn values, block after block."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass
from typing import Literal

import numpy as np
import numpy.typing as npt

from appraisal.lines.prepared import BLOCK
from appraisal.risk.joining import lower_root, with_copula, with_reordering
from appraisal.risk.points import Method, Points, RiskError, points
from appraisal.risk.shapes import Curve, curve
from appraisal.risk.walks import Walk, moved, planned, walks_of
from appraisal.scenario.beside import Pair
from appraisal.scenario.correlations import matrix, normal_of_rank
from appraisal.scenario.load import Loaded
from appraisal.scenario.quantity import MONTHS_PER_YEAR

Array = npt.NDArray[np.float64]
Joining = Literal["copula", "iman_conover"]
JOININGS: tuple[Joining, ...] = ("copula", "iman_conover")


@dataclass(frozen=True)
class Settings:
    """How futures are drawn: number of draws, seed, kind of sampling, and how correlations are brought in."""

    draws: int = 10_000
    seed: int = 1
    method: Method = "sobol"
    joining: Joining = "copula"


@dataclass(eq=False)
class Cube:
    """Shares of futures below, for named values: points in the unit cube with the correlations brought in.

    paths: names of the coordinates. ranks: rank correlations (n, n) [1] of the paths in `joined`, which alone are
    correlated. source: of the independent points.
    """

    settings: Settings
    paths: tuple[str, ...]
    joined: tuple[str, ...]
    ranks: Array
    source: Points
    _whole: Array | None = None

    @property
    def blocks(self) -> int:
        """Number of blocks."""
        return self.source.blocks

    @property
    def held_whole(self) -> bool:
        """Whether the whole sample stays in memory, 8 bytes for each draw and value."""
        return self.settings.method == "latin" or (bool(self.joined) and self.settings.joining == "iman_conover")

    def shares(self, number: int) -> Array:
        """Points of one block (size, paths) [1], every one above 0 and below 1."""
        if not self.joined:
            return self.source.block(number)
        if self.settings.joining == "iman_conover":
            start = number * BLOCK
            return self._reordered()[start : start + self.source.size(number)]
        made, places = self.source.block(number).copy(), self._places()
        made[:, places] = with_copula(made[:, places], lower_root(normal_of_rank(self.ranks)))
        return made

    def hold(self) -> None:
        """Make the whole sample now where the settings need it whole, so that forked workers share it."""
        if self.joined and self.settings.joining == "iman_conover":
            self._reordered()
        elif self.settings.method == "latin":
            self.source.whole()

    def _places(self) -> list[int]:
        return [self.paths.index(path) for path in self.joined]

    def _reordered(self) -> Array:
        if self._whole is None:
            made, places = self.source.whole().copy(), self._places()
            made[:, places] = with_reordering(made[:, places], normal_of_rank(self.ranks))
            self._whole = made
        return self._whole


@dataclass(frozen=True, eq=False)
class Draws:
    """A sample of some values of a scenario.

    curves: path -> curve, in file order. central: path -> the value the scenario itself uses, (1, 1), or (1, 60) of what
    a movement of prices moves by year. cube: where the draws lie. walks: movements of prices.
    """

    curves: Mapping[str, Curve]
    central: Mapping[str, Array]
    cube: Cube
    walks: tuple[Walk, ...] = ()

    @property
    def settings(self) -> Settings:
        """How the futures are drawn."""
        return self.cube.settings

    @property
    def paths(self) -> tuple[str, ...]:
        """Paths of the drawn values, in file order; those that a movement of prices moves come last."""
        return tuple(dict.fromkeys((*self.curves, *(path for walk in self.walks for path in walk.moves))))

    @property
    def causes(self) -> Mapping[str, tuple[int, ...]]:
        """What moves by itself, by name, and its coordinates: a path has one, a movement of prices one a year."""
        place = {name: number for number, name in enumerate(self.cube.paths)}
        walked = {walk.name: tuple(place[each] for each in walk.coordinates) for walk in self.walks}
        return {**{path: (place[path],) for path in self.curves}, **walked}

    def block(self, number: int) -> dict[str, Array]:
        """Drawn values of one block by path, each (size, 1), or (size, 60) by year, in the unit of its field."""
        return self.at(self.cube.shares(number))

    def at(self, shares: Array) -> dict[str, Array]:
        """Values by path, each (rows, 1) or (rows, 60) in the unit of its field, at shares of futures below [1].

        shares: (rows, coordinates of the cube).
        """
        causes = self.causes
        drawn = {path: each.at(shares[:, list(causes[path])]) for path, each in self.curves.items()}
        plan = {path: self.central[path] for walk in self.walks for path in walk.moves}
        return {**drawn, **moved(plan, self.walks, {walk.name: shares[:, list(causes[walk.name])] for walk in self.walks})}


def drawing(loaded: Loaded, settings: Settings) -> Draws:
    """A sample of everything that carries a range in a scenario.

    Raises RiskError when nothing does, or on settings that make no sample.
    """
    curves = curves_of(loaded)
    walks = walks_of(loaded)
    central = {path: np.array([[number_at(loaded, path)]]) for path in curves} | planned(loaded, walks)
    return Draws(curves, central, cube_of(coordinates(curves, walks), settings, pairs=pairs_of(loaded)), walks)


def coordinates(curves: Mapping[str, Curve], walks: tuple[Walk, ...]) -> tuple[str, ...]:
    """Names of the coordinates of the cube: one for each range, and one for each year of each movement."""
    return (*curves, *(name for walk in walks for name in walk.coordinates))


def curves_of(loaded: Loaded) -> dict[str, Curve]:
    """The curve of every range of a scenario, by path."""
    made = {}
    for path, item in loaded.scenario.range.items():
        field = loaded.assumptions[path].declaration
        if field.low is None or field.high is None:
            raise RiskError(f"{path}: carries a range but has no limits")
        months = loaded.scenario.project.years * MONTHS_PER_YEAR if happens_once(loaded, path) else None
        made[path] = curve(item, value=number_at(loaded, path), low=field.low, high=field.high, months=months)
    return made


def happens_once(loaded: Loaded, path: str) -> bool:
    """Whether a value is the month of an event, of which 0 is never."""
    event = loaded.assumptions[path].declaration.event
    return event is not None and event.when == "once"


def number_at(loaded: Loaded, path: str) -> float:
    """The single number at a path, in its unit; raises RiskError where there is none."""
    found = loaded.assumptions.get(path)
    if found is None or found.declaration.kind != "number" or not isinstance(found.value, (int, float)):
        raise RiskError(f"{path}: no single number of this scenario")
    return float(found.value)


def pairs_of(loaded: Loaded) -> list[Pair]:
    """The correlations that a scenario declares."""
    return [Pair(name, item.first, item.second, item.rank) for name, item in loaded.scenario.correlation.items()]


def draws_of(
    curves: Mapping[str, Curve], settings: Settings, *, central: Mapping[str, Array], pairs: list[Pair]
) -> Draws:
    """A sample of named curves; see `Draws`."""
    return Draws(curves, central, cube_of(tuple(curves), settings, pairs=pairs))


def cube_of(paths: tuple[str, ...], settings: Settings, *, pairs: list[Pair]) -> Cube:
    """Shares of futures below for some names; raises RiskError on settings that make no sample."""
    if settings.joining not in JOININGS:
        raise RiskError(f"no way of correlating is called {settings.joining!r}; there are: {', '.join(JOININGS)}")
    joined = tuple(path for path in paths if any(path in (pair.first, pair.second) for pair in pairs))
    source = points(settings.method, seed=settings.seed, draws=settings.draws, dimensions=len(paths))
    return Cube(settings, paths, joined, matrix(joined, pairs), source)
