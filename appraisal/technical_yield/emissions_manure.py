"""What today's manure store gives off: methane after the IPCC, and nitrous oxide."""

from appraisal.lines.define import line

HERD = {"substrate_origin": "herd"}
FEED = {"substrate_origin": "feed"}


@line(per="substrate", when={**HERD, "emissions_manure_solids": "as_fed"})
def substrate_counted_solids__as_fed(substrate_fresh_solids):
    """Volatile solids that would have gone to today's store [t/month]

    Those of the manure the digester is fed, as they leave the animals; bedding has no part in the producing capacity.
    """
    return substrate_fresh_solids + 0


@line(per="substrate", when={**HERD, "emissions_manure_solids": "as_excreted"})
def substrate_counted_solids__as_excreted(
    substrate_heads, substrate_excreted_kg_vs_per_head_day, substrate_barn_days, kg_per_t, substrate_supply
):
    """Volatile solids that would have gone to today's store [t/month]

    Animals x excreted solids x days whose manure is caught (IPCC 2006, Vol 4 Ch 10, equation 10.23).
    """
    return substrate_heads * substrate_excreted_kg_vs_per_head_day * substrate_barn_days / kg_per_t * substrate_supply


@line(per="substrate", when={**HERD, "emissions_manure_method": "stated_share"})
def substrate_baseline_methane__stated_share(
    substrate_counted_solids, substrate_b0_m3_per_kg_vs, ipcc_methane_kg_per_m3, credits_baseline_methane_share
):
    """Methane of today's manure store [t/month]

    Volatile solids x producing capacity x density x conversion factor of the store (IPCC 2006, equation 10.23).
    """
    return (
        substrate_counted_solids * substrate_b0_m3_per_kg_vs * ipcc_methane_kg_per_m3 * credits_baseline_methane_share
    )


@line(per="substrate", when={**HERD, "emissions_manure_method": "ipcc_2006"})
def substrate_baseline_methane__ipcc_2006(
    substrate_counted_solids,
    substrate_b0_m3_per_kg_vs,
    ipcc_methane_kg_per_m3,
    substrate_mcf_2006_share,
    substrate_solids_apart_share,
    substrate_mcf_solids_share,
):
    """Methane of today's manure store [t/month]

    IPCC 2006, Vol 4 Ch 10, equation 10.23, factor by store and yearly mean temperature (10 to 28 degC). Separated solids
    leave the liquid first and carry their own factor.
    """
    factor = (
        1 - substrate_solids_apart_share
    ) * substrate_mcf_2006_share + substrate_solids_apart_share * substrate_mcf_solids_share
    return substrate_counted_solids * substrate_b0_m3_per_kg_vs * ipcc_methane_kg_per_m3 * factor


@line(per="substrate", when={**HERD, "emissions_manure_method": "ipcc_2019"})
def substrate_baseline_methane__ipcc_2019(
    substrate_counted_solids,
    substrate_b0_m3_per_kg_vs,
    ipcc_methane_kg_per_m3,
    substrate_mcf_2019_share,
    substrate_solids_apart_share,
    substrate_mcf_solids_share,
):
    """Methane of today's manure store [t/month]

    IPCC 2019 Refinement, Vol 4 Ch 10, equation 10.23, factor by store, climate zone and months in store. Separated solids
    leave the liquid first and carry their own factor.
    """
    factor = (
        1 - substrate_solids_apart_share
    ) * substrate_mcf_2019_share + substrate_solids_apart_share * substrate_mcf_solids_share
    return substrate_counted_solids * substrate_b0_m3_per_kg_vs * ipcc_methane_kg_per_m3 * factor


@line(per="substrate", when=FEED)
def substrate_baseline_methane__feed(substrate_tonnes):
    """Methane of today's manure store [t/month]

    None: what a leftover would have given off in a landfill stands in a line of its own.
    """
    return 0 * substrate_tonnes


@line(per="substrate", when=HERD)
def substrate_store_nitrous_oxide__herd(
    substrate_nitrogen,
    substrate_store_n2o_share,
    substrate_store_ammonia_share,
    emissions_ammonia_to_n2o_share,
    n2o_per_n,
    kg_per_t,
):
    """Nitrous oxide of today's manure store [t/month]

    N x (direct + ammonia x EF4) x 44/28 (IPCC 2006, Vol 4 Ch 10, equations 10.25 to 10.27).
    """
    share = substrate_store_n2o_share + substrate_store_ammonia_share * emissions_ammonia_to_n2o_share
    return substrate_nitrogen * share * n2o_per_n / kg_per_t


@line(per="substrate", when=FEED)
def substrate_store_nitrous_oxide__feed(substrate_tonnes):
    """Nitrous oxide of today's manure store [t/month]

    None: a feed has no store on the farm today.
    """
    return 0 * substrate_tonnes
