"""How warm the digester is, and how fast the microbes work at that warmth.

Two methods stand side by side and are never mixed: first-order rates of each feed, and the growth of the microbes on
manure after Chen and Hashimoto. Most constants are recalled from memory.
"""

import numpy as np

from appraisal.lines.define import line

HEATED = {"digester_kind": "stirred_tank|tanks_in_series|plug_flow"}
LAGOON = {"digester_kind": "covered_lagoon"}


def rate_at(temperature, reference, turning, below, above):
    """Factor on a rate constant in a heated tank: one factor per kelvin up to the turning point [degC], a gentler one above."""
    return below ** (np.minimum(temperature, turning) - reference) * above ** np.maximum(temperature - turning, 0)


@line(when=HEATED)
def digester_temperature__heated(digester_temperature_degc):
    """Temperature in the digester [degC]

    Held as given, in every month.
    """
    return 1 * digester_temperature_degc


@line(when=LAGOON)
def digester_temperature__covered_lagoon(
    site_air_temperature_degc, previous_site_air_temperature_degc, month_number, lagoon_floor_degc
):
    """Temperature in the digester [degC]

    The mean air temperature of the month before, because a pond follows the weather late, but never below 5 degC.
    Source: one month late: IPCC 2019 Refinement, Vol 4 Ch 10, Annex 10A.3, read second-hand; floor: US livestock protocols.
    """
    lagged = np.where(month_number > 0, previous_site_air_temperature_degc, site_air_temperature_degc)
    return np.maximum(lagged, lagoon_floor_degc)


@line(when=HEATED)
def rate_factor__heated(
    digester_temperature, rate_reference_degc, rate_turning_degc, rate_factor_below, rate_factor_above
):
    """Rate against the reference temperature [1]

    Factor per kelvin to the power of the distance, gentler above the turning point. Valid 20 to 55 degC.
    Source: table kinetics, theta_20_40 and theta_40_55, from memory.
    """
    return rate_at(digester_temperature, rate_reference_degc, rate_turning_degc, rate_factor_below, rate_factor_above)


@line(when=LAGOON)
def rate_factor__covered_lagoon(
    digester_temperature, rate_reference_degc, us_store_activation, store_gas_constant, zero_degc_k
):
    """Rate against the reference temperature [1]

    exp(E / R x (T - Tref) / (T x Tref)), T in kelvin: the law by which the US livestock protocols let lagoons and stores work,
    from the reference temperature of the rates. A pond slows down faster than a heated tank would: at 20 degC it has a quarter
    of the rate at 37 degC, a tank a half. Valid 5 to 30 degC.
    Source: Arrhenius with the activation energy of the US livestock protocols, table store_model; start at 37 degC judged.
    """
    warm, reference = digester_temperature + zero_degc_k, rate_reference_degc + zero_degc_k
    return np.exp(us_store_activation / store_gas_constant * (warm - reference) / (warm * reference))


@line(when={"digester_kind": "tanks_in_series"})
def second_rate_factor(
    digester_second_temperature_degc, rate_reference_degc, rate_turning_degc, rate_factor_below, rate_factor_above
):
    """Rate in the second tank against the reference temperature [1]

    The same law at the temperature of the second tank. Valid 20 to 55 degC.
    Source: table kinetics, theta_20_40 and theta_40_55, from memory.
    """
    return rate_at(
        digester_second_temperature_degc, rate_reference_degc, rate_turning_degc, rate_factor_below, rate_factor_above
    )


@line(when={"digester_kind": "stirred_tank"})
def growth_rate(digester_temperature, growth_slope, growth_intercept):
    """Greatest growth rate of the microbes [1/day]

    0.013 T - 0.129, T in degC. Valid 20 to 60 degC.
    Source: Chen and Hashimoto; slope and limits read on slides by J. M. Triolo, intercept from memory.
    """
    return np.maximum(growth_slope * digester_temperature + growth_intercept, 0)


@line(when={"digester_kind": "stirred_tank"})
def solids_in_flow(volatile_solids_fed, kg_per_t, flow, days_of_feeding):
    """Volatile solids in what flows into the tank [kg VS/m3]

    Return liquid thins the feed; 0 when nothing is fed.
    """
    volume = flow * days_of_feeding
    return np.where(volume > 0, volatile_solids_fed * kg_per_t / np.where(volume > 0, volume, 1), 0)


@line(when={"digester_kind": "stirred_tank", "digester_kinetics_manure": "cattle"})
def kinetic_term__cattle(solids_in_flow, kinetic_cattle_a, kinetic_cattle_b, kinetic_cattle_c):
    """Kinetic term of the manure [1]

    K = 0.8 + 0.0016 exp(0.06 S), S in kg VS/m3. Valid up to about 80 kg VS/m3.
    Source: Chen and Hashimoto, cattle, from memory.
    """
    return kinetic_cattle_a + kinetic_cattle_b * np.exp(kinetic_cattle_c * solids_in_flow)


@line(when={"digester_kind": "stirred_tank", "digester_kinetics_manure": "swine"})
def kinetic_term__swine(solids_in_flow, kinetic_swine_a, kinetic_swine_b, kinetic_swine_c):
    """Kinetic term of the manure [1]

    K = 0.6 + 0.0206 exp(0.051 S), S in kg VS/m3. Valid for thin feeds; how thin is not known.
    Source: Chen and Hashimoto, swine, from memory; the last figure read on slides by J. M. Triolo.
    """
    return kinetic_swine_a + kinetic_swine_b * np.exp(kinetic_swine_c * solids_in_flow)
