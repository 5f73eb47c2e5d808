"""Methane the manure would have given off, and what the plant loses: the tonnes behind a credit.

First depth: manure methane after IPCC 2006 Vol 4 Ch 10 equation 10.23, volatile solids x B0 x 0.67 x conversion factor.
"""

import numpy as np

from appraisal.lines.define import line
from appraisal.lines.trace import total


@line(per="substrate", when={"substrate_origin": "herd"})
def substrate_baseline_methane__herd(
    substrate_volatile_solids, substrate_b0_m3_per_kg_vs, ipcc_methane_kg_per_m3, credits_baseline_methane_share
):
    """Methane of today's manure store [t/month]

    Volatile solids x producing capacity x density x conversion factor of the store (IPCC 2006, equation 10.23).
    """
    return (
        substrate_volatile_solids * substrate_b0_m3_per_kg_vs * ipcc_methane_kg_per_m3 * credits_baseline_methane_share
    )


@line(per="substrate", when={"substrate_origin": "feed"})
def substrate_baseline_methane__feed(substrate_tonnes):
    """Methane of today's manure store [t/month]

    None: landfill methane of a feed is counted only where evidence shows it was landfilled.
    """
    return 0 * substrate_tonnes


@line()
def methane_destroyed(methane_to_use, methane_slipped, methane_kg_per_nm3, kg_per_t):
    """Methane burned in engine and flare [t/month]

    What a meter would show, less slip.
    """
    return (methane_to_use - methane_slipped) * methane_kg_per_nm3 / kg_per_t


@line()
def methane_lost(methane_leaked, methane_slipped, methane_kg_per_nm3, kg_per_t):
    """Methane the plant loses [t/month]

    Leaks and engine slip.
    """
    return (methane_leaked + methane_slipped) * methane_kg_per_nm3 / kg_per_t


@line()
def credit_tonnes(
    each_substrate_baseline_methane,
    methane_destroyed,
    methane_lost,
    credits_gwp_methane,
    months_fed,
    credits_crediting_years,
    months_per_year,
    rounding_tolerance,
):
    """Avoided methane that can be credited [t CO2e/month]

    Lower of modelled baseline and metered destruction, less the plant's losses, inside the crediting period.
    """
    avoided = np.maximum(np.minimum(total(each_substrate_baseline_methane), methane_destroyed) - methane_lost, 0)
    inside = np.where(months_fed > credits_crediting_years * months_per_year + rounding_tolerance, 0, 1)
    return avoided * credits_gwp_methane * inside
