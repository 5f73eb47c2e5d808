"""Cash a lender holds back while the cover lies under its lock-up level: still the family's, but not to be taken out."""

import numpy as np

from appraisal.lines.define import line

HELD = {"funding_lock_up": "held"}


@line(yearly=True)
def lender_tests(full_year, year_sum_closed):
    """Year in which a lender tests [1]

    Of full operation, or after the plant has closed.
    """
    return np.maximum(full_year, np.where(year_sum_closed > 0, 1, 0))


@line(yearly=True)
def locked(
    cover,
    funding_lock_up_cover,
    debt_service_of_year,
    year_end_owed_before_sweep,
    building_cost,
    statement_tolerance,
    lender_tests,
):
    """Nothing may be taken out at the year's end [1]

    From the first full operating year on, where the cover of the year lies under the lock-up level and debt is still owed.
    """
    low = np.where(cover < funding_lock_up_cover, 1, 0) * np.where(debt_service_of_year < 0, 1, 0)
    owed = np.where(year_end_owed_before_sweep > statement_tolerance * building_cost, 1, 0)
    return low * owed * lender_tests


@line(yearly=True)
def left_after_debt_reserve(left_after_debt_service, year_sum_debt_reserve_moves):
    """Left after debt service and its reserve [money/year]

    What the lock-up test comes upon; negative where cash and reserve together fall short.
    """
    return left_after_debt_service + year_sum_debt_reserve_moves


@line(yearly=True, roll="lock_up", when=HELD)
def lock_up_drawn(previous_lock_up_account, left_after_debt_reserve):
    """Taken from the locked cash [money/year]

    As much as cash and debt reserve fall short of the debt service, as far as it goes.
    """
    return np.minimum(previous_lock_up_account, np.maximum(-left_after_debt_reserve, 0))


@line(yearly=True, roll="lock_up", when=HELD)
def lock_up_released(previous_lock_up_account, lock_up_drawn, locked):
    """Released from the locked cash [money/year]

    All that is held, in the first year that meets the level or owes nothing more.
    """
    return (previous_lock_up_account - lock_up_drawn) * (1 - locked)


@line(yearly=True, when=HELD)
def lock_up_held_back(left_after_debt_reserve, locked):
    """Held back [money/year]

    What debt service and its reserve leave of a locked year.
    """
    return np.maximum(left_after_debt_reserve, 0) * locked


@line(yearly=True, roll="lock_up", when=HELD)
def lock_up_account(previous_lock_up_account, lock_up_drawn, lock_up_released, lock_up_held_back):
    """Locked cash at the year's end [money]

    Opening - taken - released + held back.
    """
    return previous_lock_up_account - lock_up_drawn - lock_up_released + lock_up_held_back


@line(when=HELD, role="lock_up")
def lock_up_moved(in_year_lock_up_drawn, in_year_lock_up_released, in_year_lock_up_held_back, last_of_year):
    """Out of and into the locked cash [money/month]

    In the last month of the project year; what is held back is negative.
    """
    return (in_year_lock_up_drawn + in_year_lock_up_released - in_year_lock_up_held_back) * last_of_year
