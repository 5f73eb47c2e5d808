"""Seed sludge, clean-outs and a soured tank: what the digester costs beside its daily running. Costs are negative.

Bought heat for a new filling stands in heat_value, fees lost in tipping_fees, because both follow from the physics. A
clean-out comes every so many years and is no cost of daily running, so it stands with the overhauls.
"""

from appraisal.lines.define import line


@line(role="running_cost")
def seed_sludge_bought(first_feeding, start_up_seed_t, start_up_seed_cost_per_t, inflation_index):
    """Seed sludge for the first filling [money/month]

    Tonnes x cost with haul, in the first month of feeding.
    """
    return -(first_feeding * start_up_seed_t * start_up_seed_cost_per_t * inflation_index)


@line(role="overhaul")
def clean_out_paid(clean_out_begins, clean_out_each_cost, clean_out_seed_t, start_up_seed_cost_per_t, inflation_index):
    """Clean-outs of the tank [money/month]

    Cost of one and its seed sludge, in the month in which the tank is opened.
    """
    return -(clean_out_begins * (clean_out_each_cost + clean_out_seed_t * start_up_seed_cost_per_t) * inflation_index)


@line(role="running_cost")
def upset_paid(upset_begins, upset_other_cost, upset_seed_t, start_up_seed_cost_per_t, inflation_index):
    """Cost of the soured tank [money/month]

    Advice, lime, emptying and new seed sludge, in the month in which it turns sour.
    """
    return -(upset_begins * (upset_other_cost + upset_seed_t * start_up_seed_cost_per_t) * inflation_index)
