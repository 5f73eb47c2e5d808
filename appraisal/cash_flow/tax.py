"""Income tax, by project year and simple: rate x profit, with a choice of what happens to a loss.

The plant's tax with its loans is what the family pays; the tax without loans belongs to the project's own view.
"""

import numpy as np

from appraisal.lines.define import line
from appraisal.lines.trace import total


@line()
def depreciation(each_capital_depreciation):
    """Depreciation [money/month]

    Of all capital items; negative, no cash.
    """
    return total(each_capital_depreciation)


@line(yearly=True)
def profit_without_loans(year_sum_operating_result, year_sum_overhauls_paid, year_sum_depreciation):
    """Taxable profit without loans [money/year]

    Operating result, overhauls and depreciation.
    """
    return year_sum_operating_result + year_sum_overhauls_paid + year_sum_depreciation


@line(yearly=True)
def taxable_profit(profit_without_loans, year_sum_interest_paid, year_sum_fees_paid):
    """Taxable profit [money/year]

    The same after interest and loan fees.
    """
    return profit_without_loans + year_sum_interest_paid + year_sum_fees_paid


@line(yearly=True, roll="loss", when={"tax_losses": "carried_forward"})
def loss_used(previous_loss_pool, taxable_profit):
    """Loss of earlier years used [money/year]

    As much as the profit takes.
    """
    return np.minimum(previous_loss_pool, np.maximum(taxable_profit, 0))


@line(yearly=True, roll="loss", when={"tax_losses": "carried_forward"})
def loss_pool(previous_loss_pool, loss_used, taxable_profit):
    """Loss carried to next year [money]

    Opening - used + this year's loss.
    """
    return previous_loss_pool - loss_used + np.maximum(-taxable_profit, 0)


@line(yearly=True, roll="loss_without_loans", when={"tax_losses": "carried_forward"})
def loss_used_without_loans(previous_loss_pool_without_loans, profit_without_loans):
    """Loss of earlier years used, without loans [money/year]

    As much as the profit takes.
    """
    return np.minimum(previous_loss_pool_without_loans, np.maximum(profit_without_loans, 0))


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
def tax_due(taxed, tax_rate):
    """Tax for the year [money/year]

    Taxed profit x rate; negative, because it is paid.
    """
    return -(taxed * tax_rate)


@line(yearly=True)
def tax_due_without_loans(taxed_without_loans, tax_rate):
    """Tax for the year without loans [money/year]

    Taxed profit without loans x rate.
    """
    return -(taxed_without_loans * tax_rate)


@line(role="tax")
def tax_paid(in_year_tax_due, last_of_year):
    """Tax [money/month]

    Paid in the last month of the project year.
    """
    return in_year_tax_due * last_of_year
