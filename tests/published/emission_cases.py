"""How the project's own lines and functions answer each record of emissions.json."""

from __future__ import annotations

import math
from collections.abc import Callable
from typing import Any

import numpy as np

from appraisal.cash_flow import credits, fertilizer, power_sales, running_costs, tipping_fees
from appraisal.constants import CONSTANTS
from appraisal.measures.inflation import deflate
from appraisal.scenario.reference import figure, row
from appraisal.scenario.units import read_quantity
from appraisal.technical_yield import (
    credit_tonnes,
    emissions,
    emissions_energy,
    emissions_landfill,
    emissions_manure,
    emissions_store_model,
    heat_need,
    land,
    reconcile,
)
from appraisal.technical_yield import gas as gas_lines
from appraisal.timeline import DAYS, HOURS_PER_DAY

Values = dict[str, Any]
FIXED = {constant.name: constant.value for constant in CONSTANTS}
DAYS_A_YEAR = sum(DAYS)
KG = 1000.0  # in a tonne


def of(table: str, id: str, column: str = "mid") -> float:
    """One figure of a reference table."""
    return figure(table, id, column).value


# manure


def store_methane(
    solids_t: float, b0: float, density: float, mcf: float, *, apart: tuple[float, float] = (0.0, 0.0)
) -> float:
    """Methane [t] of a store after equation 10.23."""
    return float(emissions_manure.substrate_baseline_methane__ipcc_2006(solids_t, b0, density, mcf, *apart))


def tier_1(i: Values) -> Values:
    solids = i["VS_kg_per_head_day"] * DAYS_A_YEAR / KG
    parts = (
        share * store_methane(solids, i["B0_m3_per_kgVS"], i["density_kg_per_m3"], i["MCF_percent"][system] / 100)
        for system, share in i["system_share"].items()
    )
    methane = sum(parts) * KG
    return {"EF_kgCH4_per_head_year_formula": methane, "EF_published_rounded": methane}


def lagoon(i: Values) -> Values:
    solids = i["cows"] * i["VS_kg_per_cow_day"] * DAYS_A_YEAR / KG * i["share_to_lagoon"]
    methane = store_methane(solids, i["B0"], i["density"], i["MCF"])
    return {
        "CH4_t_per_year": methane,
        "CO2e_t_per_year": emissions.without_manure_methane([methane], i["GWP_CH4"]),
    }


def solids_separated(i: Values) -> Values:
    solids = i["cows"] * i["VS"] * DAYS_A_YEAR / KG
    whole, parted = (
        store_methane(solids, i["B0"], i["density"], i["MCF_lagoon_15C"], apart=(share, i["MCF_solid_storage_15C"]))
        for share in (0.0, i["VS_fraction_separated"])
    )
    return {"CH4_t_per_year": parted, "reduction_vs_unseparated_percent": (1 - parted / whole) * 100}


def us_factor(air: float, *, floor: float, ceiling: float, activation: float, reference: float, gas: float) -> float:
    """Factor of the US set at one air temperature [degC]."""
    warm = emissions_store_model.store_temperature__us(air, floor, ceiling)
    return float(emissions_store_model.store_factor__us(warm, FIXED["zero_degc_k"], activation, reference, gas))


def us_factors(i: Values) -> Values:
    same = {"activation": i["E"], "reference": i["T1_K"], "gas": i["R"]}
    return {"f": [us_factor(t, floor=i["floor_C"], ceiling=i["ceiling_C"], **same) for t in i["temps_C"]]}


def ipcc_factors(i: Values) -> Values:
    zero = FIXED["zero_degc_k"]
    factors = (emissions_store_model.store_factor__ipcc_2019(t, zero, i["Ea"], i["T1_K"], i["R"]) for t in i["temps_C"])
    return {"f": [float(factor) for factor in factors]}


