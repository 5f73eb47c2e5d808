"""Methane of today's manure store month by month: temperature, carry-over, emptying, and what is left when the plant comes."""

import numpy as np

from appraisal.lines.define import line

HERD = {"substrate_origin": "herd"}
FEED = {"substrate_origin": "feed"}
STORE = {"emissions_manure_method": "store_model"}
US = {**STORE, "emissions_store_set": "us_livestock_offset"}
IPCC = {**STORE, "emissions_store_set": "ipcc_2019_annex"}


@line(when=STORE)
def air_of_month(site_air_temperature_degc):
    """Mean air temperature [degC]

    Of the month.
    """
    return site_air_temperature_degc + 0


@line(when=US)
def store_temperature__us(air_of_month, emissions_store_floor_degc, us_store_ceiling_degc):
    """Temperature of the manure in today's store [degC]

    Air of the month, not under the floor and not over the ceiling of the method.
    """
    return np.minimum(np.maximum(air_of_month, emissions_store_floor_degc), us_store_ceiling_degc)


@line(when=IPCC)
def store_temperature__ipcc_2019(previous_air_of_month, emissions_store_floor_degc, ipcc_2019_store_ceiling_degc):
    """Temperature of the manure in today's store [degC]

    Air of the month before (in month 0 the floor or 0 degC), not under the floor, not over the ceiling of the method.
    """
    return np.minimum(np.maximum(previous_air_of_month, emissions_store_floor_degc), ipcc_2019_store_ceiling_degc)


@line(when=US)
def store_factor__us(
    store_temperature, zero_degc_k, us_store_activation, us_store_reference_k, store_gas_constant
):
    """Part of the solids in store that react in the month [share]

    van't Hoff-Arrhenius: f = exp(E (T2 - T1) / (R T1 T2)); Climate Action Reserve US livestock protocol.
    """
    kelvin = store_temperature + zero_degc_k
    return np.exp(
        us_store_activation * (kelvin - us_store_reference_k) / (store_gas_constant * us_store_reference_k * kelvin)
    )


@line(when=IPCC)
def store_factor__ipcc_2019(
    store_temperature, zero_degc_k, ipcc_2019_store_activation, ipcc_2019_store_reference_k, store_gas_constant
):
    """Part of the solids in store that react in the month [share]

    van't Hoff-Arrhenius: f = exp(E (T2 - T1) / (R T1 T2)); IPCC 2019 Refinement, Vol 4 Ch 10, Annex 10A.3.
    """
    kelvin = store_temperature + zero_degc_k
    return np.exp(
        ipcc_2019_store_activation
        * (kelvin - ipcc_2019_store_reference_k)
        / (store_gas_constant * ipcc_2019_store_reference_k * kelvin)
    )


@line(when=US)
def store_design_share__us(us_store_design_share):
    """Solids that the method lets react [share]

    The rest is taken as lost on the way.
    """
    return us_store_design_share + 0


@line(when=IPCC)
def store_design_share__ipcc_2019(ipcc_2019_store_design_share):
    """Solids that the method lets react [share]

    All of them.
    """
    return ipcc_2019_store_design_share + 0


@line(when=US)
def store_methane_density__us(us_store_methane_kg_per_m3):
    """Methane density of the method [kg/m3]

    At 60 degF.
    """
    return us_store_methane_kg_per_m3 + 0


@line(when=IPCC)
def store_methane_density__ipcc_2019(ipcc_2019_store_methane_kg_per_m3):
    """Methane density of the method [kg/m3]

    Near 20 degC.
    """
    return ipcc_2019_store_methane_kg_per_m3 + 0


@line(per="substrate", when={**HERD, **STORE, "emissions_manure_solids": "as_fed"})
def substrate_store_solids__as_fed(substrate_fresh_solids_made):
    """Volatile solids that the herd's manure brings to a store [t/month]

    In every month, before the plant is there as well: the store is older than the plant.
    """
    return substrate_fresh_solids_made + 0


