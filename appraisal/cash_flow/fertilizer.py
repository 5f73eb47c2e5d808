"""Fertilizer the farm no longer buys: only what the digestate brings beyond the manure the farm already spread."""

import numpy as np

from appraisal.lines.define import line
from appraisal.lines.trace import total


@line(per="substrate", when={"substrate_origin": "herd"})
def substrate_nitrogen_gain__herd(
    substrate_nitrogen,
    digester_nitrogen_loss_share,
    fertilizer_digestate_n_available_share,
    fertilizer_manure_n_available_share,
):
    """Extra nitrogen for crops [kg/month]

    What crops get from digested manure beyond what they got from it raw; it may be negative.
    """
    return substrate_nitrogen * (
        (1 - digester_nitrogen_loss_share) * fertilizer_digestate_n_available_share
        - fertilizer_manure_n_available_share
    )


@line(per="substrate", when={"substrate_origin": "feed"})
def substrate_nitrogen_gain__feed(
    substrate_nitrogen,
    digester_nitrogen_loss_share,
    fertilizer_digestate_n_available_share,
    fertilizer_imported_share_usable,
):
    """Extra nitrogen for crops [kg/month]

    What crops get from imported nitrogen, as far as the land can use it.
    """
    return (
        substrate_nitrogen
        * (1 - digester_nitrogen_loss_share)
        * fertilizer_digestate_n_available_share
        * fertilizer_imported_share_usable
    )


@line(per="substrate", when={"substrate_origin": "herd"})
def substrate_imported_share__herd(feeding):
    """Part of its phosphorus and potassium that is new to the farm [share]

    None: the manure was spread before.
    """
    return 0 * feeding


@line(per="substrate", when={"substrate_origin": "feed"})
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
def nitrogen_replaced(each_substrate_nitrogen_gain, farm_now_fertilizer_n_kg, days, days_per_year):
    """Bought nitrogen replaced [kg/month]

    The gain, at most what the farm buys now; a loss of nitrogen counts against it.
    """
    return np.minimum(total(each_substrate_nitrogen_gain), farm_now_fertilizer_n_kg * days / days_per_year)


@line()
def phosphorus_replaced(each_substrate_phosphorus_gain, farm_now_fertilizer_p_kg, days, days_per_year):
    """Bought phosphorus replaced [kg/month]

    The gain, at most what the farm buys now.
    """
    return np.minimum(total(each_substrate_phosphorus_gain), farm_now_fertilizer_p_kg * days / days_per_year)


@line()
def potassium_replaced(each_substrate_potassium_gain, farm_now_fertilizer_k_kg, days, days_per_year):
    """Bought potassium replaced [kg/month]

    The gain, at most what the farm buys now.
    """
    return np.minimum(total(each_substrate_potassium_gain), farm_now_fertilizer_k_kg * days / days_per_year)


@line()
def fertilizer_index(fertilizer_escalation, years_on):
    """Rise of fertilizer prices [1]

    Against month 0.
    """
    return (1 + fertilizer_escalation) ** years_on


@line(role="modelled_saving")
def fertilizer_saved(
    nitrogen_replaced,
    phosphorus_replaced,
    potassium_replaced,
    fertilizer_n_price_per_kg,
    fertilizer_p_price_per_kg,
    fertilizer_k_price_per_kg,
    farm_now_fertilizer_bill,
    days,
    days_per_year,
    fertilizer_index,
):
    """Fertilizer saved [money/month]

    Replaced nutrients x their prices, never more than the fertilizer bill of today.
    """
    worth = (
        nitrogen_replaced * fertilizer_n_price_per_kg
        + phosphorus_replaced * fertilizer_p_price_per_kg
        + potassium_replaced * fertilizer_k_price_per_kg
    )
    return np.minimum(worth, farm_now_fertilizer_bill * days / days_per_year) * fertilizer_index


@line(per="substrate", when={"substrate_origin": "herd"})
def substrate_spread_today__herd(substrate_tonnes, substrate_water):
    """Spread without the plant [t/month]

    Manure and its water go to the land today.
    """
    return substrate_tonnes + substrate_water


@line(per="substrate", when={"substrate_origin": "feed"})
def substrate_spread_today__feed(substrate_tonnes):
    """Spread without the plant [t/month]

    Nothing: this feed would not come.
    """
    return 0 * substrate_tonnes


@line(role="running_cost")
def extra_spreading(
    digestate_mass, each_substrate_spread_today, fertilizer_extra_spreading_cost_per_t, fertilizer_index
):
    """Spreading of the extra tonnes [money/month]

    Digestate beyond the manure spread today x cost per tonne.
    """
    extra = np.maximum(digestate_mass - total(each_substrate_spread_today), 0)
    return -(extra * fertilizer_extra_spreading_cost_per_t * fertilizer_index)