def _store_years(i: Values, years: int) -> Values:
    """The last of several years of a store, started empty, by the project's own constants."""
    solids = [i["cows"] * i["VS_kg_per_cow_day"] * days / KG * i["share_to_lagoon"] for days in i["days_per_month"]]
    set_ = {
        "activation": FIXED["us_store_activation"],
        "reference": FIXED["us_store_reference_k"],
        "gas": FIXED["store_gas_constant"],
        "ceiling": FIXED["us_store_ceiling_degc"],
    }
    factors = [us_factor(t, floor=i["floor_C"], **set_) for t in i["monthly_mean_C_Jan_to_Dec"]]
    reacting = [each * i["calibration_factor"] for each in solids]
    available, degraded = 0.0, 0.0
    for _ in range(years):
        out: Values = {"VS_in_t": reacting, "f": factors, "VS_avail_t": [], "VS_deg_t": [], "CH4_t_by_month": []}
        for month, (new, factor) in enumerate(zip(solids, factors, strict=True)):
            emptied = float(month + 1 in i["emptied_months"])
            available = emissions_store_model.substrate_store_available(
                new, i["calibration_factor"], 0.0, available, degraded, emptied
            )
            degraded = emissions_store_model.substrate_store_degraded(available, factor)
            methane = emissions_store_model.substrate_baseline_methane__store_model(
                degraded, i["density_kg_per_m3"], 0.0, 0.0, 0.0, 0.0, i["B0"], 1.0
            )
            for name, value in (("VS_avail_t", available), ("VS_deg_t", degraded), ("CH4_t_by_month", methane)):
                out[name].append(value)
    out["CH4_t_per_year"] = sum(out["CH4_t_by_month"])
    out["effective_MCF_on_full_VS"] = sum(out["VS_deg_t"]) / sum(solids)
    return out


def lagoon_steady(i: Values) -> Values:
    return _store_years(i, 60)


def lagoon_first_year(i: Values) -> Values:
    first = _store_years(i, 1)
    return {name: first[name] for name in ("VS_deg_t", "CH4_t_per_year", "effective_MCF_on_full_VS")}


def short_tons(i: Values) -> Values:
    pounds = i["Vm_ft3"] * i["M_lb_per_ft3"]
    tonnes = read_quantity(f"{pounds} lb", "t") * i["GWP"]
    return {"CO2e_short_tons": tonnes / read_quantity("1 short_ton", "t"), "CO2e_metric_t": tonnes}


# nitrous oxide


def n2o_of_heap(i: Values) -> Values:
    nitrogen = i["Nex_rate"] * i["TAM_kg"] / KG * DAYS_A_YEAR

    def kg(direct: float, gas: float) -> float:
        tonnes = emissions_manure.substrate_store_nitrous_oxide__herd(
            nitrogen, direct, gas, i["EF4"], FIXED["n2o_per_n"], KG
        )
        return float(tonnes) * KG

    return {
        "Nex_kgN_per_head_year": nitrogen,
        "N2O_direct_kg": kg(i["EF3"], 0.0),
        "N2O_indirect_kg": kg(0.0, i["FracGasMS"]),
        "N2O_total_kg": kg(i["EF3"], i["FracGasMS"]),
    }


def field_factor(i: Values, gas: str, body: Callable[..., Any]) -> float:
    """Nitrous oxide per unit of nitrogen on a field."""
    return float(body(i["EF1"], i[gas], i["EF4"], i["FracLEACH"], i["EF5"], FIXED["n2o_per_n"]))


def field_organic(i: Values) -> Values:
    factor = field_factor(i, "FracGASM", emissions_energy.organic_field_factor)
    gwp = of("gwp_sets", "AR5_100", "nitrous_oxide")
    spread = i["N_applied_kg"]
    return {
        "N2O_kg": spread * factor,
        "CO2e_t_AR5": float(emissions_energy.with_fields(spread, factor, 0.0, 0.0, gwp, KG)),
    }


def field_net(i: Values) -> Values:
    organic = field_factor(i, "FracGASM", emissions_energy.organic_field_factor)
    mineral = field_factor(i, "FracGASF", emissions_energy.mineral_field_factor)
    one = 1.0  # warming of one, so that the lines give tonnes of gas
    made = emissions_energy.with_fields(i["digestate_N_kg"], organic, 0.0, mineral, one, KG) * KG
    saved = emissions_energy.without_fields([0.0], organic, i["displaced_mineral_N_kg"], mineral, one, KG) * KG
    return {"N2O_from_digestate_kg": made, "N2O_avoided_mineral_kg": saved, "net_kg": made - saved}


# landfill


