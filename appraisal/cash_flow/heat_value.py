"""Fuel the farm no longer buys, heat sold, and heat bought for the digester."""

import numpy as np

from appraisal.lines.define import line


@line()
def fuel_index(heat_escalation, years_on):
    """Rise of fuel prices [1]

    Against month 0.
    """
    return (1 + heat_escalation) ** years_on


@line()
def fuel_replaced(heat_to_house, heat_to_barn, farm_now_boiler_efficiency, farm_now_heating_fuel_kwh):
    """Fuel replaced [kWh/month]

    Heat to house and barn over the boiler's efficiency, at most the fuel the farm buys in that month.
    """
    return np.minimum((heat_to_house + heat_to_barn) / farm_now_boiler_efficiency, farm_now_heating_fuel_kwh)


@line(role="evidenced_saving")
def fuel_bill_saved(fuel_replaced, farm_now_heating_fuel_kwh, farm_now_heating_fuel_bill, fuel_index):
    """Fuel bill saved [money/month]

    The part of that month's fuel bill whose fuel is replaced; never more than the bill.
    """
    return (
        fuel_replaced
        / np.where(farm_now_heating_fuel_kwh > 0, farm_now_heating_fuel_kwh, 1)
        * farm_now_heating_fuel_bill
        * fuel_index
    )


@line(role="cash_income")
def heat_sales(heat_sold, heat_sold_price_per_kwh, fuel_index):
    """Heat sales [money/month]

    Heat a buyer takes x its price, which rises with fuel.
    """
    return heat_sold * heat_sold_price_per_kwh * fuel_index


@line(role="running_cost")
def backup_heat(heat_shortfall, heat_backup_fuel_price_per_kwh, fuel_index):
    """Heat bought for the digester [money/month]

    What the engine cannot give, the first heating up included.
    """
    return -(heat_shortfall * heat_backup_fuel_price_per_kwh * fuel_index)
