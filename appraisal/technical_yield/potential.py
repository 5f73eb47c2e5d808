"""What a tonne of volatile solids can give, and how fast: bedding counted in, ageing counted off."""

import numpy as np

from appraisal.lines.define import line

HERD, FEED = {"substrate_origin": "herd"}, {"substrate_origin": "feed"}


@line(per="substrate", when=HERD)
def substrate_manure_potential(
    substrate_fresh_solids, substrate_potential_nm3_per_t_vs, substrate_lost_solids, methane_of_lost_solids_nm3_per_t_vs
):
    """Methane the aged manure can give [Nm3/month]

    Fresh volatile solids x potential, less what the solids lost in the pit would have given. What rots first is what
    digests best, so it takes with it the methane of fully degraded solids; never below 0.
    Source: carbon and oxygen demand kept, as in Buswell's equation; that nothing slower rots is judged.
    """
    fresh = substrate_fresh_solids * substrate_potential_nm3_per_t_vs
    return np.maximum(fresh - substrate_lost_solids * methane_of_lost_solids_nm3_per_t_vs, 0)


@line(per="substrate", when=HERD)
def substrate_bedding_potential(substrate_bedding_solids, substrate_bedding_potential_nm3_per_t_vs):
    """Methane the bedding can give [Nm3/month]

    Its volatile solids x its own potential, of the same kind as the manure's.
    """
    return substrate_bedding_solids * substrate_bedding_potential_nm3_per_t_vs


@line(per="substrate", when=HERD)
def substrate_specific_potential__herd(
    substrate_manure_potential,
    substrate_bedding_potential,
    substrate_volatile_solids,
    substrate_potential_nm3_per_t_vs,
):
    """Potential of what is fed [Nm3/t VS]

    Manure and bedding together over their volatile solids; that of the manure when nothing comes.
    """
    some = substrate_volatile_solids > 0
    mixed = (substrate_manure_potential + substrate_bedding_potential) / np.where(some, substrate_volatile_solids, 1)
    return np.where(some, mixed, substrate_potential_nm3_per_t_vs)


@line(per="substrate", when=FEED)
def substrate_specific_potential__feed(substrate_potential_nm3_per_t_vs):
    """Potential of what is fed [Nm3/t VS]

    As entered, looked up, or weighed from laboratory and table.
    """
    return substrate_potential_nm3_per_t_vs


@line(per="substrate", when=HERD)
def substrate_rate__herd(
    substrate_manure_potential, substrate_bedding_potential, substrate_rate_per_day, substrate_bedding_rate_per_day
):
    """Rate constant of what is fed [1/day]

    Mean of the times 1/k of manure and bedding, weighted by their methane. The slow part counts fully, so in a stirred tank
    the gas is rather under- than overstated (t/(t + T) is convex in T). Without methane that of the manure.
    Source: judged; two feeds with rates of their own would need two tanks' balances.
    """
    whole = substrate_manure_potential + substrate_bedding_potential
    time = (
        substrate_manure_potential / substrate_rate_per_day
        + substrate_bedding_potential / substrate_bedding_rate_per_day
    )
    some = time > 0
    return np.where(some, whole / np.where(some, time, 1), substrate_rate_per_day)


@line(per="substrate", when=FEED)
def substrate_rate__feed(substrate_rate_per_day):
    """Rate constant of what is fed [1/day]

    As entered or looked up.
    """
    return substrate_rate_per_day
