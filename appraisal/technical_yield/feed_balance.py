"""What the mixed feed offers the microbes besides energy: carbon to nitrogen, and the share of fat."""

import numpy as np

from appraisal.lines.define import line
from appraisal.lines.trace import total


@line(per="substrate")
def substrate_carbon(substrate_volatile_solids, substrate_carbon_share_of_vs):
    """Carbon [t/month]

    Volatile solids x their carbon share. Carbon of straw and wood counts in full, though microbes reach little of it.
    """
    return substrate_volatile_solids * substrate_carbon_share_of_vs


@line(per="substrate")
def substrate_fat(substrate_volatile_solids, substrate_fat_share_of_vs):
    """Fat [t/month]

    Volatile solids x their fat share.
    """
    return substrate_volatile_solids * substrate_fat_share_of_vs


@line()
def carbon_fed(each_substrate_carbon):
    """Carbon fed [t/month]

    Of all feeds.
    """
    return total(each_substrate_carbon)


@line()
def fat_fed(each_substrate_fat):
    """Fat fed [t/month]

    Of all feeds.
    """
    return total(each_substrate_fat)


@line()
def carbon_to_nitrogen(carbon_fed, kg_per_t, nitrogen_fed):
    """Carbon to nitrogen in the feed [kg/kg]

    Organic carbon over total nitrogen; 0 when nothing is fed. The bands it is held against stand in table digester_limits.
    """
    return np.where(nitrogen_fed > 0, carbon_fed * kg_per_t / np.where(nitrogen_fed > 0, nitrogen_fed, 1), 0)


@line()
def fat_share(fat_fed, volatile_solids_fed):
    """Fat in the volatile solids fed [share]

    0 when nothing is fed. The band it is held against comes from a batch trial in other units, see table digester_limits.
    """
    return np.where(volatile_solids_fed > 0, fat_fed / np.where(volatile_solids_fed > 0, volatile_solids_fed, 1), 0)
