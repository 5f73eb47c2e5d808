"""Fuel the farm no longer buys, drying and heat sold, and heat bought for the digester."""

import numpy as np

from appraisal.lines.define import line


@line()
def fuel_index(heat_escalation, years_on):
    """Rise of fuel prices [1]

    Against month 0.
    """
    return (1 + heat_escalation) ** years_on


@line(when={"heat_drying_counts_as": "fuel_saved"})
def drying_on_own_fuel__fuel_saved(heat_to_dryer):
    """Drying that the farm's fuel bill pays today [kWh/month]

    All heat to the dryer.
    """
    return heat_to_dryer


@line(when={"heat_drying_counts_as": "paid|worth"})
def drying_on_own_fuel__not(heat_to_dryer):
    """Drying that the farm's fuel bill pays today [kWh/month]

    None: it brings the figure of the scenario instead.
    """
    return 0 * heat_to_dryer


@line()
def fuel_replaced(
    heat_to_house, heat_to_barn, drying_on_own_fuel, farm_now_boiler_efficiency, farm_now_heating_fuel_kwh
):
    """Fuel replaced [kWh/month]

    Heat to house, barn and own drying over the boiler's efficiency, at most the fuel the farm buys in that month.
    """
    heat = heat_to_house + heat_to_barn + drying_on_own_fuel
    return np.minimum(heat / farm_now_boiler_efficiency, farm_now_heating_fuel_kwh)


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


@line(role="cash_income", when={"heat_drying_counts_as": "paid"})
def drying_sales(heat_to_dryer, heat_drying_value_per_kwh, fuel_index):
    """Drying for others [money/month]

    Heat to the dryer x its price, which rises with fuel.
    """
    return heat_to_dryer * heat_drying_value_per_kwh * fuel_index


@line(role="modelled_saving", when={"heat_drying_counts_as": "worth"})
def drying_worth(heat_to_dryer, heat_drying_value_per_kwh, fuel_index):
    """Worth of drying [money/month]

    Heat to the dryer x what it is said to be worth; no bill proves it.
    """
    return heat_to_dryer * heat_drying_value_per_kwh * fuel_index


@line(role="cash_income")
def heat_sales(heat_sold, heat_sold_price_per_kwh, fuel_index):
    """Heat sales [money/month]

    Heat that arrives at the buyer x its price, which rises with fuel.
    """
    return heat_sold * heat_sold_price_per_kwh * fuel_index


@line()
def backup_fuel_used(heat_shortfall, heat_first_warming, heat_to_refill, heat_backup_boiler_efficiency):
    """Fuel of the backup boiler [kWh/month]

    Heat bought for the digester over the efficiency of the boiler; heat itself while the efficiency is 1.
    """
    return (heat_shortfall + heat_first_warming + heat_to_refill) / heat_backup_boiler_efficiency


@line(role="running_cost")
def backup_heat(heat_shortfall, heat_backup_boiler_efficiency, heat_backup_fuel_price_per_kwh, fuel_index):
    """Heat bought for the digester [money/month]

    What engine and biogas boiler cannot give, as fuel of the backup boiler x its price.
    """
    return -(heat_shortfall / heat_backup_boiler_efficiency * heat_backup_fuel_price_per_kwh * fuel_index)


@line(role="running_cost")
def fillings_warmed(
    heat_first_warming, heat_to_refill, heat_backup_boiler_efficiency, heat_backup_fuel_price_per_kwh, fuel_index
):
    """Heat bought to warm a new filling [money/month]

    The first filling and one after each clean-out, as fuel of the backup boiler x its price.
    """
    heat = heat_first_warming + heat_to_refill
    return -(heat / heat_backup_boiler_efficiency * heat_backup_fuel_price_per_kwh * fuel_index)


@line(role="running_cost")
def circulation_paid(circulation_power, power_bought_price_per_kwh, bought_power_index):
    """Power bought to pump heat to the buyer [money/month]

    Pump power x price of power bought for the plant.
    """
    return -(circulation_power * power_bought_price_per_kwh * bought_power_index)
