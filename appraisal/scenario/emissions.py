"""Greenhouse gases with and without the plant: what is counted, after which published set, and what happens today."""

from __future__ import annotations

from typing import Literal

from appraisal.scenario.quantity import Lookup, Section, choice, number, profile, text

PRACTICE = "common practice, no source"


def _landfill(row: str) -> Lookup:
    return Lookup(table="landfill", column="mid", key=f"={row}")


def _gwp(column: str) -> Lookup:
    return Lookup(table="gwp_sets", column=column, key="gwp_set")


def _field(column: str) -> Lookup:
    return Lookup(table="field_n2o", column=column, key="field_set")


class ManureToday(Section):
    """What becomes of a herd's manure without the plant: the store, and what it gives off."""

    store_2006: str = text(
        default="", label="Today's store after IPCC 2006",
        help="A row of `appraisal reference manure_methane_2006`: the store and the yearly mean temperature in whole degC, "
        "as slurry_no_crust_12. Used when emissions.manure_method is ipcc_2006.")
    mcf_2006_share: float = number(
        "share", 0, 1, default=0.0, lookup=Lookup(
            table="manure_methane_2006", column="mcf_pct", key="store_2006", scale=0.01),
        label="Methane conversion factor of that store", help="0 counts no methane from today's store.")
    store_2019: str = text(
        default="", label="Today's store after IPCC 2019",
        help="A row of `appraisal reference manure_methane_2019`: store, climate zone, and months in store for slurry, as "
        "slurry_no_crust_cool_temperate_moist_6. Used when emissions.manure_method is ipcc_2019.")
    mcf_2019_share: float = number(
        "share", 0, 1, default=0.0, lookup=Lookup(
            table="manure_methane_2019", column="mcf_pct", key="store_2019", scale=0.01),
        label="Methane conversion factor of that store in 2019", help="0 counts no methane from today's store.")
    solids_apart_share: float = number(
        "share", 0, 1, default=0.0, label="Volatile solids separated from the slurry today",
        help="They leave the liquid before its factor is applied; nothing is counted twice.")
    mcf_solids_share: float = number(
        "share", 0, 1, default=0.0, label="Methane conversion factor of the separated solids",
        help="0.02 to 0.05 for a heap (rows solid_storage of the same table).")
    store_n2o: str = text(
        default="", label="Nitrous oxide of today's store",
        help="A row of `appraisal reference manure_n2o` with `direct` in its name, as 2006_direct_slurry_crust.")
    store_n2o_share: float = number(
        "share", 0, 1, default=0.0, lookup=Lookup(table="manure_n2o", column="mid", key="store_n2o"),
        label="Nitrogen given off as nitrous oxide today", help="kg N2O-N per kg N in the manure.")
    store_ammonia: str = text(
        default="", label="Ammonia of today's store",
        help="A row of `appraisal reference manure_n2o` with `gas` in its name, as 2006_gas_slurry_no_crust_dairy.")
    store_ammonia_share: float = number(
        "share", 0, 1, default=0.0, lookup=Lookup(table="manure_n2o", column="mid", key="store_ammonia"),
        label="Nitrogen given off as ammonia today", help="A small part of it becomes nitrous oxide elsewhere.")
    excreted: str = text(
        default="", label="Excreted solids after IPCC",
        help="A row of `appraisal reference manure_potential`, as 2019_dairy_we. Used when emissions.manure_solids is "
        "as_excreted.")
    excreted_kg_vs_per_head_day: float = number(
        "kg VS/head/day", 0, 20, default=0.0, lookup=Lookup(
            table="manure_potential", column="vs_kg_per_head_d", key="excreted"),
        label="Volatile solids excreted per animal", help="Of all manure; the share collected is applied to it.")
    round_trip_km: float = number(
        "km", 0, 2000, default=0.0, label="Way of a load, there and back",
        help="For the diesel in the count of greenhouse gases; the cost of the haul stands in haul_cost_per_t.")


class WasteToday(Section):
    """What becomes of leftovers without the plant. Nothing is counted that is not evidenced."""

    landfilled_share: float = number(
        "share", 0, 1, default=0.0, label="Share that would go to a landfill",
        help="Only what papers show: a contract, weigh tickets, the landfill's receipts. 0 gives no landfill credit.")
    landfill_carbon_t_per_t: float = number(
        "t/t", 0, 0.6, lookup=_landfill("ipcc_2006_doc_food"), label="Degradable carbon in the waste",
        help="Per tonne fresh; table landfill, rows with doc.")
    fed_before_share: float = number(
        "share", 0, 1, default=0.0, label="Share that fed animals before",
        help="Those animals now need other feed, which costs money and gas.")
    replacement_feed_cost_per_t: float = number(
        "money/t", 0, 1000, default=0.0, label="Cost of the feed that replaces it",
        help="Per tonne of these leftovers, in month 0's money; 0 when somebody else bears it.")
    replacement_feed_kg_co2e_per_t: float = number(
        "kg CO2e/t", 0, 3000, default=0.0, label="Greenhouse gas of the feed that replaces it",
        help="Per tonne of these leftovers.")
    round_trip_km: float = number(
        "km", 0, 2000, default=0.0, label="Way of a load, there and back",
        help="For the diesel in the count of greenhouse gases; the cost of the haul stands in haul_cost_per_t.")


