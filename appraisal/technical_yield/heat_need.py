"""The heat the digester needs: warming what is fed, thawing, pasteurising, and what the tank loses."""

import numpy as np

from appraisal.lines.define import line
from appraisal.lines.trace import total
from appraisal.technical_yield.heat_shell import HEATED, LAGOON


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


@line(when={"site_feed_temperature": "given"})
def feed_temperature__given(site_feed_temperature_degc):
    """Temperature of the feed [degC]

    As given.
    """
    return site_feed_temperature_degc


@line(when={"site_feed_temperature": "as_air"})
def feed_temperature__as_air(site_air_temperature_degc, site_feed_temperature_floor_degc):
    """Temperature of the feed [degC]

    As warm as the air of the month, but not below the floor: what lies below ice stays liquid.
    """
    return np.maximum(site_air_temperature_degc, site_feed_temperature_floor_degc)


@line(when={"site_wash_water": "as_feed"})
def water_temperature__as_feed(feed_temperature):
    """Temperature of wash, flush and rain water [degC]

    As warm as the feed.
    """
    return feed_temperature


@line(when={"site_wash_water": "given"})
def water_temperature__given(site_wash_water_temperature_degc):
    """Temperature of wash, flush and rain water [degC]

    As given.
    """
    return site_wash_water_temperature_degc


@line(when=HEATED)
def heat_to_warm_substrates(
    each_substrate_tonnes, heat_capacity_kwh_per_t_k, digester_temperature_degc, feed_temperature
):
    """Heat to warm manure and feeds [kWh/month]

    Tonnes x heat capacity x rise to digester temperature. The heat capacity holds below 12 % dry matter; drier feed needs
    up to a quarter less.
    """
    rise = np.maximum(digester_temperature_degc - feed_temperature, 0)
    return total(each_substrate_tonnes) * heat_capacity_kwh_per_t_k * rise


@line(when=HEATED)
def heat_to_warm_water(water_tonnes, heat_capacity_kwh_per_t_k, digester_temperature_degc, water_temperature):
    """Heat to warm wash, flush and rain water [kWh/month]

    It gives no gas and is warmed like feed. Return liquid comes back as warm as the tank and needs nothing.
    """
    return water_tonnes * heat_capacity_kwh_per_t_k * np.maximum(digester_temperature_degc - water_temperature, 0)


@line(when=HEATED)
def heat_to_thaw_feed(each_substrate_tonnes, dry_matter_fed, site_frozen_share, ice_melting_kwh_per_t):
    """Heat to thaw frozen feed [kWh/month]

    Water in the frozen part x heat of melting; the few kelvin below freezing are left out.
    """
    water = np.maximum(total(each_substrate_tonnes) - dry_matter_fed, 0)
    return water * site_frozen_share * ice_melting_kwh_per_t


@line(when=HEATED)
def heat_from_digestate(heat_to_warm_substrates, heat_to_warm_water, digester_digestate_heat_recovery_share):
    """Heat won back from the digestate [kWh/month]

    Share of the warming that an exchanger between outflow and inflow spares; more than 0.7 is not offered, because thick
    liquids foul an exchanger.
    """
    return (heat_to_warm_substrates + heat_to_warm_water) * digester_digestate_heat_recovery_share


@line(when=HEATED)
def heat_to_warm_feed(heat_to_warm_substrates, heat_to_warm_water, heat_to_thaw_feed, heat_from_digestate):
    """Heat to warm the feed [kWh/month]

    Manure, feeds and wash water, thawing inside, less what the digestate gives back.
    """
    return heat_to_warm_substrates + heat_to_warm_water - heat_from_digestate + heat_to_thaw_feed


@line(when=HEATED)
def heat_to_pasteurise__heated(
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


@line(when=LAGOON)
def heat_to_pasteurise__lagoon(
    pasteurised,
    heat_capacity_kwh_per_t_k,
    pasteuriser_temperature_degc,
    feed_temperature,
    pasteuriser_heat_recovery_share,
):
    """Heat to pasteurise [kWh/month]

    From feed to pasteurising temperature, less what is recovered; the lagoon itself is not heated.
    """
    rise = np.maximum(pasteuriser_temperature_degc - feed_temperature, 0)
    return pasteurised * heat_capacity_kwh_per_t_k * rise * (1 - pasteuriser_heat_recovery_share)


@line(when=HEATED)
def heat_of_digestion(methane_made, digester_heat_of_digestion_kwh_per_nm3):
    """Heat set free by digestion [kWh/month]

    Per Nm3 of methane made; 0 unless the scenario counts it.
    """
    return methane_made * digester_heat_of_digestion_kwh_per_nm3


@line(when=HEATED)
def heat_to_digester__heated(heat_to_warm_feed, heat_lost_by_tank, heat_to_pasteurise, heat_of_digestion):
    """Heat the digester needs [kWh/month]

    Warming the feed, tank losses and pasteurising, less heat of digestion where it is counted.
    """
    return np.maximum(heat_to_warm_feed + heat_lost_by_tank + heat_to_pasteurise - heat_of_digestion, 0)


@line(when=LAGOON)
def heat_to_digester__lagoon(heat_to_pasteurise):
    """Heat the digester needs [kWh/month]

    Only what is pasteurised before it enters a lagoon.
    """
    return heat_to_pasteurise
