"""Hydrogen sulphide in the gas, from the sulphur of the feed: before and after iron, air and carbon, in this order.

All volumes dry. Air leaves nitrogen and the oxygen that the bacteria do not use in the gas.
"""

import numpy as np

from appraisal.lines.define import line
from appraisal.lines.trace import total


@line(per="substrate", when={"substrate_origin": "herd"})
def substrate_sulphur__herd(substrate_manure, substrate_s_kg_per_t):
    """Sulphur [kg/month]

    Element S in the manure; that of bedding, about a tenth of a per cent of straw, is not counted.
    """
    return substrate_manure * substrate_s_kg_per_t


@line(per="substrate", when={"substrate_origin": "feed"})
def substrate_sulphur__feed(substrate_tonnes, substrate_s_kg_per_t):
    """Sulphur [kg/month]

    Element S in this feed.
    """
    return substrate_tonnes * substrate_s_kg_per_t


@line()
def sulphur_fed(each_substrate_sulphur):
    """Sulphur fed [kg/month]

    Of all feeds.
    """
    return total(each_substrate_sulphur)


@line()
def sulphide_raw(sulphur_fed, cleaning_sulphide_share, sulphide_kg_per_kg_sulphur, gas_condition):
    """Hydrogen sulphide before cleaning [kg/month]

    The share of the feed's sulphur that becomes gas; it rises and falls with the condition of the tank, as methane does.
    """
    return sulphur_fed * cleaning_sulphide_share * sulphide_kg_per_kg_sulphur * gas_condition


@line(when={"cleaning_iron": "no"})
def sulphide_to_iron__no(sulphide_raw):
    """Hydrogen sulphide bound by iron [kg/month]

    None.
    """
    return 0 * sulphide_raw


@line(when={"cleaning_iron": "yes"})
def sulphide_to_iron__yes(sulphide_raw, cleaning_iron_removal_share):
    """Hydrogen sulphide bound by iron [kg/month]

    In the tank, before it reaches the gas.
    """
    return sulphide_raw * cleaning_iron_removal_share


@line(when={"cleaning_iron": "yes"})
def iron_dosed(sulphide_to_iron, cleaning_iron_kg_per_kg):
    """Iron dosed [kg/month]

    As the element.
    """
    return sulphide_to_iron * cleaning_iron_kg_per_kg


@line(when={"cleaning_air": "no"})
def air_dosed__no(biogas_made):
    """Air dosed [Nm3/month]

    None.
    """
    return 0 * biogas_made


@line(when={"cleaning_air": "yes"})
def air_dosed__yes(biogas_made, cleaning_air_share):
    """Air dosed [Nm3/month]

    Share of the biogas volume.
    """
    return biogas_made * cleaning_air_share


@line()
def oxygen_dosed(air_dosed, oxygen_share_of_air):
    """Oxygen dosed with the air [Nm3/month]

    A fifth of the air.
    """
    return air_dosed * oxygen_share_of_air


@line()
def oxygen_used(
    oxygen_dosed,
    sulphide_raw,
    sulphide_to_iron,
    cleaning_air_removal_share,
    sulphide_kg_per_nm3,
    oxygen_per_sulphide,
):
    """Oxygen used up by hydrogen sulphide [Nm3/month]

    2 H2S + O2 = 2 S + 2 H2O for the share that air takes out of what iron leaves, as far as the oxygen goes.
    """
    wanted = (sulphide_raw - sulphide_to_iron) * cleaning_air_removal_share / sulphide_kg_per_nm3 * oxygen_per_sulphide
    return np.minimum(wanted, oxygen_dosed)


@line()
def sulphide_to_air(oxygen_used, oxygen_per_sulphide, sulphide_kg_per_nm3):
    """Hydrogen sulphide made sulphur by air [kg/month]

    As much as the oxygen used up stands for.
    """
    return oxygen_used / oxygen_per_sulphide * sulphide_kg_per_nm3


@line(when={"cleaning_carbon": "no"})
def sulphide_to_carbon__no(sulphide_raw):
    """Hydrogen sulphide held by carbon [kg/month]

    None.
    """
    return 0 * sulphide_raw


@line(when={"cleaning_carbon": "yes"})
def sulphide_to_carbon__yes(sulphide_raw, sulphide_to_iron, sulphide_to_air, cleaning_carbon_removal_share):
    """Hydrogen sulphide held by carbon [kg/month]

    Share of what iron and air leave.
    """
    return np.maximum(sulphide_raw - sulphide_to_iron - sulphide_to_air, 0) * cleaning_carbon_removal_share


@line(when={"cleaning_carbon": "yes"})
def carbon_used(sulphide_to_carbon, cleaning_carbon_holds_kg_per_kg):
    """Activated carbon used up [kg/month]

    Hydrogen sulphide held over what a kilogram holds.
    """
    return sulphide_to_carbon / cleaning_carbon_holds_kg_per_kg


@line()
def sulphide_clean(sulphide_raw, sulphide_to_iron, sulphide_to_air, sulphide_to_carbon):
    """Hydrogen sulphide after cleaning [kg/month]

    What is left for the engine.
    """
    return np.maximum(sulphide_raw - sulphide_to_iron - sulphide_to_air - sulphide_to_carbon, 0)


@line()
def oxygen_left(oxygen_dosed, oxygen_used):
    """Oxygen left in the gas [Nm3/month]

    Oxygen of the air less what made sulphur.
    """
    return oxygen_dosed - oxygen_used


@line()
def gas_with_air(biogas_made, air_dosed, oxygen_share_of_air, oxygen_left):
    """Gas with what is left of the air [Nm3/month]

    Biogas, nitrogen of the air and oxygen left.
    """
    return biogas_made + air_dosed * (1 - oxygen_share_of_air) + oxygen_left


@line()
def h2s_raw(sulphide_raw, sulphide_kg_per_nm3, biogas_made, parts_per_million):
    """Hydrogen sulphide before cleaning [ppm]

    Volume over biogas; 0 when no gas is made.
    """
    volume = sulphide_raw / sulphide_kg_per_nm3 * parts_per_million
    return np.where(biogas_made > 0, volume / np.where(biogas_made > 0, biogas_made, 1), 0)


@line()
def h2s_at_engine(sulphide_clean, sulphide_kg_per_nm3, gas_with_air, parts_per_million):
    """Hydrogen sulphide at the engine [ppm]

    After cleaning, over the gas with what is left of the air; 0 when no gas is made.
    """
    volume = sulphide_clean / sulphide_kg_per_nm3 * parts_per_million
    return np.where(gas_with_air > 0, volume / np.where(gas_with_air > 0, gas_with_air, 1), 0)


@line()
def oxygen_in_gas(oxygen_left, gas_with_air):
    """Oxygen in the gas [share]

    By volume, dry, after the bacteria took theirs; 0 when no gas is made.
    """
    return np.where(gas_with_air > 0, oxygen_left / np.where(gas_with_air > 0, gas_with_air, 1), 0)


@line()
def nitrogen_in_gas(air_dosed, oxygen_share_of_air, gas_with_air):
    """Nitrogen of dosed air in the gas [share]

    By volume, dry; grids for gas take little of it.
    """
    return np.where(
        gas_with_air > 0, air_dosed * (1 - oxygen_share_of_air) / np.where(gas_with_air > 0, gas_with_air, 1), 0
    )


@line()
def methane_in_gas(methane_made, gas_with_air):
    """Methane in the gas after air dosing [share]

    By volume, dry: what the engine gets.
    """
    return np.where(gas_with_air > 0, methane_made / np.where(gas_with_air > 0, gas_with_air, 1), 0)
