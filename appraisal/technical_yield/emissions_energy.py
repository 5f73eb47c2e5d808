"""Power, fuel, fertilizer, fields, trucks and other feed in the count of greenhouse gases."""

import numpy as np

from appraisal.lines.define import line
from appraisal.lines.trace import total

HERD = {"substrate_origin": "herd"}
FEED = {"substrate_origin": "feed"}


@line()
def grid_factor(emissions_grid_kg_co2e_per_kwh, emissions_grid_fall_rate, years_on):
    """Greenhouse gas of a kWh from the grid [kg CO2e/kWh]

    Falls every project year by the share given.
    """
    return emissions_grid_kg_co2e_per_kwh * (1 - emissions_grid_fall_rate) ** years_on


@line()
def without_power(power_to_farm, power_sold, grid_factor, kg_per_t):
    """Without the plant: power the grid makes instead [t CO2e/month]

    Power for farm and grid x factor of the grid; what the farm buys in both cases is left out.
    """
    return (power_to_farm + power_sold) * grid_factor / kg_per_t


@line()
def with_power(power_bought, grid_factor, kg_per_t):
    """With the plant: power bought [t CO2e/month]

    What the plant buys while its engines stand.
    """
    return power_bought * grid_factor / kg_per_t


@line()
def without_fuel(fuel_replaced, emissions_fuel_kg_co2e_per_kwh, kg_per_t):
    """Without the plant: fuel that is replaced [t CO2e/month]

    Fuel of house and barn x carbon dioxide of the fuel, both on the lower heating value.
    """
    return fuel_replaced * emissions_fuel_kg_co2e_per_kwh / kg_per_t


@line()
def heat_of_bought_fuel(heat_shortfall, heat_first_warming, heat_to_refill, upgrading_heat):
    """Heat made from bought fuel [kWh/month]

    What the engines leave short, the warming of fillings, and the heat of upgrading.
    """
    return heat_shortfall + heat_first_warming + heat_to_refill + upgrading_heat


@line()
def with_fuel(heat_of_bought_fuel, farm_now_boiler_efficiency, emissions_fuel_kg_co2e_per_kwh, kg_per_t):
    """With the plant: fuel bought for heat [t CO2e/month]

    Heat bought over the boiler's efficiency x carbon dioxide of the farm's fuel.
    """
    return heat_of_bought_fuel / farm_now_boiler_efficiency * emissions_fuel_kg_co2e_per_kwh / kg_per_t


@line()
def without_gas(gas_sold, emissions_gas_kg_co2e_per_kwh, kg_per_t):
    """Without the plant: natural gas that sold gas replaces [t CO2e/month]

    Gas that reaches the grid x carbon dioxide of natural gas, both on the higher heating value.
    """
    return gas_sold * emissions_gas_kg_co2e_per_kwh / kg_per_t


@line()
def organic_field_factor(
    emissions_field_organic_share,
    emissions_field_organic_ammonia_share,
    emissions_ammonia_to_n2o_share,
    emissions_leached_share,
    emissions_leached_to_n2o_share,
    n2o_per_n,
):
    """Nitrous oxide per unit of organic nitrogen spread [kg/kg]

    (EF1 + FracGASM x EF4 + FracLEACH x EF5) x 44/28 (IPCC 2006, Vol 4 Ch 11, equations 11.1, 11.9, 11.10).
    """
    gas = emissions_field_organic_ammonia_share * emissions_ammonia_to_n2o_share
    leached = emissions_leached_share * emissions_leached_to_n2o_share
    return (emissions_field_organic_share + gas + leached) * n2o_per_n


@line()
def mineral_field_factor(
    emissions_field_mineral_share,
    emissions_field_mineral_ammonia_share,
    emissions_ammonia_to_n2o_share,
    emissions_leached_share,
    emissions_leached_to_n2o_share,
    n2o_per_n,
):
    """Nitrous oxide per unit of mineral nitrogen spread [kg/kg]

    (EF1 + FracGASF x EF4 + FracLEACH x EF5) x 44/28 (IPCC 2006, Vol 4 Ch 11, equations 11.1, 11.9, 11.10).
    """
    gas = emissions_field_mineral_ammonia_share * emissions_ammonia_to_n2o_share
    leached = emissions_leached_share * emissions_leached_to_n2o_share
    return (emissions_field_mineral_share + gas + leached) * n2o_per_n


@line(per="substrate", when=HERD)
def substrate_nitrogen_spread_today__herd(substrate_nitrogen, substrate_store_ammonia_share, substrate_store_n2o_share):
    """Nitrogen spread without the plant [kg/month]

    Of the manure, less what its store gives off.
    """
    return substrate_nitrogen * (1 - substrate_store_ammonia_share - substrate_store_n2o_share)