def potential(tonnes: float, i: Values, *, model: float = 1.0) -> float:
    """Methane [t] that waste gives in all its years."""
    return float(
        emissions_landfill.substrate_landfill_potential(
            tonnes, 1.0, i["DOC"], i["DOCf"], i["F"], i["MCF"], model, FIXED["methane_per_carbon"]
        )
    )


def food_lifetime(i: Values) -> Values:
    made = potential(1.0, i)
    escaping = made * emissions_landfill.landfill_escaping_share(0.0, i["OX"], 0.0)
    return {
        "CH4_kg_per_t_generated": made * KG,
        "CH4_kg_per_t_after_OX": escaping * KG,
        "CO2e_t_per_t": emissions.without_landfill([escaping], i["GWP_CH4"]),
    }


def left_after_a_year(k: float) -> float:
    """Part of buried waste that is left after a year: the line's month taken as a year."""
    return float(emissions_landfill.landfill_left_share(k, 1))


def wet_profile(i: Values) -> Values:
    kept, stock, made = left_after_a_year(i["k"]), 0.0, []
    for year in range(11):
        made.append(emissions_landfill.substrate_landfill_made__month_after(stock, kept))
        buried = i["L0_kg_per_t"] * i["waste_t"] if year == 0 else 0.0
        stock = emissions_landfill.substrate_landfill_stock(buried, stock, kept)
    ten = sum(made)
    return {
        "CH4_kg_years_1_to_10": made[1:],
        "cumulative_10y_kg": ten,
        "share_by_year_10": ten / i["L0_kg_per_t"],
    }


def half_lives(i: Values) -> Values:
    rate = -math.log(0.5) / i["half_life_years"]
    assert math.isclose(left_after_a_year(rate) ** i["half_life_years"], 0.5)
    lives = [math.log(0.5) / math.log(left_after_a_year(k)) for k in i["k_values"]]
    return {"k_from_half_life": rate, "half_lives_years": lives}


def volume_form(i: Values) -> Values:
    assert of("landfill", "us_rule_lo_volume_per_doc") == i["multiplier"]
    volume = of("landfill", "us_rule_lo_volume_per_doc") * i["DOC"]
    us = {name: of("landfill", f"us_rule_{name.lower()}") for name in ("DOCf", "F", "MCF")}
    return {"Lo_m3_per_Mg": volume, "implied_density_kg_per_m3": potential(1.0, {"DOC": i["DOC"], **us}) * KG / volume}


def stream(tonnes: float, years: int, i: Values, *, model: float) -> list[float]:
    """Methane [t] year by year when the same waste comes every year, first gas in the year of burial."""
    kept, stock, made = left_after_a_year(i["k"]), 0.0, []
    for _ in range(years):
        stock = emissions_landfill.substrate_landfill_stock(potential(tonnes, i, model=model), stock, kept)
        made.append(float(emissions_landfill.substrate_landfill_made__month_of_burial(stock, kept)))
    return made


def tool_04(i: Values) -> Values:
    escaping = emissions_landfill.landfill_escaping_share(i["f_captured"], i["OX"], 1.0)
    rows = [
        emissions.without_landfill([emissions_landfill.substrate_landfill_methane__feed(made, escaping)], i["GWP"])
        for made in stream(i["W_t_per_year"], i["years"], i, model=i["phi"])
    ]
    lifetime = potential(i["W_t_per_year"] * i["years"], i, model=i["phi"]) * escaping * i["GWP"]
    return {"BE_tCO2e_by_year": rows, "sum_10y": sum(rows), "naive_lifetime_x10": lifetime}


def gas_collection(i: Values) -> Values:
    collected = of("landfill", "us_epa_2023_collected_life_average")
    return {
        "fraction_not_collected": 1 - collected,
        "fraction_emitted_after_oxidation": emissions_landfill.landfill_escaping_share(collected, i["OX"], i["DE"]),
        "published_headline": of("landfill", "us_epa_2023_share_not_captured_published_food"),
    }


def ten_years(i: Values) -> Values:
    waste = {"DOC": 1.0, "DOCf": 1.0, "F": 1.0, "MCF": 1.0, "k": i["k"]}
    years = i["years_of_diversion"]
    return {"share": sum(stream(1.0, years, waste, model=1.0)) / potential(float(years), waste)}


