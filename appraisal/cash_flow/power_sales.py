"""Power sold to the grid, by the kind of contract; after its term the market pays."""

import numpy as np

from appraisal.lines.define import line


@line()
def power_under_contract(months_fed, feeding, power_contract_years, months_per_year, rounding_tolerance):
    """Power contract runs [1]

    1 from the first feeding to the end of the contract.
    """
    return feeding * np.where(months_fed > power_contract_years * months_per_year + rounding_tolerance, 0, 1)


@line()
def market_price(power_market_price_per_kwh, power_market_price_share_by_year, power_market_escalation, years_on):
    """Market price of power [money/kWh]

    Price of month 0 x its path by project year x its yearly rise.
    """
    return power_market_price_per_kwh * power_market_price_share_by_year * (1 + power_market_escalation) ** years_on


@line()
def market_price_received(market_price, power_market_received_share):
    """What the plant gets for power on the market [money/kWh]

    Market price x the share of it that its hours and its seller leave.
    """
    return market_price * power_market_received_share


@line()
def contract_index(power_contract_escalation, power_contract_indexed_share, years_on):
    """Rise of the contract price [1]

    Only the indexed share of the price rises; the rest stays as signed.
    """
    return 1 - power_contract_indexed_share + power_contract_indexed_share * (1 + power_contract_escalation) ** years_on


@line(when={"power_contract": "fixed_price|net_metering"})
def contract_price__fixed_price(power_contract_price_per_kwh, contract_index):
    """Price under the contract [money/kWh]

    The agreed price; under net metering that of the surplus over what the farm buys.
    """
    return power_contract_price_per_kwh * contract_index


@line(when={"power_contract": "premium"})
def contract_price__premium(market_price_received, power_contract_premium_per_kwh, contract_index):
    """Price under the contract [money/kWh]

    What the market pays, and the premium on top.
    """
    return market_price_received + power_contract_premium_per_kwh * contract_index


@line(when={"power_contract": "difference"})
def contract_price__difference(market_price_received, market_price, power_contract_price_per_kwh, contract_index):
    """Price under the contract [money/kWh]

    What the market pays, and the difference of the agreed price to the market price: paid to the plant or by it.
    """
    return market_price_received + (power_contract_price_per_kwh * contract_index - market_price)


@line(when={"power_contract": "difference_upward"})
def contract_price__difference_upward(
    market_price_received, market_price, power_contract_price_per_kwh, contract_index
):
    """Price under the contract [money/kWh]

    What the market pays, and the difference of the agreed price to the market price where it is in the plant's favour.
    """
    return market_price_received + np.maximum(power_contract_price_per_kwh * contract_index - market_price, 0)


@line()
def power_price(power_under_contract, contract_price, market_price_received):
    """Price of power sold [money/kWh]

    Contract price while the contract runs, what the market pays after it.
    """
    return power_under_contract * contract_price + (1 - power_under_contract) * market_price_received


@line(when={"power_contract": "fixed_price|premium|difference|difference_upward"})
def power_paid_for__sold(power_sold):
    """Power paid for in money [kWh/month]

    All that is fed to the grid.
    """
    return power_sold


@line(when={"power_contract": "net_metering"})
def power_paid_for__net_metering(power_sold, power_metered_against_bill):
    """Power paid for in money [kWh/month]

    What is fed to the grid beyond the farm's own buying of the year.
    """
    return np.maximum(power_sold - power_metered_against_bill, 0)


@line(role="cash_income")
def power_sales(power_paid_for, power_price):
    """Power sales [money/month]

    Power paid for x its price.
    """
    return power_paid_for * power_price
