"""Parts of the income that single measures ask for: what power brings, and what programmes call energy and by-products."""

from appraisal.lines.define import line
from appraisal.lines.trace import total

SOLD = "fixed_price|premium|difference|difference_upward"


@line(when={"power_contract": SOLD, "power_demand_charge": "stays"})
def power_gained__sold(power_sales, power_bill_saved):
    """What power brings [money/month]

    Sold, or bought no more.
    """
    return power_sales + power_bill_saved


@line(when={"power_contract": SOLD, "power_demand_charge": "falls"})
def power_gained__sold_and_peak(power_sales, power_bill_saved, demand_charge_saved):
    """What power brings [money/month]

    Sold, bought no more, and the demand charge that falls with it.
    """
    return power_sales + power_bill_saved + demand_charge_saved


@line(when={"power_contract": "net_metering", "power_demand_charge": "stays"})
def power_gained__metered(power_sales, power_bill_saved, power_bill_metered):
    """What power brings [money/month]

    Sold, bought no more, or set against the bill.
    """
    return power_sales + power_bill_saved + power_bill_metered


@line(when={"power_contract": "net_metering", "power_demand_charge": "falls"})
def power_gained__metered_and_peak(power_sales, power_bill_saved, power_bill_metered, demand_charge_saved):
    """What power brings [money/month]

    Sold, bought no more, or set against the bill, and the demand charge that falls with it.
    """
    return power_sales + power_bill_saved + power_bill_metered + demand_charge_saved


@line(when={"upgrading_takes": "nothing"})
def energy_and_by_products__power(power_sales, heat_sales, evidenced_savings, modelled_savings):
    """Energy and by-products [money/month]

    Power and heat sold, and all savings; no fees, credits or other income.
    """
    return power_sales + heat_sales + evidenced_savings + modelled_savings


@line(when={"upgrading_takes": "share_of_gas"})
def energy_and_by_products__gas(power_sales, heat_sales, gas_sales, evidenced_savings, modelled_savings):
    """Energy and by-products [money/month]

    Power, heat and gas sold, and all savings; no fees, credits or other income.
    """
    return power_sales + heat_sales + gas_sales + evidenced_savings + modelled_savings


@line()
def disposals_before_grants(disposals, each_grant_paid_back):
    """Sold, removed or due at the end, before grants [money/month]

    Without the grants that an early closing pays back: a cost before grants counts neither what came nor what goes back.
    """
    return disposals - total(each_grant_paid_back)
