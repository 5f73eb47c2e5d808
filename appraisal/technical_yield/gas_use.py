"""Where the gas goes after engines: boiler, then flare. Methane made = leak + upgrading + engines + boiler + flare.

And what the gas store and the flare can do: hours of storage, reach of the flare at peak gas.
"""

import numpy as np

from appraisal.lines.define import line
from appraisal.lines.trace import total


@line(per="engine", when={"grid_export": "unlimited"})
def engine_fuel_freed__unlimited(engine_fuel_offered):
    """Methane the export limit leaves unburned [Nm3/month]

    None: there is no limit.
    """
    return 0 * engine_fuel_offered


@line(per="engine", when={"grid_export": "limited"})
def engine_fuel_freed__limited(engine_fuel_offered, engine_fuel):
    """Methane the export limit leaves unburned [Nm3/month]

    Burned before the limit less burned under it.
    """
    return np.maximum(engine_fuel_offered - engine_fuel, 0)


@line()
def methane_freed(each_engine_fuel_freed):
    """Methane the export limit leaves unburned [Nm3/month]

    Of all engines.
    """
    return total(each_engine_fuel_freed)


@line()
def methane_over_capacity(methane_for_engines, fuel_capacity):
    """Methane over the capacity of the engines [Nm3/month]

    They could not burn it in all their hours at full load.
    """
    return np.maximum(methane_for_engines - fuel_capacity, 0)


@line(when={"grid_over_limit": "throttled"})
def methane_for_boiler__throttled(methane_over_capacity, methane_freed):
    """Methane a boiler may have [Nm3/month]

    What is over the capacity of the engines and what the export limit leaves.
    """
    return methane_over_capacity + methane_freed


@line(when={"grid_over_limit": "flared"})
def methane_for_boiler__flared(methane_over_capacity):
    """Methane a boiler may have [Nm3/month]

    What is over the capacity of the engines; what the export limit leaves is flared.
    """
    return methane_over_capacity


@line()
def heat_lacking(heat_to_digester, heat_digester_met):
    """Digester heat the engines cannot give [kWh/month]

    Need less what the engines give.
    """
    return heat_to_digester - heat_digester_met


@line(when={"boiler_fuel": "biogas"})
def boiler_heat_wanted(heat_lacking, boiler_rated_kw, hours):
    """Heat wanted of the biogas boiler [kWh/month]

    What the digester lacks, as far as the boiler reaches in all hours.
    """
    return np.minimum(heat_lacking, boiler_rated_kw * hours)


@line(when={"boiler_fuel": "biogas"})
def boiler_methane_wanted(boiler_heat_wanted, boiler_efficiency, methane_kwh_per_nm3):
    """Methane for that heat [Nm3/month]

    Heat over efficiency and heating value.
    """
    return boiler_heat_wanted / (boiler_efficiency * methane_kwh_per_nm3)


@line(when={"boiler_fuel": "none"})
def methane_to_boiler__none(methane_for_boiler):
    """Methane burned in the boiler [Nm3/month]

    None.
    """
    return 0 * methane_for_boiler


@line(when={"boiler_fuel": "biogas"})
def methane_to_boiler__biogas(methane_for_boiler, boiler_methane_wanted):
    """Methane burned in the boiler [Nm3/month]

    As much as the heat asks for and the engines leave; slip included.
    """
    return np.minimum(methane_for_boiler, boiler_methane_wanted)


@line(when={"boiler_fuel": "none"})
def heat_from_boiler__none(heat_lacking):
    """Digester heat from the biogas boiler [kWh/month]

    None.
    """
    return 0 * heat_lacking


@line(when={"boiler_fuel": "biogas"})
def heat_from_boiler__biogas(
    methane_for_boiler, boiler_methane_wanted, boiler_heat_wanted, boiler_efficiency, methane_kwh_per_nm3
):
    """Digester heat from the biogas boiler [kWh/month]

    All that is wanted where there is gas enough, else what the gas gives.
    """
    from_gas = methane_for_boiler * methane_kwh_per_nm3 * boiler_efficiency
    return np.where(methane_for_boiler >= boiler_methane_wanted, boiler_heat_wanted, from_gas)


