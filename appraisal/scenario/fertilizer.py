"""What digestate is worth as fertilizer, beyond the manure the farm already spread."""

from __future__ import annotations

from typing import Literal

from appraisal.scenario.farm import PRACTICE
from appraisal.scenario.quantity import Lookup, Section, choice, number, text


def _grade(column: str, product: str) -> Lookup:
    return Lookup(table="mineral_fertilizer", column=column, key=product, scale=0.01)


def _lost(key: str) -> Lookup:
    return Lookup(table="spreading", column="ammonium_n_lost_share_mid", key=key)


class Fertilizer(Section):
    """What the digestate is worth beyond the manure the farm already spread."""

    availability: Literal["stated", "by_technique"] = choice(
        "stated", "by_technique", default="stated", label="How much nitrogen crops get",
        help="stated: the two shares below; by_technique: ammonium that spreading does not lose, a part of the organic "
        "nitrogen, and the season, for today's manure and for the digestate alike.")
    manure_n_available_share: float = number(
        "share", 0, 1, default=0.40, basis=PRACTICE, label="Nitrogen of raw manure that crops get",
        help="In the first year, with the spreading of today.")
    digestate_n_available_share: float = number(
        "share", 0, 1, default=0.50, basis=PRACTICE, label="Nitrogen of digestate that crops get",
        help="With the spreading planned for the digestate.")
    technique_now: str = text(
        default="splash_plate", label="Spreading today", help="A row of `appraisal reference spreading`.")
    ammonium_lost_now_share: float = number(
        "share", 0, 1, lookup=_lost("technique_now"), label="Ammonium lost in spreading today",
        help="Of the ammonium nitrogen spread.")
    technique: str = text(
        default="splash_plate", label="Spreading of the digestate",
        help="A row of `appraisal reference spreading`; a better one loses less and costs more, which belongs to the running "
        "costs.")
    ammonium_lost_share: float = number(
        "share", 0, 1, lookup=_lost("technique"), label="Ammonium lost in spreading digestate",
        help="Of the ammonium nitrogen spread.")
    organic_n_available_share: float = number(
        "share", 0, 1, default=0.1, basis=PRACTICE, label="Organic nitrogen that crops get in the first year",
        help="0.05 to 0.2; the rest becomes soil.")
    autumn_now_share: float = number(
        "share", 0, 1, default=0.0, label="Manure spread in autumn today", help="Share of the nitrogen.")
    autumn_share: float = number(
        "share", 0, 1, default=0.0, label="Digestate spread in autumn", help="Share of the nitrogen.")
    autumn_kept_share: float = number(
        "share", 0, 1, default=0.2, source="field trials of food-based digestate, British farming press: about 60 % used in "
        "spring, under 10 to 15 % in autumn", basis="read second-hand; computed: 12.5/60",
        label="What autumn leaves of the effect in spring", help="Winter rain takes the rest.")
    imported_share_usable: float = number(
        "share", 0, 1, default=0.5, basis=PRACTICE, label="Imported nutrients the land can use",
        help="Food leftovers bring nutrients that must find land; where land is short they are a cost. Used unless land.count "
        "is counted.")
    prices_from: Literal["per_kg", "straight"] = choice(
        "per_kg", "straight", default="per_kg", label="Where nutrient prices come from",
        help="per_kg: the three prices below; straight: prices per tonne of straight fertilizers and their grade.")
    n_price_per_kg: float = number("money/kg", 0, 10, default=0.0, label="Price of nitrogen", help="Per kg N.")
    p_price_per_kg: float = number(
        "money/kg", 0, 20, default=0.0, label="Price of phosphorus",
        help="Per kg of element P: 2.2914 x the price of P2O5.")
    k_price_per_kg: float = number(
        "money/kg", 0, 10, default=0.0, label="Price of potassium",
        help="Per kg of element K: 1.2046 x the price of K2O.")
    n_product: str = text(default="urea_n", label="Nitrogen fertilizer",
        help="A row of `appraisal reference mineral_fertilizer`.")
    n_product_price_per_t: float = number("money/t", 0, 3000, default=0.0, label="Its price", help="Per tonne of product.")
    n_product_n_share: float = number("share", 0, 1, lookup=_grade("n_pct", "n_product"), label="Its nitrogen",
        help="Urea 0.46; 0 gives nitrogen no price.")
    p_product: str = text(default="diammonium_phosphate_p2o5", label="Phosphate fertilizer",
        help="A row of `appraisal reference mineral_fertilizer`.")
    p_product_price_per_t: float = number("money/t", 0, 3000, default=0.0, label="Its price", help="Per tonne of product.")
    p_product_n_share: float = number("share", 0, 1, lookup=_grade("n_pct", "p_product"), label="Its nitrogen",
        help="Taken off its price at the price of nitrogen.")
    p_product_p2o5_share: float = number("share", 0, 1, lookup=_grade("p2o5_pct", "p_product"), label="Its phosphate",
        help="As P2O5: 0.46 in 18-46-0; 0 gives phosphorus no price.")
    k_product: str = text(default="muriate_of_potash_k2o", label="Potash fertilizer",
        help="A row of `appraisal reference mineral_fertilizer`.")
    k_product_price_per_t: float = number("money/t", 0, 3000, default=0.0, label="Its price", help="Per tonne of product.")
    k_product_k2o_share: float = number("share", 0, 1, lookup=_grade("k2o_pct", "k_product"), label="Its potash",
        help="As K2O: 0.6; 0 gives potassium no price.")
    escalation: float = number("share/year", -0.2, 0.3, default=0.02, basis=PRACTICE, label="Yearly rise",
        help="0.02 is 2 % a year.")
    extra_spreading_cost_per_t: float = number(
        "money/t", 0, 100, default=0.0, label="Hauling and spreading of the extra tonnes",
        help="For every tonne of digestate above the manure spread today.")
