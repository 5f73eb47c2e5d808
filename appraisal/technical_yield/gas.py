"""Methane and gas from what is fed: potential, share won, condition of the tank, and measured gas where there is some."""

import numpy as np

from appraisal.lines.define import line
from appraisal.lines.trace import total


@line(per="substrate", when={"substrate_potential_kind": "ultimate"})
def substrate_potential__ultimate(substrate_volatile_solids, substrate_specific_potential):
    """Ultimate methane in the feed [Nm3/month]

    Volatile solids x ultimate potential.
    """
    return substrate_volatile_solids * substrate_specific_potential


@line(per="substrate", when={"substrate_potential_kind": "ordinary_test"})
def substrate_potential__ordinary_test(
    substrate_volatile_solids, substrate_specific_potential, digester_test_share_of_ultimate
):
    """Ultimate methane in the feed [Nm3/month]

    Volatile solids x tested potential, raised by what an ordinary test leaves out.
    """
    return substrate_volatile_solids * substrate_specific_potential / digester_test_share_of_ultimate


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
def substrate_mature_methane(substrate_potential, substrate_won_share):
    """Methane of a mature tank [Nm3/month]

    Potential x share won, without start-up and bad times.
    """
    return substrate_potential * substrate_won_share


@line(per="substrate")
def substrate_modelled_methane(substrate_mature_methane, gas_condition):
    """Methane by the model [Nm3/month]

    What a mature tank would give, less during start-up, after a clean-out and while the tank is sour.
    """
    return substrate_mature_methane * gas_condition


@line(when={"digester_gas_method": "measured"})
def modelled_in_first_full_year(each_substrate_mature_methane, in_first_full_year):
    """Modelled methane counted for the calibration [Nm3/month]

    The mature tank's methane in the first full year, 0 elsewhere: a meter tells of a plant that runs well.
    """
    return total(each_substrate_mature_methane) * in_first_full_year


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
def substrate_methane__model(substrate_modelled_methane, digester_gas_cut_share):
    """Methane [Nm3/month]

    From the model, less a declared gas cut (none as entered).
    """
    return substrate_modelled_methane * (1 - digester_gas_cut_share)


@line(per="substrate", when={"digester_gas_method": "measured"})
def substrate_methane__measured(substrate_modelled_methane, measured_over_modelled, digester_gas_cut_share):
    """Methane [Nm3/month]

    Measured methane, shared as the model shares it, less a declared gas cut (none as entered); a lost feed takes its part
    away.
    """
    return substrate_modelled_methane * measured_over_modelled * (1 - digester_gas_cut_share)


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
