"""How the project's own lines answer the records on methane and nitrous oxide of manure."""

from __future__ import annotations

from collections.abc import Callable
from typing import Any

from appraisal.scenario.units import read_quantity
from appraisal.technical_yield import (
    emissions,
    emissions_energy,
    emissions_manure,
    emissions_store_model,
)
from tests.published.emission_figures import DAYS_A_YEAR, FIXED, KG, Values, of


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
