"""What is left: digestate, its solids and nutrients. Mass in = digestate + gas + vapour, in every month."""

import numpy as np

from appraisal.lines.define import line
from appraisal.lines.trace import total


@line()
def dry_gas_mass(methane_made, biogas_made, methane_kg_per_nm3, carbon_dioxide_kg_per_nm3, kg_per_t):
    """Mass of dry gas [t/month]

    Methane, and carbon dioxide for the rest of the gas.
    """
    return (methane_made * methane_kg_per_nm3 + (biogas_made - methane_made) * carbon_dioxide_kg_per_nm3) / kg_per_t


@line()
def vapour_mass(biogas_made, vapour_kg_per_nm3, kg_per_t):
    """Water vapour that leaves with the gas [t/month]

    At digester temperature, saturated.
    """
    return biogas_made * vapour_kg_per_nm3 / kg_per_t


@line()
def digestate_mass(tonnes_fed, dry_gas_mass, vapour_mass):
    """Digestate [t/month]

    What was fed less what left as gas and vapour.
    """
    return tonnes_fed - dry_gas_mass - vapour_mass


@line(per="substrate")
def substrate_gas_mass(substrate_methane, substrate_biogas, methane_kg_per_nm3, carbon_dioxide_kg_per_nm3, kg_per_t):
    """Mass of this feed's dry gas [t/month]

    Methane, and carbon dioxide for the rest of the gas.
    """
    rest = substrate_biogas - substrate_methane
    return (substrate_methane * methane_kg_per_nm3 + rest * carbon_dioxide_kg_per_nm3) / kg_per_t


@line(per="substrate")
def substrate_gas_per_solids(
    substrate_fat_share_of_vs,
    substrate_protein_share_of_vs,
    substrate_carbohydrate_share_of_vs,
    gas_per_fat_solids,
    gas_per_protein_solids,
    gas_per_carbohydrate_solids,
):
    """Dry gas from a tonne of digested solids [t/t]

    Mean of fat 1.57, protein 1.33 and carbohydrate 1.11 by their shares, with the water they take up; that of carbohydrate
    where no make-up is known. Manure with grass silage: 7.2 kg of gas for 6.1 kg of solids in a German biogas textbook.
    Source: Buswell and Boyle stoichiometry; German biogas-plant textbook, table 4.5 (read).
    """
    whole = substrate_fat_share_of_vs + substrate_protein_share_of_vs + substrate_carbohydrate_share_of_vs
    gas = (
        substrate_fat_share_of_vs * gas_per_fat_solids
        + substrate_protein_share_of_vs * gas_per_protein_solids
        + substrate_carbohydrate_share_of_vs * gas_per_carbohydrate_solids
    )
    return np.where(whole > 0, gas / np.where(whole > 0, whole, 1), gas_per_carbohydrate_solids)


@line(per="substrate")
def substrate_solids_gone(substrate_gas_mass, substrate_gas_per_solids, substrate_volatile_solids):
    """Volatile solids of this feed turned into gas [t/month]

    Less than the mass of its gas, because digestion takes up water; never more than was fed, whatever gas is claimed.
    """
    return np.minimum(substrate_gas_mass / substrate_gas_per_solids, substrate_volatile_solids)


@line()
def volatile_solids_gone(each_substrate_solids_gone):
    """Volatile solids turned into gas [t/month]

    Of all feeds.
    """
    return total(each_substrate_solids_gone)


@line()
def volatile_solids_gone_share(volatile_solids_gone, volatile_solids_fed):
    """Volatile solids turned into gas, of those fed [share]

    0 when nothing is fed.
    """
    return np.where(
        volatile_solids_fed > 0, volatile_solids_gone / np.where(volatile_solids_fed > 0, volatile_solids_fed, 1), 0
    )


