"""Income tax by tax year (tax_year.py): rate x profit, with a choice of what happens to a loss.

The plant's tax with its loans is what the family pays; the tax without loans belongs to the project's own view.
"""

import numpy as np

from appraisal.lines.define import line


@line(yearly=True)
def profit_without_loans(
    year_sum_taxed_flows, taxed_flows_carried_on, previous_taxed_flows_carried_on, last_project_year
):
    """Taxable profit without loans [money/year]

    Operating result, overhauls, depreciation, and what the end brings against the basis left, of the tax year that ends in
    the project year.
    """
    later = taxed_flows_carried_on * (1 - last_project_year)
    return year_sum_taxed_flows - later + previous_taxed_flows_carried_on


@line(yearly=True)
def taxable_profit(
    profit_without_loans,
    year_sum_costs_of_loans,
    costs_of_loans_carried_on,
    previous_costs_of_loans_carried_on,
    last_project_year,
):
    """Taxable profit [money/year]

    The same after interest and loan fees.
    """
    later = costs_of_loans_carried_on * (1 - last_project_year)
    return profit_without_loans + year_sum_costs_of_loans - later + previous_costs_of_loans_carried_on


@line(yearly=True, roll="loss", when={"tax_losses": "carried_forward"})
def loss_used(previous_loss_pool, taxable_profit, tax_loss_use_at_most_share):
    """Loss of earlier years used [money/year]

    As much as the profit takes, at most the share of it that the law allows.
    """
    return np.minimum(previous_loss_pool, np.maximum(taxable_profit, 0) * tax_loss_use_at_most_share)


@line(yearly=True, roll="loss", when={"tax_losses": "carried_forward"})
def loss_pool(previous_loss_pool, loss_used, taxable_profit):
    """Loss carried to next year [money]

    Opening - used + this year's loss.
    """
    return previous_loss_pool - loss_used + np.maximum(-taxable_profit, 0)


@line(yearly=True, roll="loss_without_loans", when={"tax_losses": "carried_forward"})
def loss_used_without_loans(previous_loss_pool_without_loans, profit_without_loans, tax_loss_use_at_most_share):
    """Loss of earlier years used, without loans [money/year]

    As much as the profit takes, at most the share of it that the law allows.
    """
    return np.minimum(
        previous_loss_pool_without_loans, np.maximum(profit_without_loans, 0) * tax_loss_use_at_most_share
    )


@line(yearly=True, roll="loss_without_loans", when={"tax_losses": "carried_forward"})
def loss_pool_without_loans(previous_loss_pool_without_loans, loss_used_without_loans, profit_without_loans):
    """Loss carried to next year, without loans [money]

    Opening - used + this year's loss.
    """
    return previous_loss_pool_without_loans - loss_used_without_loans + np.maximum(-profit_without_loans, 0)


@line(yearly=True, when={"tax_losses": "carried_forward"})
def taxed__carried_forward(taxable_profit, loss_used):
    """Profit that is taxed [money/year]

    Profit less losses of earlier years.
    """
    return np.maximum(taxable_profit, 0) - loss_used


@line(yearly=True, when={"tax_losses": "used_at_once"})
def taxed__used_at_once(taxable_profit):
    """Profit that is taxed [money/year]

    All of it; a loss lowers the tax on other farm income in the same year.
    """
    return taxable_profit


@line(yearly=True, when={"tax_losses": "lost"})
def taxed__lost(taxable_profit):
    """Profit that is taxed [money/year]

    Profits only; losses help nobody.
    """
    return np.maximum(taxable_profit, 0)


@line(yearly=True, when={"tax_losses": "carried_forward"})
def taxed_without_loans__carried_forward(profit_without_loans, loss_used_without_loans):
    """Profit that would be taxed without loans [money/year]

    Profit less losses of earlier years.
    """
    return np.maximum(profit_without_loans, 0) - loss_used_without_loans


