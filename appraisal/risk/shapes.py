"""The curves behind ranges: where a share of all futures lies below, and what mean and variance follow in closed form.

Convention: P10 is the value that one future in ten lies below.
"""

from __future__ import annotations

from collections.abc import Callable, Mapping
from dataclasses import dataclass
from math import exp, log, pi, sqrt
from statistics import NormalDist

import numpy as np
import numpy.typing as npt
import scipy

from appraisal.risk.paths import first_year_lost
from appraisal.scenario.beside import Range, parameters
from appraisal.scenario.quantity import MONTHS_PER_YEAR

Array = npt.NDArray[np.float64]
Facts = Mapping[str, float]
PEAK_WEIGHT = 4.0  # of the most likely value in the mean of a PERT curve (Malcolm and others 1959, from memory)
Z90 = NormalDist().inv_cdf(0.9)


@dataclass(frozen=True, eq=False)
class Curve:
    """One distribution, in the unit of its value.

    shape: name of the shape. facts: its parameters, complete. values, shares: of a table, sorted, cumulative.
    mean, variance: in closed form. low, high: no draw lies beyond.
    """

    shape: str
    facts: Facts
    mean: float
    variance: float
    low: float
    high: float
    values: Array | None = None
    shares: Array | None = None

    def at(self, below: npt.ArrayLike) -> Array:
        """The values that the shares `below` [1], each between 0 and 1, of all futures lie under; same shape."""
        share = np.asarray(below, dtype=np.float64)
        if self.values is not None and self.shares is not None:
            return self.values[np.searchsorted(self.shares, share, side="left")]
        return np.clip(_INVERSE[self.shape](share, self.facts), self.low, self.high)


def curve(item: Range, *, value: float, low: float, high: float, months: int | None = None) -> Curve:
    """The curve of a checked range.

    value: what the scenario itself uses; the peak of a triangular or PERT curve and the mean of an uncut normal one
    where the range names none. low, high: limits of the field, which cut a curve without ends. months: of the project, for
    a hazard that draws a month and not a number of years.
    """
    given = parameters(item)
    if item.shape == "table":
        return table(given["values"], given.get("weights"))
    if item.shape in ("triangular", "pert"):
        maker = triangular if item.shape == "triangular" else pert
        return maker(given["low"], given.get("likely", value), given["high"])
    if item.shape == "uniform":
        return uniform(given["low"], given["high"])
    if item.shape == "truncated_normal":
        middle = given.get("mean_before_cut", value)
        return truncated_normal(middle, given["sd_before_cut"], low=given["low"], high=given["high"])
    if item.shape == "hazard":
        return hazard(given["per_year"], years=value) if months is None else first_month(given["per_year"], months=months)
    return lognormal(given["p10"], given["p90"], low=given.get("low", max(low, 0.0)), high=given.get("high", high))


def uniform(low: float, high: float) -> Curve:
    """Every value between two ends alike."""
    return Curve("uniform", {"low": low, "high": high}, (low + high) / 2, (high - low) ** 2 / 12, low, high)


def triangular(low: float, likely: float, high: float) -> Curve:
    """Straight lines from the ends up to a peak: mean (a+m+b)/3, variance (a2+m2+b2-am-ab-mb)/18."""
    squares = low * low + likely * likely + high * high - low * likely - low * high - likely * high
    facts = {"low": low, "likely": likely, "high": high}
    return Curve("triangular", facts, (low + likely + high) / 3, squares / 18, low, high)


def pert(low: float, likely: float, high: float) -> Curve:
    """A beta curve between two ends: mean (a+4m+b)/6, variance (mean-a)(b-mean)/7."""
    span = high - low
    facts = {
        "low": low,
        "high": high,
        "alpha": 1 + PEAK_WEIGHT * (likely - low) / span,
        "beta": 1 + PEAK_WEIGHT * (high - likely) / span,
    }
    mean = (low + PEAK_WEIGHT * likely + high) / (PEAK_WEIGHT + 2)
    return Curve("pert", facts, mean, (mean - low) * (high - mean) / (PEAK_WEIGHT + 3), low, high)


def truncated_normal(mean_before_cut: float, sd_before_cut: float, *, low: float, high: float) -> Curve:
    """A normal curve cut at two ends and filled up again; its mean is not the mean before the cut."""
    a, b = (low - mean_before_cut) / sd_before_cut, (high - mean_before_cut) / sd_before_cut
    below, above = float(scipy.special.ndtr(a)), float(scipy.special.ndtr(b))
    left, shift = above - below, (_density(a) - _density(b)) / (above - below)
    spread = 1 + (a * _density(a) - b * _density(b)) / left - shift * shift
    facts = {"mean_before_cut": mean_before_cut, "sd_before_cut": sd_before_cut, "below": below, "left": left}
    return Curve(
        "truncated_normal", facts, mean_before_cut + sd_before_cut * shift, sd_before_cut**2 * spread, low, high
    )


