"""Where the heat goes: digester first, then house, barn and a buyer; the rest is dumped, a lack is bought."""

import numpy as np

from appraisal.lines.define import line
from appraisal.lines.trace import total


@line(per="substrate", when={"substrate_regulated": "no"})
def substrate_regulated_tonnes__no(substrate_tonnes):
    """To be pasteurised by rule [t/month]

    None of this feed.
    """
    return 0 * substrate_tonnes


@line(per="substrate", when={"substrate_regulated": "yes"})
def substrate_regulated_tonnes__yes(substrate_tonnes):
    """To be pasteurised by rule [t/month]

    All of this feed.
    """
    return substrate_tonnes


@line(when={"pasteuriser_treats": "nothing"})
def pasteurised__nothing(tonnes_fed):
    """Pasteurised [t/month]

    Nothing.
    """
    return 0 * tonnes_fed


@line(when={"pasteuriser_treats": "regulated_feeds"})
def pasteurised__regulated_feeds(each_substrate_regulated_tonnes):
    """Pasteurised [t/month]

    The feeds marked as regulated.
    """
    return total(each_substrate_regulated_tonnes)


@line(when={"pasteuriser_treats": "everything"})
def pasteurised__everything(tonnes_fed):
    """Pasteurised [t/month]

    All that is fed.
    """
    return tonnes_fed


@line()
def heat_to_warm_feed(tonnes_fed, heat_capacity_kwh_per_t_k, digester_temperature_degc, site_feed_temperature_degc):
    """Heat to warm the feed [kWh/month]

    Tonnes x heat capacity x rise to digester temperature.
    """
    return (
        tonnes_fed * heat_capacity_kwh_per_t_k * np.maximum(digester_temperature_degc - site_feed_temperature_degc, 0)
    )


@line()
def heat_lost_by_tank(
    digester_heat_loss_w_per_k, w_per_kw, digester_temperature_degc, site_air_temperature_degc, hours, feeding
):
    """Heat lost by the tank [kWh/month]

    Heat loss per kelvin x distance to the outside air x hours.
    """
    gap = np.maximum(digester_temperature_degc - site_air_temperature_degc, 0)
    return digester_heat_loss_w_per_k / w_per_kw * gap * hours * feeding


@line()
def heat_to_pasteurise(
    pasteurised,
    heat_capacity_kwh_per_t_k,
    pasteuriser_temperature_degc,
    digester_temperature_degc,
    pasteuriser_heat_recovery_share,
):
    """Heat to pasteurise [kWh/month]

    From digester to pasteurising temperature, less what is recovered; up to digester temperature it warms the feed anyway.
    """
    rise = np.maximum(pasteuriser_temperature_degc - digester_temperature_degc, 0)
    return pasteurised * heat_capacity_kwh_per_t_k * rise * (1 - pasteuriser_heat_recovery_share)


@line()
def heat_to_digester(heat_to_warm_feed, heat_lost_by_tank, heat_to_pasteurise):
    """Heat the digester needs [kWh/month]

    Warming the feed, tank losses and pasteurising.
    """
    return heat_to_warm_feed + heat_lost_by_tank + heat_to_pasteurise


@line()
def heat_digester_met(heat_to_digester, heat_recoverable):
    """Digester heat from the engine [kWh/month]

    As far as engine heat reaches.
    """
    return np.minimum(heat_to_digester, heat_recoverable)


@line()
def heat_shortfall(heat_to_digester, heat_digester_met):
    """Digester heat to be bought [kWh/month]

    What the engine cannot give in that month; boilers of the months before full gas count too.
    """
    return heat_to_digester - heat_digester_met


@line()
def heat_to_house(heat_recoverable, heat_digester_met, heat_house_kwh):
    """Heat to the house [kWh/month]

    What is left after the digester, up to the need.
    """
    return np.minimum(heat_recoverable - heat_digester_met, heat_house_kwh)


@line()
def heat_to_barn(heat_recoverable, heat_digester_met, heat_to_house, heat_barn_kwh):
    """Heat to the barn [kWh/month]

    What is left after digester and house, up to the need.
    """
    return np.minimum(heat_recoverable - heat_digester_met - heat_to_house, heat_barn_kwh)


@line()
def heat_sold(heat_recoverable, heat_digester_met, heat_to_house, heat_to_barn, heat_sold_kwh):
    """Heat sold [kWh/month]

    What is left after digester, house and barn, up to what the neighbour takes.
    """
    return np.minimum(heat_recoverable - heat_digester_met - heat_to_house - heat_to_barn, heat_sold_kwh)


@line()
def heat_used(heat_digester_met, heat_to_house, heat_to_barn, heat_sold):
    """Heat used [kWh/month]

    Digester, house, barn and buyer.
    """
    return heat_digester_met + heat_to_house + heat_to_barn + heat_sold


@line()
def heat_dumped(heat_recoverable, heat_digester_met, heat_to_house, heat_to_barn, heat_sold):
    """Heat dumped [kWh/month]

    Engine heat nobody uses, taken off in the order of use so that rounding cannot push it below zero.
    """
    return heat_recoverable - heat_digester_met - heat_to_house - heat_to_barn - heat_sold
