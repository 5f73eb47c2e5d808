"""Loans that a sweep prepays, in money: payments stay as scheduled, so that a loan ends sooner.

What is prepaid comes off the last payments (inverse order): interest falls with what is owed, and the rest of a payment that
stays as it was pays off more. Every line here is of the month; what was swept at the end of a year counts from the next on.
"""

import numpy as np

from appraisal.lines.define import line

PREPAYS = {"funding_sweep": "prepays"}


@line(per="loan", yearly=True, when=PREPAYS, turns=True)
def loan_swept_last_year(previous_loan_swept):
    """Prepaid at the end of the year before [money/year]

    By the sweep.
    """
    return previous_loan_swept


@line(per="loan", when=PREPAYS, roll="loan_prepaid")
def loan_owed_at_start(previous_loan_owed_before_sweep, in_year_loan_swept_last_year, first_of_year):
    """Owed at the start of the month [money]

    What was owed at the end of the month before, less what was swept then.
    """
    return previous_loan_owed_before_sweep - in_year_loan_swept_last_year * first_of_year


@line(per="loan", when=PREPAYS, roll="loan_prepaid")
def loan_interest_of_month(loan_owed_at_start, loan_rate_now, months_per_year):
    """Interest of the month, paid or not [money/month]

    A twelfth of the yearly rate on what is owed at the start of the month.
    """
    return loan_owed_at_start * loan_rate_now / months_per_year


@line(per="loan", when=PREPAYS, roll="loan_prepaid")
def loan_interest_open(previous_loan_interest_waiting, loan_interest_of_month):
    """Interest since the last payment [money/month]

    Of this month and those before.
    """
    return previous_loan_interest_waiting + loan_interest_of_month


@line(per="loan", when=PREPAYS, roll="loan_prepaid")
def loan_interest_waiting(loan_interest_open, loan_pays):
    """Interest that is not yet due [money]

    Nothing is left of it after a payment.
    """
    return loan_interest_open * (1 - loan_pays)


@line(per="loan", when=PREPAYS)
def loan_payment_scheduled(loan_sum, loan_interest_share, loan_principal_share):
    """Payment as scheduled [money/month]

    Interest and principal without any sweep.
    """
    return loan_sum * (loan_interest_share + loan_principal_share)


@line(per="loan", when=PREPAYS, roll="loan_prepaid")
def loan_principal_now(
    loan_payment_scheduled,
    loan_interest_open,
    loan_interest_paid_part,
    loan_owed_at_start,
    loan_payments_left,
):
    """Principal paid [money/month]

    What the scheduled payment leaves after interest, at most what is owed; the last payment takes all that is left.
    """
    rest = np.maximum(loan_payment_scheduled - loan_interest_open * loan_interest_paid_part, 0)
    due = np.where(loan_payments_left > 1, np.minimum(rest, loan_owed_at_start), loan_owed_at_start)
    return np.where(loan_payments_left > 0, due, 0)


@line(per="loan", when=PREPAYS, roll="loan_prepaid")
def loan_interest_added(loan_interest_open, loan_pays, loan_interest_paid_part):
    """Interest added to what is owed [money/month]

    At a payment date on which it is not paid.
    """
    return loan_interest_open * (loan_pays - loan_interest_paid_part)


@line(per="loan", when=PREPAYS, roll="loan_prepaid")
def loan_owed_before_sweep(loan_owed_at_start, loan_drawn, loan_interest_added, loan_principal_now):
    """Owed at the end of the month, before a sweep [money]

    Opening + drawn + interest added - principal.
    """
    return loan_owed_at_start + loan_drawn + loan_interest_added - loan_principal_now


@line(per="loan", yearly=True, when=PREPAYS)
def loan_swept(year_end_loan_owed_before_sweep, swept_part):
    """Prepaid at the year's end [money/year]

    Every loan in proportion to what is owed of it.
    """
    return year_end_loan_owed_before_sweep * swept_part


@line(per="loan", when={"funding_sweep": "shown"}, role="sweep")
def loan_prepaid__shown(loan_sum, month_number):
    """Principal prepaid by the sweep [money/month]

    None: the sweep moves no cash.
    """
    return 0 * loan_sum * month_number


@line(per="loan", when=PREPAYS, role="sweep")
def loan_prepaid__prepays(in_year_loan_swept, last_of_year):
    """Principal prepaid by the sweep [money/month]

    In the last month of the project year, negative; no scheduled debt service.
    """
    return -(in_year_loan_swept * last_of_year)
