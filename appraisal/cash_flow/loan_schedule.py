"""Loans, month by month, for each unit of money lent: drawn as the capital is paid, interest on what was owed at the start.

The schedule of one unit does not depend on the sum lent, so the sum may be given or worked out from it (loan_sum.py); the
money lines (loan.py) are the sum times the schedule. Between two payments interest is simple: a twelfth of the yearly rate a
month. What a payment pays off is worked out afresh from what is still owed, the payments left and the rate of that month; so
late drawing, a rate of zero and a rate that is reset need no case of their own, and the last payment leaves exactly nothing.
"""

import numpy as np

from appraisal.lines.define import line


@line(per="loan")
def loan_rate_now(month_number, loan_rate, loan_rate_after, loan_rate_fixed_years, months_per_year):
    """Interest rate of the month [share/year]

    The agreed rate while it is fixed, the rate assumed after that.
    """
    return np.where(month_number >= loan_rate_fixed_years * months_per_year, loan_rate_after, loan_rate)


@line(per="loan")
def loan_pays(month_number, loan_payment_every_months, loan_years, months_per_year, rounding_tolerance):
    """Payment is due [1]

    1 at the end of every payment period up to the end of the term; periods are counted from month 0.
    """
    elapsed = month_number + 1
    whole = np.floor(elapsed / loan_payment_every_months + rounding_tolerance) * loan_payment_every_months
    return np.where(np.equal(whole, elapsed), 1, 0) * np.where(month_number < loan_years * months_per_year, 1, 0)


@line(per="loan")
def loan_repaying(month_number, loan_interest_only_months):
    """Principal is due with a payment [1]

    0 during the interest-only time.
    """
    return np.where(month_number >= loan_interest_only_months, 1, 0)


@line(per="loan")
def loan_payments_left(
    month_number, loan_pays, loan_repaying, loan_years, loan_payment_every_months, months_per_year, rounding_tolerance
):
    """Payments of principal still to come, this one included [1]

    0 in months without such a payment.
    """
    left = (loan_years * months_per_year - month_number - 1) / loan_payment_every_months + 1
    return np.floor(left + rounding_tolerance) * loan_pays * loan_repaying


@line(per="loan")
def loan_period_rate(loan_rate_now, loan_payment_every_months, months_per_year):
    """Interest of a payment period [share]

    Months between payments over twelve x yearly rate.
    """
    return loan_rate_now * loan_payment_every_months / months_per_year


@line(per="loan")
def loan_draw_share(investment, life_sum_investment):
    """Part of the loan drawn [share/month]

    In step with the capital paid.
    """
    return np.where(life_sum_investment < 0, investment / np.where(life_sum_investment < 0, life_sum_investment, 1), 0)


@line(per="loan", when={"loan_repayment": "level"})
def loan_payoff_share__level(loan_payments_left, loan_period_rate):
    """Part of what is owed that a payment pays off [share]

    Level payments of interest and principal together: r / ((1 + r)^n - 1) with n payments left, 1 / n at zero interest.
    """
    growth = (1 + loan_period_rate) ** np.maximum(loan_payments_left, 1) - 1
    each = 1 / np.maximum(loan_payments_left, 1)
    level = np.where(growth > 0, loan_period_rate / np.where(growth > 0, growth, 1), each)
    return np.where(loan_payments_left > 0, np.where(loan_payments_left > 1, level, 1), 0)


@line(per="loan", when={"loan_repayment": "equal_principal"})
def loan_payoff_share__equal_principal(loan_payments_left):
    """Part of what is owed that a payment pays off [share]

    Equal parts of principal: 1 / n with n payments left; the payment falls as interest falls.
    """
    return np.where(loan_payments_left > 0, 1 / np.maximum(loan_payments_left, 1), 0)


@line(per="loan", when={"loan_repayment": "sculpted"})
def loan_payoff_share__sculpted(loan_cash_ahead, loan_cash_for_payment, loan_payments_left, loan_period_rate):
    """Part of what is owed that a payment pays off [share]

    Payments in proportion to cash before tax: 1 - value of the later cash over value of all cash still to come, both at the
    loan's rate; never below zero, so that nothing is lent anew; equal parts where no cash is to come.
    """
    before = (loan_cash_ahead + loan_cash_for_payment) / (1 + loan_period_rate)
    shaped = np.maximum(1 - loan_cash_ahead / np.where(before > 0, before, 1), 0)
    each = 1 / np.maximum(loan_payments_left, 1)
    return np.where(loan_payments_left > 0, np.where(before > 0, shaped, each), 0)


