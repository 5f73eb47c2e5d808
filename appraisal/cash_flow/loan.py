"""Loans in money: the sum lent x the schedule of one unit (loan_schedule.py), or as a sweep leaves them (loan_prepaid.py)."""

import numpy as np

from appraisal.lines.define import line

SCHEDULED, PREPAYS = {"funding_sweep": "shown"}, {"funding_sweep": "prepays"}


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


@line(per="loan", role="interest", when=SCHEDULED)
def loan_interest__scheduled(loan_sum, loan_interest_share):
    """Interest [money/month]

    As paid.
    """
    return -(loan_sum * loan_interest_share)


@line(per="loan", role="interest", when=PREPAYS)
def loan_interest__prepaid(loan_interest_open, loan_interest_paid_part):
    """Interest [money/month]

    As paid, on what the sweeps leave.
    """
    return -(loan_interest_open * loan_interest_paid_part)


@line(per="loan", role="principal", when=SCHEDULED)
def loan_principal__scheduled(loan_sum, loan_principal_share):
    """Principal [money/month]

    As paid.
    """
    return -(loan_sum * loan_principal_share)


@line(per="loan", role="principal", when=PREPAYS)
def loan_principal__prepaid(loan_principal_now):
    """Principal [money/month]

    As paid; sweeps stand apart.
    """
    return -loan_principal_now


@line(per="loan", when=SCHEDULED)
def loan_interest_cost__scheduled(loan_sum, loan_accruing_share):
    """Interest as a cost [money/month]

    Of the month it belongs to, paid or not; what the income statement and the tax count.
    """
    return -(loan_sum * loan_accruing_share)


@line(per="loan", when=PREPAYS)
def loan_interest_cost__prepaid(loan_interest_of_month):
    """Interest as a cost [money/month]

    Of the month it belongs to, paid or not; what the income statement and the tax count.
    """
    return -loan_interest_of_month


@line(per="loan", when=SCHEDULED)
def loan_capitalised__scheduled(loan_sum, loan_capitalised_share):
    """Interest added to the loan [money/month]

    No cash: it raises what is owed.
    """
    return loan_sum * loan_capitalised_share


@line(per="loan", when=PREPAYS)
def loan_capitalised__prepaid(loan_interest_added):
    """Interest added to the loan [money/month]

    No cash: it raises what is owed.
    """
    return loan_interest_added


@line(per="loan", when=SCHEDULED)
def loan_closing__scheduled(loan_sum, loan_closing_share):
    """Owed at the end of the month [money]

    The sum x what is owed of one unit.
    """
    return loan_sum * loan_closing_share


@line(per="loan", when=PREPAYS)
def loan_closing__prepaid(loan_owed_before_sweep, loan_prepaid):
    """Owed at the end of the month [money]

    After the sweep of the month.
    """
    return loan_owed_before_sweep + loan_prepaid


@line(per="loan", when=SCHEDULED)
def loan_accrued__scheduled(loan_sum, loan_accrued_share):
    """Interest owed but not yet due [money]

    At the end of the month; nothing at the end of a payment period.
    """
    return loan_sum * loan_accrued_share


@line(per="loan", when=PREPAYS)
def loan_accrued__prepaid(loan_interest_waiting):
    """Interest owed but not yet due [money]

    At the end of the month; nothing at the end of a payment period.
    """
    return loan_interest_waiting


@line(per="loan")
def loan_owed_as_scheduled(loan_sum, loan_closing_share, loan_accrued_share):
    """Owed at the end of the month without any sweep [money]

    With interest not yet due; its years are those of the loan, also where a sweep pays it off sooner.
    """
    return loan_sum * (loan_closing_share + loan_accrued_share)
