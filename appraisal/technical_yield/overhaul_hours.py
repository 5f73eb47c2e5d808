"""How many hours each engine is ready: planned stops, availability, overhauls; and how worn it is.

The clock that calls for overhauls counts the hours the engines would run if overhauls took no time: so the hours of a
month never hang on an overhaul that hangs on the hours of that month. Clock and hour meter part by no more than the hours
that overhauls took so far, a month or two at the end of a long life with long overhauls; a single engine's clock runs
ahead, so its overhauls are paid rather early.
"""

import numpy as np

from appraisal.lines.define import line
from appraisal.lines.trace import total


@line(per="engine")
def engine_stop_season(engine_planned_stop_weight, days):
    """Season weight of planned stops times days [day/month]

    Splits the planned stops of a year over the months.
    """
    return engine_planned_stop_weight * days


@line(per="engine")
def engine_planned_stop(
    engine_planned_stop_weeks_per_year,
    hours_per_week,
    engine_stop_season,
    life_sum_engine_stop_season,
    life_sum_days,
    days_per_year,
    feeding,
):
    """Planned stop [hour/month]

    Weeks a year spread by season, so that twelve months add up to the year.
    """
    season = np.where(life_sum_engine_stop_season > 0, life_sum_engine_stop_season, 1)
    weight = engine_stop_season * life_sum_days / season / days_per_year
    return engine_planned_stop_weeks_per_year * hours_per_week * weight * feeding


@line(per="engine", when={"engine_failure": "not_counted"})
def engine_ready_hours__no_failure(hours, feeding, engine_planned_stop, engine_availability):
    """Hours ready, overhauls apart [hour/month]

    Hours outside planned stops x availability. One week and 3 % forced stops leave 8,334 of 8,760 hours.
    """
    return np.maximum(hours * feeding - engine_planned_stop, 0) * engine_availability


@line(per="engine", when={"engine_failure": "counted"})
def engine_ready_hours__failure(hours, feeding, engine_planned_stop, engine_availability, engine_failure_off):
    """Hours ready, overhauls apart [hour/month]

    Hours outside planned stops x availability, none while the engine stands after its failure.
    """
    return np.maximum(hours * feeding - engine_planned_stop, 0) * engine_availability * (1 - engine_failure_off)


@line(per="engine")
def engine_clock_capacity(engine_site_kw, engine_efficiency_full, methane_kwh_per_nm3, engine_ready_hours):
    """Methane it could burn without overhauls [Nm3/month]

    At full load in every ready hour.
    """
    return engine_site_kw / engine_efficiency_full / methane_kwh_per_nm3 * engine_ready_hours


@line()
def clock_capacity(each_engine_clock_capacity):
    """Methane all engines could burn without overhauls [Nm3/month]

    Of all engines.
    """
    return total(each_engine_clock_capacity)


@line()
def clock_fuel_fraction(methane_for_engines, clock_capacity):
    """Methane over what the engines could burn without overhauls [share]

    At most 1.
    """
    return np.where(
        clock_capacity > 0, np.minimum(methane_for_engines / np.where(clock_capacity > 0, clock_capacity, 1), 1), 0
    )


@line(per="engine")
def engine_clock_hours(engine_ready_hours, clock_fuel_fraction, engine_lowest_fuel_rate):
    """Hours on the overhaul clock [hour/month]

    Hours it would run if overhauls took no time.
    """
    return engine_ready_hours * clock_fuel_fraction / np.maximum(clock_fuel_fraction, engine_lowest_fuel_rate)


@line(per="engine")
def engine_majors_done(cumulative_engine_clock_hours, engine_major_interval_hours, rounding_tolerance):
    """Major overhauls fallen due so far [1]

    Hours on the clock over the interval, rounded down; a round number counts as reached.
    """
    return np.floor(cumulative_engine_clock_hours / engine_major_interval_hours + rounding_tolerance)


@line(per="engine")
def engine_majors_due(engine_majors_done, previous_engine_majors_done):
    """Major overhauls due [1/month]

    In the month in which the hours cross the interval.
    """
    return engine_majors_done - previous_engine_majors_done


@line(per="engine")
def engine_hours_since_major(cumulative_engine_clock_hours, engine_majors_done, engine_major_interval_hours):
    """Hours since the last major overhaul [hour]

    On the clock, at the end of the month.
    """
    return np.maximum(cumulative_engine_clock_hours - engine_majors_done * engine_major_interval_hours, 0)


@line(per="engine")
def engine_top_ends_since_major(engine_hours_since_major, engine_top_end_interval_hours, rounding_tolerance):
    """Top-end overhauls fallen due since the last major one [1]

    A major overhaul includes a top end, so the clock starts again with it; a round number counts as reached.
    """
    return np.floor(engine_hours_since_major / engine_top_end_interval_hours + rounding_tolerance)


@line(per="engine")
def engine_top_ends_due(engine_top_ends_since_major, previous_engine_top_ends_since_major):
    """Top-end overhauls due [1/month]

    In the month in which the hours since the last major overhaul cross the interval.
    """
    return np.maximum(engine_top_ends_since_major - previous_engine_top_ends_since_major, 0)


@line(per="engine")
def engine_overhaul_stop(
    engine_majors_due, engine_major_stop_hours, engine_top_ends_due, engine_top_end_stop_hours, engine_ready_hours
):
    """Stop for overhauls [hour/month]

    Overhauls due x the hours they take, at most all ready hours of the month.
    """
    stop = engine_majors_due * engine_major_stop_hours + engine_top_ends_due * engine_top_end_stop_hours
    return np.minimum(stop, engine_ready_hours)


@line(per="engine")
def engine_available_hours(engine_ready_hours, engine_overhaul_stop):
    """Hours available [hour/month]

    Ready hours less overhauls.
    """
    return engine_ready_hours - engine_overhaul_stop


@line(per="engine")
def engine_wear_kept(
    engine_hours_since_major,
    engine_top_ends_since_major,
    engine_top_end_interval_hours,
    engine_top_end_recovery_share,
    engine_efficiency_drift_share,
    wear_hours,
):
    """Efficiency left by wear [share]

    Falls in a straight line with the hours since the last major overhaul; a top-end overhaul makes good a share of the
    wear of its interval. A worn engine is taken to burn the fuel of a new one and to give less power.
    """
    healed = engine_top_ends_since_major * engine_top_end_interval_hours * engine_top_end_recovery_share
    worn = np.maximum(engine_hours_since_major - healed, 0)
    return np.maximum(1 - engine_efficiency_drift_share * worn / wear_hours, 0)
