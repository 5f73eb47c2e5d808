"""Lines of an appraisal by project year, and in the first full one."""

from __future__ import annotations

import numpy as np
import numpy.typing as npt

from appraisal.appraise import Appraisal
from appraisal.lines.evaluate import year_sum

Array = npt.NDArray[np.float64]


def by_year(appraisal: Appraisal, *lines: str) -> Array:
    """The sum of some lines by project year (years,) [unit of the lines a year]."""
    total = np.zeros(appraisal.timeline.years)
    for name in lines:
        total = total + year_sum(appraisal.values[name][:1])[0]
    return total


def in_full_year(appraisal: Appraisal, line: str) -> float:
    """What a line adds up to in the first full project year [unit of the line a year]."""
    return float(year_sum(appraisal.values[line][:1])[0, appraisal.plant.year - 1])
