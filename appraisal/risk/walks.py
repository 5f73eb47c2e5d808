"""Price paths that wander and come back, drawn year by year; one movement may be common to several values."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from dataclasses import dataclass
from math import log, sqrt

import numpy as np
import numpy.typing as npt
import scipy

from appraisal.risk.paths import reverting
from appraisal.scenario.load import Loaded
from appraisal.scenario.quantity import LONGEST_YEARS
from appraisal.scenario.values import values

Array = npt.NDArray[np.float64]
FURTHEST = 4.0  # standard deviations of one year's step; beyond lie 6 of 100,000, and the spread loses 0.1 %


@dataclass(frozen=True, eq=False)
class Walk:
    """One movement of prices.

    name: `wander.` and its name in the file. half_life_years [year]. sd_long_run: of the logarithm [1].
    moves: strength [1] by path. years: project years, the first of which is known and does not move.
    """

    name: str
    half_life_years: float
    sd_long_run: float
    moves: Mapping[str, float]
    years: int

    @property
    def coordinates(self) -> tuple[str, ...]:
        """One name for each year's step, none for the first year."""
        return tuple(f"{self.name} year {year}" for year in range(2, self.years + 1))

    @property
    def sd_of_mean(self) -> float:
        """Standard deviation of the mean departure over all years but the first [1 of the logarithm], in closed form.

        cov(x_i, x_j) = sd^2 (k^|i-j| - k^(i+j)) with k the part kept from year to year, i and j in years after the first.
        """
        years, kept = np.arange(1, self.years), 2 ** (-1 / self.half_life_years)
        apart, both = np.abs(years[:, None] - years), years[:, None] + years
        return self.sd_long_run * sqrt(float((kept**apart - kept**both).mean()))

    def logarithms(self, shares: Array) -> Array:
        """Departure of each project year (draws, 60) [1 of the logarithm] at shares of futures below (draws, years - 1)."""
        edge = float(scipy.special.ndtr(FURTHEST))
        scores = scipy.special.ndtri((1 - edge) + shares * (2 * edge - 1))
        speed = log(2) / self.half_life_years
        volatility = self.sd_long_run * sqrt(2 * speed)
        walked = reverting(scores, start=0.0, mean=0.0, speed=speed, volatility=volatility)
        out = np.zeros((shares.shape[0], LONGEST_YEARS))
        out[:, 1 : self.years] = walked
        out[:, self.years :] = out[:, [self.years - 1]]
        return out


def walks_of(loaded: Loaded) -> tuple[Walk, ...]:
    """The movements that a scenario declares, in file order."""
    years = loaded.scenario.project.years
    return tuple(
        Walk(f"wander.{name}", item.half_life_years, item.sd_long_run, dict(item.moves), years)
        for name, item in loaded.scenario.wander.items()
    )


def planned(loaded: Loaded, walks: Sequence[Walk]) -> dict[str, Array]:
    """The plan's own values by project year (1, 60) of everything that some movement moves, by path."""
    flat = values(loaded.scenario)
    return {path: flat[path] for walk in walks for path in walk.moves}


def held_away(plan: Mapping[str, Array], walk: Walk, deviations: float) -> dict[str, Array]:
    """Values by path (1, 60) with one movement so many standard deviations of its mean off in every year but the first."""
    away = np.full((1, LONGEST_YEARS), deviations * walk.sd_of_mean)
    away[:, 0] = 0.0
    return {path: plan[path] * np.exp(strength * away) for path, strength in walk.moves.items()}


def moved(plan: Mapping[str, Array], walks: Sequence[Walk], shares: Mapping[str, Array]) -> dict[str, Array]:
    """Drawn values by path (draws, 60): the plan's path x e^(strength x departure), over all movements that reach it.

    plan: by path (1, 60). shares: of futures below, by the name of the movement (draws, years - 1) [1].
    """
    total: dict[str, Array] = {}
    for walk in walks:
        away = walk.logarithms(shares[walk.name])
        for path, strength in walk.moves.items():
            total[path] = total[path] + strength * away if path in total else strength * away
    return {path: plan[path] * np.exp(away) for path, away in total.items()}
