"""Power the farm no longer buys: the energy price for what is used in the same hour; demand charges only where they fall."""

import numpy as np

from appraisal.lines.define import line


@line()
def bought_power_index(power_bought_escalation, power_bought_price_share_by_year, years_on):
    """Rise of the price of bought power [1]

    Against month 0: its path by project year x its yearly rise.
    """
    return power_bought_price_share_by_year * (1 + power_bought_escalation) ** years_on


@line(role="evidenced_saving")
def power_bill_saved(
    power_to_farm, farm_now_power_kwh, farm_now_power_bill, farm_now_power_bill_energy_share, bought_power_index
):
    """Power bill saved [money/month]

    The energy part of the present bill, as far as its kWh are replaced; fixed charges stay, so it never exceeds the bill.
    """
    share = power_to_farm / np.where(farm_now_power_kwh > 0, farm_now_power_kwh, 1)
    return share * farm_now_power_bill * farm_now_power_bill_energy_share * bought_power_index


@line(when={"power_contract": "net_metering"})
def power_still_bought(farm_now_power_kwh, power_to_farm):
    """Power the farm still buys [kWh/month]

    Beyond what the engine covers in the same hour.
    """
    return np.maximum(farm_now_power_kwh - power_to_farm, 0)


@line(when={"power_contract": "net_metering"})
def power_sold_under_contract(power_sold, power_under_contract):
    """Power fed to the grid under the contract [kWh/month]

    Nothing after its term.
    """
    return power_sold * power_under_contract


@line(yearly=True, when={"power_contract": "net_metering"})
def metered_share(year_sum_power_still_bought, year_sum_power_sold_under_contract):
    """Part of the power fed in that is set against the bill [share]

    Settled over the project year: at most what the farm buys in it.
    """
    sold = year_sum_power_sold_under_contract
    return np.minimum(year_sum_power_still_bought / np.where(sold > 0, sold, 1), 1)


@line(when={"power_contract": "net_metering"})
def power_metered_against_bill(power_sold_under_contract, in_year_metered_share):
    """Power set against the bill [kWh/month]

    Power fed in x the part of the year that is set against the bill.
    """
    return power_sold_under_contract * in_year_metered_share


@line(when={"power_contract": "net_metering"})
def energy_bill(farm_now_power_bill, farm_now_power_bill_energy_share):
    """Energy part of the power bill [money/month]

    What falls with every kWh.
    """
    return farm_now_power_bill * farm_now_power_bill_energy_share


@line(when={"power_contract": "net_metering"})
def power_bought_now(farm_now_power_kwh, days):
    """Power bought without the plant [kWh/month]

    From the bills.
    """
    return farm_now_power_kwh + 0 * days


@line(yearly=True, when={"power_contract": "net_metering"})
def energy_price_of_bill(year_sum_energy_bill, year_sum_power_bought_now):
    """Energy price on the power bill [money/kWh]

    Mean of the year.
    """
    return year_sum_energy_bill / np.where(year_sum_power_bought_now > 0, year_sum_power_bought_now, 1)


@line(role="evidenced_saving", when={"power_contract": "net_metering"})
def power_bill_metered(power_metered_against_bill, in_year_energy_price_of_bill, bought_power_index):
    """Power bill saved by net metering [money/month]

    Power set against the bill x its energy price; fixed and demand charges stay.
    """
    return power_metered_against_bill * in_year_energy_price_of_bill * bought_power_index


@line(when={"power_demand_charge": "falls"})
def peak_months_kept_low(power_outage_months_per_year_by_year, power_peak_counts_months, months_per_year):
    """Part of the year in which the engine keeps the peak low [share]

    One outage in a billing month sets the peak anew, for as many months as a peak counts; the rest of the year is saved.
    """
    return np.maximum(1 - power_outage_months_per_year_by_year * power_peak_counts_months / months_per_year, 0)


@line(role="evidenced_saving", when={"power_demand_charge": "falls"})
def demand_charge_saved(
    power_peak_replaced_kw,
    power_demand_price_per_kw_month,
    peak_months_kept_low,
    bought_power_index,
    feeding,
    farm_now_power_bill,
    farm_now_power_bill_energy_share,
):
    """Demand charge saved [money/month]

    Peak replaced x price x part of the year in which no outage resets it; never more than the part of the bill that is no energy.
    """
    saved = power_peak_replaced_kw * power_demand_price_per_kw_month * peak_months_kept_low
    most = farm_now_power_bill * (1 - farm_now_power_bill_energy_share)
    return np.minimum(saved, most) * bought_power_index * feeding
