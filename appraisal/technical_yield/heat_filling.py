"""Heat to warm a whole tank: once before there is gas, and again after every clean-out. It is bought."""

import numpy as np

from appraisal.lines.define import line
from appraisal.technical_yield.heat_shell import HEATED, LAGOON


@line(when=HEATED)
def heat_of_filling(clean_volume, mix_t_per_m3, heat_capacity_kwh_per_t_k, digester_temperature_degc, feed_temperature):
    """Heat to warm a whole filling, were it in this month [kWh]

    Active volume x density x heat capacity x rise from the temperature of the feed; of two tanks in series the first, whose
    outflow warms the second.
    """
    rise = np.maximum(digester_temperature_degc - feed_temperature, 0)
    return clean_volume * mix_t_per_m3 * heat_capacity_kwh_per_t_k * rise


@line(when=HEATED)
def heat_first_warming__heated(heat_of_filling, first_feeding):
    """Heat to warm the first filling [kWh/month]

    All of it in the first month of feeding: there is no gas yet, so it is bought. The feed of that month is warmed besides,
    and warm seed sludge is not taken off, both on the safe side.
    """
    return heat_of_filling * first_feeding


@line(when=LAGOON)
def heat_first_warming__lagoon(feeding):
    """Heat to warm the first filling [kWh/month]

    None: a lagoon follows the weather.
    """
    return 0 * feeding


@line(when=HEATED)
def heat_to_refill__heated(heat_of_filling, clean_out_begins):
    """Heat to warm the tank after a clean-out [kWh/month]

    A whole filling, bought, counted in the month in which the tank is opened.
    """
    return heat_of_filling * clean_out_begins


@line(when=LAGOON)
def heat_to_refill__lagoon(feeding):
    """Heat to warm the tank after a clean-out [kWh/month]

    None: a lagoon follows the weather.
    """
    return 0 * feeding
