"""The share of a feed's methane that the digester wins.

First order in ideal reactors: 1 / (1 + k t) is left by a stirred tank, the product of it by tanks in series, exp(-k t) by a
plug flow, t the retention time: mass balances of chemical reaction engineering, textbook matter.
"""

import numpy as np

from appraisal.lines.define import line


@line(per="substrate", when={"digester_kind": "stirred_tank|covered_lagoon"})
def substrate_left_in_one_pass__stirred_tank(substrate_rate, rate_factor, retention):
    """Share of the ultimate methane left after one pass [share]

    1 / (1 + k t) in one fully mixed tank. A lagoon is taken as mixed and each month as if it had always been that warm: what
    settles in winter and gasifies in summer moves much gas between the months and adds a few hundredths to the year.
    Valid where nothing inhibits and the tank is mixed to its walls.
    Source: mass balance of an ideal reactor, textbook of chemical reaction engineering.
    Source: mass balance of an ideal mixed reactor, chemical reaction engineering, textbook matter.
    """
    return 1 / (1 + substrate_rate * rate_factor * retention)


@line(per="substrate", when={"digester_kind": "tanks_in_series"})
def substrate_left_in_one_pass__tanks_in_series(
    substrate_rate, rate_factor, first_retention, second_rate_factor, second_retention
):
    """Share of the ultimate methane left after one pass [share]

    1 / ((1 + k1 t1)(1 + k2 t2)), each tank at its own temperature and retention time. Valid where nothing inhibits.
    Source: mass balance of an ideal reactor, textbook of chemical reaction engineering.
    Source: mass balance of two ideal mixed reactors, chemical reaction engineering, textbook matter.
    """
    first = 1 + substrate_rate * rate_factor * first_retention
    return 1 / (first * (1 + substrate_rate * second_rate_factor * second_retention))


@line(per="substrate", when={"digester_kind": "plug_flow"})
def substrate_left_in_one_pass__plug_flow(substrate_rate, rate_factor, retention):
    """Share of the ultimate methane left after one pass [share]

    exp(-k t) in a channel where nothing overtakes. Valid for thick manure, from about 11 % dry matter, which does not part.
    Source: mass balance of an ideal reactor, textbook of chemical reaction engineering.
    Source: mass balance of an ideal plug flow, chemical reaction engineering, textbook matter.
    """
    return np.exp(-(substrate_rate * rate_factor * retention))


@line(per="substrate")
def substrate_first_order_conversion(substrate_left_in_one_pass, returned_ratio, recirculation_undigested_share):
    """Share of the ultimate methane won, by first-order rates [share]

    1 less what leaves for good. With r m3 returned for each one fed, a share u of the undigested in it, and e left in one pass,
    e (1 + r (1 - u)) / (1 + r (1 - u e)) leaves: the balance of a tank with return flow, 1 - e where nothing is returned.
    Source: mass balance, checked by running the loop round.
    """
    away = 1 + returned_ratio * (1 - recirculation_undigested_share)
    through = 1 + returned_ratio * (1 - recirculation_undigested_share * substrate_left_in_one_pass)
    return 1 - substrate_left_in_one_pass * away / through


@line(when={"digester_kind": "stirred_tank"})
def growth_conversion(growth_rate, retention, kinetic_term):
    """Share of the ultimate methane won, by microbial growth [share]

    1 - K / (mu t - 1 + K); the microbes are washed out and nothing is won where the retention time t is not above 1 / mu.
    Valid for manure alone in one stirred tank at 20 to 60 degC, up to about 80 kg VS/m3.
    Source: Chen and Hashimoto, from memory.
    """
    beyond = np.maximum(growth_rate * retention - 1, 0)
    return beyond / (beyond + kinetic_term)


@line(per="substrate", when={"digester_kinetics": "first_order"})
def substrate_conversion__first_order(substrate_first_order_conversion):
    """Share of the ultimate methane won [share]

    By the first-order rate of this feed.
    """
    return substrate_first_order_conversion


@line(per="substrate", when={"digester_kinetics": "chen_hashimoto"})
def substrate_conversion__chen_hashimoto(growth_conversion, substrate_first_order_conversion):
    """Share of the ultimate methane won [share]

    By microbial growth on the mixed manure, the same for every feed.
    """
    return growth_conversion + 0 * substrate_first_order_conversion
