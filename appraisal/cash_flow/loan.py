"""Loans: drawn as the capital is paid, interest only at first, then level payments down to zero.

Stepped by month because the payment is worked out afresh from what is still owed and the payments left; so a late
drawing or a rate of zero needs no case of its own.
"""

import numpy as np

from appraisal.lines.define import line


@line(per="loan", role="loan_draw")
def loan_drawn(loan_amount, investment, life_sum_investment):
    """Loan drawn [money/month]

    In step with the capital paid.
    """
    return loan_amount * np.where(
        life_sum_investment < 0, investment / np.where(life_sum_investment < 0, life_sum_investment, 1), 0
    )


@line(per="loan", role="loan_fee")
def loan_fee_paid(loan_amount, loan_fee_share, month_number):
    """Loan fee [money/month]

    Share of the amount, in month 0.
    """
    return -(loan_amount * loan_fee_share * np.where(month_number > 0, 0, 1))


@line(per="loan")
def loan_payments_left(month_number, loan_interest_only_months, loan_years, months_per_year):
    """Payments still to come, this one included [1]

    0 during the interest-only time and after the term.
    """
    return np.where(
        month_number >= loan_interest_only_months, np.maximum(loan_years * months_per_year - month_number, 0), 0
    )


@line(per="loan", roll="loan")
def loan_opening(previous_loan_closing):
    """Owed at the start of the month [money]

    What was owed at the end of the month before.
    """
    return previous_loan_closing


@line(per="loan", roll="loan", role="interest")
def loan_interest(loan_opening, loan_rate, months_per_year):
    """Interest [money/month]

    A twelfth of the yearly rate on what is owed at the start of the month.
    """
    return -(loan_opening * loan_rate / months_per_year)


@line(per="loan", roll="loan", role="principal")
def loan_principal(loan_opening, loan_payments_left, loan_rate, months_per_year):
    """Principal [money/month]

    The part of the level payment that is not interest: r / ((1 + r)^n - 1) of what is owed, 1 / n at zero interest,
    all of it in the last payment.
    """
    rate = loan_rate / months_per_year
    growth = (1 + rate) ** np.maximum(loan_payments_left, 1) - 1
    level = np.where(growth > 0, rate / np.where(growth > 0, growth, 1), 1 / np.maximum(loan_payments_left, 1))
    share = np.where(loan_payments_left > 1, level, 1)
    return -(loan_opening * np.where(loan_payments_left > 0, share, 0))


@line(per="loan", roll="loan")
def loan_closing(loan_opening, loan_drawn, loan_principal):
    """Owed at the end of the month [money]

    Opening + drawn - principal.
    """
    return loan_opening + loan_drawn + loan_principal
