"""Engines: how much of the methane they burn, at which load, for how many hours, and what comes out."""

import numpy as np

from appraisal.lines.define import line
from appraisal.lines.trace import total


def at_load(load, full, half, half_load):
    """Straight line through the values at half and full load."""
    return half + (full - half) * (load - half_load) / (1 - half_load)


@line(per="engine")
def engine_fuel_capacity(
    engine_rated_kw, engine_efficiency_full, methane_kwh_per_nm3, engine_availability, hours, feeding
):
    """Methane it can burn [Nm3/month]

    At full load in every hour it is available.
    """
    return engine_rated_kw / engine_efficiency_full / methane_kwh_per_nm3 * engine_availability * hours * feeding


@line()
def fuel_capacity(each_engine_fuel_capacity):
    """Methane all engines can burn [Nm3/month]

    At full load in every available hour.
    """
    return total(each_engine_fuel_capacity)


@line()
def fuel_fraction(methane_to_use, fuel_capacity):
    """Methane over what the engines can burn [share]

    At most 1; every engine gets the same fraction of its capacity.
    """
    return np.where(fuel_capacity > 0, np.minimum(methane_to_use / np.where(fuel_capacity > 0, fuel_capacity, 1), 1), 0)


@line(per="engine")
def engine_least_fuel_fraction(engine_minimum_load, engine_efficiency_full, engine_efficiency_half, half_load):
    """Fuel rate at minimum load [share]

    Of the fuel rate at full load; below it the engine stops and starts.
    """
    return (
        engine_minimum_load
        * engine_efficiency_full
        / at_load(engine_minimum_load, engine_efficiency_full, engine_efficiency_half, half_load)
    )


@line(per="engine", when={"engine_running": "modulated"})
def engine_fuel_rate__modulated(fuel_fraction, engine_least_fuel_fraction):
    """Fuel rate while running [share]

    As low as the gas, but not under the minimum load.
    """
    return np.maximum(fuel_fraction, engine_least_fuel_fraction)


@line(per="engine", when={"engine_running": "full_load"})
def engine_fuel_rate__full_load(feeding):
    """Fuel rate while running [share]

    Full load, with stops.
    """
    return np.maximum(feeding, 1)


@line(per="engine")
def engine_load(engine_fuel_rate, engine_efficiency_full, engine_efficiency_half, half_load):
    """Load while running [share]

    The load whose fuel need, by the part-load efficiency, equals the fuel rate.
    """
    slope = (engine_efficiency_full - engine_efficiency_half) / (1 - half_load)
    return (
        engine_fuel_rate
        * (engine_efficiency_half - slope * half_load)
        / (engine_efficiency_full - engine_fuel_rate * slope)
    )


@line(per="engine")
def engine_hours(fuel_fraction, engine_fuel_rate, engine_availability, hours, feeding):
    """Run hours [hour/month]

    Available hours x methane over the fuel rate while running.
    """
    return hours * engine_availability * feeding * fuel_fraction / engine_fuel_rate


@line(per="engine")
def engine_fuel(engine_fuel_capacity, fuel_fraction):
    """Methane burned [Nm3/month]

    Its share of the methane, slip included.
    """
    return engine_fuel_capacity * fuel_fraction


@line(per="engine")
def engine_power(engine_rated_kw, engine_load, engine_hours):
    """Gross power [kWh/month]

    Rated power x load x hours.
    """
    return engine_rated_kw * engine_load * engine_hours


@line(per="engine")
def engine_heat(
    engine_fuel, methane_kwh_per_nm3, engine_load, engine_heat_efficiency_full, engine_heat_efficiency_half, half_load
):
    """Usable heat [kWh/month]

    Fuel energy x heat efficiency at that load.
    """
    return (
        engine_fuel
        * methane_kwh_per_nm3
        * at_load(engine_load, engine_heat_efficiency_full, engine_heat_efficiency_half, half_load)
    )


@line(per="engine")
def engine_slip(engine_fuel, engine_slip_share):
    """Methane slip [Nm3/month]

    Unburned methane in the exhaust.
    """
    return engine_fuel * engine_slip_share


@line(per="engine")
def engine_majors_done(cumulative_engine_hours, engine_major_interval_hours, rounding_tolerance):
    """Major overhauls fallen due so far [1]

    Run hours over the interval, rounded down; a round number counts as reached.
    """
    return np.floor(cumulative_engine_hours / engine_major_interval_hours + rounding_tolerance)


@line(per="engine")
def engine_majors_due(engine_majors_done, previous_engine_majors_done):
    """Major overhauls due [1/month]

    In the month in which the hours cross the interval.
    """
    return engine_majors_done - previous_engine_majors_done


@line(per="engine")
def engine_top_ends_since_major(
    cumulative_engine_hours,
    engine_majors_done,
    engine_major_interval_hours,
    engine_top_end_interval_hours,
    rounding_tolerance,
):
    """Top-end overhauls fallen due since the last major one [1]

    A major overhaul includes a top end, so the clock starts again with it; a round number counts as reached.
    """
    since = cumulative_engine_hours - engine_majors_done * engine_major_interval_hours
    return np.floor(since / engine_top_end_interval_hours + rounding_tolerance)


@line(per="engine")
def engine_top_ends_due(engine_top_ends_since_major, previous_engine_top_ends_since_major):
    """Top-end overhauls due [1/month]

    In the month in which the hours since the last major overhaul cross the interval.
    """
    return np.maximum(engine_top_ends_since_major - previous_engine_top_ends_since_major, 0)


@line()
def methane_burned(each_engine_fuel):
    """Methane burned in engines [Nm3/month]

    Of all engines, slip included.
    """
    return total(each_engine_fuel)


@line()
def methane_slipped(each_engine_slip):
    """Methane slipped [Nm3/month]

    Through all engines.
    """
    return total(each_engine_slip)


@line()
def methane_flared(methane_to_use, fuel_capacity):
    """Methane flared [Nm3/month]

    What is over the capacity of the engines; with what they burn it makes up all methane to use.
    """
    return np.maximum(methane_to_use - fuel_capacity, 0)


@line()
def power_gross(each_engine_power):
    """Gross power [kWh/month]

    Of all engines.
    """
    return total(each_engine_power)


@line()
def heat_recoverable(each_engine_heat):
    """Usable engine heat [kWh/month]

    Of all engines.
    """
    return total(each_engine_heat)


@line()
def run_hours(each_engine_hours):
    """Run hours of all engines [hour/month]

    Added up over engines.
    """
    return total(each_engine_hours)
