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
def tax_credit_left(previous_tax_credit_left, tax_credit_earned, tax_credit_used, tax_credit_forfeited):
    """Investment credit carried to next year [money]

    Opening + earned - used, and less what an early closing forfeits.
    """
    return np.maximum(previous_tax_credit_left + tax_credit_earned - tax_credit_used - tax_credit_forfeited, 0)


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
    previous_tax_credit_left_without_loans, tax_credit_earned, tax_credit_used_without_loans, tax_credit_forfeited
):
    """Investment credit carried to next year, without loans [money]

    Opening + earned - used, and less what an early closing forfeits.
    """
    left = previous_tax_credit_left_without_loans + tax_credit_earned - tax_credit_used_without_loans
    return np.maximum(left - tax_credit_forfeited, 0)


@line(yearly=True)
def tax_credit_forfeited_if_stopped(tax_credit_in_all, tax_credit_kept_years, years_run):
    """Investment credit that a stop forfeits [money]

    The credit x the part of the years it must be kept that lack; nothing before it is earned.
    """
    kept = np.where(tax_credit_kept_years > 0, tax_credit_kept_years, 1)
    lacking = np.where(tax_credit_kept_years > 0, np.maximum(1 - years_run / kept, 0), 0)
    return tax_credit_in_all * lacking * np.where(years_run > 0, 1, 0)


@line(when={"tax_investment_credit": "against_tax"})
def closing_carried(closing_month, after_tax_year_end):
    """Month of closing after the tax year's end [1]

    It belongs to the tax year that ends in the next project year.
    """
    return closing_month * after_tax_year_end


@line(yearly=True, when={"tax_investment_credit": "against_tax"})
def closing_carried_on(year_sum_closing_carried):
    """The plant closes in the next tax year [1]

    1 where it closes after the tax year's end.
    """
    return year_sum_closing_carried


@line(yearly=True, when={"tax_investment_credit": "against_tax"})
def closes_in_tax_year(year_sum_closing_month, closing_carried_on, previous_closing_carried_on, last_project_year):
    """The plant closes in the tax year [1]

    1 in the tax year of the closing.
    """
    return year_sum_closing_month - closing_carried_on * (1 - last_project_year) + previous_closing_carried_on


@line(yearly=True, when={"tax_investment_credit": "against_tax"})
def tax_credit_forfeited(tax_credit_forfeited_if_stopped, closes_in_tax_year):
    """Investment credit forfeited by an early closing [money/year]

    In the tax year of the closing.
    """
    return tax_credit_forfeited_if_stopped * closes_in_tax_year


@line(yearly=True, when={"tax_investment_credit": "against_tax"})
def tax_credit_recaptured__against_tax(
    previous_tax_credit_left, tax_credit_earned, tax_credit_used, tax_credit_forfeited
):
    """Investment credit added to the tax again [money/year]

    What is forfeited beyond the part not yet used: only what once lowered a tax is paid back.
    """
    return np.maximum(tax_credit_forfeited - (previous_tax_credit_left + tax_credit_earned - tax_credit_used), 0)


@line(yearly=True, when={"tax_investment_credit": "against_tax"})
def tax_credit_recaptured_without_loans__against_tax(
    previous_tax_credit_left_without_loans, tax_credit_earned, tax_credit_used_without_loans, tax_credit_forfeited
):
    """Investment credit added to the tax again, without loans [money/year]

    What is forfeited beyond the part not yet used: only what once lowered a tax is paid back.
    """
    left = previous_tax_credit_left_without_loans + tax_credit_earned - tax_credit_used_without_loans
    return np.maximum(tax_credit_forfeited - left, 0)


@line(yearly=True, when={"tax_investment_credit": "none|paid_out"})
def tax_credit_recaptured__none(months_fed_in_year):
    """Investment credit added to the tax again [money/year]

    None.
    """
    return 0 * months_fed_in_year


@line(yearly=True, when={"tax_investment_credit": "none|paid_out"})
def tax_credit_recaptured_without_loans__none(months_fed_in_year):
    """Investment credit added to the tax again, without loans [money/year]

    None.
    """
    return 0 * months_fed_in_year


@line(when={"tax_investment_credit": "paid_out"}, role="tax_credit")
def tax_credit_paid_out(
    tax_credit_in_all, month_number, project_build_months, tax_credit_paid_after_months, rounding_tolerance
):
    """Investment credit paid out [money/month]

    Refunded, or sold to somebody who can use it, so many months after the first feeding.
    """
    due = np.floor(project_build_months + tax_credit_paid_after_months + rounding_tolerance)
    return tax_credit_in_all * np.where(np.equal(month_number, due), 1, 0)
