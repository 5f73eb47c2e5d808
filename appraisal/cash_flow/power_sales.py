"""Power sold to the grid, and power the farm no longer buys."""

import numpy as np

from appraisal.lines.define import line


@line()
def power_under_contract(months_fed, feeding, power_contract_years, months_per_year, rounding_tolerance):
    """Power contract runs [1]

    1 from the first feeding to the end of the contract.
    """
    return feeding * np.where(months_fed > power_contract_years * months_per_year + rounding_tolerance, 0, 1)


@line()
def power_price(
    power_under_contract,
    power_contract_price_per_kwh,
    power_contract_escalation,
    power_market_price_per_kwh,
    power_market_escalation,
    years_on,
):
    """Price of power sold [money/kWh]

    Contract price while the contract runs, market price after it, each with its own yearly rise.
    """
    contract = power_contract_price_per_kwh * (1 + power_contract_escalation) ** years_on
    market = power_market_price_per_kwh * (1 + power_market_escalation) ** years_on
    return power_under_contract * contract + (1 - power_under_contract) * market


@line(role="cash_income")
def power_sales(power_sold, power_price):
    """Power sales [money/month]

    Power fed to the grid x its price.
    """
    return power_sold * power_price


@line()
def bought_power_index(power_bought_escalation, years_on):
    """Rise of the price of bought power [1]

    Against month 0.
    """
    return (1 + power_bought_escalation) ** years_on


@line(role="evidenced_saving")
def power_bill_saved(
    power_to_farm, farm_now_power_kwh, farm_now_power_bill, farm_now_power_bill_energy_share, bought_power_index
):
    """Power bill saved [money/month]

    The energy part of the present bill, as far as its kWh are replaced; fixed charges stay, so it never exceeds the bill.
    """
    share = power_to_farm / np.where(farm_now_power_kwh > 0, farm_now_power_kwh, 1)
    return share * farm_now_power_bill * farm_now_power_bill_energy_share * bought_power_index
