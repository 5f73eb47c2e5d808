"""Free ammonia in the tank: the poisonous part of the ammonium nitrogen, between a low and a high pH.

pH cannot be known before a tank is built, so free ammonia is a range and no line gives one value of it. The simple formula
reads 45 to 200 % high in digestate (Hafner and Bisogni, abstract), but the thresholds it is held against were made with it.
"""

from appraisal.lines.define import line


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
