"""What the tables on emissions, credits and land hold, and the unit of every column of numbers in them."""

from __future__ import annotations

from collections.abc import Mapping
from types import MappingProxyType
from typing import Final

ABOUT: Final[Mapping[str, str]] = MappingProxyType(
    {
        "climate_zones": "IPCC climate zones by yearly mean temperature and rain, for the manure factors of 2019.",
        "closed_periods": "Months in which slurry or digestate may not be spread, and the storage asked for, by place.",
        "credit_programmes": "Kinds of carbon credit and some programmes: what counts, what excludes what, rough cost.",
        "crops": "Yield of crops and the nutrients a tonne of them takes off the field.",
        "field_n2o": "Nitrous oxide of nitrogen on fields: the factors that belong together, one row a set.",
        "fuels": "Carbon dioxide of fuels per unit of energy, on the lower heating value unless the column says otherwise.",
        "grid_factors": "Greenhouse gas of a kWh from the grid, by place and year, average or at the margin.",
        "gwp_sets": "Methane and nitrous oxide factors that belong together, one row a named set.",
        "landfill": "First-order decay of waste in landfills: carbon, rates, cover, gas collection, and waste treatment.",
        "manure_methane_2006": "Methane conversion factor of manure stores by yearly mean temperature, IPCC 2006.",
        "manure_methane_2019": "Methane conversion factor of manure stores by climate zone and time in store, IPCC 2019.",
        "manure_n2o": "Nitrous oxide and ammonia given off by manure stores, IPCC 2006 and 2019.",
        "manure_potential": "Volatile solids and nitrogen excreted, and methane-producing capacity, IPCC 2006 and 2019.",
        "mineral_fertilizer": "Greenhouse gas of making straight fertilizers, per kg of nutrient, and their grades.",
        "nutrient_rules": "Limits on nitrogen and phosphorus per hectare, by place and year.",
        "separation": "What a separator moves into the solids: mass, dry matter, N, P, K, and the power it takes.",
        "store_model": "Parameters of the monthly store model of manure methane, one set a method; never mix the sets.",
    }
)

UNITS: Final[Mapping[str, Mapping[str, str]]] = MappingProxyType(
    {
        "climate_zones": {"mean_from_degC": "degC", "mean_to_degC": "degC"},
        "closed_periods": {"storage_months_required": "months"},
        "credit_programmes": {
            "crediting_years": "years",
            "discount_pct": "% of the reduction",
            "buffer_pct": "% of the credits",
            "verification_usd": "USD each time",
            "verification_every_years": "years",
            "listing_usd": "USD once",
            "issuance_fee_usd_per_t": "USD/t CO2e",
        },
        "crops": {
            "yield": "@yield_unit",
            "removal_n_kg_t": "kg N/t",
            "removal_p2o5_kg_t": "kg P2O5/t",
            "removal_k2o_kg_t": "kg K2O/t",
        },
        "field_n2o": {
            "ef1_organic": "kg N2O-N/kg N",
            "ef1_mineral": "kg N2O-N/kg N",
            "ef4": "kg N2O-N/kg N given off as ammonia",
            "ef5": "kg N2O-N/kg N leached",
            "gas_organic": "share of the N given off as ammonia",
            "gas_mineral": "share of the N given off as ammonia",
            "leach": "share of the N leached",
        },
        "fuels": {
            "kg_co2_per_gj_lhv": "kg CO2/GJ (lower heating value)",
            "kg_co2_per_kwh_lhv": "kg CO2/kWh (lower heating value)",
            "kg_co2_per_kwh_hhv": "kg CO2/kWh (higher heating value)",
            "hhv_over_lhv": "higher over lower heating value",
            "lhv_mj_per_kg": "MJ/kg (lower heating value)",
            "density_kg_per_l": "kg/L",
            "kwh_lhv_per_l": "kWh/L (lower heating value)",
            "kg_co2_per_l": "kg CO2/L",
            "kg_co2_per_us_gal": "kg CO2/US gallon",
            "kg_co2_per_mmbtu_hhv": "kg CO2/MMBtu (higher heating value)",
            "mmbtu_hhv_per_unit": "MMBtu per unit (higher heating value)",
            "boiler_eff_lhv": "heat out over fuel in (lower heating value)",
        },
        "grid_factors": {
            "kg_co2e_per_kwh": "kg CO2e/kWh",
            "co2_lb_per_mwh": "lb CO2/MWh",
            "ch4_lb_per_mwh": "lb CH4/MWh",
            "n2o_lb_per_mwh": "lb N2O/MWh",
        },
        "gwp_sets": {
            "methane_biogenic": "kg CO2e/kg gas",
            "methane_fossil": "kg CO2e/kg gas",
            "nitrous_oxide": "kg CO2e/kg gas",
        },
        "landfill": {"year_from": "years after burial", "year_to": "years after burial", "value": "@unit"},
        "manure_methane_2006": {"temperature_degC": "degC, yearly mean", "mcf_pct": "% of the producing capacity"},
        "manure_methane_2019": {"retention_months": "months", "mcf_pct": "% of the producing capacity"},
        "manure_n2o": {"value": "@unit"},
        "manure_potential": {
            "live_weight_kg": "kg",
            "vs_kg_per_head_d": "kg VS/head/d",
            "vs_kg_per_1000kg_d": "kg VS/1000 kg live weight/d",
            "b0_m3_per_kg_vs": "m3 CH4/kg VS near 20 degC",
            "n_kg_per_1000kg_d": "kg N/1000 kg live weight/d",
            "n_kg_per_head_yr": "kg N/head/year",
        },
        "mineral_fertilizer": {
            "n_pct": "% N",
            "p2o5_pct": "% P2O5",
            "k2o_pct": "% K2O",
            "value": "@unit",
            "field_co2_kg_per_kg_n": "kg CO2/kg N",
        },
        "nutrient_rules": {"limit": "@unit"},
        "separation": {
            "solids_mass_share": "share of the mass",
            "solids_ts_share": "share of the dry matter",
            "solids_n_share": "share of the N",
            "solids_p_share": "share of the P",
            "solids_k_share": "share of the K",
            "electricity_kWh_per_m3": "kWh/m3",
        },
        "store_model": {"value": "@unit"},
    }
)
