"""Figures of risk as they stand in tables: money, covers, rates, with their standard errors."""

from __future__ import annotations

from collections.abc import Callable
from functools import partial

import numpy as np

from appraisal.present import numbers
from appraisal.risk.statistics import Estimate

HALF = 0.5  # of a unit of money, under which nothing is shown


def money(value: float) -> str:
    """An amount of money without decimals; nothing under half a unit, and never a minus before nothing."""
    return f"{value:,.0f}" if abs(value) >= HALF else "0"


def times(value: float) -> str:
    """A cover with three decimals."""
    return f"{value:.3f}"


def cover(limit: float) -> Callable[[float], str]:
    """How a cover is written beside its target: as in the sentences, so that the same figure reads the same everywhere."""
    return partial(numbers.times, limit=limit)


def rate(value: float) -> str:
    """A rate as per cent with two decimals."""
    return f"{value:.2%}"


def with_error(estimate: Estimate, shown: Callable[[float], str]) -> str:
    """A figure and its standard error; the error with two digits, however small."""
    if estimate.error is None:
        return shown(estimate.value)
    if shown is money:
        return f"{shown(estimate.value)} +- {estimate.error:,.0f}"
    error = f"{_two_digits(estimate.error * 100)}%" if shown is rate else _two_digits(estimate.error)
    return f"{shown(estimate.value)} +- {error}"


def _two_digits(value: float) -> str:
    """Two significant digits without a power of ten."""
    return np.format_float_positional(value, precision=2, fractional=False, trim="-")


def optional(value: float | None, shown: Callable[[float], str]) -> str:
    """A figure where it exists, else nothing."""
    return "" if value is None or not np.isfinite(value) else shown(value)


def difference(value: float) -> str:
    """A difference of money with its sign."""
    return f"{value:+,.0f}" if abs(value) >= HALF else "0"


def of_hundred_with_error(chance: Estimate) -> tuple[str, str]:
    """Futures of a hundred and their standard error; none is told where all futures agree, for it would read as certainty."""
    agree = chance.error is None or chance.value in (0.0, 1.0)
    return f"{chance.value * 100:.1f}", "" if agree else f"+- {(chance.error or 0.0) * 100:.2g}"
