"""How the project's own lines answer the records on energy, its units and its fuels."""

from __future__ import annotations

import math

from appraisal.scenario.reference import row
from appraisal.scenario.units import read_quantity
from appraisal.technical_yield import (
    emissions_energy,
    reconcile,
)
from appraisal.timeline import HOURS_PER_DAY
from tests.published.emission_figures import DAYS_A_YEAR, FIXED, KG, Values, of


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
