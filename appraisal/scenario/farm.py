"""What the farm is now, and what it and its neighbours put into the digester."""

from __future__ import annotations

from typing import Literal

from appraisal.scenario.quantity import Lookup, Section, choice, number, path, profile, text

PRACTICE = "common practice, no source"


def _of_row(column: str, scale: float = 1.0) -> Lookup:
    return Lookup(table="feedstocks", column=column, key="like", scale=scale)


def _of_animal(column: str, scale: float = 1.0) -> Lookup:
    return Lookup(table="animals", column=column, key="animal", scale=scale)


class FarmNow(Section):
    """The farm as it is: a year of what it buys, with the bills. A saving never exceeds the bill it replaces."""

    power_kwh: list[float] = profile(
        "kWh/month", 0, 1e7, default=0.0, label="Power bought now",
        help="From twelve monthly bills; one number if every month is alike.")
    power_bill: list[float] = profile(
        "money/month", 0, 1e7, default=0.0, label="Power bill now", help="The whole bill with its fixed charges.")
    power_bill_energy_share: float = number(
        "share", 0, 1, default=0.75, basis=PRACTICE,
        label="Part of the power bill that falls when fewer kWh are bought",
        help="Fixed and demand charges stay; read it off the bill.")
    heating_fuel_kwh: list[float] = profile(
        "kWh/month", 0, 1e7, default=0.0, label="Heating fuel bought now",
        help="Energy in the fuel on its lower heating value: 1 L heating oil is about 10 kWh, 1 US gal propane about 25 kWh.")
    heating_fuel_bill: list[float] = profile(
        "money/month", 0, 1e7, default=0.0, label="Heating fuel bill now", help="What that fuel cost.")
    boiler_efficiency: float = number(
        "share", 0.3, 1.0, default=0.85, basis=PRACTICE, label="Efficiency of the boiler now",
        help="Heat out over fuel in, on the lower heating value.")
    fertilizer_n_kg: float = number(
        "kg/year", 0, 1e6, default=0.0, label="Nitrogen bought as fertilizer", help="As N.")
    fertilizer_p_kg: float = number(
        "kg/year", 0, 1e6, default=0.0, label="Phosphorus bought as fertilizer",
        help="As the element P: kg P2O5 divided by 2.2914.")
    fertilizer_k_kg: float = number(
        "kg/year", 0, 1e6, default=0.0, label="Potassium bought as fertilizer",
        help="As the element K: kg K2O divided by 1.2046.")
    fertilizer_bill: float = number(
        "money/year", 0, 1e7, default=0.0, label="Fertilizer bill now", help="No fertilizer saving goes over this.")
    bedding_t: float = number("t/year", 0, 1e5, default=0.0, label="Bedding bought now",
        help="Straw, sand or sawdust.")
    bedding_bill: float = number(
        "money/year", 0, 1e7, default=0.0, label="Bedding bill now", help="No bedding saving goes over this.")
    hauling_bill: float = number(
        "money/year", 0, 1e7, default=0.0, label="Bill for hauling and spreading manure now",
        help="Contractor and own machines; shown beside the plant's hauling.")


class Substrate(Section):
    """Fields that manure and outside feeds share: what is in a tonne, and the gas it can give."""

    like: str = text(default="", label="Reference row for what is left out",
        help="A row of `appraisal reference feedstocks`.")
    potential_kind: Literal["ultimate", "ordinary_test", "achieved"] = choice(
        "ultimate", "ordinary_test", "achieved", default="ordinary_test", label="Kind of methane potential",
        help="ultimate: all the feed can ever give; ordinary_test: from a 30 to 60 day laboratory test; achieved: yield per "
        "tonne already reached at a plant, never multiplied by a conversion again.")
    ts_share: float = number(
        "share", 0.001, 1, lookup=_of_row("ts_pct", 0.01), label="Dry matter", help="Dry matter over fresh mass.")
    vs_share_of_ts: float = number(
        "share", 0.05, 1, lookup=_of_row("vs_pct_of_ts", 0.01), label="Volatile solids in the dry matter",
        help="What burns off over dry matter; the rest is ash, sand and salt.")
    potential_nm3_per_t_vs: float = number(
        "Nm3/t VS", 0, 1100, lookup=_of_row("bmp_mid"), label="Methane potential",
        help="Methane, not biogas, per tonne of volatile solids.")
    achieved_nm3_per_t: float = number(
        "Nm3/t", 0, 900, default=0.0, label="Achieved methane yield",
        help="Methane per tonne fresh at a working plant; used only when the kind of potential is `achieved`.")
    methane_share: float = number(
        "share", 0.3, 0.8, lookup=_of_row("ch4_pct", 0.01), label="Methane in this feed's gas", help="Of dry gas.")
    n_kg_per_t: float = number("kg/t", 0, 100, lookup=_of_row("n_kg_t"), label="Nitrogen",
        help="Total N per tonne fresh.")
    p_kg_per_t: float = number(
        "kg/t", 0, 50, lookup=_of_row("p_kg_t"), label="Phosphorus", help="Element P: P2O5 divided by 2.2914.")
    k_kg_per_t: float = number(
        "kg/t", 0, 100, lookup=_of_row("k_kg_t"), label="Potassium", help="Element K: K2O divided by 1.2046.")
    ammonium_share: float = number(
        "share", 0, 1, lookup=_of_row("nh4_share"), label="Ammonium part of the nitrogen", help="Before digestion.")
    rate_per_day: float = number(
        "1/day", 0.005, 3, lookup=_of_row("k_first_order_per_day"), label="First-order rate constant at 37 degC",
        help="How fast the feed gives its gas; most published constants are recalled from memory: treat as uncertain.")
    haul_cost_per_t: float = number(
        "money/t", 0, 500, default=0.0, label="Haul paid by the plant", help="Zero when the supplier brings it.")


