"""Engines: how much of the methane they burn, at which load, for how many hours, and what comes out."""

import numpy as np

from appraisal.lines.define import line
from appraisal.lines.trace import total
from appraisal.technical_yield.part_load import load_on_line, on_curve, slope


@line(per="engine")
def engine_fuel_capacity(engine_site_kw, engine_efficiency_full, methane_kwh_per_nm3, engine_available_hours):
    """Methane it can burn [Nm3/month]

    At full load in every hour it is available.
    """
    return engine_site_kw / engine_efficiency_full / methane_kwh_per_nm3 * engine_available_hours


@line()
def fuel_capacity(each_engine_fuel_capacity):
    """Methane all engines can burn [Nm3/month]

    At full load in every available hour.
    """
    return total(each_engine_fuel_capacity)


@line()
def fuel_fraction(methane_for_engines, fuel_capacity):
    """Methane over what the engines can burn [share]

    At most 1; every engine gets the same fraction of its capacity.
    """
    return np.where(
        fuel_capacity > 0, np.minimum(methane_for_engines / np.where(fuel_capacity > 0, fuel_capacity, 1), 1), 0
    )


@line(per="engine")
def engine_fuel_rate(fuel_fraction, engine_lowest_fuel_rate):
    """Fuel rate while running [share]

    As low as the gas, but not under the lowest.
    """
    return np.maximum(fuel_fraction, engine_lowest_fuel_rate)


@line(per="engine")
def engine_load_by_gas(
    engine_fuel_rate,
    engine_fuel_rate_at_three_quarters,
    engine_efficiency_full,
    engine_efficiency_at_three_quarters,
    engine_efficiency_at_half,
    three_quarter_load,
    half_load,
):
    """Load that the gas allows [share]

    The load of a new engine whose fuel need, by the part-load curve, equals the fuel rate.
    """
    upper = slope(engine_efficiency_full, engine_efficiency_at_three_quarters, 1, three_quarter_load)
    lower = slope(engine_efficiency_at_three_quarters, engine_efficiency_at_half, three_quarter_load, half_load)
    high = np.maximum(engine_fuel_rate, engine_fuel_rate_at_three_quarters)
    low = np.minimum(engine_fuel_rate, engine_fuel_rate_at_three_quarters)
    line_of = (engine_efficiency_full, engine_efficiency_at_three_quarters)
    return np.where(
        engine_fuel_rate >= engine_fuel_rate_at_three_quarters,
        load_on_line(high, *line_of, upper, three_quarter_load),
        load_on_line(low, *line_of, lower, three_quarter_load),
    )


@line(per="engine")
def engine_hours(fuel_fraction, engine_fuel_rate, engine_available_hours):
    """Run hours [hour/month]

    Available hours x methane over the fuel rate while running.
    """
    return engine_available_hours * fuel_fraction / engine_fuel_rate


@line(per="engine")
def engine_power_possible(engine_site_kw, engine_load_by_gas, engine_wear_kept, engine_hours):
    """Gross power before any export limit [kWh/month]

    Rated power x load x hours, less wear.
    """
    return engine_site_kw * engine_load_by_gas * engine_wear_kept * engine_hours


@line()
def power_possible(each_engine_power_possible):
    """Gross power before any export limit [kWh/month]

    Of all engines.
    """
    return total(each_engine_power_possible)


@line(per="engine")
def engine_fuel_offered(engine_fuel_capacity, fuel_fraction):
    """Methane burned before any export limit [Nm3/month]

    Its share of the methane, slip included.
    """
    return engine_fuel_capacity * fuel_fraction


@line(per="engine", when={"grid_export": "unlimited"})
def engine_load__unlimited(engine_load_by_gas):
    """Load while running [share]

    As the gas allows, of rated power at this height; a worn engine gives less at the same place of its governor.
    """
    return engine_load_by_gas


@line(per="engine", when={"grid_export": "limited"})
def engine_load__limited(engine_load_by_gas, power_kept_share):
    """Load while running [share]

    As the gas allows, turned down as far as the export limit asks; all engines alike, and under the minimum load if it must.
    """
    return engine_load_by_gas * power_kept_share


@line(per="engine", when={"grid_export": "unlimited"})
def engine_fuel__unlimited(engine_fuel_offered):
    """Methane burned [Nm3/month]

    Its share of the methane, slip included.
    """
    return engine_fuel_offered


@line(per="engine", when={"grid_export": "limited"})
def engine_fuel__limited(
    engine_fuel_offered,
    engine_fuel_rate,
    engine_load,
    power_curtailed,
    engine_efficiency_full,
    engine_efficiency_at_three_quarters,
    engine_efficiency_at_half,
    three_quarter_load,
    half_load,
):
    """Methane burned [Nm3/month]

    Its share of the methane, slip included; under the export limit the fuel of the lower load in the same hours.
    """
    curve = (engine_efficiency_full, engine_efficiency_at_three_quarters, engine_efficiency_at_half)
    at_load = on_curve(engine_load, *curve, three_quarter_load=three_quarter_load, half_load=half_load)
    rate = engine_load * engine_efficiency_full / at_load
    return np.where(power_curtailed > 0, engine_fuel_offered * (rate / engine_fuel_rate), engine_fuel_offered)


@line(per="engine", when={"grid_export": "unlimited"})
def engine_power__unlimited(engine_power_possible):
    """Gross power [kWh/month]

    Rated power x load x hours, less wear.
    """
    return engine_power_possible


@line(per="engine", when={"grid_export": "limited"})
def engine_power__limited(engine_power_possible, power_kept_share):
    """Gross power [kWh/month]

    What is possible, turned down as far as the export limit asks.
    """
    return engine_power_possible * power_kept_share


@line(per="engine")
def engine_heat(
    engine_fuel,
    methane_kwh_per_nm3,
    engine_load,
    engine_heat_efficiency_full,
    engine_heat_at_three_quarters,
    engine_heat_efficiency_half,
    three_quarter_load,
    half_load,
):
    """Usable heat [kWh/month]

    Fuel energy x heat efficiency at that load.
    """
    curve = (engine_heat_efficiency_full, engine_heat_at_three_quarters, engine_heat_efficiency_half)
    share = on_curve(engine_load, *curve, three_quarter_load=three_quarter_load, half_load=half_load)
    return engine_fuel * methane_kwh_per_nm3 * share


@line(per="engine")
def engine_slip(engine_fuel, engine_slip_share):
    """Methane slip [Nm3/month]

    Unburned methane in the exhaust.
    """
    return engine_fuel * engine_slip_share


@line()
def methane_burned(each_engine_fuel):
    """Methane burned in engines [Nm3/month]

    Of all engines, slip included.
    """
    return total(each_engine_fuel)


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
