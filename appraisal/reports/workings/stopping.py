"""Stopping early, and the rows that must be nothing for the sum to add up."""

from __future__ import annotations

from typing import Any

import numpy as np

from appraisal.lines.define import Line, line, read
from appraisal.lines.trace import total
from appraisal.measures.checks import BRIDGE


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
def left_if_stopped(each_capital_sold_if_stopped, each_capital_removed_if_stopped):
    """Resale less removal [money]

    At the year's end.
    """
    return total(each_capital_sold_if_stopped) - total(each_capital_removed_if_stopped)


@line(yearly=True)
def left_when_stopped(left_if_stopped, stops):
    """Resale less removal when it stops [money]

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

    Cash until it stops, then resale less removal.
    """
    return (project_cash * running_month + in_year_left_when_stopped * last_of_year) * discount_factor


@line()
def owner_stopping_worth(net_cash, running_month, in_year_settled_when_stopped, last_of_year, discount_factor):
    """Family's cash if it stops, worth today [money/month]

    Cash until it stops, then what is still owed is settled.
    """
    return (net_cash * running_month - in_year_settled_when_stopped * last_of_year) * discount_factor


@line()
def check_balance(assets, debts, equity):
    """Assets less debts and the family's part [money]

    Nothing, in every month.
    """
    return assets - debts - equity


@line()
def check_overpaid(loans_owed):
    """Loans overpaid [money]

    Nothing, in every month.
    """
    return np.minimum(loans_owed, 0)


@line()
def check_power(power_sold, power_to_farm, power_own_use, power_gross):
    """Power sold, taken and used less power made [kWh/month]

    Nothing, in every month.
    """
    return power_sold + power_to_farm + power_own_use - power_gross


@line()
def check_power_money(power_paid_for, power_price, power_sales):
    """Power paid for x price less power sales [money/month]

    Nothing, in every month.
    """
    return power_paid_for * power_price - power_sales


@line()
def check_gas(methane_made, methane_burned, methane_flared, methane_leaked):
    """Methane made less burned, flared and leaked [Nm3/month]

    Nothing, in every month.
    """
    return methane_made - (methane_burned + methane_flared + methane_leaked)


@line()
def check_mass(tonnes_fed, digestate_mass, dry_gas_mass, vapour_mass):
    """Tonnes fed less digestate, gas and vapour [t/month]

    Nothing, in every month.
    """
    return tonnes_fed - (digestate_mass + dry_gas_mass + vapour_mass)


def _check_profit_to_cash(net_cash: Any, *steps: Any) -> Any:
    """Steps from profit to cash less the cash [money/month]

    Nothing, in every month.
    """
    signs = [sign for _, parts in BRIDGE for _, sign in parts]
    whole: Any = 0
    for sign, step in zip(signs, steps, strict=True):
        whole = whole + step if sign > 0 else whole - step
    return whole - net_cash


def bridge_line() -> Line:
    """The check of the steps from profit to cash, over the steps that `measures.checks` names."""
    made = read(_check_profit_to_cash, {})
    names = tuple(name for _, parts in BRIDGE for name, _ in parts)
    return Line(**{**vars(made), "name": "check_profit_to_cash", "variant": "", "arguments": ("net_cash", *names)})
