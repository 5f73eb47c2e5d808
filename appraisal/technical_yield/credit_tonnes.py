"""Tonnes behind carbon credits: made, sold, withheld, claimed elsewhere, and left for the farm to claim."""

import numpy as np

from appraisal.lines.define import line
from appraisal.lines.trace import total


@line()
def credits_run(
    feeding,
    months_fed,
    credits_crediting_years,
    month_number,
    credits_law_after_years,
    months_per_year,
    rounding_tolerance,
):
    """Crediting period runs [1]

    1 from the first feeding to the end of the period, and only until a law requires the capture.
    """
    over = months_fed > credits_crediting_years * months_per_year + rounding_tolerance
    required = month_number >= credits_law_after_years * months_per_year - rounding_tolerance
    return feeding * np.where(over, 0, 1) * np.where(required, 0, 1)


@line()
def credit_manure_methane(methane_reduction_modelled, methane_destroyed):
    """Manure methane that can be credited [t/month]

    Lower of the modelled reduction and the metered destruction, never below nothing (RGGI agricultural methane rule,
    AMS-III.D).
    """
    return np.maximum(np.minimum(methane_reduction_modelled, methane_destroyed), 0)


@line(when={"credits_counts_landfill": "yes"})
def credit_landfill_methane__yes(each_substrate_landfill_methane):
    """Landfill methane that can be credited [t/month]

    What the evidenced waste would have given off this month, by first-order decay.
    """
    return total(each_substrate_landfill_methane)


@line(when={"credits_counts_landfill": "no"})
def credit_landfill_methane__no(feeding):
    """Landfill methane that can be credited [t/month]

    None: the programme does not cover it.
    """
    return 0 * feeding


@line(when={"credits_counts_power": "yes"})
def credit_power__yes(without_power, with_power):
    """Power that can be credited [t CO2e/month]

    Power that the grid need not make, less what the plant buys.
    """
    return np.maximum(without_power - with_power, 0)


@line(when={"credits_counts_power": "no"})
def credit_power__no(feeding):
    """Power that can be credited [t CO2e/month]

    None: the programme does not cover it.
    """
    return 0 * feeding


@line()
def credit_tonnes(credit_manure_methane, credit_landfill_methane, credits_gwp_methane, credit_power, credits_run):
    """Avoided emissions that can be credited [t CO2e/month]

    Methane at the programme's warming, and power where it is covered, inside the crediting period.
    """
    return ((credit_manure_methane + credit_landfill_methane) * credits_gwp_methane + credit_power) * credits_run


@line()
def credit_tonnes_sold(credit_tonnes, credits_discount_share, credits_buffer_share, credits_price_per_t_co2e):
    """Credits sold by the main programme [t CO2e/month]

    After discount and buffer; none without a price.
    """
    kept = (1 - credits_discount_share) * (1 - credits_buffer_share)
    return credit_tonnes * kept * np.where(credits_price_per_t_co2e > 0, 1, 0)


@line(per="carbon_claim")
def carbon_claim_runs(feeding, months_fed, carbon_claim_years, months_per_year, rounding_tolerance):
    """Claim runs [1]

    1 from the first feeding to its end.
    """
    return feeding * np.where(months_fed > carbon_claim_years * months_per_year + rounding_tolerance, 0, 1)


@line(per="carbon_claim", when={"carbon_claim_of": "manure_methane"})
def carbon_claim_tonnes__manure_methane(
    credit_manure_methane, emissions_gwp_methane, carbon_claim_claimed_share, carbon_claim_runs
):
    """Claimed [t CO2e/month]

    Share of the manure methane avoided, at the warming of the count.
    """
    return credit_manure_methane * emissions_gwp_methane * carbon_claim_claimed_share * carbon_claim_runs


@line(per="carbon_claim", when={"carbon_claim_of": "landfill_methane"})
def carbon_claim_tonnes__landfill_methane(without_landfill, carbon_claim_claimed_share, carbon_claim_runs):
    """Claimed [t CO2e/month]

    Share of the landfill methane avoided.
    """
    return without_landfill * carbon_claim_claimed_share * carbon_claim_runs


@line(per="carbon_claim", when={"carbon_claim_of": "power"})
def carbon_claim_tonnes__power(without_power, with_power, carbon_claim_claimed_share, carbon_claim_runs):
    """Claimed [t CO2e/month]

    Share of what the grid need not make, less what the plant buys.
    """
    return np.maximum(without_power - with_power, 0) * carbon_claim_claimed_share * carbon_claim_runs


