"""Where the heat goes: digester first, then house, barn, dryer and a buyer; the rest is dumped, a lack is bought."""

import numpy as np

from appraisal.lines.define import line


@line()
def heat_digester_met(heat_to_digester, heat_recoverable):
    """Digester heat from the engine [kWh/month]

    As far as engine heat reaches.
    """
    return np.minimum(heat_to_digester, heat_recoverable)


@line()
def heat_shortfall(heat_lacking, heat_from_boiler):
    """Digester heat to be bought [kWh/month]

    What engine and biogas boiler cannot give in that month; boilers of the months before full gas count too.
    """
    return heat_lacking - heat_from_boiler


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
def heat_to_dryer(heat_recoverable, heat_digester_met, heat_to_house, heat_to_barn, heat_drying_kwh):
    """Heat to the dryer [kWh/month]

    What is left after digester, house and barn, up to what the dryer takes.
    """
    return np.minimum(heat_recoverable - heat_digester_met - heat_to_house - heat_to_barn, heat_drying_kwh)


@line()
def heat_left_to_sell(heat_recoverable, heat_digester_met, heat_to_house, heat_to_barn, heat_to_dryer):
    """Heat left to sell [kWh/month]

    What digester, house, barn and dryer leave.
    """
    return heat_recoverable - heat_digester_met - heat_to_house - heat_to_barn - heat_to_dryer


@line(when={"heat_main_losses": "none"})
def heat_into_main__none(heat_left_to_sell, heat_sold_kwh):
    """Heat sent to the buyer [kWh/month]

    What is left, up to what the buyer takes.
    """
    return np.minimum(heat_left_to_sell, heat_sold_kwh)


@line(when={"heat_main_losses": "share"})
def heat_into_main__share(heat_left_to_sell, heat_sold_kwh, heat_main_loss_share):
    """Heat sent to the buyer [kWh/month]

    What is left, up to what the buyer takes and the main loses on the way.
    """
    return np.minimum(heat_left_to_sell, heat_sold_kwh / (1 - heat_main_loss_share))


@line(when={"heat_main_losses": "by_length"})
def heat_main_standing_loss(heat_main_length_m, heat_main_loss_w_per_m, w_per_kw, hours):
    """Heat a warm main loses in the month [kWh/month]

    Length x loss per metre x hours, however little is sold through it.
    """
    return heat_main_length_m * heat_main_loss_w_per_m / w_per_kw * hours


@line(when={"heat_main_losses": "by_length"})
def heat_into_main__by_length(heat_left_to_sell, heat_sold_kwh, heat_main_standing_loss):
    """Heat sent to the buyer [kWh/month]

    What is left, up to what the buyer takes and the main loses; the main stays cold in months without a buyer, or with
    less heat than it would lose.
    """
    worth = np.minimum(heat_sold_kwh, heat_left_to_sell - heat_main_standing_loss)
    return np.where(worth > 0, np.minimum(heat_left_to_sell, heat_sold_kwh + heat_main_standing_loss), 0)


@line(when={"heat_main_losses": "none"})
def heat_sold__none(heat_into_main):
    """Heat sold [kWh/month]

    All that is sent.
    """
    return heat_into_main


@line(when={"heat_main_losses": "share"})
def heat_sold__share(heat_into_main, heat_main_loss_share):
    """Heat sold [kWh/month]

    What is sent, less the share lost in the main.
    """
    return heat_into_main * (1 - heat_main_loss_share)


@line(when={"heat_main_losses": "by_length"})
def heat_sold__by_length(heat_into_main, heat_main_standing_loss):
    """Heat sold [kWh/month]

    What is sent, less what the main loses in the month.
    """
    return np.maximum(heat_into_main - heat_main_standing_loss, 0)


@line()
def heat_lost_in_main(heat_into_main, heat_sold):
    """Heat lost in the main [kWh/month]

    What is sent and does not arrive.
    """
    return heat_into_main - heat_sold


@line()
def heat_used(heat_digester_met, heat_to_house, heat_to_barn, heat_to_dryer, heat_into_main):
    """Heat used [kWh/month]

    Digester, house, barn, dryer and buyer, the losses of the heat main included.
    """
    return heat_digester_met + heat_to_house + heat_to_barn + heat_to_dryer + heat_into_main


@line()
def heat_dumped(heat_left_to_sell, heat_into_main):
    """Heat dumped [kWh/month]

    Engine heat nobody uses, taken off in the order of use so that rounding cannot push it below zero.
    """
    return heat_left_to_sell - heat_into_main


@line()
def circulation_power(heat_into_main, heat_circulation_share):
    """Power to pump heat to the buyer [kWh/month]

    Share of the heat sent. It is bought, apart from the plant's own use, because heat flows also while the engine stands.
    """
    return heat_into_main * heat_circulation_share
