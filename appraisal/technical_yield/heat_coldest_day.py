"""The coldest day as a design check: what the digester needs on it and what the engines can give. It moves no money.

Each line asks what would be were the coldest day in that month; the answer that counts is the coldest month's.
"""

import numpy as np

from appraisal.lines.define import line
from appraisal.technical_yield.heat_shell import HEATED, LAGOON, ONE_FIGURE, WALLS


@line(when=HEATED)
def coldest_day_gap(digester_temperature_degc, site_coldest_day_degc, site_air_temperature_degc):
    """Digester above the air of the coldest day [K]

    The coldest day is never taken warmer than the month it falls in.
    """
    return np.maximum(digester_temperature_degc - np.minimum(site_coldest_day_degc, site_air_temperature_degc), 0)


@line(when=ONE_FIGURE)
def coldest_day_loss__given(digester_heat_loss_w_per_k, w_per_kw, coldest_day_gap, feeding):
    """Loss of the tank on the coldest day, were it in this month [kW]

    Heat loss per kelvin x distance to that day's air.
    """
    return digester_heat_loss_w_per_k / w_per_kw * coldest_day_gap * feeding


@line(when=WALLS)
def coldest_day_loss__from_walls(
    loss_to_air, w_per_kw, coldest_day_gap, feeding, heat_lost_by_buried_wall, heat_lost_by_floor, hours
):
    """Loss of the tank on the coldest day, were it in this month [kW]

    Wall and roof against that day's air; the ground does not notice a single day, so its loss is the month's.
    """
    return loss_to_air / w_per_kw * coldest_day_gap * feeding + (heat_lost_by_buried_wall + heat_lost_by_floor) / hours


@line(when=HEATED)
def coldest_day_need__heated(heat_to_warm_feed, heat_to_pasteurise, heat_of_digestion, hours, coldest_day_loss):
    """Heat the digester needs on the coldest day, were it in this month [kW]

    Feed and pasteurising as the month has them, the tank's loss as on the coldest day. Meant for the coldest month.
    """
    return np.maximum((heat_to_warm_feed + heat_to_pasteurise - heat_of_digestion) / hours + coldest_day_loss, 0)


@line(when=LAGOON)
def coldest_day_need__lagoon(heat_to_pasteurise, hours):
    """Heat the digester needs on the coldest day, were it in this month [kW]

    Only what is pasteurised; a lagoon is not heated.
    """
    return heat_to_pasteurise / hours


@line(per="engine")
def engine_heat_at_full_load(engine_site_kw, engine_efficiency_full, engine_heat_efficiency_full):
    """Usable heat at full load [kW]

    Fuel at the power it can give at this height x heat efficiency.
    """
    return engine_site_kw / engine_efficiency_full * engine_heat_efficiency_full
