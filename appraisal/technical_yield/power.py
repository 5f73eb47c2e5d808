"""Where the power goes: the plant itself first, then the farm, then the grid."""

import numpy as np

from appraisal.lines.define import line
from appraisal.lines.trace import total


@line(per="engine")
def engine_auxiliaries(engine_power, engine_auxiliaries_share):
    """Power for the engine's own pumps and fans [kWh/month]

    Share of its gross power.
    """
    return engine_power * engine_auxiliaries_share


@line()
def process_power(tonnes_fed, power_plant_use_kwh_per_t, pasteurised, pasteuriser_power_kwh_per_t):
    """Power the process needs [kWh/month]

    Stirring, pumps and feeding per tonne, pasteurising per tonne pasteurised.
    """
    return tonnes_fed * power_plant_use_kwh_per_t + pasteurised * pasteuriser_power_kwh_per_t


@line()
def running_share(run_hours, hours):
    """Share of the time an engine runs [share]

    Run hours over hours, at most 1; several engines are taken to stand at different times.
    """
    return np.minimum(run_hours / hours, 1)


@line()
def power_own_use(process_power, running_share, each_engine_auxiliaries, power_gross):
    """Own use from the engine [kWh/month]

    Process power while an engine runs, and engine auxiliaries; never more than is made.
    """
    return np.minimum(process_power * running_share + total(each_engine_auxiliaries), power_gross)


@line()
def power_bought(process_power, each_engine_auxiliaries, power_own_use):
    """Power bought for the plant [kWh/month]

    What the plant needs while the engine stands.
    """
    return process_power + total(each_engine_auxiliaries) - power_own_use


@line()
def power_to_farm(power_gross, power_own_use, farm_now_power_kwh, power_farm_use_matched_share):
    """Farm power replaced [kWh/month]

    The part of the farm's present use that falls in hours with engine power; never more than the farm buys now.
    """
    return np.minimum(power_gross - power_own_use, farm_now_power_kwh * power_farm_use_matched_share)


@line()
def power_sold(power_gross, power_own_use, power_to_farm):
    """Power sold [kWh/month]

    Gross less own use and farm use.
    """
    return power_gross - power_own_use - power_to_farm