@line(when={"boiler_fuel": "none"})
def boiler_slip__none(methane_to_boiler):
    """Methane slip of the boiler [Nm3/month]

    None.
    """
    return 0 * methane_to_boiler


@line(when={"boiler_fuel": "biogas"})
def boiler_slip__biogas(methane_to_boiler, boiler_slip_share):
    """Methane slip of the boiler [Nm3/month]

    Unburned methane in its exhaust.
    """
    return methane_to_boiler * boiler_slip_share


@line(when={"grid_over_limit": "throttled"})
def methane_flared__throttled(methane_for_boiler, methane_to_boiler):
    """Methane flared [Nm3/month]

    What engines and boiler leave.
    """
    return methane_for_boiler - methane_to_boiler


@line(when={"grid_over_limit": "flared"})
def methane_flared__flared(methane_for_boiler, methane_to_boiler, methane_freed):
    """Methane flared [Nm3/month]

    What engines and boiler leave, and all that the export limit leaves unburned.
    """
    return methane_for_boiler - methane_to_boiler + methane_freed


@line()
def methane_slipped(each_engine_slip, boiler_slip, upgrading_slip):
    """Methane slipped [Nm3/month]

    Unburned or unrecovered: engines, boiler and upgrading.
    """
    return total(each_engine_slip) + boiler_slip + upgrading_slip


@line()
def air_pressure(site_elevation_m, air_thins_per_m, air_thins_power, normal_pressure_kpa):
    """Air pressure [kPa]

    Of the standard atmosphere at this height: 101.325 (1 - 2.25577e-5 h)^5.25588, ISO 2533 (from memory), up to 11 km.
    """
    return normal_pressure_kpa * (1 - air_thins_per_m * site_elevation_m) ** air_thins_power


@line()
def stored_gas_dry_share(
    gas_storage_temperature_degc,
    gas_storage_pressure_kpa,
    air_pressure,
    buck_a_kpa,
    buck_b,
    buck_c_degc,
    buck_d_degc,
    zero_degc_k,
    normal_pressure_kpa,
):
    """Dry normal volume in a volume of stored gas [Nm3/m3]

    V x 273.15/(273.15 + t) x (p - p_sat)/101.325, saturated; p_sat after Buck 1981 (1996 form), 0 to 60 degC.
    """
    t = gas_storage_temperature_degc
    saturation = buck_a_kpa * np.exp((buck_b - t / buck_c_degc) * t / (buck_d_degc + t))
    dry = np.maximum(air_pressure + gas_storage_pressure_kpa - saturation, 0)
    return zero_degc_k / (zero_degc_k + t) * dry / normal_pressure_kpa


@line()
def gas_storage_hours(gas_storage_m3, stored_gas_dry_share, biogas_made, hours):
    """Gas storage at mean output [hour]

    Gas that the store holds over the mean hour of the month; 0 when no store is stated or no gas is made.
    """
    hourly = biogas_made / hours
    return np.where(hourly > 0, gas_storage_m3 * stored_gas_dry_share / np.where(hourly > 0, hourly, 1), 0)


@line()
def peak_gas(biogas_made, hours, gas_peak_over_mean):
    """Peak gas [Nm3/hour]

    Dry biogas of the mean hour of the month x how far the peak stands above it.
    """
    return biogas_made / hours * gas_peak_over_mean


@line()
def flare_reach(gas_flare_nm3_per_hour, peak_gas):
    """Reach of the flare at peak gas [share]

    What it can burn over peak gas: below 1 gas is blown off when all else stands. 0 when none is stated or no gas is made.
    """
    return np.where(peak_gas > 0, gas_flare_nm3_per_hour / np.where(peak_gas > 0, peak_gas, 1), 0)