@line(per="loan", when={"loan_repayment": "sculpted"}, roll="loan_cash")
def loan_cash_gathered(previous_loan_cash_gathered, previous_loan_pays, cash_before_tax):
    """Cash before tax since the last payment [money]

    Starts again after every payment.
    """
    return previous_loan_cash_gathered * (1 - previous_loan_pays) + cash_before_tax


@line(per="loan", when={"loan_repayment": "sculpted"})
def loan_cash_for_payment(loan_cash_gathered, loan_payments_left):
    """Cash before tax that a payment is shaped by [money/month]

    Of the months since the last payment; a loss counts as nothing.
    """
    return np.where(loan_payments_left > 0, np.maximum(loan_cash_gathered, 0), 0)


@line(per="loan", when={"loan_repayment": "sculpted"}, roll="loan_ahead", backward=True)
def loan_cash_ahead(next_loan_cash_ahead, next_loan_cash_for_payment, next_loan_pays, next_loan_period_rate):
    """Value of the cash of all later payments [money]

    At the loan's rate, worked out from the last payment backwards. The sum lent at a cover c is this over c (sculpting identity
    of project finance, from memory).
    """
    return (next_loan_cash_ahead + next_loan_cash_for_payment) / (1 + next_loan_pays * next_loan_period_rate)


@line(per="loan", roll="loan")
def loan_opening_share(previous_loan_closing_share):
    """Owed at the start of the month, of one unit lent [share]

    What was owed at the end of the month before.
    """
    return previous_loan_closing_share


@line(per="loan", roll="loan")
def loan_accruing_share(loan_opening_share, loan_rate_now, months_per_year):
    """Interest of the month, of one unit lent [share/month]

    A twelfth of the yearly rate on what is owed at the start of the month.
    """
    return loan_opening_share * loan_rate_now / months_per_year


@line(per="loan", roll="loan")
def loan_unpaid_share(previous_loan_accrued_share, loan_accruing_share):
    """Interest since the last payment, of one unit lent [share]

    Of this month and those before.
    """
    return previous_loan_accrued_share + loan_accruing_share


@line(per="loan", roll="loan")
def loan_accrued_share(loan_unpaid_share, loan_pays):
    """Interest owed but not yet due, of one unit lent [share]

    Nothing is left of it after a payment.
    """
    return loan_unpaid_share * (1 - loan_pays)


@line(per="loan", when={"loan_interest_before_repayment": "paid"})
def loan_interest_paid_part__paid(loan_pays):
    """Part of the interest since the last payment that is paid [share]

    All of it at every payment.
    """
    return loan_pays


@line(per="loan", when={"loan_interest_before_repayment": "capitalised"})
def loan_interest_paid_part__capitalised(loan_pays, loan_repaying):
    """Part of the interest since the last payment that is paid [share]

    All of it once principal is due; before that it is added to what is owed.
    """
    return loan_pays * loan_repaying


@line(per="loan", roll="loan")
def loan_capitalised_share(loan_unpaid_share, loan_pays, loan_interest_paid_part):
    """Interest added to what is owed, of one unit lent [share/month]

    At a payment date on which it is not paid.
    """
    return loan_unpaid_share * (loan_pays - loan_interest_paid_part)


@line(per="loan", roll="loan")
def loan_principal_share(loan_opening_share, loan_payoff_share):
    """Principal, of one unit lent [share/month]

    What is owed at the start of the month x the part the payment pays off.
    """
    return loan_opening_share * loan_payoff_share


@line(per="loan", roll="loan")
def loan_closing_share(loan_opening_share, loan_draw_share, loan_capitalised_share, loan_principal_share):
    """Owed at the end of the month, of one unit lent [share]

    Opening + drawn + interest added - principal.
    """
    return loan_opening_share + loan_draw_share + loan_capitalised_share - loan_principal_share


@line(per="loan")
def loan_interest_share(loan_unpaid_share, loan_interest_paid_part):
    """Interest paid, of one unit lent [share/month]

    Interest since the last payment, where it is paid.
    """
    return loan_unpaid_share * loan_interest_paid_part
