"""If the plant stops at the end of a project year: what is still owed, what must be paid back, what a sale would bring.

A plant that closes before the project ends pays back in that month what a stop at that time costs.
"""

import numpy as np

from appraisal.lines.define import line
from appraisal.lines.trace import total


@line(yearly=True)
def years_run(cumulative_months_fed_in_year, months_per_year):
    """Years the plant has run [year]

    Months fed up to the year's end over twelve.
    """
    return cumulative_months_fed_in_year / months_per_year


@line(per="capital")
def capital_in_books(cumulative_capital_spend, cumulative_capital_written_off):
    """Item in the books [money]

    Paid so far less depreciation, before grants and before a sale.
    """
    return np.maximum(cumulative_capital_written_off - cumulative_capital_spend, 0)


@line(per="capital", yearly=True)
def capital_sold_if_stopped(year_end_capital_in_books, capital_resale_share, year_end_plant_gone):
    """A sale of the item would bring [money]

    Value in the books x the share a buyer would pay; nothing once it is sold.
    """
    return year_end_capital_in_books * capital_resale_share * (1 - year_end_plant_gone)


@line(per="capital", yearly=True)
def capital_removed_if_stopped(capital_removal_cost, year_end_inflation_index, year_end_plant_gone):
    """Cost of removing the item [money]

    In that year's money; nothing once it is removed.
    """
    return capital_removal_cost * year_end_inflation_index * (1 - year_end_plant_gone)


@line(per="grant", yearly=True)
def grant_back_if_stopped(year_end_grant_paid_so_far, grant_obligation_years, years_run):
    """Grant to pay back [money]

    What was received x the part of the obliged years that lack.
    """
    obliged = np.where(grant_obligation_years > 0, grant_obligation_years, 1)
    lacking = np.where(grant_obligation_years > 0, np.maximum(1 - years_run / obliged, 0), 0)
    return year_end_grant_paid_so_far * lacking


@line(yearly=True, when={"tax_investment_credit": "none|paid_out"})
def tax_credit_back_if_stopped__paid_out(tax_credit_forfeited_if_stopped):
    """Investment credit to pay back [money]

    All that a stop forfeits.
    """
    return tax_credit_forfeited_if_stopped


@line(yearly=True, when={"tax_investment_credit": "against_tax"})
def tax_credit_back_if_stopped__against_tax(tax_credit_forfeited_if_stopped, tax_credit_left):
    """Investment credit to pay back [money]

    What a stop forfeits beyond the part not yet used against tax.
    """
    return np.maximum(tax_credit_forfeited_if_stopped - tax_credit_left, 0)


@line(per="capital", role="disposal")
def capital_left_at_closing(
    capital_in_books, capital_resale_share, capital_removal_cost, inflation_index, closing_month
):
    """Sold or removed at the closing [money/month]

    What a stop at that time would bring and cost: value in the books x the share a buyer would pay, less removal.
    """
    return (capital_in_books * capital_resale_share - capital_removal_cost * inflation_index) * closing_month


@line(per="grant", role="disposal")
def grant_paid_back(in_year_grant_back_if_stopped, closing_month):
    """Grant paid back [money/month]

    When the plant closes before the obliged years are over. For tax a cost, as the grant was income or lowered the basis.
    """
    return -(in_year_grant_back_if_stopped * closing_month)


@line(role="disposal")
def stop_penalty_paid(funding_stop_penalty_cost, closing_month):
    """Penalties of contracts [money/month]

    When the plant closes before the project ends.
    """
    return -(funding_stop_penalty_cost * closing_month)


@line(role="tax_credit", when={"tax_investment_credit": "none|paid_out"})
def tax_credit_paid_back(in_year_tax_credit_back_if_stopped, closing_month):
    """Investment credit paid back [money/month]

    When the plant closes before the years are over in which the credit must be kept; no cost for tax. Where the credit was
    set against tax, it is the tax of that year that rises instead.
    """
    return -(in_year_tax_credit_back_if_stopped * closing_month)


@line(yearly=True)
def paid_back_if_stopped(
    each_grant_back_if_stopped, tax_credit_back_if_stopped, funding_stop_penalty_cost, year_end_plant_gone
):
    """Grants, credit and penalties that a stop makes due [money]

    Nothing once the plant is gone: what its closing made due is paid then, and the end of the project makes nothing due.
    """
    due = total(each_grant_back_if_stopped) + tax_credit_back_if_stopped + funding_stop_penalty_cost
    return due * (1 - year_end_plant_gone)


@line(yearly=True)
def owed_if_stopped(
    year_end_loans_owed,
    year_end_bridge_owed_in_books,
    each_capital_removed_if_stopped,
    paid_back_if_stopped,
    each_capital_sold_if_stopped,
    year_end_reserves_held,
):
    """Still owed if the plant stops at the year's end [money]

    Loans, removal, grants and credit to pay back and contract penalties, less resale and reserves; what the family has to find.
    What had to be paid back is no longer owed once the plant is gone.
    """
    debts_left = year_end_loans_owed + year_end_bridge_owed_in_books
    brings = total(each_capital_sold_if_stopped) + year_end_reserves_held
    return debts_left + total(each_capital_removed_if_stopped) + paid_back_if_stopped - brings
