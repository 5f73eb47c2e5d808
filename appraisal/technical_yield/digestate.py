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


@line()
def volatile_solids_gone(dry_gas_mass, solids_per_dry_gas):
    """Volatile solids turned into gas [t/month]

    Less than the mass of gas, because digestion takes up water.
    """
    return dry_gas_mass * solids_per_dry_gas


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


@line(per="substrate")
def substrate_nitrogen(substrate_tonnes, substrate_n_kg_per_t):
    """Nitrogen [kg/month]

    Total N in this feed.
    """
    return substrate_tonnes * substrate_n_kg_per_t


@line(per="substrate")
def substrate_phosphorus(substrate_tonnes, substrate_p_kg_per_t):
    """Phosphorus [kg/month]

    Element P in this feed.
    """
    return substrate_tonnes * substrate_p_kg_per_t


@line(per="substrate")
def substrate_potassium(substrate_tonnes, substrate_k_kg_per_t):
    """Potassium [kg/month]

    Element K in this feed.
    """
    return substrate_tonnes * substrate_k_kg_per_t


@line(per="substrate")
def substrate_ammonium(substrate_nitrogen, substrate_ammonium_share):
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


@line()
def digestate_ammonium(each_substrate_ammonium, nitrogen_fed, volatile_solids_gone_share):
    """Ammonium nitrogen in the tank [kg/month]

    What came as ammonium, and organic nitrogen as far as the solids are digested.
    """
    came = total(each_substrate_ammonium)
    return came + (nitrogen_fed - came) * volatile_solids_gone_share


@line()
def ammonium_level(digestate_ammonium, digestate_mass, mix_t_per_m3):
    """Ammonium nitrogen in the tank liquid [kg/m3]

    The same as grams per litre; 0 when nothing is fed.
    """
    return np.where(
        digestate_mass > 0, digestate_ammonium / np.where(digestate_mass > 0, digestate_mass, 1) * mix_t_per_m3, 0
    )
