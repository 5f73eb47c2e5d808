"""Lines of an appraisal by project year, and in the first full one."""

from __future__ import annotations

from collections.abc import Iterable

import numpy as np
import numpy.typing as npt

from appraisal.appraise import Appraisal
from appraisal.lines.evaluate import MONTHS, year_sum

Array = npt.NDArray[np.float64]


def by_year(appraisal: Appraisal, *lines: str) -> Array:
    """The sum of some lines by project year (years,) [unit of the lines a year]."""
    return signed_by_year(appraisal, tuple((name, 1) for name in lines))


def signed_by_year(appraisal: Appraisal, parts: Iterable[tuple[str, int]]) -> Array:
    """Lines with their signs, added up by project year (years,) [unit of the lines a year]."""
    total = np.zeros(appraisal.timeline.years)
    for name, sign in parts:
        total = total + sign * year_sum(appraisal.values[name][:1])[0]
    return total


def at_year_end(appraisal: Appraisal, *lines: str) -> Array:
    """The sum of some balances at the ends of the project years (years,) [unit of the lines]."""
    total = np.zeros(appraisal.timeline.years)
    for name in lines:
        total = total + appraisal.values[name][0, MONTHS - 1 :: MONTHS]
    return total


def in_full_year(appraisal: Appraisal, line: str) -> float:
    """What a line adds up to in the first full project year [unit of the line a year]."""
    return float(year_sum(appraisal.values[line][:1])[0, appraisal.plant.year - 1])
