"""Investment credit: a part of the cost taken off the tax, or paid out. The law says when, and what it is counted on."""

import numpy as np

from appraisal.lines.define import line
from appraisal.lines.trace import total


@line()
def tax_credit_in_all(each_capital_credit):
    """Investment credit of all items [money]

    Earned in the tax year of the first feeding.
    """
    return total(each_capital_credit)


@line(yearly=True, roll="credit", when={"tax_investment_credit": "none|paid_out"})
def tax_credit_used__none(months_fed_in_year):
    """Investment credit set against tax [money/year]

    None.
    """
    return 0 * months_fed_in_year


@line(yearly=True, roll="credit_without_loans", when={"tax_investment_credit": "none|paid_out"})
def tax_credit_used_without_loans__none(months_fed_in_year):
    """Investment credit set against tax, without loans [money/year]

    None.
    """
    return 0 * months_fed_in_year


@line(yearly=True, when={"tax_investment_credit": "against_tax"})
def tax_credit_earned(tax_credit_in_all, first_feeding_in_tax_year):
    """Investment credit of the year [money/year]

    All of it in the tax year of the first feeding.
    """
    return tax_credit_in_all * first_feeding_in_tax_year


@line(yearly=True, roll="credit", when={"tax_investment_credit": "against_tax"})
def tax_credit_used__against_tax(previous_tax_credit_left, tax_credit_earned, taxed, tax_rate):
    """Investment credit set against tax [money/year]

    As much as the tax of the year takes; the rest is carried on.
    """
    return np.minimum(previous_tax_credit_left + tax_credit_earned, np.maximum(taxed * tax_rate, 0))


@line(yearly=True, roll="credit", when={"tax_investment_credit": "against_tax"})
def tax_credit_left(previous_tax_credit_left, tax_credit_earned, tax_credit_used):
    """Investment credit carried to next year [money]

    Opening + earned - used.
    """
    return previous_tax_credit_left + tax_credit_earned - tax_credit_used


@line(yearly=True, roll="credit_without_loans", when={"tax_investment_credit": "against_tax"})
def tax_credit_used_without_loans__against_tax(
    previous_tax_credit_left_without_loans, tax_credit_earned, taxed_without_loans, tax_rate
):
    """Investment credit set against tax, without loans [money/year]

    As much as the tax of the year takes; the rest is carried on.
    """
    return np.minimum(
        previous_tax_credit_left_without_loans + tax_credit_earned, np.maximum(taxed_without_loans * tax_rate, 0)
    )


@line(yearly=True, roll="credit_without_loans", when={"tax_investment_credit": "against_tax"})
def tax_credit_left_without_loans(
    previous_tax_credit_left_without_loans, tax_credit_earned, tax_credit_used_without_loans
):
    """Investment credit carried to next year, without loans [money]

    Opening + earned - used.
    """
    return previous_tax_credit_left_without_loans + tax_credit_earned - tax_credit_used_without_loans


@line(when={"tax_investment_credit": "paid_out"}, role="tax_credit")
def tax_credit_paid_out(
    tax_credit_in_all, month_number, project_build_months, tax_credit_paid_after_months, rounding_tolerance
):
    """Investment credit paid out [money/month]

    Refunded, or sold to somebody who can use it, so many months after the first feeding.
    """
    due = np.floor(project_build_months + tax_credit_paid_after_months + rounding_tolerance)
    return tax_credit_in_all * np.where(np.equal(month_number, due), 1, 0)
