"""How much is lent: given, a share of the cost, what fills the gap between uses and sources, or what a cover allows.

No circle: fee, interest while building and reserve of a loan are proportional to its sum, so the gap has a closed form; a
loan sized on cover reads cash before tax, which no loan changes.
"""

import numpy as np

from appraisal.lines.define import line
from appraisal.lines.trace import total


@line(per="loan", when={"loan_size": "amount"})
def loan_sum_before_gap__amount(loan_amount):
    """Sum lent, as far as it does not fill a gap [money]

    As agreed.
    """
    return loan_amount


@line(per="loan", when={"loan_size": "share_of_cost"})
def loan_sum_before_gap__share_of_cost(loan_share_of_cost, building_cost):
    """Sum lent, as far as it does not fill a gap [money]

    Share of the capital.
    """
    return loan_share_of_cost * building_cost


@line(per="loan", when={"loan_size": "to_cover"})
def loan_grace_ends(month_number, loan_pays, loan_repaying, loan_interest_only_months, loan_payment_every_months):
    """Last payment date before principal is due [1]

    1 in that month.
    """
    near = np.where(month_number + loan_payment_every_months >= loan_interest_only_months, 1, 0)
    return loan_pays * (1 - loan_repaying) * near


@line(per="loan", when={"loan_size": "to_cover"})
def loan_cash_when_repayment_begins(loan_cash_ahead, loan_grace_ends):
    """Value of the cash of all payments, when repayment begins [money/month]

    In that month only.
    """
    return loan_cash_ahead * loan_grace_ends


@line(per="loan", when={"loan_size": "to_cover"})
def loan_share_when_repayment_begins(loan_closing_share, loan_grace_ends):
    """Owed of one unit lent when repayment begins [share/month]

    1 where interest is paid and all is drawn; more where interest was added; in that month only.
    """
    return loan_closing_share * loan_grace_ends


@line(per="loan", when={"loan_size": "to_cover"})
def loan_sum_before_gap__to_cover(
    life_sum_loan_cash_when_repayment_begins, life_sum_loan_share_when_repayment_begins, loan_target_cover
):
    """Sum lent, as far as it does not fill a gap [money]

    Value of the cash before tax over the cover wanted, over what one unit lent has grown to.
    """
    grown = life_sum_loan_share_when_repayment_begins
    return life_sum_loan_cash_when_repayment_begins / loan_target_cover / np.where(grown > 0, grown, 1)


@line(per="loan", when={"loan_size": "fills_the_gap"})
def loan_sum_before_gap__fills_the_gap(loan_fee_share):
    """Sum lent, as far as it does not fill a gap [money]

    Nothing: the gap is worked out from the others.
    """
    return 0 * loan_fee_share


@line(per="loan")
def loan_interest_while_building_share(loan_interest_share, building):
    """Interest paid while building, of one unit lent [share/month]

    Before the first feeding.
    """
    return loan_interest_share * building


@line(per="loan")
def loan_cost_share(loan_fee_share, life_sum_loan_interest_while_building_share, loan_reserve_share):
    """What one unit lent costs until the plant runs [share]

    Fee, interest while building, and the debt reserve filled from the start.
    """
    return loan_fee_share + life_sum_loan_interest_while_building_share + loan_reserve_share


@line(per="loan")
def loan_brings_before_gap(loan_sum_before_gap, loan_cost_share):
    """What a loan brings after its own cost [money]

    Sum less fee, interest while building and reserve; nothing for the loan that fills the gap.
    """
    return loan_sum_before_gap * (1 - loan_cost_share)


@line()
def gap_to_fund(
    building_cost, funding_own_money, life_sum_grants, life_sum_bridge_cost_while_building, each_loan_brings_before_gap
):
    """Gap between uses and sources [money]

    Capital and the cost of the bridge, less own money, grants and what the other loans bring; never below zero.
    """
    others = total(each_loan_brings_before_gap)
    return np.maximum(
        building_cost - life_sum_bridge_cost_while_building - funding_own_money - life_sum_grants - others, 0
    )


@line(per="loan", when={"loan_size": "amount|share_of_cost|to_cover"})
def loan_sum__stated(loan_sum_before_gap):
    """Sum lent [money]

    As stated or worked out.
    """
    return loan_sum_before_gap


@line(per="loan", when={"loan_size": "fills_the_gap"})
def loan_sum__fills_the_gap(gap_to_fund, loan_cost_share):
    """Sum lent [money]

    The gap, enlarged by the loan's own fee, interest while building and reserve: gap / (1 - their share).
    """
    left = 1 - loan_cost_share
    return np.where(left > 0, gap_to_fund / np.where(left > 0, left, 1), 0)
