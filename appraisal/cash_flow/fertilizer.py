"""Fertilizer the farm no longer buys, and what it costs to bring the extra digestate to land or away."""

import numpy as np

from appraisal.lines.define import line
from appraisal.lines.trace import total

PER_KG, STRAIGHT = {"fertilizer_prices_from": "per_kg"}, {"fertilizer_prices_from": "straight"}


@line()
def fertilizer_index(fertilizer_escalation, years_on):
    """Rise of fertilizer prices [1]

    Against month 0.
    """
    return (1 + fertilizer_escalation) ** years_on


@line(when=PER_KG)
def nitrogen_price__per_kg(fertilizer_n_price_per_kg):
    """Price of nitrogen [money/kg]

    As stated, per kg N.
    """
    return fertilizer_n_price_per_kg + 0


@line(when=STRAIGHT)
def nitrogen_price__straight(fertilizer_n_product_price_per_t, fertilizer_n_product_n_share, kg_per_t):
    """Price of nitrogen [money/kg]

    Price of the product over its nitrogen, per kg N.
    """
    holds = fertilizer_n_product_n_share > 0
    share = np.where(holds, fertilizer_n_product_n_share, 1)
    return np.where(holds, fertilizer_n_product_price_per_t / (share * kg_per_t), 0)


@line(when=PER_KG)
def phosphorus_price__per_kg(fertilizer_p_price_per_kg):
    """Price of phosphorus [money/kg]

    As stated, per kg of the element P.
    """
    return fertilizer_p_price_per_kg + 0


@line(when=STRAIGHT)
def phosphorus_price__straight(
    fertilizer_p_product_price_per_t,
    fertilizer_p_product_n_share,
    nitrogen_price,
    fertilizer_p_product_p2o5_share,
    p2o5_per_p,
    kg_per_t,
):
    """Price of phosphorus [money/kg]

    Price of the product less the worth of its nitrogen, over its phosphate, per kg of the element P; never below nothing.
    """
    rest = np.maximum(fertilizer_p_product_price_per_t - fertilizer_p_product_n_share * kg_per_t * nitrogen_price, 0)
    holds = fertilizer_p_product_p2o5_share > 0
    share = np.where(holds, fertilizer_p_product_p2o5_share, 1)
    return np.where(holds, rest / (share * kg_per_t) * p2o5_per_p, 0)


@line(when=PER_KG)
def potassium_price__per_kg(fertilizer_k_price_per_kg):
    """Price of potassium [money/kg]

    As stated, per kg of the element K.
    """
    return fertilizer_k_price_per_kg + 0


@line(when=STRAIGHT)
def potassium_price__straight(fertilizer_k_product_price_per_t, fertilizer_k_product_k2o_share, k2o_per_k, kg_per_t):
    """Price of potassium [money/kg]

    Price of the product over its potash, per kg of the element K.
    """
    holds = fertilizer_k_product_k2o_share > 0
    share = np.where(holds, fertilizer_k_product_k2o_share, 1)
    return np.where(holds, fertilizer_k_product_price_per_t / (share * kg_per_t) * k2o_per_k, 0)


@line(role="modelled_saving")
def fertilizer_saved(
    nitrogen_replaced,
    phosphorus_replaced,
    potassium_replaced,
    nitrogen_price,
    phosphorus_price,
    potassium_price,
    farm_now_fertilizer_bill,
    days,
    days_per_year,
    fertilizer_index,
):
    """Fertilizer saved [money/month]

    Replaced nutrients x their prices, never more than the fertilizer bill of today; negative where more must be bought.
    """
    worth = (
        nitrogen_replaced * nitrogen_price
        + phosphorus_replaced * phosphorus_price
        + potassium_replaced * potassium_price
    )
    return np.minimum(worth, farm_now_fertilizer_bill * days / days_per_year) * fertilizer_index


@line(role="running_cost")
def extra_spreading(
    digestate_mass,
    solids_sold,
    digestate_exported,
    each_substrate_spread_today,
    fertilizer_extra_spreading_cost_per_t,
    fertilizer_index,
):
    """Spreading of the extra tonnes [money/month]

    Digestate beyond the manure spread today x cost per tonne; what is sold or exported is not spread here.
    """
    extra = np.maximum(digestate_mass - solids_sold - digestate_exported - total(each_substrate_spread_today), 0)
    return -(extra * fertilizer_extra_spreading_cost_per_t * fertilizer_index)


@line(role="running_cost")
def digestate_haul(
    digestate_to_others,
    land_more_land_km,
    digestate_exported,
    land_export_km,
    land_haul_cost_per_t_km,
    fertilizer_index,
):
    """Haul of digestate away [money/month]

    To land of others and to export: tonnes x km one way x cost per tonne and km; long ways cost more.
    """
    tonne_km = digestate_to_others * land_more_land_km + digestate_exported * land_export_km
    return -(tonne_km * land_haul_cost_per_t_km * fertilizer_index)


@line(role="running_cost")
def digestate_export(digestate_exported, land_export_cost_per_t, fertilizer_index):
    """Export of digestate [money/month]

    Tonnes that find no land x cost; a negative cost is a price that somebody pays.
    """
    return -(digestate_exported * land_export_cost_per_t * fertilizer_index)
