"""Stopping early: two losing years in a row, and what each choice is worth."""

from __future__ import annotations

import numpy as np

from appraisal.lines.define import line
from appraisal.lines.trace import total


@line(yearly=True)
def losing_year(year_sum_operating_result, year_sum_overhauls_paid, full_year):
    """The year loses [1]

    A full operating year with a result below zero after overhauls.
    """
    return np.where(year_sum_operating_result + year_sum_overhauls_paid < 0, full_year, 0)


@line(yearly=True)
def second_loss(losing_year, previous_losing_year):
    """Second losing year in a row [1]

    The family would stop at its end.
    """
    return losing_year * previous_losing_year


@line(yearly=True)
def stops(second_loss, cumulative_second_loss):
    """The plant stops at the end of this year [1]

    The first second losing year in a row.
    """
    return np.where(cumulative_second_loss > 1, 0, second_loss)


@line(yearly=True)
def stopped(cumulative_stops, stops):
    """The plant has stopped before this year [1]

    1 in every later year.
    """
    return cumulative_stops - stops


@line(yearly=True)
def stop_year_number(stops, year_end_years_on):
    """Project year at whose end it stops [year]

    One entry; their sum is the year, 0 where it never stops.
    """
    return stops * (year_end_years_on + 1)


@line(yearly=True)
def left_if_stopped(each_capital_sold_if_stopped, each_capital_removed_if_stopped, paid_back_if_stopped):
    """Resale less removal and what must be paid back [money]

    At the year's end.
    """
    return total(each_capital_sold_if_stopped) - total(each_capital_removed_if_stopped) - paid_back_if_stopped


@line(yearly=True)
def left_when_stopped(left_if_stopped, stops):
    """Resale less removal and paybacks when it stops [money]

    One entry.
    """
    return left_if_stopped * stops


@line(yearly=True)
def settled_when_stopped(owed_if_stopped, stops):
    """To settle when it stops [money]

    One entry: what would still be owed.
    """
    return owed_if_stopped * stops


@line()
def running_month(in_year_stopped):
    """The plant has not stopped [1]

    1 up to the end of the year in which it stops.
    """
    return 1 - in_year_stopped


@line()
def stopping_worth(project_cash, running_month, in_year_left_when_stopped, last_of_year, discount_factor):
    """Project's cash if it stops, worth today [money/month]

    Cash until it stops, then resale less removal and paybacks.
    """
    return (project_cash * running_month + in_year_left_when_stopped * last_of_year) * discount_factor


@line()
def owner_stopping_worth(net_cash, running_month, in_year_settled_when_stopped, last_of_year, discount_factor):
    """Family's cash if it stops, worth today [money/month]

    Cash until it stops, then what is still owed is settled.
    """
    return (net_cash * running_month - in_year_settled_when_stopped * last_of_year) * discount_factor