@line(per="substrate", when=FEED)
def substrate_nitrogen_spread_today__feed(substrate_tonnes):
    """Nitrogen spread without the plant [kg/month]

    None: this feed would not come.
    """
    return 0 * substrate_tonnes


@line()
def without_fields(
    each_substrate_nitrogen_spread_today,
    organic_field_factor,
    nitrogen_replaced,
    mineral_field_factor,
    emissions_gwp_nitrous_oxide,
    kg_per_t,
):
    """Without the plant: nitrous oxide of the fields [t CO2e/month]

    Of manure nitrogen, and of the mineral nitrogen that digestate replaces.
    """
    organic = total(each_substrate_nitrogen_spread_today) * organic_field_factor
    mineral = np.maximum(nitrogen_replaced, 0) * mineral_field_factor
    return (organic + mineral) / kg_per_t * emissions_gwp_nitrous_oxide


@line()
def with_fields(
    nitrogen_for_land,
    organic_field_factor,
    nitrogen_replaced,
    mineral_field_factor,
    emissions_gwp_nitrous_oxide,
    kg_per_t,
):
    """With the plant: nitrous oxide of the fields [t CO2e/month]

    Of digestate nitrogen wherever it is spread, and of mineral nitrogen bought more than before, where crops get less.
    """
    mineral = np.maximum(-nitrogen_replaced, 0) * mineral_field_factor
    return (nitrogen_for_land * organic_field_factor + mineral) / kg_per_t * emissions_gwp_nitrous_oxide


@line()
def without_fertilizer(
    nitrogen_replaced,
    phosphorus_replaced,
    potassium_replaced,
    emissions_fertilizer_n_kg_co2e_per_kg,
    emissions_fertilizer_p2o5_kg_co2e_per_kg,
    emissions_fertilizer_k2o_kg_co2e_per_kg,
    p2o5_per_p,
    k2o_per_k,
    kg_per_t,
):
    """Without the plant: making of fertilizer that is replaced [t CO2e/month]

    Replaced N, P and K x greenhouse gas of making them; P and K as elements, the factors per kg of oxide.
    """
    made = (
        np.maximum(nitrogen_replaced, 0) * emissions_fertilizer_n_kg_co2e_per_kg
        + np.maximum(phosphorus_replaced, 0) * p2o5_per_p * emissions_fertilizer_p2o5_kg_co2e_per_kg
        + np.maximum(potassium_replaced, 0) * k2o_per_k * emissions_fertilizer_k2o_kg_co2e_per_kg
    )
    return made / kg_per_t


@line()
def with_fertilizer(nitrogen_replaced, emissions_fertilizer_n_kg_co2e_per_kg, kg_per_t):
    """With the plant: making of fertilizer bought more [t CO2e/month]

    Where crops get less nitrogen from digestate than from manure today.
    """
    return np.maximum(-nitrogen_replaced, 0) * emissions_fertilizer_n_kg_co2e_per_kg / kg_per_t


@line(per="substrate")
def substrate_truck_diesel(
    substrate_delivered, substrate_round_trip_km, emissions_truck_load_t, emissions_truck_litres_per_km
):
    """Diesel to bring it [L/month]

    Loads x way there and back x diesel per km.
    """
    return substrate_delivered / emissions_truck_load_t * substrate_round_trip_km * emissions_truck_litres_per_km


@line()
def with_trucks(each_substrate_truck_diesel, digestate_truck_diesel, emissions_diesel_kg_co2e_per_l, kg_per_t):
    """With the plant: trucks [t CO2e/month]

    Diesel to bring the feeds and to haul digestate away.
    """
    return (total(each_substrate_truck_diesel) + digestate_truck_diesel) * emissions_diesel_kg_co2e_per_l / kg_per_t


@line(per="substrate", when=FEED)
def substrate_other_feed__feed(
    substrate_tonnes, substrate_fed_before_share, substrate_replacement_feed_kg_co2e_per_t, kg_per_t
):
    """Greenhouse gas of feed that replaces it [t CO2e/month]

    Leftovers that fed animals x greenhouse gas of what the animals get instead.
    """
    return substrate_tonnes * substrate_fed_before_share * substrate_replacement_feed_kg_co2e_per_t / kg_per_t


@line(per="substrate", when=HERD)
def substrate_other_feed__herd(substrate_tonnes):
    """Greenhouse gas of feed that replaces it [t CO2e/month]

    None: manure fed nobody.
    """
    return 0 * substrate_tonnes


@line()
def with_other_feed(each_substrate_other_feed):
    """With the plant: feed that replaces leftovers [t CO2e/month]

    Of all leftovers that fed animals before.
    """
    return total(each_substrate_other_feed)
