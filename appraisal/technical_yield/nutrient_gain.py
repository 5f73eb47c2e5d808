"""Nutrients that crops get beyond what the farm already spread, and the fertilizer they replace."""

import numpy as np

from appraisal.lines.define import line
from appraisal.lines.trace import total

HERD, FEED = {"substrate_origin": "herd"}, {"substrate_origin": "feed"}
COUNTED, NOT_COUNTED = {"land_count": "counted"}, {"land_count": "not_counted"}


@line(when=NOT_COUNTED)
def nitrogen_gain__not_counted(each_substrate_nitrogen_gain):
    """Extra nitrogen for crops [kg/month]

    Of all herds and feeds; imports as far as stated.
    """
    return total(each_substrate_nitrogen_gain)


@line(when=COUNTED)
def nitrogen_gain__counted(
    nitrogen_for_land, digestate_available_share, in_year_digestate_on_own_land_share, each_substrate_available_today
):
    """Extra nitrogen for crops [kg/month]

    What the farm's own land gets from digestate that fits on it, less what it got from manure; negative where more must
    leave than the digestion and the imports bring.
    """
    got = nitrogen_for_land * digestate_available_share * in_year_digestate_on_own_land_share
    return got - total(each_substrate_available_today)


@line(when=NOT_COUNTED)
def phosphorus_gain__not_counted(each_substrate_phosphorus_gain):
    """Extra phosphorus for crops [kg/month]

    Of all feeds, as far as stated.
    """
    return total(each_substrate_phosphorus_gain)


@line(when=COUNTED)
def phosphorus_gain__counted(
    phosphorus_for_land, in_year_digestate_on_own_land_share, each_substrate_manure_phosphorus
):
    """Extra phosphorus for crops [kg/month]

    What stays on the farm's own land, less what was spread before.
    """
    return phosphorus_for_land * in_year_digestate_on_own_land_share - total(each_substrate_manure_phosphorus)


@line(when=NOT_COUNTED)
def potassium_gain__not_counted(each_substrate_potassium_gain):
    """Extra potassium for crops [kg/month]

    Of all feeds, as far as stated.
    """
    return total(each_substrate_potassium_gain)


@line(when=COUNTED)
def potassium_gain__counted(potassium_for_land, in_year_digestate_on_own_land_share, each_substrate_manure_potassium):
    """Extra potassium for crops [kg/month]

    What stays on the farm's own land, less what was spread before.
    """
    return potassium_for_land * in_year_digestate_on_own_land_share - total(each_substrate_manure_potassium)


@line(per="substrate", when=HERD)
def substrate_nitrogen_gain__herd(
    substrate_nitrogen, digester_nitrogen_loss_share, digestate_available_share, substrate_available_today
):
    """Extra nitrogen for crops [kg/month]

    What crops get from digested manure beyond what they got from it raw; it may be negative.
    """
    return (
        substrate_nitrogen * (1 - digester_nitrogen_loss_share) * digestate_available_share - substrate_available_today
    )


@line(per="substrate", when=FEED)
def substrate_nitrogen_gain__feed(
    substrate_nitrogen, digester_nitrogen_loss_share, digestate_available_share, fertilizer_imported_share_usable
):
    """Extra nitrogen for crops [kg/month]

    What crops get from imported nitrogen, as far as the land can use it.
    """
    got = substrate_nitrogen * (1 - digester_nitrogen_loss_share) * digestate_available_share
    return got * fertilizer_imported_share_usable


@line(per="substrate", when=HERD)
def substrate_imported_share__herd(feeding):
    """Part of its phosphorus and potassium that is new to the farm [share]

    None: the manure was spread before.
    """
    return 0 * feeding


@line(per="substrate", when=FEED)
def substrate_imported_share__feed(fertilizer_imported_share_usable):
    """Part of its phosphorus and potassium that is new to the farm [share]

    What the land can use of an imported feed.
    """
    return fertilizer_imported_share_usable


@line(per="substrate")
def substrate_phosphorus_gain(substrate_phosphorus, substrate_imported_share):
    """Extra phosphorus for crops [kg/month]

    Imported phosphorus that the land can use.
    """
    return substrate_phosphorus * substrate_imported_share


@line(per="substrate")
def substrate_potassium_gain(substrate_potassium, substrate_imported_share):
    """Extra potassium for crops [kg/month]

    Imported potassium that the land can use.
    """
    return substrate_potassium * substrate_imported_share


@line()
def nitrogen_replaced(nitrogen_gain, farm_now_fertilizer_n_kg, days, days_per_year):
    """Bought nitrogen replaced [kg/month]

    The gain, at most what the farm buys now; a loss of nitrogen counts against it.
    """
    return np.minimum(nitrogen_gain, farm_now_fertilizer_n_kg * days / days_per_year)


@line()
def phosphorus_replaced(phosphorus_gain, farm_now_fertilizer_p_kg, days, days_per_year):
    """Bought phosphorus replaced [kg/month]

    The gain, at most what the farm buys now.
    """
    return np.minimum(phosphorus_gain, farm_now_fertilizer_p_kg * days / days_per_year)


@line()
def potassium_replaced(potassium_gain, farm_now_fertilizer_k_kg, days, days_per_year):
    """Bought potassium replaced [kg/month]

    The gain, at most what the farm buys now.
    """
    return np.minimum(potassium_gain, farm_now_fertilizer_k_kg * days / days_per_year)


@line(per="substrate", when=HERD)
def substrate_spread_today__herd(substrate_tonnes, substrate_water):
    """Spread without the plant [t/month]

    Manure and its water go to the land today.
    """
    return substrate_tonnes + substrate_water


@line(per="substrate", when=FEED)
def substrate_spread_today__feed(substrate_tonnes):
    """Spread without the plant [t/month]

    Nothing: this feed would not come.
    """
    return 0 * substrate_tonnes
