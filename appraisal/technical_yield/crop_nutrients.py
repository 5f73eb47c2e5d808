"""What crops get of the nitrogen: from manure today and from digestate, as stated or by technique and season."""

import numpy as np

from appraisal.lines.define import line

HERD, FEED = {"substrate_origin": "herd"}, {"substrate_origin": "feed"}
STATED, TECHNIQUE = {"fertilizer_availability": "stated"}, {"fertilizer_availability": "by_technique"}


@line(per="substrate", when={**HERD, **STATED})
def substrate_available_today__stated(substrate_nitrogen, fertilizer_manure_n_available_share):
    """Nitrogen that crops get from manure today [kg/month]

    Total N x stated share.
    """
    return substrate_nitrogen * fertilizer_manure_n_available_share


@line(per="substrate", when={**HERD, **TECHNIQUE})
def substrate_available_today__by_technique(
    substrate_nitrogen,
    substrate_ammonium,
    substrate_store_ammonia_share,
    fertilizer_ammonium_lost_now_share,
    fertilizer_organic_n_available_share,
    fertilizer_autumn_now_share,
    fertilizer_autumn_kept_share,
):
    """Nitrogen that crops get from manure today [kg/month]

    Ammonium that neither store nor spreading loses, and a part of the organic nitrogen; autumn leaves only some of both.
    """
    ammonium = np.maximum(substrate_ammonium - substrate_nitrogen * substrate_store_ammonia_share, 0)
    organic = substrate_nitrogen - substrate_ammonium
    spring = ammonium * (1 - fertilizer_ammonium_lost_now_share) + organic * fertilizer_organic_n_available_share
    return spring * (1 - fertilizer_autumn_now_share * (1 - fertilizer_autumn_kept_share))


@line(per="substrate", when=FEED)
def substrate_available_today__feed(substrate_nitrogen):
    """Nitrogen that crops get from manure today [kg/month]

    None: this feed would not come.
    """
    return 0 * substrate_nitrogen


@line()
def ammonium_lost_in_spreading(digestate_ammonium_kept, fertilizer_ammonium_lost_share):
    """Ammonium lost in spreading digestate [kg/month]

    Ammonium nitrogen x loss of the technique (table spreading).
    """
    return digestate_ammonium_kept * fertilizer_ammonium_lost_share


@line()
def digestate_ammonium_kept(digestate_ammonium, nitrogen_lost):
    """Ammonium nitrogen in digestate [kg/month]

    In the tank, less what digester and store give off.
    """
    return np.maximum(digestate_ammonium - nitrogen_lost, 0)


@line(when=STATED)
def digestate_available_share__stated(fertilizer_digestate_n_available_share):
    """Nitrogen of digestate that crops get [share]

    As stated.
    """
    return fertilizer_digestate_n_available_share + 0


@line(when=TECHNIQUE)
def digestate_available_share__by_technique(
    digestate_nitrogen,
    digestate_ammonium_kept,
    ammonium_lost_in_spreading,
    fertilizer_organic_n_available_share,
    fertilizer_autumn_share,
    fertilizer_autumn_kept_share,
):
    """Nitrogen of digestate that crops get [share]

    Ammonium that spreading does not lose, and a part of the organic nitrogen; autumn leaves only some of both; 0 when
    nothing is fed.
    """
    organic = np.maximum(digestate_nitrogen - digestate_ammonium_kept, 0)
    spring = digestate_ammonium_kept - ammonium_lost_in_spreading + organic * fertilizer_organic_n_available_share
    some = digestate_nitrogen > 0
    share = np.where(some, spring / np.where(some, digestate_nitrogen, 1), 0)
    return share * (1 - fertilizer_autumn_share * (1 - fertilizer_autumn_kept_share))


@line(per="substrate", when=HERD)
def substrate_manure_nitrogen__herd(substrate_nitrogen, digester_nitrogen_loss_share):
    """Manure nitrogen in digestate [kg/month]

    Of the herds, less what is lost.
    """
    return substrate_nitrogen * (1 - digester_nitrogen_loss_share)


@line(per="substrate", when=FEED)
def substrate_manure_nitrogen__feed(substrate_nitrogen):
    """Manure nitrogen in digestate [kg/month]

    None: a feed is no manure.
    """
    return 0 * substrate_nitrogen


@line(per="substrate", when=HERD)
def substrate_manure_phosphorus__herd(substrate_phosphorus):
    """Phosphorus spread today [kg/month]

    Of the manure.
    """
    return substrate_phosphorus + 0


@line(per="substrate", when=FEED)
def substrate_manure_phosphorus__feed(substrate_phosphorus):
    """Phosphorus spread today [kg/month]

    None: this feed would not come.
    """
    return 0 * substrate_phosphorus


@line(per="substrate", when=HERD)
def substrate_manure_potassium__herd(substrate_potassium):
    """Potassium spread today [kg/month]

    Of the manure.
    """
    return substrate_potassium + 0


@line(per="substrate", when=FEED)
def substrate_manure_potassium__feed(substrate_potassium):
    """Potassium spread today [kg/month]

    None: this feed would not come.
    """
    return 0 * substrate_potassium
