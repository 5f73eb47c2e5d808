"""A herd and its manure: animals, housing, bedding, sand, and the water that comes along."""

from __future__ import annotations

from typing import Literal

from appraisal.scenario.emissions import ManureToday
from appraisal.scenario.farm import PRACTICE
from appraisal.scenario.quantity import Event, Lookup, choice, number, path, profile, text
from appraisal.scenario.substrate import Substrate


def _of_animal(column: str, scale: float = 1.0) -> Lookup:
    return Lookup(table="animals", column=column, key="animal", scale=scale)


def _of_bedding(column: str, scale: float = 1.0) -> Lookup:
    return Lookup(table="feedstocks", column=column, key="bedding_like", scale=scale)


class Herd(Substrate, ManureToday):
    """A group of animals whose manure reaches the digester."""

    animal: str = text(default="", label="Animal", help="A row of `appraisal reference animals`.")
    head: float = number("head", 0, 200000, label="Animals", help="Mean number over the year.")
    head_share_by_year: list[float] = path(
        "share", 0, 10, default=1.0, label="Animals by project year, over the number above",
        help="Growth or sale of the herd: 1, 1, 1.1 keeps 10 % more from project year 3 on; 0 is a herd that was sold.")
    keeping: Literal["stays", "may_be_sold"] = choice(
        "stays", "may_be_sold", default="stays", label="Whether the herd may be sold",
        help="may_be_sold: its manure ends after the years below, with the plant and without it.")
    sold_after_years: float = number(
        "year", 0, 60, default=60.0, label="Years until the herd is sold",
        help="From the first feeding; 60: it stays. A range of the shape hazard draws it. Counts with may_be_sold only.",
        event=Event("the herd {item} is sold"))
    left_after_sale_share: float = number(
        "share", 0, 1, default=0.0, label="Share of the animals that is left after the sale",
        help="0: all are sold. What the animals bring is no money of the plant.")
    manure_method: Literal["per_animal", "by_milk", "measured"] = choice(
        "per_animal", "by_milk", "measured", default="per_animal", label="How the manure is counted",
        help="per_animal: by the animal table, or your own figure per animal; by_milk: from the milk of a lactating cow; "
        "measured: tonnes a year, with the dry matter of their analysis.")
    manure_t_per_head_year: float = number(
        "t/head/year", 0.001, 40, lookup=_of_animal("manure_kg_per_head_d", 0.365), label="Manure per animal",
        help="Faeces and urine as they leave the animal, without wash water.")
    milk_kg_per_head_day: float = number(
        "kg/head/day", 0, 80, default=0.0, label="Milk of a lactating cow",
        help="Herd mean of cows in milk; 1 L is 1.03 kg. Manure and its dry matter follow from it (valid 15 to 50 kg) when "
        "the manure is counted by milk; volatile solids, gas and nutrients stay those below.")
    measured_tonnes_per_year: float = number(
        "t/year", 0, 1e6, default=0.0, label="Measured manure",
        help="As pumped or weighed, in a year; with the bedding and water that are in it, which are then 0 below.")
    collected_share: list[float] = profile(
        "share", 0, 1, default=1.0, label="Share of the manure that is collected",
        help="Twelve months; of what falls in barn and yard, or of the whole where the share housed is left at 1.")
    housed_share: list[float] = profile(
        "share", 0, 1, default=1.0, label="Share of the time in the barn",
        help="Twelve months; the rest of the manure falls on the pasture. Cows that graze by day are housed 0.4 to 0.6 of it.")
    bedding_like: str = text(default="cereal_straw", label="Bedding, most like in the library",
        help="A row of `appraisal reference feedstocks`; for sawdust give your own figures, it hardly digests.")
    bedding_t_per_head_year: float = number(
        "t/head/year", 0, 10, default=0.0, label="Organic bedding per animal",
        help="Straw, compost or sawdust that ends in the manure: 0.1 to 0.3 in cubicles, 1.5 to 4 on deep straw.")
    bedding_ts_share: float = number(
        "share", 0.01, 1, lookup=_of_bedding("ts_pct", 0.01), label="Dry matter of the bedding",
        help="Dry matter over fresh mass.")
    bedding_vs_share_of_ts: float = number(
        "share", 0.05, 1, lookup=_of_bedding("vs_pct_of_ts", 0.01), label="Volatile solids in the bedding's dry matter",
        help="What burns off over dry matter.")
    bedding_potential_nm3_per_t_vs: float = number(
        "Nm3/t VS", 0, 1100, lookup=_of_bedding("bmp_mid"), label="Methane potential of the bedding",
        help="Of the same kind as the manure's potential; sawdust and shavings give 0 to 60 (from memory).")
    bedding_rate_per_day: float = number(
        "1/day", 0.005, 3, lookup=_of_bedding("k_first_order_per_day"), label="Rate constant of the bedding at 37 degC",
        help="Straw is slow.")
    bedding_n_kg_per_t: float = number("kg/t", 0, 100, lookup=_of_bedding("n_kg_t"), label="Nitrogen of the bedding",
        help="Total N per tonne of bedding.")
    bedding_p_kg_per_t: float = number("kg/t", 0, 50, lookup=_of_bedding("p_kg_t"), label="Phosphorus of the bedding",
        help="Element P.")
    bedding_k_kg_per_t: float = number("kg/t", 0, 100, lookup=_of_bedding("k_kg_t"), label="Potassium of the bedding",
        help="Element K.")
    sand_t_per_head_year: float = number(
        "t/head/year", 0, 30, default=0.0, label="Sand bedding per animal",
        help="Sand that falls into the manure: 5 to 9 t a cow and year in deep beds (from memory).")
    sand_into_tank_share: float = number(
        "share", 0, 1, default=1.0, label="Share of the sand that reaches the tank",
        help="1: no sand is taken out before. Sand lanes take out 0.8 to 0.9, good separators more (from memory).")
    sand_settles_share: float = number(
        "share", 0, 1, default=0.8, basis=PRACTICE, label="Share of that sand that settles in the tank",
        help="It stays as grit until a clean-out; the rest leaves with the digestate.")
    pit_days: float = number(
        "day", 0, 365, default=0.0, label="Days the manure waits before the digester",
        help="In pit or reception; old manure has lost gas. 0 where the figures are of aged manure already.")
    ageing_loss_share_per_day: float = number(
        "share/day", 0, 0.05, default=0.002, basis=PRACTICE, label="Volatile solids that rot in a day of waiting",
        help="0.001 in winter to 0.005 in a warm pit; what rots first is what would have given most gas.")
    wash_water_l_per_head_day: float = number(
        "L/head/day", 0, 500, default=0.0, label="Wash water that comes with the manure",
        help="Parlour and cleaning water that reaches the digester; it takes tank volume and heat and gives no gas.")
    flush_water_l_per_head_day: float = number(
        "L/head/day", 0, 2000, default=0.0, label="Fresh flush water",
        help="Only water that is new: liquid that is sent round to flush again adds none.")
    yard_area_m2: float = number(
        "m2", 0, 1e6, default=0.0, label="Open yard that drains to the manure",
        help="Concrete and silage aprons without a roof or a drain of their own; all the rain on it is counted.")
    b0_m3_per_kg_vs: float = number(
        "m3/kg VS", 0.05, 0.6, lookup=_of_animal("b0_m3ch4_per_kg_vs"),
        label="IPCC methane-producing capacity of the manure",
        help="m3 near 20 degC; used only for what the manure would have given off without a digester.")
