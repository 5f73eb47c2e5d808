"""The part-load curve of each engine.

The efficiency over the load is a straight line from half to three-quarter load and another from there to full load. On
a line e = a + s x load the fuel rate over that at full load is r = load x e_full / e, so load = r a / (e_full - r s):
exact on each line. a > 0 on both, that is fuel falls with the load, when the efficiencies keep the ratios of the
constants `least_...`; the scenario's check asks for that, and draws beyond it are held there.
"""

import numpy as np

from appraisal.lines.define import line


def slope(upper, lower, at, under):
    """Rise of a straight line through two points [value per share of load]."""
    return (upper - lower) / (at - under)


def on_curve(load, full, three_quarters, half, *, three_quarter_load, half_load):
    """Value at a load [share] on two straight lines through half, three-quarter and full load."""
    above = three_quarters + slope(full, three_quarters, 1, three_quarter_load) * (load - three_quarter_load)
    below = three_quarters + slope(three_quarters, half, three_quarter_load, half_load) * (load - three_quarter_load)
    return np.where(load >= three_quarter_load, above, below)


def load_on_line(rate, full, three_quarters, rise, three_quarter_load):
    """Load [share] whose fuel rate is `rate` where the efficiency is a line of slope `rise` through three-quarter load."""
    return rate * (three_quarters - rise * three_quarter_load) / (full - rate * rise)


@line(per="engine")
def engine_site_kw(engine_rated_kw, site_elevation_m, engine_derating_from_m, engine_derating_share, derating_step_m):
    """Rated power at this height [kW]

    A share is lost for every 100 m above the height the maker's sheet holds for.
    """
    above = np.maximum(site_elevation_m - engine_derating_from_m, 0) / derating_step_m
    return engine_rated_kw * np.maximum(1 - engine_derating_share * above, 0)


@line(per="engine", when={"engine_part_load": "usual_shape"})
def engine_efficiency_at_three_quarters__usual_shape(
    engine_efficiency_full, engine_efficiency_half, usual_fall_by_three_quarters, least_three_quarters_over_full
):
    """Electric efficiency at three-quarter load [share]

    Full load less the usual part of the fall to half load.
    """
    fall = (engine_efficiency_full - engine_efficiency_half) * usual_fall_by_three_quarters
    return np.maximum(engine_efficiency_full - fall, engine_efficiency_full * least_three_quarters_over_full)


@line(per="engine", when={"engine_part_load": "data_sheet"})
def engine_efficiency_at_three_quarters__data_sheet(
    engine_efficiency_full, engine_efficiency_three_quarters, least_three_quarters_over_full
):
    """Electric efficiency at three-quarter load [share]

    As on the data sheet.
    """
    return np.maximum(engine_efficiency_three_quarters, engine_efficiency_full * least_three_quarters_over_full)


@line(per="engine")
def engine_efficiency_at_half(
    engine_efficiency_half, engine_efficiency_at_three_quarters, least_half_over_three_quarters
):
    """Electric efficiency at half load [share]

    As declared, as long as fuel falls with the load.
    """
    return np.maximum(engine_efficiency_half, engine_efficiency_at_three_quarters * least_half_over_three_quarters)


@line(per="engine", when={"engine_part_load": "usual_shape"})
def engine_heat_at_three_quarters__usual_shape(
    engine_heat_efficiency_full, engine_heat_efficiency_half, three_quarter_load, half_load
):
    """Usable heat at three-quarter load [share]

    On the straight line between half and full load, as in table engines.
    """
    rise = slope(engine_heat_efficiency_full, engine_heat_efficiency_half, 1, half_load)
    return engine_heat_efficiency_half + rise * (three_quarter_load - half_load)


@line(per="engine", when={"engine_part_load": "data_sheet"})
def engine_heat_at_three_quarters__data_sheet(engine_heat_efficiency_three_quarters):
    """Usable heat at three-quarter load [share]

    As on the data sheet.
    """
    return engine_heat_efficiency_three_quarters


@line(per="engine", when={"engine_running": "modulated"})
def engine_lowest_fuel_rate__modulated(
    engine_minimum_load,
    engine_efficiency_full,
    engine_efficiency_at_three_quarters,
    engine_efficiency_at_half,
    three_quarter_load,
    half_load,
):
    """Lowest fuel rate [share]

    At minimum load, of the fuel rate at full load; with less gas the engine stops and starts.
    """
    curve = (engine_efficiency_full, engine_efficiency_at_three_quarters, engine_efficiency_at_half)
    at_minimum = on_curve(engine_minimum_load, *curve, three_quarter_load=three_quarter_load, half_load=half_load)
    return engine_minimum_load * engine_efficiency_full / at_minimum


@line(per="engine", when={"engine_running": "full_load"})
def engine_lowest_fuel_rate__full_load(feeding):
    """Lowest fuel rate [share]

    Full load, with stops.
    """
    return np.maximum(feeding, 1)


@line(per="engine")
def engine_fuel_rate_at_three_quarters(engine_efficiency_full, engine_efficiency_at_three_quarters, three_quarter_load):
    """Fuel rate at three-quarter load [share]

    Where the two lines of the part-load curve meet.
    """
    return three_quarter_load * engine_efficiency_full / engine_efficiency_at_three_quarters