@line(per="carbon_claim", when={"carbon_claim_of": "fuel_and_gas"})
def carbon_claim_tonnes__fuel_and_gas(
    without_fuel, without_gas, with_fuel, carbon_claim_claimed_share, carbon_claim_runs
):
    """Claimed [t CO2e/month]

    Share of fuel and gas replaced, less fuel the plant needs.
    """
    return np.maximum(without_fuel + without_gas - with_fuel, 0) * carbon_claim_claimed_share * carbon_claim_runs


@line(per="carbon_claim", when={"carbon_claim_of": "fertilizer"})
def carbon_claim_tonnes__fertilizer(without_fertilizer, with_fertilizer, carbon_claim_claimed_share, carbon_claim_runs):
    """Claimed [t CO2e/month]

    Share of the making of fertilizer that is replaced.
    """
    return np.maximum(without_fertilizer - with_fertilizer, 0) * carbon_claim_claimed_share * carbon_claim_runs


@line(per="carbon_claim", when={"carbon_claim_by": "plant"})
def carbon_claim_sold__plant(carbon_claim_tonnes):
    """Sold by the plant [t CO2e/month]

    All of this claim.
    """
    return carbon_claim_tonnes


@line(per="carbon_claim", when={"carbon_claim_by": "others"})
def carbon_claim_sold__others(carbon_claim_tonnes):
    """Sold by the plant [t CO2e/month]

    None: somebody else counts it.
    """
    return 0 * carbon_claim_tonnes


@line()
def tonnes_credited(
    credit_manure_methane,
    credit_landfill_methane,
    emissions_gwp_methane,
    credit_power,
    credits_run,
    credits_price_per_t_co2e,
):
    """Taken by the main programme [t CO2e/month]

    What it credits before discount and buffer, at the warming of the count; none without a price.
    """
    methane = (credit_manure_methane + credit_landfill_methane) * emissions_gwp_methane
    return (methane + credit_power) * credits_run * np.where(credits_price_per_t_co2e > 0, 1, 0)


@line()
def tonnes_made(emissions_avoided):
    """Avoided in all [t CO2e/month]

    Emissions without less with the plant; nothing where the plant adds.
    """
    return np.maximum(emissions_avoided, 0)


@line()
def tonnes_sold(tonnes_credited, credits_discount_share, credits_buffer_share, each_carbon_claim_sold):
    """Sold by the plant [t CO2e/month]

    By the main programme after discount and buffer, and by the plant's other claims; at the warming of the count.
    """
    return tonnes_credited * (1 - credits_discount_share) * (1 - credits_buffer_share) + total(each_carbon_claim_sold)


@line()
def tonnes_withheld(tonnes_credited, credits_discount_share, credits_buffer_share):
    """Withheld by the programme [t CO2e/month]

    Discount and buffer: not sold, and not the farm's to claim.
    """
    return tonnes_credited * (1 - (1 - credits_discount_share) * (1 - credits_buffer_share))


@line()
def tonnes_claimed_elsewhere(each_carbon_claim_tonnes, each_carbon_claim_sold):
    """Claimed by others [t CO2e/month]

    All claims less those the plant sells.
    """
    return np.maximum(total(each_carbon_claim_tonnes) - total(each_carbon_claim_sold), 0)


@line()
def tonnes_claimable(tonnes_made, tonnes_sold, tonnes_withheld, tonnes_claimed_elsewhere):
    """Left for the farm to claim [t CO2e/month]

    Avoided, less sold, withheld and claimed by others; never below nothing.
    """
    return np.maximum(tonnes_made - tonnes_sold - tonnes_withheld - tonnes_claimed_elsewhere, 0)


@line()
def tonnes_beyond(tonnes_made, tonnes_sold, tonnes_withheld, tonnes_claimed_elsewhere):
    """Given away beyond what is avoided [t CO2e/month]

    Sold, withheld and claimed by others, over what the plant avoids over all sources: a programme counts some sources only.
    Made and this together are what is sold, withheld, claimed elsewhere and left.
    """
    return np.maximum(tonnes_sold + tonnes_withheld + tonnes_claimed_elsewhere - tonnes_made, 0)
