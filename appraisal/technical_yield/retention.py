"""How much flows through the tank, how long the feed stays, and what return liquid does to the liquid in the tank.

Return liquid passes through the tank like feed, so it shortens the stay.
"""

import numpy as np

from appraisal.lines.define import line


@line()
def days_of_feeding(days, manure_intake):
    """Days on which the digester is fed [day/month]

    Days of the month less a clean-out.
    """
    return days * manure_intake


@line()
def feed_flow(tonnes_fed, mix_t_per_m3, days_of_feeding):
    """Volume fed [m3/day]

    Tonnes over density and days of feeding; 0 where there are none.
    """
    fed = days_of_feeding > 0
    return np.where(fed, tonnes_fed / mix_t_per_m3 / np.where(fed, days_of_feeding, 1), 0)


@line(when={"recirculation_amount": "none"})
def recirculated_flow__none(feed_flow):
    """Liquid returned to the tank [m3/day]

    None.
    """
    return 0 * feed_flow


@line(when={"recirculation_amount": "share_of_feed"})
def recirculated_flow__share_of_feed(feed_flow, recirculation_returned_share):
    """Liquid returned to the tank [m3/day]

    So much for each cubic metre fed.
    """
    return feed_flow * recirculation_returned_share


@line(when={"recirculation_amount": "per_day"})
def recirculated_flow__per_day(feed_flow, recirculation_m3_per_day):
    """Liquid returned to the tank [m3/day]

    The same on every day of feeding; none where nothing is fed.
    """
    return np.where(feed_flow > 0, recirculation_m3_per_day, 0)


@line()
def flow(feed_flow, recirculated_flow):
    """Volume flow through the tank [m3/day]

    What is fed and what is returned.
    """
    return feed_flow + recirculated_flow


@line()
def returned_ratio(recirculated_flow, feed_flow):
    """Liquid returned for each cubic metre fed [1]

    0 where nothing is fed.
    """
    return np.where(feed_flow > 0, recirculated_flow / np.where(feed_flow > 0, feed_flow, 1), 0)


@line()
def retention_by_volume(tank_volume, second_volume, flow):
    """Retention time from volume and flow [day]

    Active volume of all tanks over daily flow; 0 when nothing is fed.
    """
    return np.where(flow > 0, (tank_volume + second_volume) / np.where(flow > 0, flow, 1), 0)


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


@line(when={"digester_kind": "tanks_in_series"})
def second_share(tank_volume, second_volume):
    """Part of the retention time spent in the second tank [share]

    By volume; 0 without any.
    """
    whole = tank_volume + second_volume
    return np.where(whole > 0, second_volume / np.where(whole > 0, whole, 1), 0)


@line(when={"digester_kind": "tanks_in_series"})
def second_retention(retention, second_share):
    """Retention time in the second tank [day]

    Its part of the whole.
    """
    return retention * second_share


@line(when={"digester_kind": "tanks_in_series"})
def first_retention(retention, second_share):
    """Retention time in the first tank [day]

    Its part of the whole.
    """
    return retention * (1 - second_share)


@line()
def loading_rate(volatile_solids_fed, kg_per_t, tank_volume, days_of_feeding):
    """Organic loading rate [kg VS/m3/day]

    Volatile solids a day of feeding over the active volume, of two tanks in series the first; 0 where there is none.
    """
    room = tank_volume * days_of_feeding
    return np.where(room > 0, volatile_solids_fed * kg_per_t / np.where(room > 0, room, 1), 0)


@line()
def recirculated_mass(recirculated_flow, mix_t_per_m3, days_of_feeding):
    """Liquid returned [t/month]

    Flow x density x days of feeding; it is no part of what is fed or left.
    """
    return recirculated_flow * mix_t_per_m3 * days_of_feeding


@line()
def solids_dilution(digestate_mass, recirculated_mass, recirculation_solids_share):
    """Liquid that carries the dry matter of the tank away [t/month]

    Balance of the tank: digestate and the returned liquid as far as it comes back thinner.
    """
    return digestate_mass + recirculated_mass * (1 - recirculation_solids_share)


@line()
def ammonium_dilution(digestate_mass, recirculated_mass, recirculation_ammonium_share):
    """Liquid that carries the ammonium of the tank away [t/month]

    Balance of the tank: digestate and the returned liquid as far as it comes back weaker. Liquid returned in place of water
    leaves less digestate and so more ammonium in the tank.
    """
    return digestate_mass + recirculated_mass * (1 - recirculation_ammonium_share)


@line()
def tank_dry_matter(digestate_dry_matter, solids_dilution):
    """Dry matter in the tank liquid [share]

    Balance of the tank: dry matter left over the liquid that carries it away; 0 when nothing is fed.
    """
    flows = solids_dilution > 0
    return np.where(flows, digestate_dry_matter / np.where(flows, solids_dilution, 1), 0)
