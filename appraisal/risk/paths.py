"""Things that happen in some year or wander from year to year: hazards, and prices that come back to a mean."""

from __future__ import annotations

import numpy as np
import numpy.typing as npt

Array = npt.NDArray[np.float64]


def reverting(scores: Array, *, start: float, mean: float, speed: float, volatility: float) -> Array:
    """Yearly values of a price that is pulled back to a mean (Ornstein-Uhlenbeck), by exact yearly steps.

    Parameters
    ----------
    scores : (draws, years) [1] independent standard normal numbers.
    start, mean : [price] now, and in the long run.
    speed : [1/year] of the return; the half-life is ln 2 / speed.
    volatility : [price/year^0.5]; the standard deviation in the long run is volatility / sqrt(2 speed).

    Returns
    -------
    (draws, years) [price]: x(t+1) = mean + (x(t) - mean) e^-speed + sd N, sd^2 = volatility^2 (1 - e^-2speed) / (2 speed).

    Notes
    -----
    A plain Euler step of a year, x + speed (mean - x), has another half-life; this one has no step error.
    """
    kept = np.exp(-speed)
    sd = volatility * np.sqrt((1 - kept * kept) / (2 * speed))
    out, value = np.empty_like(scores), np.full(scores.shape[0], start)
    for year in range(scores.shape[1]):
        value = mean + (value - mean) * kept + sd * scores[:, year]
        out[:, year] = value
    return out


def first_year_lost(shares: Array, hazard: npt.ArrayLike) -> Array:
    """The year in which something with a yearly hazard happens first, counted from 1.

    shares: [1] above 0 and below 1, of the futures in which it happens earlier. hazard: [1/year] chance in a year given
    that it has not happened before. The chance of happening after year k is (1 - hazard)**k. Infinite for no hazard.
    """
    rate = np.asarray(hazard, dtype=np.float64)
    safe = np.where(rate > 0, rate, 0.5)
    year = np.ceil(np.log1p(-np.asarray(shares)) / np.log1p(-safe))
    return np.where(rate > 0, np.maximum(year, 1.0), np.inf)
