"""The rows that must be nothing for the sum to add up."""

from __future__ import annotations

from typing import Any

import numpy as np

from appraisal.cash_flow.reserves import KEPT
from appraisal.lines.define import Line, line, read
from appraisal.lines.trace import total
from appraisal.measures.checks import BRIDGE


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
def check_gas(methane_made, methane_burned, methane_to_upgrading, methane_to_boiler, methane_flared, methane_leaked):
    """Methane made less burned in engines and boiler, upgraded, flared and leaked [Nm3/month]

    Nothing, in every month.
    """
    return methane_made - (methane_burned + methane_to_upgrading + methane_to_boiler + methane_flared + methane_leaked)


@line()
def check_mass(tonnes_fed, digestate_mass, dry_gas_mass, vapour_mass):
    """Tonnes fed less digestate, gas and vapour [t/month]

    Nothing, in every month.
    """
    return tonnes_fed - (digestate_mass + dry_gas_mass + vapour_mass)


@line(per="substrate", when={"substrate_origin": "feed"})
def substrate_fee_due__feed(substrate_delivered, substrate_fee_per_t):
    """Tonnes taken in x fee [money/month]

    Negative where the feed is bought.
    """
    return substrate_delivered * substrate_fee_per_t


@line(per="substrate", when={"substrate_origin": "herd"})
def substrate_fee_due__herd(substrate_delivered):
    """Tonnes taken in x fee [money/month]

    Nothing: nobody pays for the farm's own manure.
    """
    return 0 * substrate_delivered


@line(per="substrate", when={"substrate_origin": "feed"})
def substrate_fee_booked__feed(substrate_tipping_fee, substrate_bought):
    """Booked for this feed [money/month]

    Tipping fee, or the price of a bought feed.
    """
    return substrate_tipping_fee + substrate_bought


@line(per="substrate", when={"substrate_origin": "herd"})
def substrate_fee_booked__herd(substrate_delivered):
    """Booked for this feed [money/month]

    Nothing.
    """
    return 0 * substrate_delivered


@line()
def fees_due(each_substrate_fee_due):
    """Tonnes taken in x fee, all feeds [money/month]

    What is earned and paid for feeds must be this.
    """
    return total(each_substrate_fee_due)


@line()
def check_fees(fees_due, each_substrate_fee_booked):
    """Tonnes taken in x fee less what is booked for feeds [money/month]

    Nothing, in every month.
    """
    return fees_due - total(each_substrate_fee_booked)


@line(yearly=True)
def check_order(order_cash, order_payment, order_reserved, order_sweep, order_distributed, order_trapped, order_short):
    """Cash of the year less what a lender's order of payments hands out [money/year]

    Nothing, in every year.
    """
    return order_cash - (order_payment + order_reserved + order_sweep + order_distributed + order_trapped + order_short)


@line(yearly=True, when={"funding_debt_reserve": KEPT})
def check_debt_reserve(debt_reserve, debt_reserve_short, debt_reserve_target):
    """Debt reserve and the shortfall shown less its target [money]

    Nothing, in every year.
    """
    return debt_reserve + debt_reserve_short - debt_reserve_target


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