def _within(low: float, high: float) -> float:
    """Share of a standard normal between two scores."""
    return float(scipy.special.ndtr(high) - scipy.special.ndtr(low))


def lognormal(p10: float, p90: float, *, low: float = 0.0, high: float = float("inf")) -> Curve:
    """The curve whose logarithm is normal and whose P10 and P90 before any cut are given."""
    mu, sigma = (log(p10) + log(p90)) / 2, (log(p90) - log(p10)) / (2 * Z90)
    a = (log(low) - mu) / sigma if low > 0 else -float("inf")
    b = (log(high) - mu) / sigma if high < float("inf") else float("inf")
    below, left = float(scipy.special.ndtr(a)), _within(a, b)
    first, second = (exp(k * mu + k * k * sigma * sigma / 2) * _within(a - k * sigma, b - k * sigma) / left for k in (1, 2))
    facts = {"mu": mu, "sigma": sigma, "below": below, "left": left}
    return Curve("lognormal", facts, first, second - first * first, low, high)


def table(values: list[float], weights: list[float] | None = None) -> Curve:
    """Values as they were observed: every draw is one of them, as often as its weight says."""
    order = np.argsort(np.array(values, dtype=np.float64), kind="stable")
    sorted_values = np.array(values, dtype=np.float64)[order]
    share = np.array(weights if weights is not None else [1.0] * len(values), dtype=np.float64)[order]
    share = share / share.sum()
    reached = np.cumsum(share)
    reached[np.flatnonzero(share)[-1] :] = 1.0
    mean = float((share * sorted_values).sum())
    variance = float((share * (sorted_values - mean) ** 2).sum())
    ends = sorted_values[share > 0]
    return Curve("table", {}, mean, variance, float(ends[0]), float(ends[-1]), sorted_values, reached)


def hazard(per_year: float, *, years: float) -> Curve:
    """Years until something with a yearly chance [1/year] happens, whole and at least 1, and never more than `years`."""
    whole = np.arange(1.0, np.floor(years) + 1)
    lasts = np.append(np.minimum(whole, years), years)
    chance = np.append((1 - per_year) ** (whole - 1) * per_year, (1 - per_year) ** whole.size)
    mean = float((chance * lasts).sum())
    facts = {"per_year": per_year, "years": years}
    return Curve("hazard", facts, mean, float((chance * (lasts - mean) ** 2).sum()), min(1.0, years), years)


def first_month(per_year: float, *, months: int) -> Curve:
    """The month, counted from 1, in which something with a yearly hazard happens first; 0 where it never does.

    Within a year every month is alike. months: how many there are to happen in. The chance of never is (1 - per_year) **
    (months / 12).
    """
    number = np.arange(1, months + 1, dtype=np.float64)
    before = np.ceil(number / MONTHS_PER_YEAR) - 1
    chance = (1 - per_year) ** before * per_year / MONTHS_PER_YEAR
    return table([0.0, *number.tolist()], [1.0 - float(chance.sum()), *chance.tolist()])


def _density(z: float) -> float:
    return exp(-z * z / 2) / sqrt(2 * pi)


def _uniform(share: Array, facts: Facts) -> Array:
    return facts["low"] + share * (facts["high"] - facts["low"])


def _triangular(share: Array, facts: Facts) -> Array:
    low, likely, high = facts["low"], facts["likely"], facts["high"]
    span, left = high - low, likely - low
    rising = low + np.sqrt(share * span * left)
    falling = high - np.sqrt((1 - share) * span * (high - likely))
    return np.where(share * span < left, rising, falling)


def _pert(share: Array, facts: Facts) -> Array:
    part = scipy.special.betaincinv(facts["alpha"], facts["beta"], share)
    return np.asarray(facts["low"] + (facts["high"] - facts["low"]) * part)


def _truncated_normal(share: Array, facts: Facts) -> Array:
    z = scipy.special.ndtri(facts["below"] + share * facts["left"])
    return np.asarray(facts["mean_before_cut"] + facts["sd_before_cut"] * z)


def _lognormal(share: Array, facts: Facts) -> Array:
    return np.asarray(np.exp(facts["mu"] + facts["sigma"] * scipy.special.ndtri(facts["below"] + share * facts["left"])))


def _hazard(share: Array, facts: Facts) -> Array:
    return np.minimum(first_year_lost(share, facts["per_year"]), facts["years"])


_INVERSE: Mapping[str, Callable[[Array, Facts], Array]] = {
    "uniform": _uniform,
    "triangular": _triangular,
    "pert": _pert,
    "truncated_normal": _truncated_normal,
    "lognormal": _lognormal,
    "hazard": _hazard,
}
