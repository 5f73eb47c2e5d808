"""The early years: how much of a mature plant's gas there is in each month."""

import numpy as np

from appraisal.lines.define import line
from appraisal.lines.trace import pick


@line()
def operating_year(months_fed, months_per_year, rounding_tolerance):
    """Operating year [year]

    Counts from 1 in the twelve months after the first feeding; 1 while building.
    """
    return np.floor(np.maximum(months_fed - 1, 0) / months_per_year + rounding_tolerance) + 1


@line()
def first_feeding(months_fed):
    """First month of feeding [1]

    1 in that month.
    """
    return np.where(months_fed > 0, np.where(months_fed - 1 < 1, 1, 0), 0)


@line()
def settling(years_of_start_up_gas_share_by_year, operating_year):
    """Gas of this operating year, of a mature plant's [share]

    As given for each year of feeding; the early years of a plant are its poor ones.
    """
    return pick(years_of_start_up_gas_share_by_year, operating_year)


@line()
def gas_condition(ramp, settling, upset, reseeding):
    """Gas of this month, of a mature tank's [share]

    Rise after the first feeding x operating year x what a sour tank leaves x rise after a clean-out.
    """
    return ramp * settling * upset * reseeding