@line(yearly=True, when={"tax_losses": "used_at_once"})
def taxed_without_loans__used_at_once(profit_without_loans):
    """Profit that would be taxed without loans [money/year]

    All of it; a loss lowers the tax on other farm income in the same year.
    """
    return profit_without_loans


@line(yearly=True, when={"tax_losses": "lost"})
def taxed_without_loans__lost(profit_without_loans):
    """Profit that would be taxed without loans [money/year]

    Profits only.
    """
    return np.maximum(profit_without_loans, 0)


@line(yearly=True)
def tax_due(taxed, tax_rate, tax_credit_used, tax_credit_recaptured):
    """Tax for the year [money/year]

    Taxed profit x rate less the investment credit used, with what an early closing adds again; negative, because it is paid.
    """
    return tax_credit_used - tax_credit_recaptured - taxed * tax_rate


@line(yearly=True)
def tax_due_without_loans(
    taxed_without_loans, tax_rate, tax_credit_used_without_loans, tax_credit_recaptured_without_loans
):
    """Tax for the year without loans [money/year]

    Taxed profit without loans x rate less the investment credit used, with what an early closing adds again.
    """
    return tax_credit_used_without_loans - tax_credit_recaptured_without_loans - taxed_without_loans * tax_rate


@line(yearly=True)
def tax_due_last_year(previous_tax_due):
    """Tax for the year before [money/year]

    Where it is paid later than the year it is for.
    """
    return previous_tax_due


@line(yearly=True)
def tax_due_last_year_without_loans(previous_tax_due_without_loans):
    """Tax for the year before, without loans [money/year]

    Where it is paid later than the year it is for.
    """
    return previous_tax_due_without_loans


@line()
def tax_paid_at_once(month_of_year, tax_paid_in_month, in_last_year, last_month):
    """Tax of the year is paid now [1]

    In its month of payment, where that lies in the same project year; in the last month of the project in any case.
    """
    return np.where(np.equal(month_of_year, tax_paid_in_month), 1, 0) * (1 - in_last_year) + last_month


@line()
def tax_paid_later(month_of_year, tax_paid_in_month, months_per_year):
    """Tax of the year before is paid now [1]

    In its month of payment, where that lies in the next project year.
    """
    return np.where(np.equal(month_of_year, tax_paid_in_month - months_per_year), 1, 0)


@line(role="tax")
def tax_paid(in_year_tax_due, in_year_tax_due_last_year, tax_paid_at_once, tax_paid_later):
    """Tax [money/month]

    Of this year or the one before, in its month of payment.
    """
    return in_year_tax_due * tax_paid_at_once + in_year_tax_due_last_year * tax_paid_later


@line()
def tax_paid_without_loans(
    in_year_tax_due_without_loans, in_year_tax_due_last_year_without_loans, tax_paid_at_once, tax_paid_later
):
    """Tax as it would be without loans [money/month]

    In its month of payment; part of the project's own view only.
    """
    now = in_year_tax_due_without_loans * tax_paid_at_once
    return now + in_year_tax_due_last_year_without_loans * tax_paid_later


@line()
def tax_cost(in_year_tax_due, tax_year_ends):
    """Tax as a cost [money/month]

    Of the tax year it is for, booked in its last month.
    """
    return in_year_tax_due * tax_year_ends


@line()
def tax_owed(
    in_year_tax_due,
    in_year_tax_due_last_year,
    month_of_year,
    tax_year_end_month,
    tax_paid_in_month,
    in_last_year,
    months_per_year,
):
    """Tax owed [money]

    Booked, but not yet paid, at the end of the month; negative where the tax office owes the family.
    """
    booked = np.where(month_of_year >= tax_year_end_month, 1, 0) * (1 - in_last_year)
    waits = booked * np.where(month_of_year < tax_paid_in_month, 1, 0)
    waited = np.where(month_of_year < tax_paid_in_month - months_per_year, 1, 0)
    return -(in_year_tax_due * waits + in_year_tax_due_last_year * waited)