# warming, losses, credits


def warming_sets(i: Values) -> Values:
    ids = {
        "AR4": ("AR4_100", "methane_biogenic"),
        "AR5": ("AR5_100", "methane_biogenic"),
        "AR6_nonfossil": ("AR6_100", "methane_biogenic"),
        "AR6_fossil": ("AR6_100", "methane_fossil"),
        "AR6_20y_nonfossil": ("AR6_20", "methane_biogenic"),
    }
    found = {}
    for name, (id, column) in ids.items():
        methane, oxide = of("gwp_sets", id, column), of("gwp_sets", id, "nitrous_oxide")
        found[name] = emissions.without_manure_methane([i["CH4_t"]], methane) + emissions.without_manure_nitrous_oxide(
            [i["N2O_t"]], oxide
        )
    return found


def lower_of_two(i: Values) -> Values:
    modelled = emissions.methane_reduction_modelled([i["model_BE_t"] / i["GWP"]], i["project_PE_t"] / i["GWP"], [0.0])
    methane = credit_tonnes.credit_manure_methane(modelled, i["metered_CH4_destroyed_t"])
    credited = credit_tonnes.credit_tonnes(methane, 0.0, i["GWP"], 0.0, 1.0)
    return {
        "model_ER": modelled * i["GWP"],
        "metered_cap": i["metered_CH4_destroyed_t"] * i["GWP"],
        "credited": float(credited),
    }


def issuance(i: Values) -> Values:
    return {"fee": -credits.credit_issuance(i["fee_per_t"], i["credits"], 1.0)}


def enough_credits(i: Values) -> Values:
    """How many credits pay one verification."""
    sold = credit_tonnes.credit_tonnes_sold(1.0, i["withheld"], 0.0, i["price"])
    each = credits.credit_worth(sold, 1.0, i["price"]) + credits.credit_issuance(i["issuance_fee"], sold, 1.0)
    return {"break_even_credits": -credits.credit_verification(i["verification_cost"], 1.0, 1.0) / each}


def leak(i: Values) -> Values:
    share = 1 - i["CE"]
    return {"leak_t": gas_lines.methane_leaked(i["CH4_recovered_t"] / (1 - share), share)}


def plant_methane(i: Values, *, leaked: float = 0.0, slipped: float = 0.0, unburned: float = 0.0) -> float:
    """Methane of the plant [t CO2e], losses given in tonnes."""
    return float(emissions.with_plant_methane(leaked, slipped, unburned, 1.0, 1.0, i["GWP"]))


def flare(i: Values) -> Values:
    left = {"PE_open_tCO2e": 1 - i["open"], "PE_enclosed_tCO2e": 1 - i["enclosed"], "PE_flare_out_tCO2e": 1.0}
    return {
        name: plant_methane(i, unburned=emissions.methane_unburned(i["CH4_to_flare_t"], share))
        for name, share in left.items()
    }


def flare_mix(i: Values) -> Values:
    gas = i["CH4_t"]
    unburned = emissions.methane_unburned(gas * i["share_enclosed_flare"], 1 - i["flare_DE"])
    slipped = gas * i["share_engine"] * (1 - i["engine_DE"])
    return {"PE_tCO2e": plant_methane(i, leaked=gas * i["share_vented"], slipped=slipped, unburned=unburned)}


def danish_leak(i: Values) -> Values:
    leaked = gas_lines.methane_leaked(i["biogas_Nm3"] * i["CH4_fraction"], i["loss"]) * i["density_Nm3"] / KG
    return {"CH4_t": leaked, "CO2e_t": plant_methane(i, leaked=leaked)}


def engine_slip(i: Values) -> Values:
    slipped = i["CH4_to_engine_Nm3"] * i["slip"]
    return {"CO2e_t": float(emissions.with_plant_methane(0.0, slipped, 0.0, i["density"], KG, i["GWP"]))}


def compost(i: Values) -> Values:
    assert of("landfill", "ipcc_2006_treatment_ch4_composting") == i["CH4_g_per_kg"]
    assert of("landfill", "ipcc_2006_treatment_n2o_composting") == i["N2O_g_per_kg"]
    methane, oxide = (i["t_wet"] * i[name] / KG for name in ("CH4_g_per_kg", "N2O_g_per_kg"))
    warm, warmer = i["GWP"]
    made = emissions.without_manure_methane([methane], warm) + emissions.without_manure_nitrous_oxide([oxide], warmer)
    return {"CH4_t": methane, "N2O_t": oxide, "CO2e_t": made}


