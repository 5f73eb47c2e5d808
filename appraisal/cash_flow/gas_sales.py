"""Gas sold to the gas grid instead of burned, and what upgrading costs. Lines only where gas is upgraded."""

import numpy as np

from appraisal.lines.define import line

UPGRADED = {"upgrading_takes": "share_of_gas"}


@line(when=UPGRADED)
def gas_under_contract(months_fed, feeding, upgrading_contract_years, months_per_year, rounding_tolerance):
    """Gas contract runs [1]

    1 from the first feeding to the end of the contract.
    """
    return feeding * np.where(months_fed > upgrading_contract_years * months_per_year + rounding_tolerance, 0, 1)


@line(when=UPGRADED)
def gas_price(
    gas_under_contract,
    upgrading_contract_price_per_kwh,
    upgrading_contract_escalation,
    upgrading_market_price_per_kwh,
    upgrading_market_price_share_by_year,
    upgrading_market_escalation,
    years_on,
):
    """Price of gas sold [money/kWh]

    On the higher heating value: contract price while the contract runs, market price with its path after it,
    each with its yearly rise.
    """
    contract = upgrading_contract_price_per_kwh * (1 + upgrading_contract_escalation) ** years_on
    path = upgrading_market_price_share_by_year
    market = upgrading_market_price_per_kwh * path * (1 + upgrading_market_escalation) ** years_on
    return gas_under_contract * contract + (1 - gas_under_contract) * market


@line(when=UPGRADED, role="cash_income")
def gas_sales(gas_sold, gas_price):
    """Gas sales [money/month]

    Gas that reaches the grid x its price.
    """
    return gas_sold * gas_price


@line(when=UPGRADED, role="running_cost")
def upgrading_upkeep(
    upgrading_upkeep_per_year,
    days,
    days_per_year,
    feeding,
    upgrading_upkeep_per_nm3,
    upgrading_gas,
    inflation_index,
):
    """Upkeep of upgrading [money/month]

    Fixed part and part by volume; its power stands with the power bought or used.
    """
    amount = upgrading_upkeep_per_year * days / days_per_year * feeding + upgrading_upkeep_per_nm3 * upgrading_gas
    return -(amount * inflation_index)


@line(when=UPGRADED, role="running_cost")
def upgrading_heat_bought(upgrading_heat, heat_backup_fuel_price_per_kwh, fuel_index):
    """Heat bought for upgrading [money/month]

    Heat x price of backup heat.
    """
    return -(upgrading_heat * heat_backup_fuel_price_per_kwh * fuel_index)