class Emissions(Section):
    """How greenhouse gases are counted, with and without the plant. What is not evidenced is not counted."""

    gwp_set: str = text(
        default="AR5_100",
        label="Set of warming factors",
        help="A row of `appraisal reference gwp_sets`: report of the IPCC and horizon in years; printed beside every "
        "result. A credit programme may ask for another: that one stands in credits.gwp_methane.")
    gwp_methane: float = number(
        "t CO2e/t", 1, 120, lookup=_gwp("methane_biogenic"), label="Warming of biogenic methane",
        help="From the set; manure and biogas methane is not fossil.")
    gwp_nitrous_oxide: float = number(
        "t CO2e/t", 1, 400, lookup=_gwp("nitrous_oxide"), label="Warming of nitrous oxide", help="From the set.")
    manure_method: Literal["stated_share", "ipcc_2006", "ipcc_2019", "store_model"] = choice(
        "stated_share", "ipcc_2006", "ipcc_2019", "store_model", default="stated_share",
        label="How methane of today's manure store is counted",
        help="stated_share: volatile solids x credits.baseline_methane_share; ipcc_2006, ipcc_2019: each herd's store after "
        "that edition; store_model: month by month, with temperature, carry-over and emptying.")
    manure_solids: Literal["as_fed", "as_excreted"] = choice(
        "as_fed", "as_excreted", default="as_fed", label="Which volatile solids the store is counted from",
        help="as_fed: what reaches the digester; as_excreted: the herd's excreted solids, as the IPCC does. Never both.")
    store_set: Literal["us_livestock_offset", "ipcc_2019_annex"] = choice(
        "us_livestock_offset", "ipcc_2019_annex", default="us_livestock_offset",
        label="Parameters of the monthly store model",
        help="Two published sets (table store_model), never mixed. The second follows last month's air and reacts half as fast.")
    store_floor_degc: float = number(
        "degC", -5, 20, default=5.0, source="Climate Action Reserve US livestock protocol, table store_model",
        basis="memory, confirmed by calculation", label="Coldest the manure gets",
        help="Colder months count as this.")
    store_emptied_share: list[float] = profile(
        "share", 0, 1, default=1.0, label="Share of the store emptied at the start of a month",
        help="Twelve months: 0.95 in the months of spreading, 0 in the others. 1 in all months leaves no carry-over, which "
        "counts least.")
    field_set: str = text(
        default="ipcc_2006", label="Factors for nitrogen on fields",
        help="A row of `appraisal reference field_n2o`: ipcc_2006, ipcc_2019_wet or ipcc_2019_dry.")
    field_organic_share: float = number("share", 0, 0.1, lookup=_field("ef1_organic"),
        label="Organic nitrogen that becomes nitrous oxide", help="kg N2O-N per kg N spread.")
    field_mineral_share: float = number("share", 0, 0.1, lookup=_field("ef1_mineral"),
        label="Mineral nitrogen that becomes nitrous oxide", help="kg N2O-N per kg N spread.")
    ammonia_to_n2o_share: float = number("share", 0, 0.1, lookup=_field("ef4"),
        label="Ammonia that becomes nitrous oxide elsewhere", help="kg N2O-N per kg N given off.")
    leached_to_n2o_share: float = number("share", 0, 0.1, lookup=_field("ef5"),
        label="Leached nitrogen that becomes nitrous oxide", help="kg N2O-N per kg N leached.")
    field_organic_ammonia_share: float = number("share", 0, 1, lookup=_field("gas_organic"),
        label="Organic nitrogen given off as ammonia in spreading", help="For the count of nitrous oxide only.")
    field_mineral_ammonia_share: float = number("share", 0, 1, lookup=_field("gas_mineral"),
        label="Mineral nitrogen given off as ammonia in spreading", help="For the count of nitrous oxide only.")
    leached_share: float = number("share", 0, 1, lookup=_field("leach"), label="Nitrogen leached",
        help="0 in dry places without irrigation.")
    digester_n2o_share: float = number(
        "share", 0, 0.1, lookup=Lookup(table="manure_n2o", column="mid", key="=2019_direct_digester"),
        label="Nitrogen given off as nitrous oxide from digester and store", help="kg N2O-N per kg N; IPCC 2006 has 0.")
    grid_place: str = text(
        default="", label="Place of the grid", help="A row of `appraisal reference grid_factors`, as DK or US-NYUP.")
    grid_kg_co2e_per_kwh: float = number(
        "kg CO2e/kWh", 0, 2, default=0.0, lookup=Lookup(
            table="grid_factors", column="kg_co2e_per_kwh", key="grid_place"),
        label="Greenhouse gas of a kWh from the grid", help="In month 0; 0 counts nothing for power.")
    grid_fall_rate: float = number(
        "share/year", 0, 0.3, default=0.05, basis=PRACTICE, label="Yearly fall of that factor",
        help="Grids get cleaner, so the same kWh saves less each year; many plans stand for 3 to 8 % a year.")
    fuel: str = text(
        default="", label="Heating fuel of the farm",
        help="A row of `appraisal reference fuels`, as ipcc_2006_gas_oil or ipcc_2006_propane.")
    fuel_kg_co2e_per_kwh: float = number(
        "kg CO2e/kWh", 0, 1, default=0.0, lookup=Lookup(table="fuels", column="kg_co2_per_kwh_lhv", key="fuel"),
        label="Carbon dioxide of that fuel", help="On the lower heating value; 0 counts nothing for fuel.")
    gas_replaced: str = text(
        default="", label="Gas that sold gas replaces",
        help="A row of `appraisal reference fuels`, as ipcc_2006_natural_gas; used only where gas is sold to a grid.")
    gas_kg_co2e_per_kwh: float = number(
        "kg CO2e/kWh", 0, 1, default=0.0, lookup=Lookup(table="fuels", column="kg_co2_per_kwh_hhv", key="gas_replaced"),
        label="Carbon dioxide of that gas", help="On the higher heating value, as gas is sold; 0 counts nothing.")
    fertilizer_n_kg_co2e_per_kg: float = number(
        "kg CO2e/kg", 0, 15, lookup=Lookup(table="mineral_fertilizer", column="low", key="=nitrogen_average_n"),
        label="Greenhouse gas of making nitrogen fertilizer", help="Per kg N; the low end, since it counts as saved.")
    fertilizer_p2o5_kg_co2e_per_kg: float = number(
        "kg CO2e/kg", 0, 5, lookup=Lookup(table="mineral_fertilizer", column="low", key="=phosphate_average_p2o5"),
        label="Greenhouse gas of making phosphate", help="Per kg P2O5; the low end, since it counts as saved.")
    fertilizer_k2o_kg_co2e_per_kg: float = number(
        "kg CO2e/kg", 0, 5, lookup=Lookup(table="mineral_fertilizer", column="low", key="=potash_average_k2o"),
        label="Greenhouse gas of making potash", help="Per kg K2O; the low end, since it counts as saved.")
    truck_load_t: float = number("t", 1, 60, default=25.0, basis=PRACTICE, label="Load of a truck", help="Or tanker.")
    truck_litres_per_km: float = number(
        "L/km", 0.05, 2, default=0.4, basis=PRACTICE, label="Diesel of a truck", help="Mean of full and empty way.")
    diesel_kg_co2e_per_l: float = number(
        "kg CO2e/L", 1, 4, lookup=Lookup(table="fuels", column="kg_co2_per_l", key="=road_diesel"),
        label="Carbon dioxide of diesel", help="Of trucks and tractors.")
    flare_unburned_share: float = number(
        "share", 0, 1, default=0.0, label="Methane that the flare leaves unburned",
        help="As before: none. Enclosed flares leave about 0.5 %, open ones about 5 % (table project_losses, from memory); "
        "some programmes count 10 % and 50 %.")
    landfill_first_gas: Literal["month_after", "month_of_burial"] = choice(
        "month_after", "month_of_burial", default="month_after", label="When buried waste begins to give gas",
        help="month_after: as in 40 CFR 98.343; month_of_burial: as in CDM tool 04. Both count year by year what comes, "
        "never the lifetime sum at once.")
    landfill_rate_per_year: float = number(
        "1/year", 0.001, 2, lookup=_landfill("ipcc_2006_k_food_boreal_temperate_dry"), label="Rate at which waste rots",
        help="Table landfill, rows with k; 0.06 dry and 0.185 wet for food in temperate places. Slow counts least.")
    landfill_carbon_gassed_share: float = number("share", 0, 1, lookup=_landfill("ipcc_2006_docf"),
        label="Degradable carbon that becomes gas", help="0.5 in IPCC 2006; 0.7 for food in IPCC 2019.")
    landfill_methane_share: float = number("share", 0, 1, lookup=_landfill("ipcc_2006_f"),
        label="Methane in landfill gas", help="By volume.")
    landfill_mcf_share: float = number("share", 0, 1, lookup=_landfill("ipcc_2006_mcf_managed_anaerobic"),
        label="Methane correction of the landfill", help="1 where it is deep, closed and managed; 0.4 to 0.8 elsewhere.")
    landfill_oxidised_share: float = number("share", 0, 1, lookup=_landfill("ipcc_2006_ox_managed_and_covered"),
        label="Methane oxidised in the cover", help="Of what is not collected.")
    landfill_collected_share: float = number("share", 0, 1, lookup=_landfill("us_epa_2023_collected_life_average"),
        label="Landfill gas collected", help="Mean over the life of the waste; food rots before the wells are in.")
    landfill_destroyed_share: float = number("share", 0, 1, lookup=_landfill("us_rule_de"),
        label="Collected gas that is burned", help="In flare or engine of the landfill.")
    landfill_model_share: float = number(
        "share", 0, 1, default=1.0, label="Correction for model uncertainty",
        help="1: none; CDM tool 04 asks for 0.75 to 0.85.")
