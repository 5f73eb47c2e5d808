"""Ammonium in the tank, and free ammonia: its poisonous part, between a low and a high pH.

pH cannot be known before a tank is built, so free ammonia is a range and no line gives one value of it. The simple formula
reads 45 to 200 % high in digestate (Hafner and Bisogni, abstract), but the thresholds it is held against were made with it.
"""

import numpy as np

from appraisal.lines.define import line
from appraisal.lines.trace import total


@line()
def microbes_per_demand(retention, returned_ratio, microbes_yield, microbes_decay_per_day):
    """Microbes that leave the tank, for what is digested [kg/kg]

    Yield / (1 + decay x stay): in a long stay most of what grew is digested again. Microbes come back with returned liquid, so
    their stay is that of the feed alone. At 35 days 0.04 kg on a kilogram
    of chemical oxygen demand, 5 to 6 % of it. Source: Metcalf & Eddy, observed yield of a mixed tank (from memory).
    """
    return microbes_yield / (1 + microbes_decay_per_day * (retention * (1 + returned_ratio)))


@line()
def microbes_grown(
    methane_made, oxygen_demand_kg_per_nm3, microbes_per_demand, oxygen_demand_of_microbes, kg_per_t
):
    """Microbes that leave with the digestate [t/month]

    What is digested becomes methane and microbes, both as chemical oxygen demand; the microbes are solids of the digestate.
    Source: balance of oxygen demand; formula C5H7NO2.
    """
    digested = methane_made * oxygen_demand_kg_per_nm3 / (1 - microbes_per_demand * oxygen_demand_of_microbes)
    return digested * microbes_per_demand / kg_per_t


@line()
def nitrogen_set_free_share(volatile_solids_gone, microbes_grown, volatile_solids_fed):
    """Organic nitrogen set free by digestion [share]

    As the solids broken down: those that became gas and those that became microbes, of the solids fed; at most all.
    """
    broken = np.minimum(volatile_solids_gone + microbes_grown, volatile_solids_fed)
    return np.where(volatile_solids_fed > 0, broken / np.where(volatile_solids_fed > 0, volatile_solids_fed, 1), 0)


@line()
def nitrogen_in_microbes(microbes_grown, nitrogen_of_microbes, kg_per_t):
    """Nitrogen built into microbes [kg/month]

    It was set free and is organic again.
    """
    return microbes_grown * nitrogen_of_microbes * kg_per_t


@line()
def digestate_ammonium(each_substrate_ammonium, nitrogen_fed, nitrogen_set_free_share, nitrogen_in_microbes):
    """Ammonium nitrogen in the tank [kg/month]

    What came as ammonium, and organic nitrogen as far as the solids are broken down, less what microbes build in. Digestates
    of food waste were published with 60 % of their nitrogen as ammonium (Banks et al. 2011, from memory) to 80 % (British
    field trials, read second-hand).
    """
    came = total(each_substrate_ammonium)
    return np.maximum(came + (nitrogen_fed - came) * nitrogen_set_free_share - nitrogen_in_microbes, 0)


@line()
def ammonium_level(digestate_ammonium, ammonium_dilution, mix_t_per_m3):
    """Ammonium nitrogen in the tank liquid [kg/m3]

    The same as grams per litre; 0 when nothing is fed.
    """
    flows = ammonium_dilution > 0
    return np.where(flows, digestate_ammonium / np.where(flows, ammonium_dilution, 1) * mix_t_per_m3, 0)


@line()
def ammonia_pka(ammonia_pka_offset, ammonia_pka_slope, digester_temperature, zero_degc_k):
    """Dissociation of ammonium, as pKa [1]

    pKa = 0.09018 + 2729.92 / T, T the digester temperature in kelvin. Valid 0 to 50 degC; hotter is outside the data.
    Source: Emerson et al. 1975, as printed in several public source files (read).
    """
    return ammonia_pka_offset + ammonia_pka_slope / (digester_temperature + zero_degc_k)


@line()
def free_ammonia_share_low(ammonia_pka, digester_ph_low, acid_scale_base):
    """Free ammonia at the low pH, of the ammonium nitrogen [share]

    1 / (1 + 10^(pKa - pH)). Valid 0 to 50 degC, dilute water.
    Source: Emerson et al. 1975.
    """
    return 1 / (1 + acid_scale_base ** (ammonia_pka - digester_ph_low))


@line()
def free_ammonia_share_high(ammonia_pka, digester_ph_high, acid_scale_base):
    """Free ammonia at the high pH, of the ammonium nitrogen [share]

    1 / (1 + 10^(pKa - pH)). Valid 0 to 50 degC, dilute water.
    Source: Emerson et al. 1975.
    """
    return 1 / (1 + acid_scale_base ** (ammonia_pka - digester_ph_high))


@line()
def free_ammonia_low(ammonium_level, free_ammonia_share_low):
    """Free ammonia nitrogen at the low pH [kg/m3]

    Ammonium nitrogen in the tank liquid x free share; the same as grams per litre.
    """
    return ammonium_level * free_ammonia_share_low


@line()
def free_ammonia_high(ammonium_level, free_ammonia_share_high):
    """Free ammonia nitrogen at the high pH [kg/m3]

    Ammonium nitrogen in the tank liquid x free share; the same as grams per litre.
    """
    return ammonium_level * free_ammonia_share_high
