"""Clean-outs and a soured tank as masks over the months: when the digester takes no feed, and how much gas is left.

A stop of some weeks is laid out in months of mean length; the month in which it ends is part stop and part feeding.
"""

import numpy as np

from appraisal.lines.define import line


@line()
def clean_outs_begun(months_fed, clean_out_every_years, months_per_year, rounding_tolerance):
    """Clean-outs begun so far [1]

    Whole intervals since the first feeding, rounded down; each begins on the first day after its interval; 0 is never.
    """
    every = np.maximum(clean_out_every_years, 1) * months_per_year
    begun = np.floor(np.maximum(months_fed - 1, 0) / every + rounding_tolerance)
    return np.where(clean_out_every_years > 0, begun, 0)


@line()
def clean_out_begins(clean_outs_begun, previous_clean_outs_begun):
    """A clean-out begins [1]

    1 in the month in which the tank is opened.
    """
    return clean_outs_begun - previous_clean_outs_begun


@line()
def months_since_clean_out(months_fed, clean_outs_begun, clean_out_every_years, months_per_year, rounding_tolerance):
    """Whole months since the last clean-out began [month]

    Since the first feeding where there was none yet; 0 in the month itself.
    """
    fed = np.floor(np.maximum(months_fed - 1, 0) + rounding_tolerance)
    return fed - clean_outs_begun * clean_out_every_years * months_per_year


@line()
def clean_out_months_off(clean_out_off_weeks, weeks_per_year, months_per_year):
    """Length of a clean-out [month]

    Weeks without feeding, in months of mean length.
    """
    return clean_out_off_weeks / weeks_per_year * months_per_year


@line()
def clean_out_off(clean_outs_begun, clean_out_months_off, months_since_clean_out):
    """Part of the month lost to a clean-out [share]

    1 while the tank stands open, a part in the month in which feeding starts again.
    """
    left = np.minimum(np.maximum(clean_out_months_off - months_since_clean_out, 0), 1)
    return np.where(clean_outs_begun > 0, left, 0)


@line()
def reseeding(
    clean_outs_begun, clean_out_months_off, months_since_clean_out, clean_out_ramp_months, rounding_tolerance
):
    """Gas after a clean-out, of a mature tank's [share]

    Rises evenly from the month in which feeding starts again to 1; 1 before the first clean-out.
    """
    fed = months_since_clean_out + 1 - np.floor(clean_out_months_off + rounding_tolerance)
    rise = np.minimum(np.maximum(fed, 0) / np.maximum(clean_out_ramp_months, 1), 1)
    return np.where(clean_outs_begun > 0, rise, 1)


@line()
def manure_intake(clean_out_off):
    """Part of the month in which the digester takes manure [share]

    All of it but the clean-out; manure that comes then goes past the digester.
    """
    return 1 - clean_out_off


@line()
def months_since_upset(months_fed, upset_month, rounding_tolerance):
    """Whole months since the tank turned sour [month]

    0 or more from its month on; a month between two counts from the next whole one.
    """
    return np.floor(months_fed - upset_month + rounding_tolerance)


@line()
def upset_begins(months_since_upset, upset_month):
    """The tank turns sour [1]

    1 in the month in which it happens, never where the month is 0.
    """
    return np.where(upset_month > 0, np.where(months_since_upset >= 0, np.where(months_since_upset < 1, 1, 0), 0), 0)


@line()
def upset_low(months_since_upset, upset_month, upset_low_months):
    """The tank is sour [1]

    1 in the months of low gas.
    """
    inside = np.where(months_since_upset >= 0, np.where(months_since_upset < upset_low_months, 1, 0), 0)
    return np.where(upset_month > 0, inside, 0)


@line()
def upset_depth(months_since_upset, upset_month, upset_low_months, upset_recovery_months):
    """How much of the loss of a sour tank there is [share]

    1 in the months of low gas, then evenly down to 0 over the months of recovery.
    """
    back = (upset_low_months + upset_recovery_months - months_since_upset) / (upset_recovery_months + 1)
    depth = np.minimum(np.maximum(back, 0), 1)
    return np.where(upset_month > 0, np.where(months_since_upset >= 0, depth, 0), 0)


@line()
def upset(upset_depth, upset_gas_left_share):
    """Gas left by a sour tank, of what it would be [share]

    1 but in the months after the tank turned sour; exactly 1 again after its recovery.
    """
    return 1 - upset_depth * (1 - upset_gas_left_share)


@line()
def outside_intake(manure_intake, upset_low, upset_feeds_refused_share):
    """Part of the month in which outside feeds are taken [share]

    None while the tank is cleaned out, and less while it is sour: their fees are lost with them.
    """
    return manure_intake * (1 - upset_low * upset_feeds_refused_share)
