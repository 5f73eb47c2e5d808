"""What each shipped table holds, and the unit of every column that holds numbers."""

from __future__ import annotations

import re
from collections.abc import Mapping
from types import MappingProxyType
from typing import Final

from appraisal.scenario.reference import columns_land as land

ABOUT: Final[Mapping[str, str]] = MappingProxyType({
    "animals": "What one animal excretes in a day, by kind of animal and region, with the row to offer for a region.",
    "capital_costs": "What plants and their parts cost to build: dated examples with size, place and currency.",
    "cautions": "Safety and advice sentences, and where each must be shown.",
    "climates": "Twelve monthly mean air temperatures, coldest day, soil and rain for named places.",
    "depreciation": "Tax write-off schedules by country: dated examples, to be confirmed by an accountant.",
    "digester_limits": "Comfortable, warning and stop-and-ask bands of running a digester, with a plain meaning.",
    "engines": "Gas engines by rated power: efficiency, heat, upkeep, overhauls, cost and methane slip.",
    "estimate_classes": "How wide a cost estimate is, by how much of the design is done.",
    "feedstocks": "Dry matter, methane potential, nutrients and make-up of feeds, per tonne as delivered.",
    "exchange_rates": "Units of a currency for one euro, mean of a year's days.",
    "gwp": "Warming of methane and nitrous oxide against carbon dioxide, by report, kind and horizon.",
    "kinetics": "Rate constants, temperature factors, gas, vapour and ammonia constants with their valid range.",
    "own_use": "Power and heat that the parts of the plant take for themselves.",
    "price_index": "Price levels by place, kind and year, 2015 = 100: what brings an old cost to today's money.",
    "prices": "Prices, tariffs, wages and rates: dated examples that the user replaces.",
    "project_losses": "Methane lost in leaks, engines, flares, stores and upgrading, and credited destruction shares.",
    "running_costs": "What running a plant costs, in money and in hours: dated examples with size and place.",
    "spreading": "Ammonia lost and extra cost by way of spreading digestate.",
    "upgrading": "Machines that make grid gas of biogas, by technology and size: methane won and lost, power, heat, cost.",
    "us_farm_digester_lifetimes": "Years in which US farm digesters began and shut down, names left out; blank is unknown.",
    "u_values": "Heat passed by a square metre of tank wall, floor, roof or membrane per kelvin, by construction.",
    **land.ABOUT,
})

# Column that holds the size between whose rows a figure may be interpolated.
AXES: Final[Mapping[str, str]] = MappingProxyType({"engines": "rated_kw"})

_TEMPERATURES = {
    f"t_{month}_degC": "degC"
    for month in ("jan", "feb", "mar", "apr", "may", "jun", "jul", "aug", "sep", "oct", "nov", "dec", "year")
}
_SOIL = {f"soil_{name[2:]}": unit for name, unit in _TEMPERATURES.items() if name != "t_year_degC"}
_SIZED = {"value": "@unit", "size": "@size_unit"}

