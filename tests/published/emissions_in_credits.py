"""How the project's own lines answer the records on warming, losses and credits."""

from __future__ import annotations

from appraisal.cash_flow import credits
from appraisal.technical_yield import (
    credit_tonnes,
    emissions,
)
from appraisal.technical_yield import gas as gas_lines
from tests.published.emission_figures import KG, Values, of


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
