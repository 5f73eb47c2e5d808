"""Overhauls, paid in the month in which the run hours fall due. A full-service contract holds them already."""

import numpy as np

from appraisal.lines.define import line


@line(per="engine", when={"engine_maintenance": "routine"}, role="overhaul")
def engine_overhaul(engine_majors_due, engine_major_cost, engine_top_ends_due, engine_top_end_cost, inflation_index):
    """Overhauls [money/month]

    Major and top-end overhauls due x their cost in that year's money.
    """
    return -((engine_majors_due * engine_major_cost + engine_top_ends_due * engine_top_end_cost) * inflation_index)


@line(per="capital")
def capital_times_worn(months_fed, capital_worn_after_years, months_per_year, rounding_tolerance):
    """Times its worn parts have been replaced [1]

    Whole lives over since the first feeding; what wears out in the last month of the plant is not replaced.
    """
    each = capital_worn_after_years * months_per_year
    lives = np.maximum(months_fed - 1, 0) / np.where(each > 0, each, 1)
    return np.where(each > 0, np.floor(lives + rounding_tolerance), 0)


@line(per="capital", role="overhaul")
def capital_worn_parts_paid(capital_times_worn, previous_capital_times_worn, capital_replacement_cost, inflation_index):
    """Worn parts replaced [money/month]

    In the month after a whole life; nothing once the plant is closed. For tax a cost of its year, like an overhaul.
    """
    due = np.maximum(capital_times_worn - previous_capital_times_worn, 0)
    return -(due * capital_replacement_cost * inflation_index)
