"""How a line is looked at from another one: what numbers do for each view of a name."""

from __future__ import annotations

from collections.abc import Callable

import numpy as np
import numpy.typing as npt

from appraisal.lines.names import MONTHS, View

Array = npt.NDArray[np.float64]


def _previous(x: Array) -> Array:
    return np.concatenate((np.zeros_like(x[:, :1]), x[:, :-1]), axis=1)


def _next(x: Array) -> Array:
    return np.concatenate((x[:, 1:], np.zeros_like(x[:, :1])), axis=1)


def _cumulative(x: Array) -> Array:
    return np.cumsum(x, axis=1)


def _life_sum(x: Array) -> Array:
    return np.cumsum(x, axis=1)[:, -1:]


def year_sum(x: Array) -> Array:
    """Sum months (draws, 12 x years) by project year (draws, years), in the order of the months for every shape."""
    total = x[:, 0::MONTHS].copy()
    for month in range(1, MONTHS):
        total += x[:, month::MONTHS]
    return total


VIEW: dict[View, Callable[[Array], Array]] = {
    "same": lambda x: x,
    "previous": _previous,
    "next": _next,
    "cumulative": _cumulative,
    "life_sum": _life_sum,
    "year_sum": year_sum,
    "year_end": lambda x: x[:, MONTHS - 1 :: MONTHS].copy(),
    "in_year": lambda x: np.repeat(x, MONTHS, axis=1),
    "years_of": lambda x: x[:, ::MONTHS].copy(),
}
# What is left of so many columns.
COLUMNS: dict[View, Callable[[int], int]] = {
    "same": lambda columns: columns,
    "previous": lambda columns: columns,
    "next": lambda columns: columns,
    "cumulative": lambda columns: columns,
    "life_sum": lambda columns: 1,
    "year_sum": lambda columns: columns // MONTHS,
    "year_end": lambda columns: columns // MONTHS,
    "in_year": lambda columns: columns * MONTHS,
    "years_of": lambda columns: columns // MONTHS,
}