# energy and its units


def kwh_of_slurry(i: Values) -> Values:
    assert FIXED["methane_kwh_per_nm3"] == i["kWh_per_Nm3_CH4"]
    made = i["CH4_m3_per_t"] * FIXED["methane_kwh_per_nm3"]
    return {"kWh_per_t": made, "published": made}


def gas_volumes(i: Values) -> Values:
    return {
        "scf": read_quantity(f"{i['Nm3']} Nm3", "scf"),
        "scf_per_Sm3_15C": read_quantity("1 Sm3", "scf"),
    }


def energy_units(i: Values) -> Values:
    boiler_btu = 33475  # one boiler horsepower in Btu an hour, as printed in the record
    return {
        "MMBtu_GJ": read_quantity(f"{i['MMBtu']} MMBtu", "GJ"),
        "MMBtu_kWh": read_quantity(f"{i['MMBtu']} MMBtu", "kWh"),
        "therm_kWh": read_quantity(f"{i['therm']} therm", "kWh"),
        "boiler_hp_kW": read_quantity(f"{boiler_btu} Btu/hour", "kW"),
        "hp_kW": read_quantity("1 hp", "kW"),
    }


def engine_64_kw(i: Values) -> Values:
    day = i["kW"] * HOURS_PER_DAY
    kept = day * DAYS_A_YEAR * i["capacity_factor"]
    assert math.isclose(reconcile.capacity_factor(i["kW"], kept), i["capacity_factor"])
    served = kept / i["home_kWh_per_year"]
    assert math.isclose(reconcile.homes(kept, served, usual_kwh=1.0).value or 0.0, i["home_kWh_per_year"])
    return {
        "kWh_per_day": day,
        "kWh_per_year_full": day * DAYS_A_YEAR,
        "kWh_at_CF": kept,
        "homes": served,
    }


def rule_of_thumb(i: Values) -> Values:
    year = i["cows"] * i["kWh_per_cow_day"] * DAYS_A_YEAR
    return {
        "kWh_per_year": year,
        "average_kW": read_quantity(f"{year} kWh/year", "kWh/day") / HOURS_PER_DAY,
        "kWh_per_home_if_all_exported": reconcile.homes(year, i["homes"], usual_kwh=1.0).value,
    }


def us_grid(i: Values) -> Values:
    ids = {"NYUP": "US-NYUP", "MROE": "US-MROE", "US": "US"}
    for name, id in ids.items():
        assert [float(row("grid_factors", id)[f"{gas}_lb_per_mwh"]) for gas in ("co2", "ch4", "n2o")] == i[name]
    found = {name: of("grid_factors", id, "kg_co2e_per_kwh") for name, id in ids.items()}
    found["NYUP_kgCO2e_per_kWh"] = found.pop("NYUP")
    return found


def home(i: Values) -> Values:
    return {"kWh_per_month": read_quantity(f"{i['kWh_per_year']} kWh/year", "kWh/month")}


def rate_or_amount(i: Values) -> Values:
    return {"capacity_factor": [reconcile.capacity_factor(c["kW"], c["kWh_per_year"]) for c in i["cases"]]}


def megawatt_hours(i: Values) -> Values:
    year = read_quantity(f"{i['entered']} {i['unit_entered']}", "kWh/year")
    return {
        "capacity_factor": reconcile.capacity_factor(i["kW"], year),
        "revenue": year * i["price_per_kWh"],
        "revenue_if_unit_ignored": i["entered"] * i["price_per_kWh"],
    }


def fuel_carbon(heat: float, efficiency: float, id: str, per_gj: float) -> float:
    """Carbon dioxide [t] of the fuel behind some heat [kWh], by the shipped factor of the fuel."""
    assert of("fuels", id, "kg_co2_per_gj_lhv") == per_gj
    return float(emissions_energy.with_fuel(heat, efficiency, of("fuels", id, "kg_co2_per_kwh_lhv"), KG))


