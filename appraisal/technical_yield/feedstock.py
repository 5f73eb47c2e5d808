"""What goes into the digester, month by month: manure of the herds and outside feeds, together called substrates."""

import numpy as np

from appraisal.lines.define import line
from appraisal.lines.trace import total


@line(per="substrate", when={"substrate_origin": "herd"})
def substrate_supply__herd(feeding):
    """Share of the feed that still comes [share]

    Manure comes as long as the plant is fed.
    """
    return feeding


@line(per="substrate", when={"substrate_origin": "feed"})
def substrate_supply__feed(
    feeding, months_fed, substrate_contract_years, substrate_share_after_contract, months_per_year, rounding_tolerance
):
    """Share of the feed that still comes [share]

    All of it during the contract, what is expected to be renewed after it. A feed that ends runs through all physics.
    """
    over = months_fed > substrate_contract_years * months_per_year + rounding_tolerance
    return feeding * np.where(over, substrate_share_after_contract, 1)


@line(per="substrate", when={"substrate_origin": "feed"})
def substrate_season(substrate_monthly_weight, days):
    """Season weight times days [day/month]

    Splits the yearly tonnes over the months.
    """
    return substrate_monthly_weight * days


@line(per="substrate", when={"substrate_origin": "herd"})
def substrate_heads(substrate_head, substrate_head_share_by_year):
    """Animals [head]

    Mean number x the herd's path over the project years.
    """
    return substrate_head * substrate_head_share_by_year


@line(per="substrate", when={"substrate_origin": "herd"})
def substrate_delivered__herd(
    substrate_heads, substrate_manure_t_per_head_year, substrate_collected_share, days, days_per_year, substrate_supply
):
    """Delivered [t/month]

    Head x manure per head x share collected in that month.
    """
    manure = substrate_heads * substrate_manure_t_per_head_year * days / days_per_year
    return manure * substrate_collected_share * substrate_supply


@line(per="substrate", when={"substrate_origin": "feed"})
def substrate_delivered__feed(
    substrate_tonnes_per_year,
    substrate_season,
    life_sum_substrate_season,
    life_sum_days,
    days_per_year,
    substrate_supply,
):
    """Delivered [t/month]

    Tonnes a year spread by season, so that twelve months add up to the year.
    """
    weight = substrate_season * life_sum_days / life_sum_substrate_season / days_per_year
    return substrate_tonnes_per_year * weight * substrate_supply


@line(per="substrate", when={"substrate_origin": "herd"})
def substrate_tonnes__herd(substrate_delivered):
    """Fed to the digester [t/month]

    All manure that is collected.
    """
    return substrate_delivered


@line(per="substrate", when={"substrate_origin": "feed"})
def substrate_tonnes__feed(substrate_delivered, substrate_reject_share):
    """Fed to the digester [t/month]

    What was delivered less packaging and other rejects.
    """
    return substrate_delivered * (1 - substrate_reject_share)


@line(per="substrate", when={"substrate_origin": "herd"})
def substrate_water__herd(
    substrate_heads,
    substrate_wash_water_l_per_head_day,
    litres_per_m3,
    days,
    substrate_collected_share,
    substrate_supply,
):
    """Water that comes along [t/month]

    Wash and rain water per head; it takes volume and heat and gives no gas.
    """
    return (
        substrate_heads
        * substrate_wash_water_l_per_head_day
        / litres_per_m3
        * days
        * substrate_collected_share
        * substrate_supply
    )


@line(per="substrate", when={"substrate_origin": "feed"})
def substrate_water__feed(substrate_tonnes):
    """Water that comes along [t/month]

    None: an outside feed is weighed with its water.
    """
    return 0 * substrate_tonnes


@line(per="substrate")
def substrate_dry_matter(substrate_tonnes, substrate_ts_share):
    """Dry matter [t/month]

    Tonnes x dry matter share.
    """
    return substrate_tonnes * substrate_ts_share


@line(per="substrate")
def substrate_volatile_solids(substrate_dry_matter, substrate_vs_share_of_ts):
    """Volatile solids [t/month]

    Dry matter x share that burns off: the part that can become gas.
    """
    return substrate_dry_matter * substrate_vs_share_of_ts


@line()
def water_tonnes(each_substrate_water):
    """Water fed [t/month]

    Water of all herds.
    """
    return total(each_substrate_water)


@line()
def tonnes_fed(each_substrate_tonnes, water_tonnes):
    """Fed in all [t/month]

    All substrates and the water that comes with them.
    """
    return total(each_substrate_tonnes) + water_tonnes


@line()
def dry_matter_fed(each_substrate_dry_matter):
    """Dry matter fed [t/month]

    Of all substrates.
    """
    return total(each_substrate_dry_matter)


@line()
def volatile_solids_fed(each_substrate_volatile_solids):
    """Volatile solids fed [t/month]

    Of all substrates.
    """
    return total(each_substrate_volatile_solids)


@line()
def flow(tonnes_fed, mix_t_per_m3, days):
    """Volume flow into the tank [m3/day]

    Tonnes over density and days.
    """
    return tonnes_fed / mix_t_per_m3 / days


@line()
def retention_by_volume(digester_active_volume_m3, flow):
    """Retention time from volume and flow [day]

    Active volume over daily flow; 0 when nothing is fed.
    """
    return np.where(flow > 0, digester_active_volume_m3 / np.where(flow > 0, flow, 1), 0)


@line(when={"digester_retention": "from_volume"})
def retention__from_volume(retention_by_volume):
    """Retention time used [day]

    From volume and flow, so it moves when feeds come and go.
    """
    return retention_by_volume


@line(when={"digester_retention": "declared"})
def retention__declared(digester_declared_retention_days, feeding):
    """Retention time used [day]

    As declared; held against volume and flow in the findings.
    """
    return digester_declared_retention_days * feeding


@line()
def loading_rate(volatile_solids_fed, kg_per_t, digester_active_volume_m3, days):
    """Organic loading rate [kg VS/m3/day]

    Volatile solids a day over active volume.
    """
    return volatile_solids_fed * kg_per_t / digester_active_volume_m3 / days
