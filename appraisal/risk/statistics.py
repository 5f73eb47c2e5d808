"""What a sample says, and how sure it is: quantiles, chances, the worst part, standard errors.

Convention: P10 is the value that one future in ten lies below (some trades call the same figure P90: exceeded in nine
of ten). Quantiles between two draws are read on the straight line between them.
"""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import dataclass
from math import pi, sqrt

import numpy as np
import numpy.typing as npt
import scipy

from appraisal.risk.points import SAMPLES

Array = npt.NDArray[np.float64]
CONVENTION = "P10: one future in ten lies below; P90: one in ten lies above"
TAIL = 0.05
FEWEST_EACH = 10  # draws in each of the sixteen samples, under which no standard error is told


@dataclass(frozen=True)
class Estimate:
    """A figure of a sample and its standard error in the same unit, None where the draws are too few to tell."""

    value: float
    error: float | None


@dataclass(frozen=True)
class Spread:
    """One measure over all futures, in its own unit.

    mean, p10, p50, p90, worst (mean of the worst 5 %). sd: standard deviation. least, most: of the draws.
    known: share of futures in which the measure exists at all; the figures are of those.
    central: what the scenario's own values give, None where the measure does not exist. below_central: share of the
    futures that lie below it.
    """

    mean: Estimate
    p10: Estimate
    p50: Estimate
    p90: Estimate
    worst: Estimate
    sd: float
    least: float
    most: float
    known: float
    central: float | None
    below_central: float | None


def estimated(sample: Array, statistic: Callable[[Array], float]) -> Estimate:
    """A figure of the whole sample (draws,), with the standard error that its sixteen independent samples show.

    The error is their standard deviation over four, the root of sixteen; it is itself known to a fifth or so.
    """
    value = float(statistic(sample))
    parts = [sample[place::SAMPLES] for place in range(SAMPLES)]
    if min(part.size for part in parts) < FEWEST_EACH:
        return Estimate(value, None)
    each = np.array([statistic(part) for part in parts])
    return Estimate(value, float(each.std(ddof=1)) / sqrt(SAMPLES))


def chance(happens: npt.NDArray[np.bool_]) -> Estimate:
    """Share of the futures (draws,) in which something happens, with its standard error."""
    return estimated(happens.astype(np.float64), mean)


def mean(sample: Array) -> float:
    """Plain mean, in the unit of the sample."""
    return float(sample.mean())


def quantile(share: float) -> Callable[[Array], float]:
    """The statistic that a share [1] of the sample lies below."""
    return lambda sample: float(np.quantile(sample, share))


def tail_mean(sample: Array, share: float = TAIL) -> float:
    """Mean of the lowest `share` [1] of a sample; a draw on the border counts with the part that belongs to it."""
    count = share * sample.size
    whole = int(count)
    ordered = np.sort(np.partition(sample, min(whole, sample.size - 1))[: whole + 1])
    border = float(ordered[whole]) if whole < sample.size else 0.0
    return (float(ordered[:whole].sum()) + (count - whole) * border) / count


def spread(sample: Array, central: float) -> Spread | None:
    """Everything told of one measure (draws,), NaN where it does not exist; None where it exists in no future."""
    if np.isnan(sample).all():
        return None
    known = np.isfinite(sample)
    held = sample if known.all() else sample[known]
    at = {share: estimated(held, quantile(share)) for share in (0.1, 0.5, 0.9)}
    exists = bool(np.isfinite(central))
    return Spread(
        mean=estimated(held, mean),
        p10=at[0.1],
        p50=at[0.5],
        p90=at[0.9],
        worst=estimated(held, tail_mean),
        sd=float(held.std(ddof=1)) if held.size > 1 else 0.0,
        least=float(held.min()),
        most=float(held.max()),
        known=float(known.mean()),
        central=float(central) if exists else None,
        below_central=float((held < central).mean()) if exists else None,
    )


def normal_tail(mean_of_curve: float, sd: float, share: float) -> tuple[float, float]:
    """Quantile and mean of the lowest `share` [1] of a normal curve, in its unit: the closed forms samples are held to."""
    z = float(scipy.special.ndtri(share))
    density = float(np.exp(-z * z / 2)) / sqrt(2 * pi)
    return mean_of_curve + sd * z, mean_of_curve - sd * density / share


def quantile_error(share: float, draws: int, density: float) -> float:
    """Standard error of a quantile of independent draws: sqrt(p (1-p) / n) / f, with f the density at the quantile."""
    return sqrt(share * (1 - share) / draws) / density