def propane(i: Values) -> Values:
    heat, efficiency = i["useful_heat_kWh"], i["boiler_efficiency_LHV"]
    return {"CO2_t": fuel_carbon(heat, efficiency, "ipcc_2006_propane", i["EF_kg_per_GJ"])}


def oil_and_gas(i: Values) -> Values:
    heat, efficiency = i["useful_heat_kWh"], i["boiler_efficiency_LHV"]
    return {
        "CO2_t_gasoil": fuel_carbon(heat, efficiency, "ipcc_2006_gas_oil", i["EF_gasoil"]),
        "CO2_t_natgas": fuel_carbon(heat, efficiency, "ipcc_2006_natural_gas", i["EF_natgas"]),
    }


def thousand_feet(i: Values) -> Values:
    gas = "us_epa_natural_gas"
    assert of("fuels", gas, "mmbtu_hhv_per_unit") == i["MMBtu_per_Mscf"]
    per_foot = of("fuels", gas, "kg_co2_per_kwh_hhv") * read_quantity(f"{i['MMBtu_per_Mscf']} MMBtu", "kWh")
    return {"kg_per_Mscf": per_foot, "EPA_hub_kg_per_Mscf": per_foot}


def trucks(i: Values) -> Values:
    load, per_km = 1.0, i["L_per_100km"] / 100
    litres = emissions_energy.substrate_truck_diesel(i["loads"] * load, i["round_trip_km"], load, per_km)
    assert of("fuels", "road_diesel", "kg_co2_per_l") == i["kg_per_L"]
    carbon = emissions_energy.with_trucks([litres], 0.0, of("fuels", "road_diesel", "kg_co2_per_l"), KG)
    return {"litres": litres, "CO2_t": float(carbon)}


# fees


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


# nutrients


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


# power, heat


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


CASES: dict[str, Callable[[Values], Values]] = {
    "A-tier1-WE-10C": tier_1,
    "A-tier1-NA-10C": tier_1,
    "A-tier1-NA-28C": tier_1,
    "A-tier1-EE-15C": tier_1,
    "A-lagoon-500": lagoon,
    "A-solids-separation": solids_separated,
    "B-f-values": us_factors,
    "B-lagoon-steady": lagoon_steady,
    "B-lagoon-first-year": lagoon_first_year,
    "B-2019-f": ipcc_factors,
    "B-rggi-units": short_tons,
    "C-n2o-solid": n2o_of_heap,
    "C-field-n2o-organic": field_organic,
    "C-field-n2o-net": field_net,
    "D-L0-food": food_lifetime,
    "D-profile-wet": wet_profile,
    "D-half-life": half_lives,
    "D-Lo-volumetric": volume_form,
    "D-tool04-stream": tool_04,
    "D-epa-collection": gas_collection,
    "D-ten-year-share": ten_years,
    "E-gwp-sets": warming_sets,
    "E-min-rule": lower_of_two,
    "E-leak-CE": leak,
    "E-issuance-fee": issuance,
    "E-breakeven": enough_credits,
    "E-flare": flare,
    "E-flare-mix": flare_mix,
    "E-danish-leak": danish_leak,
    "E-engine-slip": engine_slip,
    "E-compost": compost,
    "G-fnr-cattle": kwh_of_slurry,
    "G-nm3-scf": gas_volumes,
    "G-energy-conv": energy_units,
    "G-64kW": engine_64_kw,
    "G-haubenschild": rule_of_thumb,
    "G-egrid": us_grid,
    "G-eia-home": home,
    "G-kw-kwh-flag": rate_or_amount,
    "G-mwh-slip": megawatt_hours,
    "J-propane": propane,
    "J-gasoil": oil_and_gas,
    "J-natgas-scf": thousand_feet,
    "J-haul": trucks,
    "T-eref": fee,
    "T-eref-regions": fees_by_region,
    "T-net-tipping": net_fee,
    "W-cfd": two_way_contract,
    "W-index": indexed_clause,
    "W-rin": fuel_certificates,
    "X-pasteurise": pasteurise,
    "P-urea": urea,
    "P-dap-P": phosphate,
    "P-potash": potash,
    "P-oxides": oxides,
    "P-digestate-value": digestate_value,
    "P-land-170": land_for_manure,
}
