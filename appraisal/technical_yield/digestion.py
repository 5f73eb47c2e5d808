"""Methane and gas from what is fed.

First-order conversion in a stirred tank k t / (1 + k t) and in a plug flow 1 - exp(-k t), t the retention time: the
mass balances of the two ideal reactors (chemical reaction engineering, textbook matter). Most rate constants k are
recalled from memory.
"""

import numpy as np

from appraisal.lines.define import line
from appraisal.lines.trace import total


@line()
def rate_factor(
    digester_temperature_degc, rate_reference_degc, rate_turning_degc, rate_factor_below, rate_factor_above
):
    """Rate against the reference temperature [1]

    Factor per kelvin to the power of the distance, gentler above the turning point. Factors from memory.
    """
    below = np.minimum(digester_temperature_degc, rate_turning_degc) - rate_reference_degc
    above = np.maximum(digester_temperature_degc - rate_turning_degc, 0)
    return rate_factor_below**below * rate_factor_above**above


@line(per="substrate", when={"digester_kind": "stirred_tank"})
def substrate_conversion__stirred_tank(substrate_rate_per_day, rate_factor, retention):
    """Share of the ultimate methane won [share]

    k t / (1 + k t) in one fully mixed tank.
    """
    reach = substrate_rate_per_day * rate_factor * retention
    return reach / (1 + reach)


@line(per="substrate", when={"digester_kind": "plug_flow"})
def substrate_conversion__plug_flow(substrate_rate_per_day, rate_factor, retention):
    """Share of the ultimate methane won [share]

    1 - exp(-k t) in a channel where nothing overtakes.
    """
    return 1 - np.exp(-(substrate_rate_per_day * rate_factor * retention))


@line(per="substrate", when={"substrate_potential_kind": "ultimate"})
def substrate_potential__ultimate(substrate_volatile_solids, substrate_potential_nm3_per_t_vs):
    """Ultimate methane in the feed [Nm3/month]

    Volatile solids x ultimate potential.
    """
    return substrate_volatile_solids * substrate_potential_nm3_per_t_vs


@line(per="substrate", when={"substrate_potential_kind": "ordinary_test"})
def substrate_potential__ordinary_test(
    substrate_volatile_solids, substrate_potential_nm3_per_t_vs, digester_test_share_of_ultimate
):
    """Ultimate methane in the feed [Nm3/month]

    Volatile solids x tested potential, raised by what an ordinary test leaves out.
    """
    return substrate_volatile_solids * substrate_potential_nm3_per_t_vs / digester_test_share_of_ultimate


@line(per="substrate", when={"substrate_potential_kind": "achieved"})
def substrate_potential__achieved(substrate_tonnes, substrate_achieved_nm3_per_t):
    """Methane at the achieved yield [Nm3/month]

    Tonnes x yield of a working plant; already at plant conversion.
    """
    return substrate_tonnes * substrate_achieved_nm3_per_t


@line(per="substrate", when={"substrate_potential_kind": "ultimate"})
def substrate_won_share__ultimate(substrate_conversion, digester_availability):
    """Share won in this digester [share]

    The conversion, less what upsets and repairs cost.
    """
    return substrate_conversion * digester_availability


@line(per="substrate", when={"substrate_potential_kind": "ordinary_test"})
def substrate_won_share__ordinary_test(substrate_conversion, digester_availability):
    """Share won in this digester [share]

    The conversion, less what upsets and repairs cost.
    """
    return substrate_conversion * digester_availability


@line(per="substrate", when={"substrate_potential_kind": "achieved"})
def substrate_won_share__achieved(feeding):
    """Share won in this digester [share]

    1: an achieved yield is never multiplied by a conversion or an availability again.
    """
    return feeding


@line(per="substrate")
def substrate_modelled_methane(substrate_potential, substrate_won_share, ramp):
    """Methane by the model [Nm3/month]

    Potential x share won, less during start-up.
    """
    return substrate_potential * substrate_won_share * ramp


@line(when={"digester_gas_method": "measured"})
def modelled_in_first_full_year(each_substrate_modelled_methane, in_first_full_year):
    """Modelled methane counted for the calibration [Nm3/month]

    The model's methane in the first full year, 0 elsewhere.
    """
    return total(each_substrate_modelled_methane) * in_first_full_year


@line(when={"digester_gas_method": "measured"})
def measured_over_modelled(
    digester_measured_gas_nm3_per_day,
    digester_measured_methane_share,
    digester_leak_share,
    days_per_year,
    life_sum_modelled_in_first_full_year,
):
    """Measured over modelled methane [1]

    Measured methane of a year, with the leaks before the meter, over the model's first full year; the model then only
    shares it among the feeds.
    """
    made = digester_measured_gas_nm3_per_day * digester_measured_methane_share * days_per_year / (1 - digester_leak_share)
    modelled = life_sum_modelled_in_first_full_year
    return np.where(modelled > 0, made / np.where(modelled > 0, modelled, 1), 0)


@line(per="substrate", when={"digester_gas_method": "model"})
def substrate_methane__model(substrate_modelled_methane):
    """Methane [Nm3/month]

    From the model.
    """
    return substrate_modelled_methane


@line(per="substrate", when={"digester_gas_method": "measured"})
def substrate_methane__measured(substrate_modelled_methane, measured_over_modelled):
    """Methane [Nm3/month]

    Measured methane, shared as the model shares it; a lost feed takes its part away.
    """
    return substrate_modelled_methane * measured_over_modelled


@line(per="substrate", when={"digester_gas_method": "model"})
def substrate_biogas__model(substrate_methane, substrate_methane_share):
    """Biogas [Nm3/month]

    Methane over the methane share of this feed's gas, dry.
    """
    return substrate_methane / substrate_methane_share


@line(per="substrate", when={"digester_gas_method": "measured"})
def substrate_biogas__measured(substrate_methane, digester_measured_methane_share):
    """Biogas [Nm3/month]

    Methane over the measured methane share, dry.
    """
    return substrate_methane / digester_measured_methane_share


@line(per="substrate", when={"substrate_supply_by": "own"})
def substrate_methane_that_may_end__own(substrate_methane):
    """Methane under a contract that may end [Nm3/month]

    None: the farm decides on this feed.
    """
    return 0 * substrate_methane


@line(per="substrate", when={"substrate_supply_by": "contract"})
def substrate_methane_that_may_end__contract(substrate_methane):
    """Methane under a contract that may end [Nm3/month]

    All of this feed's methane: somebody else may stop it.
    """
    return substrate_methane


@line()
def methane_made(each_substrate_methane):
    """Methane made [Nm3/month]

    Of all feeds.
    """
    return total(each_substrate_methane)


@line()
def methane_that_may_end(each_substrate_methane_that_may_end):
    """Methane under contracts that may end [Nm3/month]

    Of all feeds; its share of all methane is a headline figure.
    """
    return total(each_substrate_methane_that_may_end)


@line()
def biogas_made(each_substrate_biogas):
    """Biogas made [Nm3/month]

    Dry, of all feeds.
    """
    return total(each_substrate_biogas)


@line()
def methane_leaked(methane_made, digester_leak_share):
    """Methane leaked [Nm3/month]

    Share of methane made.
    """
    return methane_made * digester_leak_share


@line()
def methane_to_use(methane_made, methane_leaked):
    """Methane for the engine [Nm3/month]

    Made less leaked.
    """
    return methane_made - methane_leaked