@line(per="substrate", when={**HERD, **STORE, "emissions_manure_solids": "as_excreted"})
def substrate_store_solids__as_excreted(
    substrate_heads, substrate_excreted_kg_vs_per_head_day, substrate_barn_days, kg_per_t
):
    """Volatile solids that the herd's manure brings to a store [t/month]

    In every month, before the plant is there as well: the store is older than the plant.
    """
    return substrate_heads * substrate_excreted_kg_vs_per_head_day * substrate_barn_days / kg_per_t


@line(per="substrate", when={**HERD, **STORE}, roll="today_store")
def substrate_store_available(
    substrate_store_solids,
    store_design_share,
    substrate_solids_apart_share,
    previous_substrate_store_available,
    previous_substrate_store_degraded,
    emissions_store_emptied_share,
):
    """Volatile solids in today's store that can react [t]

    New ones, and what is left of the month before unless the store was emptied.
    """
    left = (previous_substrate_store_available - previous_substrate_store_degraded) * (
        1 - emissions_store_emptied_share
    )
    return left + substrate_store_solids * (1 - substrate_solids_apart_share) * store_design_share


@line(per="substrate", when={**HERD, **STORE}, roll="today_store")
def substrate_store_degraded(substrate_store_available, store_factor):
    """Volatile solids that react in today's store [t/month]

    Those available x the factor of the month's temperature.
    """
    return substrate_store_available * store_factor


@line(per="substrate", when={**HERD, **STORE}, roll="today_store")
def substrate_rest_available(
    substrate_store_solids,
    store_design_share,
    substrate_solids_apart_share,
    previous_substrate_rest_available,
    previous_substrate_rest_degraded,
    emissions_store_emptied_share,
    feeding,
):
    """Volatile solids left in the old store [t]

    With the plant nothing new comes after the first feeding; what is there reacts or is spread.
    """
    left = (previous_substrate_rest_available - previous_substrate_rest_degraded) * (1 - emissions_store_emptied_share)
    return left + substrate_store_solids * (1 - substrate_solids_apart_share) * store_design_share * (1 - feeding)


@line(per="substrate", when={**HERD, **STORE}, roll="today_store")
def substrate_rest_degraded(substrate_rest_available, store_factor):
    """Volatile solids that react in the old store [t/month]

    Those left x the factor of the month's temperature.
    """
    return substrate_rest_available * store_factor


@line(per="substrate", when={**HERD, **STORE})
def substrate_baseline_methane__store_model(
    substrate_store_degraded,
    store_methane_density,
    substrate_store_solids,
    substrate_solids_apart_share,
    substrate_mcf_solids_share,
    ipcc_methane_kg_per_m3,
    substrate_b0_m3_per_kg_vs,
    feeding,
):
    """Methane of today's manure store [t/month]

    Solids that react x producing capacity x density, and separated solids by their own factor; counted once the plant runs.
    """
    apart = substrate_store_solids * substrate_solids_apart_share * substrate_mcf_solids_share
    volume = substrate_store_degraded * store_methane_density + apart * ipcc_methane_kg_per_m3
    return volume * substrate_b0_m3_per_kg_vs * feeding


@line(per="substrate", when={**HERD, **STORE})
def substrate_old_store_methane__store_model(
    substrate_rest_degraded, store_methane_density, substrate_b0_m3_per_kg_vs, feeding
):
    """Methane of what is left in the old store [t/month]

    After the first feeding, until it has reacted or is spread.
    """
    return substrate_rest_degraded * store_methane_density * substrate_b0_m3_per_kg_vs * feeding


@line(per="substrate", when={**HERD, "emissions_manure_method": "stated_share|ipcc_2006|ipcc_2019"})
def substrate_old_store_methane__yearly_factor(substrate_tonnes):
    """Methane of what is left in the old store [t/month]

    None: a yearly factor counts the manure's methane in the month it comes.
    """
    return 0 * substrate_tonnes


@line(per="substrate", when=FEED)
def substrate_old_store_methane__feed(substrate_tonnes):
    """Methane of what is left in the old store [t/month]

    None: a feed has no store on the farm today.
    """
    return 0 * substrate_tonnes