@line()
def digestate_dry_matter(dry_matter_fed, volatile_solids_gone):
    """Dry matter in digestate [t/month]

    Dry matter fed less what became gas.
    """
    return dry_matter_fed - volatile_solids_gone


@line(per="substrate", when={"substrate_origin": "herd"})
def substrate_nitrogen__herd(substrate_manure, substrate_n_kg_per_t, substrate_bedding, substrate_bedding_n_kg_per_t):
    """Nitrogen [kg/month]

    Total N in manure and bedding.
    """
    return substrate_manure * substrate_n_kg_per_t + substrate_bedding * substrate_bedding_n_kg_per_t


@line(per="substrate", when={"substrate_origin": "feed"})
def substrate_nitrogen__feed(substrate_tonnes, substrate_n_kg_per_t):
    """Nitrogen [kg/month]

    Total N in this feed.
    """
    return substrate_tonnes * substrate_n_kg_per_t


@line(per="substrate", when={"substrate_origin": "herd"})
def substrate_phosphorus__herd(substrate_manure, substrate_p_kg_per_t, substrate_bedding, substrate_bedding_p_kg_per_t):
    """Phosphorus [kg/month]

    Element P in manure and bedding.
    """
    return substrate_manure * substrate_p_kg_per_t + substrate_bedding * substrate_bedding_p_kg_per_t


@line(per="substrate", when={"substrate_origin": "feed"})
def substrate_phosphorus__feed(substrate_tonnes, substrate_p_kg_per_t):
    """Phosphorus [kg/month]

    Element P in this feed.
    """
    return substrate_tonnes * substrate_p_kg_per_t


@line(per="substrate", when={"substrate_origin": "herd"})
def substrate_potassium__herd(substrate_manure, substrate_k_kg_per_t, substrate_bedding, substrate_bedding_k_kg_per_t):
    """Potassium [kg/month]

    Element K in manure and bedding.
    """
    return substrate_manure * substrate_k_kg_per_t + substrate_bedding * substrate_bedding_k_kg_per_t


@line(per="substrate", when={"substrate_origin": "feed"})
def substrate_potassium__feed(substrate_tonnes, substrate_k_kg_per_t):
    """Potassium [kg/month]

    Element K in this feed.
    """
    return substrate_tonnes * substrate_k_kg_per_t


@line(per="substrate", when={"substrate_origin": "herd"})
def substrate_ammonium__herd(substrate_manure, substrate_n_kg_per_t, substrate_ammonium_share):
    """Ammonium nitrogen [kg/month]

    Ammonium part of the manure before digestion; bedding brings none.
    """
    return substrate_manure * substrate_n_kg_per_t * substrate_ammonium_share


@line(per="substrate", when={"substrate_origin": "feed"})
def substrate_ammonium__feed(substrate_nitrogen, substrate_ammonium_share):
    """Ammonium nitrogen [kg/month]

    Ammonium part before digestion.
    """
    return substrate_nitrogen * substrate_ammonium_share


@line()
def nitrogen_fed(each_substrate_nitrogen):
    """Nitrogen fed [kg/month]

    Of all feeds.
    """
    return total(each_substrate_nitrogen)


@line()
def nitrogen_lost(nitrogen_fed, digester_nitrogen_loss_share):
    """Nitrogen lost as ammonia [kg/month]

    From digester and store.
    """
    return nitrogen_fed * digester_nitrogen_loss_share


@line()
def digestate_nitrogen(nitrogen_fed, nitrogen_lost):
    """Nitrogen in digestate [kg/month]

    Fed less lost.
    """
    return nitrogen_fed - nitrogen_lost


@line()
def digestate_phosphorus(each_substrate_phosphorus):
    """Phosphorus in digestate [kg/month]

    All that was fed.
    """
    return total(each_substrate_phosphorus)


@line()
def digestate_potassium(each_substrate_potassium):
    """Potassium in digestate [kg/month]

    All that was fed.
    """
    return total(each_substrate_potassium)
