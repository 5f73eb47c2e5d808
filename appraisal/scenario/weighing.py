"""A laboratory result weighed against the range of a reference row: a new mean and a narrower range.

Two independent figures of one quantity, each with a normal error, are put together with weights 1/variance:

    mean = (m1/v1 + m2/v2) / (1/v1 + 1/v2),   variance = 1 / (1/v1 + 1/v2)

which is below both variances (normal mean with known variance; Gelman et al., Bayesian Data Analysis, 3rd ed., section
2.5, from memory; the same as the best linear combination of two measurements).
"""

from __future__ import annotations

from dataclasses import dataclass
from math import sqrt

REACH = 2.0  # standard deviations from the middle to an end of a range: about 95 % inside; common practice, no source


@dataclass(frozen=True)
class Spread:
    """A mean and the standard deviation of its error, in one unit; both finite, the deviation above 0."""

    mean: float
    sd: float

    def low(self) -> float:
        """Low end of the range, never below 0."""
        return max(self.mean - REACH * self.sd, 0.0)

    def high(self) -> float:
        """High end of the range."""
        return self.mean + REACH * self.sd


def of_range(*, middle: float, low: float, high: float) -> Spread:
    """A reference range read as `REACH` standard deviations to each side of its middle."""
    return Spread(middle, (high - low) / (2 * REACH))


def of_tests(*, mean: float, sd: float, tests: int, between_share: float) -> Spread:
    """The mean of some tests in one laboratory.

    mean, sd: of single tests, in one unit. tests: their number, at least 1.
    between_share: spread between laboratories as a share of the mean; it does not shrink with the number of tests.
    """
    return Spread(mean, sqrt(sd**2 / tests + (between_share * mean) ** 2))


def weighed(one: Spread, other: Spread) -> Spread:
    """Both figures together: weights 1/variance; the new deviation lies below either."""
    first, second = one.sd**-2, other.sd**-2
    whole = first + second
    return Spread((one.mean * first + other.mean * second) / whole, whole**-0.5)
