"""How the project's own lines answer the records on fees, nutrients, contracts for power, and heat."""

from __future__ import annotations

import math

import numpy as np

from appraisal.cash_flow import fertilizer, power_sales, running_costs, tipping_fees
from appraisal.measures.inflation import deflate
from appraisal.scenario.units import read_quantity
from appraisal.technical_yield import (
    heat_need,
    land,
)
from tests.published.emission_figures import FIXED, KG, Values, of


def per_tonne(price: float) -> float:
    """A price per short ton as one per tonne."""
    return read_quantity(f"{price} USD per short ton", "money/t", currency="USD")


def fee(i: Values) -> Values:
    return {"fee_per_tonne": per_tonne(i["fee_per_short_ton"])}


def fees_by_region(i: Values) -> Values:
    east, south = per_tonne(i["NE"]), per_tonne(i["SE"])
    change = per_tonne(i["mean_2023"]) / per_tonne(i["mean_2022"]) - 1
    return {"NE_per_tonne": east, "SE_per_tonne": south, "change_percent": change * 100, "NE_to_SE_ratio": east / south}


def net_fee(i: Values) -> Values:
    tonnes = i["t_per_year"]
    income = tipping_fees.substrate_tipping_fee(tonnes * i["accepted_share"], i["fee"])
    rejects = running_costs.substrate_reject_disposal(tonnes, i["reject_share"], i["reject_disposal_cost"], 1.0)
    return {"net_revenue": income + rejects - tonnes * i["depackaging_cost_per_t"]}


def nitrogen_per_kg(per_short_ton: float, share: float) -> float:
    """Price per kg N of a product sold by the short ton."""
    return float(fertilizer.nitrogen_price__straight(per_tonne(per_short_ton), share, KG))


def per_pound(price_per_kg: float) -> float:
    """A price per kg as one per pound."""
    return price_per_kg * read_quantity("1 lb", "kg")


def urea(i: Values) -> Values:
    assert of("mineral_fertilizer", "urea_n", "n_pct") == i["N"] * 100
    price = nitrogen_per_kg(i["price_per_ton"], i["N"])
    return {"per_lb_N": per_pound(price), "published": per_pound(price), "per_kg_N": price}


def phosphate(i: Values) -> Values:
    nitrogen = i["N_price_per_lb"] / read_quantity("1 lb", "kg")
    element = fertilizer.phosphorus_price__straight(
        per_tonne(i["DAP"]), i["N"], nitrogen, i["P2O5"], FIXED["p2o5_per_p"], KG
    )
    oxide = float(element) / FIXED["p2o5_per_p"]
    return {"per_lb_P2O5": per_pound(oxide), "per_kg_P2O5": oxide, "per_kg_P": float(element)}


def potash(i: Values) -> Values:
    element = fertilizer.potassium_price__straight(per_tonne(i["price"]), i["K2O"], FIXED["k2o_per_k"], KG)
    oxide = element / FIXED["k2o_per_k"]
    return {"per_lb_K2O": per_pound(oxide), "per_kg_K2O": oxide}


def oxides(i: Values) -> Values:
    phosphate_per_p = (2 * i["P"] + 5 * i["O"]) / (2 * i["P"])
    potash_per_k = (2 * i["K"] + i["O"]) / (2 * i["K"])
    assert math.isclose(phosphate_per_p, FIXED["p2o5_per_p"], rel_tol=1e-4)
    assert math.isclose(potash_per_k, FIXED["k2o_per_k"], rel_tol=1e-4)
    return {
        "P_to_P2O5": FIXED["p2o5_per_p"],
        "K_to_K2O": FIXED["k2o_per_k"],
        "P2O5_to_P": 1 / FIXED["p2o5_per_p"],
        "K2O_to_K": 1 / FIXED["k2o_per_k"],
    }


def digestate_value(i: Values) -> Values:
    price, to_p, to_k = i["price_kg"], FIXED["p2o5_per_p"], FIXED["k2o_per_k"]

    def worth(nitrogen: float, phosphate: float, potash: float) -> float:
        """Elements into the sheet's line, oxides out of the record."""
        prices = (price["N"], price["P2O5"] * to_p, price["K2O"] * to_k)
        return float(
            fertilizer.fertilizer_saved(nitrogen, phosphate / to_p, potash / to_k, *prices, 1e9, 1.0, 1.0, 1.0)
        )

    available = worth(i["N"] * i["N_avail"], i["P2O5"] * i["P_avail"], i["K2O"] * i["K_avail"])
    return {"value_per_t": available, "total_nutrient_value_per_t": worth(i["N"], i["P2O5"], i["K2O"])}


def land_for_manure(i: Values) -> Values:
    assert of("nutrient_rules", "eu_nitrates_170", "limit") == i["limit"]
    nitrogen = i["cows"] * i["N_kg_per_cow"]
    return {"N_t": nitrogen / KG, "ha": land.land_for_nitrogen(nitrogen, i["limit"])}


def two_way_contract(i: Values) -> Values:
    received = [reference / KG for reference in i["reference"]]  # money a kWh
    price = [power_sales.contract_price__difference(market, market, i["strike"] / KG, 1.0) for market in received]
    kwh = [mwh * KG for mwh in i["MWh"]]
    return {
        "topup": [(paid - market) * sold for paid, market, sold in zip(price, received, kwh, strict=True)],
        "total_income": [paid * sold for paid, sold in zip(price, kwh, strict=True)],
    }


def indexed_clause(i: Values) -> Values:
    """The clause raises the whole price by the indexed share of inflation, so its own rise is given to the line."""
    last = i["years"] - 1
    price = i["price"] * power_sales.contract_index(i["indexed_share"] * i["cpi"], 1.0, last)
    paid = np.zeros((1, i["years"]))
    paid[0, last] = price
    real = deflate(paid, i["cpi"], periods_per_year=1)[0, last]
    return {"price_year10": price, "real_value_of_year10_price_in_year1_money": real}


def fuel_certificates(i: Values) -> Values:
    certificate = 77000  # Btu, lower heating value, as the record's source says
    by_lower = read_quantity(f"{i['MMBtu_LHV']} MMBtu", "Btu") / certificate
    higher = read_quantity(f"{i['MMBtu_HHV']} MMBtu", "Btu") * of("kinetics", "lhv_over_hhv")
    return {"RIN_per_MMBtu_LHV": by_lower, "RIN_per_MMBtu_HHV": higher / certificate}


def pasteurise(i: Values) -> Values:
    per_kwh = 3.6  # MJ
    heat = heat_need.heat_to_pasteurise__lagoon(
        i["t"], i["c_kJ_per_kgK"] / per_kwh, i["T_out"], i["T_in"], i["heat_recovery"]
    )
    return {"MJ": float(heat) * per_kwh, "kWh": float(heat)}
