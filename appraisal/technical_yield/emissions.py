"""Greenhouse gases with and without the plant, by source, and the methane behind a credit."""

from appraisal.lines.define import line
from appraisal.lines.trace import total


@line()
def methane_destroyed(methane_to_use, methane_slipped, methane_unburned, methane_kg_per_nm3, kg_per_t):
    """Methane burned in engine and flare [t/month]

    What a meter would show, less slip and what the flare leaves.
    """
    return (methane_to_use - methane_slipped - methane_unburned) * methane_kg_per_nm3 / kg_per_t


@line()
def methane_unburned(methane_flared, emissions_flare_unburned_share):
    """Methane that the flare leaves unburned [Nm3/month]

    Flared methane x its unburned share.
    """
    return methane_flared * emissions_flare_unburned_share


@line()
def methane_from_store(methane_made, store_methane_loss_share):
    """Methane that leaves the digestate store [Nm3/month]

    Methane made x loss of the store; it comes on top of the gas of the digester.
    """
    return methane_made * store_methane_loss_share


@line()
def methane_lost(methane_leaked, methane_slipped, methane_unburned, methane_from_store, methane_kg_per_nm3, kg_per_t):
    """Methane the plant loses [t/month]

    Leaks, engine slip, what the flare leaves, and the digestate store.
    """
    lost = methane_leaked + methane_slipped + methane_unburned + methane_from_store
    return lost * methane_kg_per_nm3 / kg_per_t


@line()
def without_manure_methane(each_substrate_baseline_methane, emissions_gwp_methane):
    """Without the plant: methane of the manure store [t CO2e/month]

    Of all herds.
    """
    return total(each_substrate_baseline_methane) * emissions_gwp_methane


@line()
def without_manure_nitrous_oxide(each_substrate_store_nitrous_oxide, emissions_gwp_nitrous_oxide):
    """Without the plant: nitrous oxide of the manure store [t CO2e/month]

    Of all herds.
    """
    return total(each_substrate_store_nitrous_oxide) * emissions_gwp_nitrous_oxide


@line()
def without_landfill(each_substrate_landfill_methane, emissions_gwp_methane):
    """Without the plant: landfill methane of leftovers [t CO2e/month]

    Of the share shown to be landfilled.
    """
    return total(each_substrate_landfill_methane) * emissions_gwp_methane


@line()
def with_plant_methane(
    methane_leaked, methane_slipped, methane_unburned, methane_kg_per_nm3, kg_per_t, emissions_gwp_methane
):
    """With the plant: methane of leaks, engine and flare [t CO2e/month]

    Leakage, slip and what the flare leaves.
    """
    lost = methane_leaked + methane_slipped + methane_unburned
    return lost * methane_kg_per_nm3 / kg_per_t * emissions_gwp_methane


@line()
def with_store_methane(
    methane_from_store, methane_kg_per_nm3, kg_per_t, each_substrate_old_store_methane, emissions_gwp_methane
):
    """With the plant: methane of stores [t CO2e/month]

    Of the digestate store, and of what is left in the old manure store.
    """
    old = total(each_substrate_old_store_methane)
    return (methane_from_store * methane_kg_per_nm3 / kg_per_t + old) * emissions_gwp_methane


@line()
def with_store_nitrous_oxide(
    nitrogen_fed,
    emissions_digester_n2o_share,
    nitrogen_lost,
    emissions_ammonia_to_n2o_share,
    n2o_per_n,
    kg_per_t,
    emissions_gwp_nitrous_oxide,
):
    """With the plant: nitrous oxide of the stores [t CO2e/month]

    N fed x direct share, and N lost as ammonia x EF4, x 44/28.
    """
    nitrogen = nitrogen_fed * emissions_digester_n2o_share + nitrogen_lost * emissions_ammonia_to_n2o_share
    return nitrogen * n2o_per_n / kg_per_t * emissions_gwp_nitrous_oxide


@line()
def emissions_without(
    without_manure_methane,
    without_manure_nitrous_oxide,
    without_landfill,
    without_power,
    without_fuel,
    without_gas,
    without_fertilizer,
    without_fields,
):
    """Emissions without the plant [t CO2e/month]

    Of all sources that the plant changes; what is alike in both cases is left out.
    """
    manure = without_manure_methane + without_manure_nitrous_oxide
    energy = without_power + without_fuel + without_gas
    return manure + without_landfill + energy + without_fertilizer + without_fields


@line()
def emissions_with(
    with_plant_methane,
    with_store_methane,
    with_store_nitrous_oxide,
    with_power,
    with_fuel,
    with_fertilizer,
    with_fields,
    with_trucks,
    with_other_feed,
):
    """Emissions with the plant [t CO2e/month]

    Of all sources that the plant changes; what is alike in both cases is left out.
    """
    plant = with_plant_methane + with_store_methane + with_store_nitrous_oxide
    return plant + with_power + with_fuel + with_fertilizer + with_fields + with_trucks + with_other_feed


@line()
def emissions_avoided(emissions_without, emissions_with):
    """Emissions avoided [t CO2e/month]

    Without less with the plant; negative where the plant adds.
    """
    return emissions_without - emissions_with


@line()
def methane_reduction_modelled(each_substrate_baseline_methane, methane_lost, each_substrate_old_store_methane):
    """Manure methane avoided as modelled [t/month]

    Today's store less the losses of the plant, which may outweigh it.
    """
    return total(each_substrate_baseline_methane) - methane_lost - total(each_substrate_old_store_methane)
