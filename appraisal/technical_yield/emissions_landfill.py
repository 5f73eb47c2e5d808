"""Landfill methane of diverted waste by first-order decay: only for the share shown to be landfilled, year by year."""

import numpy as np

from appraisal.lines.define import line

HERD = {"substrate_origin": "herd"}
FEED = {"substrate_origin": "feed"}


@line()
def landfill_left_share(emissions_landfill_rate_per_year, months_per_year):
    """Part of buried waste that is left after a month [share]

    exp(-k/12), first-order decay (IPCC 2006, Vol 5 Ch 3; 40 CFR 98.343, equation HH-1).
    """
    return np.exp(-emissions_landfill_rate_per_year / months_per_year)


@line()
def landfill_escaping_share(
    emissions_landfill_collected_share, emissions_landfill_oxidised_share, emissions_landfill_destroyed_share
):
    """Part of landfill methane that reaches the air [share]

    What is not collected and not oxidised in the cover, and what the flare leaves of what is collected.
    """
    open_air = (1 - emissions_landfill_collected_share) * (1 - emissions_landfill_oxidised_share)
    return open_air + emissions_landfill_collected_share * (1 - emissions_landfill_destroyed_share)


@line(per="substrate", when=FEED)
def substrate_landfill_potential(
    substrate_tonnes,
    substrate_landfilled_share,
    substrate_landfill_carbon_t_per_t,
    emissions_landfill_carbon_gassed_share,
    emissions_landfill_methane_share,
    emissions_landfill_mcf_share,
    emissions_landfill_model_share,
    methane_per_carbon,
):
    """Methane that this month's waste would give in all its years in a landfill [t/month]

    Tonnes x DOC x DOCf x F x 16/12 x MCF (IPCC 2006, Vol 5 Ch 3, equations 3.2 to 3.6); rejects are left out.
    """
    carbon = substrate_tonnes * substrate_landfilled_share * substrate_landfill_carbon_t_per_t
    gas = carbon * emissions_landfill_carbon_gassed_share * emissions_landfill_methane_share * methane_per_carbon
    return gas * emissions_landfill_mcf_share * emissions_landfill_model_share


@line(per="substrate", when=FEED, roll="landfill")
def substrate_landfill_stock(substrate_landfill_potential, previous_substrate_landfill_stock, landfill_left_share):
    """Methane still to come from waste kept out of the landfill [t]

    What was left of the month before, and this month's waste.
    """
    return previous_substrate_landfill_stock * landfill_left_share + substrate_landfill_potential


@line(per="substrate", when={**FEED, "emissions_landfill_first_gas": "month_after"})
def substrate_landfill_made__month_after(previous_substrate_landfill_stock, landfill_left_share):
    """Methane that waste would make in a landfill [t/month]

    From the month after burial on, as in 40 CFR 98.343.
    """
    return previous_substrate_landfill_stock * (1 - landfill_left_share)


@line(per="substrate", when={**FEED, "emissions_landfill_first_gas": "month_of_burial"})
def substrate_landfill_made__month_of_burial(substrate_landfill_stock, landfill_left_share):
    """Methane that waste would make in a landfill [t/month]

    From the month of burial on, as in CDM tool 04.
    """
    return substrate_landfill_stock * (1 - landfill_left_share)


@line(per="substrate", when=FEED)
def substrate_landfill_methane__feed(substrate_landfill_made, landfill_escaping_share):
    """Landfill methane avoided [t/month]

    What waste would make x the part that reaches the air; it comes over decades, never at once.
    """
    return substrate_landfill_made * landfill_escaping_share


@line(per="substrate", when=HERD)
def substrate_landfill_methane__herd(substrate_tonnes):
    """Landfill methane avoided [t/month]

    None: manure does not go to a landfill.
    """
    return 0 * substrate_tonnes
