"""Where the money for building goes and where it comes from."""

import numpy as np

from appraisal.lines.define import line
from appraisal.lines.trace import total


@line()
def interest_while_building(interest_paid, building):
    """Interest while building [money/month]

    Of all loans, before the first feeding, negative.
    """
    return interest_paid * building


@line(per="loan")
def loan_reserve_from_start(loan_sum, loan_reserve_share):
    """Debt reserve funded with the loan [money]

    The sum x the reserve of one unit lent.
    """
    return loan_sum * loan_reserve_share


@line()
def uses_of_funds(
    building_cost,
    life_sum_fees_paid,
    life_sum_interest_while_building,
    life_sum_bridge_cost_while_building,
    each_loan_reserve_from_start,
):
    """Uses of funds [money]

    Capital, fees, interest while building, and the reserve funded from the start.
    """
    costs = life_sum_fees_paid + life_sum_interest_while_building + life_sum_bridge_cost_while_building
    return building_cost - costs + total(each_loan_reserve_from_start)


@line()
def own_money_needed(uses_of_funds, life_sum_grants, each_loan_sum):
    """Own money needed for building [money]

    Uses less grants and loans; negative where grants and loans bring more than is used.
    """
    return uses_of_funds - life_sum_grants - total(each_loan_sum)


@line(per="loan", when={"loan_size": "fills_the_gap"})
def loan_is_the_gap__yes(loan_fee_share):
    """This loan fills the gap [1]

    1.
    """
    return 1 + 0 * loan_fee_share


@line(per="loan", when={"loan_size": "amount|share_of_cost|to_cover"})
def loan_is_the_gap__no(loan_fee_share):
    """This loan fills the gap [1]

    0.
    """
    return 0 * loan_fee_share


@line()
def uses_less_sources(
    own_money_needed, funding_own_money, gap_to_fund, each_loan_is_the_gap, uses_of_funds, statement_tolerance
):
    """Uses less sources [money]

    Nothing. Without a loan that fills the gap own money is what is left; with one it must be the own money stated.
    """
    gap = np.where(gap_to_fund > 0, own_money_needed - funding_own_money, 0) * total(each_loan_is_the_gap)
    return np.where(np.maximum(gap, -gap) > statement_tolerance * uses_of_funds, gap, 0)
