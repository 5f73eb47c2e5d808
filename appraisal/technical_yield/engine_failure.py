"""A long failure of an engine, once: the months in which it stands. What it cannot burn meanwhile follows from its hours."""

import numpy as np

from appraisal.lines.define import line

COUNTED = {"engine_failure": "counted"}


@line(per="engine", when=COUNTED)
def engine_months_since_failure(months_fed, engine_failure_month, rounding_tolerance):
    """Whole months since the engine failed [month]

    0 or more from its month on; a month between two counts from the next whole one.
    """
    return np.floor(months_fed - engine_failure_month + rounding_tolerance)


@line(per="engine", when=COUNTED)
def engine_failure_begins(engine_months_since_failure, engine_failure_month):
    """The engine fails [1]

    1 in the month in which it happens, never where the month is 0.
    """
    first = np.where(engine_months_since_failure >= 0, np.where(engine_months_since_failure < 1, 1, 0), 0)
    return np.where(engine_failure_month > 0, first, 0)


@line(per="engine", when=COUNTED)
def engine_failure_off(engine_months_since_failure, engine_failure_month, engine_failure_stop_months):
    """Part of the month lost to a failure [share]

    1 while the engine stands, a part in the month in which it runs again.
    """
    left = np.minimum(np.maximum(engine_failure_stop_months - engine_months_since_failure, 0), 1)
    return np.where(engine_failure_month > 0, np.where(engine_months_since_failure >= 0, left, 0), 0)
