"""Where the power goes: the plant itself first, then the farm, then the grid as far as it takes it."""

import numpy as np

from appraisal.lines.define import line
from appraisal.lines.trace import total


@line(per="engine")
def engine_auxiliaries(engine_power_possible, engine_auxiliaries_share):
    """Power for the engine's own pumps and fans [kWh/month]

    Share of its gross power; turning down to an export limit saves none of it.
    """
    return engine_power_possible * engine_auxiliaries_share


@line()
def running_share(run_hours, hours):
    """Share of the time an engine runs [share]

    Run hours over hours, at most 1; several engines are taken to stand at different times.
    """
    return np.minimum(run_hours / hours, 1)


@line()
def power_own_use(process_power, running_share, each_engine_auxiliaries, power_possible):
    """Own use from the engine [kWh/month]

    Process power while an engine runs, and engine auxiliaries; never more than is made.
    """
    return np.minimum(process_power * running_share + total(each_engine_auxiliaries), power_possible)


@line()
def power_bought(process_power, each_engine_auxiliaries, power_own_use):
    """Power bought for the plant [kWh/month]

    What the plant needs while the engine stands, from the grid.
    """
    return process_power + total(each_engine_auxiliaries) - power_own_use


@line()
def power_to_farm(power_possible, power_own_use, farm_now_power_kwh, power_farm_use_matched_share):
    """Farm power replaced [kWh/month]

    The part of the farm's present use that falls in hours with engine power; never more than the farm buys now.
    """
    return np.minimum(power_possible - power_own_use, farm_now_power_kwh * power_farm_use_matched_share)


@line()
def power_for_grid(power_possible, power_own_use, power_to_farm):
    """Power for the grid before any limit [kWh/month]

    Gross less own use and farm use.
    """
    return power_possible - power_own_use - power_to_farm


@line(when={"grid_export": "unlimited"})
def power_curtailed__unlimited(power_for_grid):
    """Power curtailed [kWh/month]

    None: the grid takes all.
    """
    return 0 * power_for_grid


@line(when={"grid_export": "limited"})
def power_curtailed__limited(power_for_grid, grid_export_limit_kw, running_share, hours):
    """Power curtailed [kWh/month]

    What is over the export limit in the hours in which an engine runs.
    """
    return np.maximum(power_for_grid - grid_export_limit_kw * running_share * hours, 0)


@line(when={"grid_export": "limited"})
def power_kept_share(power_curtailed, power_possible):
    """Gross power left by the export limit [share]

    1 in months in which the limit does not bind.
    """
    return np.where(power_possible > 0, 1 - power_curtailed / np.where(power_possible > 0, power_possible, 1), 1)


@line(when={"grid_export": "limited"})
def hours_at_limit(power_curtailed, running_share, hours):
    """Hours at the export limit [hour/month]

    All hours in which an engine runs, in months in which the limit binds.
    """
    return np.where(power_curtailed > 0, running_share * hours, 0)


@line()
def power_sold(power_for_grid, power_curtailed):
    """Power sold [kWh/month]

    What is for the grid less what it does not take.
    """
    return power_for_grid - power_curtailed