# table -> stem -> unit. The stem is the column without _low, _mid or _high; the columns low, mid and high have the
# stem "value". "@name" points at the column of the same row that states the unit; {currency} is filled from the row.
UNITS: Final[Mapping[str, Mapping[str, str]]] = MappingProxyType({
    "animals": {
        "live_weight_kg": "kg",
        "manure_kg_per_head_d": "kg/head/d",
        "manure_lb_per_head_d": "lb/head/d",
        "volume_L_per_head_d": "L/head/d",
        "ts_kg_per_head_d": "kg TS/head/d",
        "vs_kg_per_head_d": "kg VS/head/d",
        "n_kg_per_head_d": "kg N/head/d",
        "p_kg_per_head_d": "kg P/head/d",
        "k_kg_per_head_d": "kg K/head/d",
        "s_kg_per_head_d": "kg S/head/d",
        "b0_m3ch4_per_kg_vs": "m3 CH4/kg VS near 20 degC",
        "ts_pct": "% of fresh mass",
        "vs_share_of_ts": "kg VS/kg TS",
        "c_to_n": "kg C/kg N",
    },
    "capital_costs": _SIZED,
    "cautions": {},
    "climates": {
        **_TEMPERATURES,
        **_SOIL,
        "lat_deg": "degrees north",
        "lon_deg": "degrees east",
        "elevation_m": "m above sea",
        "design_cold_degC": "degC",
        "design_cold_extreme_degC": "degC",
        "soil_mean_degC": "degC",
        "soil_amplitude_K": "K",
        "soil_depth_m": "m",
        "soil_lag_days": "d",
        "rain_mm_per_year": "mm/year",
    },
    "depreciation": {"rate_pct": "% a year", "life_years": "years"},
    "digester_limits": {"comfortable": "@unit", "warn": "@unit", "stop_and_ask": "@unit"},
    "engines": {
        "rated_kw": "kW electric",
        "efficiency_full": "kWh electric/kWh gas (lower heating value)",
        "efficiency_75": "kWh electric/kWh gas (lower heating value)",
        "efficiency_50": "kWh electric/kWh gas (lower heating value)",
        "heat_efficiency_full": "kWh heat/kWh gas (lower heating value)",
        "heat_75": "kWh heat/kWh gas (lower heating value)",
        "heat_50": "kWh heat/kWh gas (lower heating value)",
        "min_load": "share of rated power",
        "availability": "share of the year",
        "maintenance_routine_per_kwh": "{currency}/kWh",
        "maintenance_full_service_per_kwh": "{currency}/kWh",
        "fixed_cost_per_kw_year": "{currency}/kW/year",
        "top_end_interval_h": "h",
        "top_end_cost_share_of_new": "share of installed cost",
        "major_interval_h": "h",
        "major_cost_share_of_new": "share of installed cost",
        "installed_cost_per_kw": "{currency}/kW electric",
        "methane_slip_share": "share of fuel methane",
        "life_h": "h",
    },
    "estimate_classes": {
        "definition_low_pct": "% of the design done",
        "definition_high_pct": "% of the design done",
        "low_side_narrow_pct": "% of the estimate",
        "low_side_wide_pct": "% of the estimate",
        "high_side_narrow_pct": "% of the estimate",
        "high_side_wide_pct": "% of the estimate",
        "default_low_pct": "% of the estimate",
        "default_high_pct": "% of the estimate",
    },
    "exchange_rates": {"per_eur": "units for one EUR", "days": "days"},
    "feedstocks": {
        "ts_pct": "% of fresh mass",
        "vs_pct_of_ts": "% of TS",
        "bmp": "Nm3 CH4/t VS",
        "bmp_sd": "Nm3 CH4/t VS",
        "ch4_pct": "% of dry gas",
        "ch4_pct_stoich": "% of dry gas",
        "n_kg_t": "kg N/t fresh",
        "p_kg_t": "kg P/t fresh",
        "k_kg_t": "kg K/t fresh",
        "s_kg_t": "kg S/t fresh",
        "nh4_share": "kg ammonium N/kg N",
        "k_first_order_per_day": "1/d",
        "fat_share_vs": "kg/kg VS",
        "protein_share_vs": "kg/kg VS",
        "carbohydrate_share_vs": "kg/kg VS",
        "carbon_share_vs": "kg C/kg VS",
        "ceiling_carb_coef": "Nm3 CH4/t carbohydrate",
        "ceiling_nm3_t_vs": "Nm3 CH4/t VS",
        "mid_over_ceiling": "share of the ceiling",
        "c_to_n": "kg C/kg N",
        "bulk_t_m3": "t/m3",
    },
    "gwp": {"horizon_years": "years", "value": "kg CO2e/kg gas"},
    "kinetics": {"value": "@unit"},
    "own_use": {"value": "@unit"},
    "price_index": {"value": "2015 = 100"},
    "prices": {"value": "@unit"},
    "project_losses": {"value": "@unit"},
    "running_costs": _SIZED,
    "spreading": {"ammonium_n_lost_share": "kg/kg ammonium N spread", "extra_cost": "@extra_cost_unit"},
    "upgrading": {
        "size_raw_Nm3_h": "Nm3 raw gas/h",
        "methane_recovery_share": "share of methane fed",
        "methane_slip_share": "share of methane fed",
        "electricity_kWh_per_Nm3_raw": "kWh/Nm3 raw gas",
        "heat_kWh_per_Nm3_raw": "kWh/Nm3 raw gas",
        "capex_per_Nm3_h_raw": "{currency}/(Nm3 raw gas/h)",
        "opex_share_of_capex_per_year": "share of capital cost a year, power and heat apart",
        "life_years": "years",
        "min_load": "share of rated flow",
    },
    "us_farm_digester_lifetimes": {"year_started": "year", "year_shut": "year"},
    "u_values": {"insulation_mm": "mm", "u": "W/(m2 K)"},
    **land.UNITS,
})

# The basis of a feed row is written part by part: which part speaks for which stem.
_FEED_PARTS: Final[Mapping[str, tuple[str, ...]]] = MappingProxyType({
    "TS,VS,BMP": ("ts_pct", "vs_pct_of_ts", "bmp", "bmp_sd"),
    "CH4%": ("ch4_pct",),
    "N,P,K": ("n_kg_t", "p_kg_t", "k_kg_t"),
    "S": ("s_kg_t",),
    "NH4": ("nh4_share",),
    "composition": ("fat_share_vs", "protein_share_vs", "carbohydrate_share_vs"),
    "ceiling,C:N": (
        "ceiling_carb_coef", "ceiling_nm3_t_vs", "mid_over_ceiling", "ch4_pct_stoich", "carbon_share_vs", "c_to_n",
    ),
    "k": ("k_first_order_per_day",),
    "bulk": ("bulk_t_m3",),
})
_FEED_SPLIT: Final = re.compile("(?:^|; )(" + "|".join(map(re.escape, _FEED_PARTS)) + "): ")


def stem(column: str) -> str:
    """Name of the family a column belongs to: `bmp_mid` -> `bmp`, `mid` -> `value`, `c_to_n` -> `c_to_n`."""
    if column in ("low", "mid", "high"):
        return "value"
    for ending in ("_low", "_mid", "_high"):
        if column.endswith(ending):
            return column.removesuffix(ending)
    return column


def basis_of(table: str, column: str, basis: str) -> str:
    """Part of a row's basis that speaks for one column: of a feed row its own part, of any other row the whole."""
    if table != "feedstocks":
        return basis
    _, *pieces = _FEED_SPLIT.split(basis)
    parts = dict(zip(pieces[::2], pieces[1::2], strict=True))
    return next((parts[name] for name, stems in _FEED_PARTS.items() if stem(column) in stems and name in parts), basis)
