"""How large the digester is: its volume as given or sized for a retention time, less the grit that lies in it."""

import numpy as np

from appraisal.lines.define import line


@line(when={"digester_volume_from": "sized"})
def volume_in_first_full_year(flow, days_of_feeding, in_first_full_year):
    """Volume through the tank, counted for its size [m3/month]

    In the first full year, 0 elsewhere.
    """
    return flow * days_of_feeding * in_first_full_year


@line(when={"digester_volume_from": "sized"})
def days_in_first_full_year(days_of_feeding, in_first_full_year):
    """Days of feeding, counted for the size [day/month]

    In the first full year, 0 elsewhere.
    """
    return days_of_feeding * in_first_full_year


@line(when={"digester_volume_from": "sized"})
def design_flow(life_sum_volume_in_first_full_year, life_sum_days_in_first_full_year):
    """Flow the tank is sized for [m3/day]

    Mean of the first full year; busier months then stay shorter than wanted.
    """
    days = life_sum_days_in_first_full_year
    return np.where(days > 0, life_sum_volume_in_first_full_year / np.where(days > 0, days, 1), 0)


@line(when={"digester_volume_from": "given"})
def clean_volume__given(digester_active_volume_m3):
    """Active volume of the clean tank [m3]

    As given; of two tanks in series the first.
    """
    return digester_active_volume_m3


@line(when={"digester_volume_from": "sized"})
def clean_volume__sized(digester_wanted_retention_days, design_flow):
    """Active volume of the clean tank [m3]

    Wanted retention time x design flow; of two tanks in series the first.
    """
    return digester_wanted_retention_days * design_flow


@line(roll="grit")
def grit_in_tank(grit_settled, previous_grit_in_tank, clean_out_begins):
    """Settled sand in the tank [t]

    What has settled since the last clean-out. Stepped, because a clean-out takes away all that lies there.
    """
    return previous_grit_in_tank * (1 - clean_out_begins) + grit_settled


@line()
def grit_share(
    digester_grit_share_per_year,
    months_since_clean_out,
    months_per_year,
    grit_in_tank,
    settled_grit_t_per_m3,
    clean_volume,
):
    """Part of the tank that grit has taken [share]

    A share a year since the last clean-out, and the sand that settled by weight; never more than the whole tank.
    """
    aged = digester_grit_share_per_year * months_since_clean_out / months_per_year
    sand = grit_in_tank / settled_grit_t_per_m3
    return np.minimum(aged + np.where(clean_volume > 0, sand / np.where(clean_volume > 0, clean_volume, 1), 0), 1)


@line()
def tank_volume(clean_volume, grit_share):
    """Active volume left [m3]

    The clean tank less its grit.
    """
    return clean_volume * (1 - grit_share)


@line(when={"digester_kind": "stirred_tank|plug_flow|covered_lagoon"})
def second_volume__none(feeding):
    """Active volume of the second tank [m3]

    There is none.
    """
    return 0 * feeding


@line(when={"digester_kind": "tanks_in_series"})
def second_volume__tanks_in_series(digester_second_volume_m3, feeding):
    """Active volume of the second tank [m3]

    As given, in every month; grit stays in the first.
    """
    return digester_second_volume_m3 + 0 * feeding
