"""Loans in money: the sum lent x the schedule of one unit (loan_schedule.py)."""

import numpy as np

from appraisal.lines.define import line


@line(per="loan", role="loan_draw")
def loan_drawn(loan_sum, loan_draw_share):
    """Loan drawn [money/month]

    In step with the capital paid.
    """
    return loan_sum * loan_draw_share


@line(per="loan", role="loan_fee")
def loan_fee_paid(loan_sum, loan_fee_share, month_number):
    """Loan fee [money/month]

    Share of the amount, in month 0.
    """
    return -(loan_sum * loan_fee_share * np.where(month_number > 0, 0, 1))


@line(per="loan", role="interest")
def loan_interest(loan_sum, loan_interest_share):
    """Interest [money/month]

    As paid.
    """
    return -(loan_sum * loan_interest_share)


@line(per="loan", role="principal")
def loan_principal(loan_sum, loan_principal_share):
    """Principal [money/month]

    As paid.
    """
    return -(loan_sum * loan_principal_share)


@line(per="loan")
def loan_interest_cost(loan_sum, loan_accruing_share):
    """Interest as a cost [money/month]

    Of the month it belongs to, paid or not; what the income statement and the tax count.
    """
    return -(loan_sum * loan_accruing_share)


@line(per="loan")
def loan_capitalised(loan_sum, loan_capitalised_share):
    """Interest added to the loan [money/month]

    No cash: it raises what is owed.
    """
    return loan_sum * loan_capitalised_share


@line(per="loan")
def loan_closing(loan_sum, loan_closing_share):
    """Owed at the end of the month [money]

    The sum x what is owed of one unit.
    """
    return loan_sum * loan_closing_share


@line(per="loan")
def loan_accrued(loan_sum, loan_accrued_share):
    """Interest owed but not yet due [money]

    At the end of the month; nothing at the end of a payment period.
    """
    return loan_sum * loan_accrued_share