class Herd(Substrate):
    """A group of animals whose manure reaches the digester."""

    animal: str = text(default="", label="Animal", help="A row of `appraisal reference animals`.")
    head: float = number("head", 0, 200000, label="Animals", help="Mean number over the year.")
    head_share_by_year: list[float] = path(
        "share", 0, 10, default=1.0, label="Animals by project year, over the number above",
        help="Growth or sale of the herd: 1, 1, 1.1 keeps 10 % more from project year 3 on; 0 is a herd that was sold.")
    manure_t_per_head_year: float = number(
        "t/head/year", 0.001, 40, lookup=_of_animal("manure_kg_per_head_d", 0.365), label="Manure per animal",
        help="Faeces and urine as they leave the animal, without wash water.")
    collected_share: list[float] = profile(
        "share", 0, 1, default=1.0, label="Share of the manure that is collected",
        help="Twelve months; grazing months collect less.")
    wash_water_l_per_head_day: float = number(
        "L/head/day", 0, 500, default=0.0, label="Water that comes with the manure",
        help="Parlour, wash and rain water that reaches the digester; it takes tank volume and heat and gives no gas.")
    b0_m3_per_kg_vs: float = number(
        "m3/kg VS", 0.05, 0.6, lookup=_of_animal("b0_m3ch4_per_kg_vs"),
        label="IPCC methane-producing capacity of the manure",
        help="m3 near 20 degC; used only for what the manure would have given off without a digester.")


class Feed(Substrate):
    """Leftovers or a crop brought to the digester from outside the herd."""

    tonnes_per_year: float = number("t/year", 0, 1e6, label="Amount", help="Fresh tonnes a year as delivered.")
    monthly_weight: list[float] = profile(
        "share", 0, 12, default=1.0, label="Season",
        help="Twelve weights around 1: 2 in a month brings twice the mean month.")
    supply_by: Literal["own", "contract"] = choice(
        "own", "contract", label="Who decides on this feed",
        help="own: the farm does; contract: somebody else may stop it. The share of gas under contract is a headline figure.")
    contract_years: float = number(
        "year", 0, 60, default=60.0, label="Years this feed is sure", help="Counted from the first month of feeding.")
    share_after_contract: float = number(
        "share", 0, 1, default=1.0, label="Share that still comes after the contract",
        help="0: lost; 1: renewed in full.")
    gate_fee_per_t: float = number(
        "money/t", -500, 1000, default=0.0, label="Tipping fee",
        help="Positive: the plant is paid to take it; negative: the plant buys it.")
    gate_fee_after_per_t: float = number(
        "money/t", -500, 1000, default=0.0, label="Tipping fee after the contract", help="At the price date's money.")
    gate_fee_escalation: float = number(
        "share/year", -0.2, 0.3, default=0.0, label="Yearly rise of the tipping fee", help="0.02 is 2 % a year.")
    reject_share: float = number(
        "share", 0, 0.6, default=0.0, label="Packaging and other rejects", help="Sorted out before the tank.")
    reject_cost_per_t: float = number(
        "money/t", 0, 1000, default=0.0, label="Disposal of rejects", help="Per tonne of rejects.")
    regulated: Literal["no", "yes"] = choice(
        "no", "yes", default="no", label="Must be pasteurised",
        help="Food waste of animal origin usually must; the authority decides.")
