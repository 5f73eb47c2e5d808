"""The income statement, month by month: what the plant earned, whether or not it was paid yet."""

import numpy as np

from appraisal.lines.define import line
from appraisal.lines.trace import total


@line()
def written_off(each_capital_written_off):
    """Depreciation in the books [money/month]

    Cost over the life of each item, before grants, negative.
    """
    return total(each_capital_written_off)


@line()
def written_off_at_end(life_sum_written_off, building_cost, plant_goes, statement_tolerance):
    """Cost not yet depreciated at the end [money/month]

    Leaves the books when the plant goes, at its closing or in the last month; what the plant still brings stands beside it.
    """
    left = building_cost + life_sum_written_off
    return -(np.where(left > statement_tolerance * building_cost, left, 0) * plant_goes)


@line()
def grants_earned_so_far(cumulative_grants, cumulative_written_off, building_cost, last_month, closed):
    """Grants earned so far [money]

    Grants received, in step with the depreciation of what they paid for; all of them once the plant is gone.
    """
    share = -cumulative_written_off / np.where(building_cost > 0, building_cost, 1)
    return cumulative_grants * np.where(last_month + closed > 0, 1, np.minimum(share, 1))


@line()
def grants_earned(grants_earned_so_far, previous_grants_earned_so_far):
    """Grants as income [money/month]

    The part that belongs to this month's depreciation (IAS 20, either presentation).
    """
    return grants_earned_so_far - previous_grants_earned_so_far


@line()
def interest_cost(each_loan_interest_cost):
    """Interest as a cost [money/month]

    Of all loans, of the month it belongs to, negative.
    """
    return total(each_loan_interest_cost)


@line()
def profit_before_tax(
    operating_result,
    overhauls_paid,
    written_off,
    written_off_at_end,
    grants_earned,
    disposals,
    interest_cost,
    fees_paid,
    bridge_interest_paid,
):
    """Profit before tax [money/month]

    Operating result less overhauls, depreciation after grants, interest and fees; at the end what the plant brings.
    """
    running = operating_result + overhauls_paid + written_off + written_off_at_end + grants_earned + disposals
    return running + interest_cost + fees_paid + bridge_interest_paid


@line()
def profit_after_tax(profit_before_tax, tax_cost, tax_credits_paid_out):
    """Profit after tax [money/month]

    After the tax of the year, booked in its last month; no deferred tax is shown.
    """
    return profit_before_tax + tax_cost + tax_credits_paid_out
