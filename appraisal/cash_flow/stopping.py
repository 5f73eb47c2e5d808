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

    Paid so far less depreciation, before grants.
    """
    return np.maximum(cumulative_capital_written_off - cumulative_capital_spend, 0)


@line(per="capital", yearly=True)
def capital_sold_if_stopped(year_end_capital_in_books, capital_resale_share):
    """A sale of the item would bring [money]

    Value in the books x the share a buyer would pay.
    """
    return year_end_capital_in_books * capital_resale_share


@line(per="capital", yearly=True)
def capital_removed_if_stopped(capital_removal_cost, year_end_inflation_index):
    """Cost of removing the item [money]

    In that year's money.
    """
    return capital_removal_cost * year_end_inflation_index


@line(per="grant", yearly=True)
def grant_back_if_stopped(year_end_grant_paid_so_far, grant_obligation_years, years_run):
    """Grant to pay back [money]

    What was received x the part of the obliged years that lack.
    """
    obliged = np.where(grant_obligation_years > 0, grant_obligation_years, 1)
    lacking = np.where(grant_obligation_years > 0, np.maximum(1 - years_run / obliged, 0), 0)
    return year_end_grant_paid_so_far * lacking


@line(yearly=True)
def tax_credit_back_if_stopped(tax_credit_in_all, tax_credit_kept_years, years_run, months_fed_in_year):
    """Investment credit to pay back [money]

    The credit x the part of the years it must be kept that lack; nothing before it is earned.
    """
    kept = np.where(tax_credit_kept_years > 0, tax_credit_kept_years, 1)
    lacking = np.where(tax_credit_kept_years > 0, np.maximum(1 - years_run / kept, 0), 0)
    return tax_credit_in_all * lacking * np.where(months_fed_in_year > 0, 1, 0)


@line()
def closing_month(closed, previous_closed):
    """Month in which the plant closes [1]

    1 in the first month without feeding after the last with it; 0 throughout when it runs to the end.
    """
    return closed - previous_closed


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


@line(role="tax_credit")
def tax_credit_paid_back(in_year_tax_credit_back_if_stopped, closing_month):
    """Investment credit paid back [money/month]

    When the plant closes before the years are over in which the credit must be kept; no cost for tax. In
    full, also where a part was not yet used against tax: cautious.
    """
    return -(in_year_tax_credit_back_if_stopped * closing_month)


@line(yearly=True)
def owed_if_stopped(
    year_end_loans_owed,
    year_end_bridge_owed_in_books,
    each_capital_removed_if_stopped,
    each_grant_back_if_stopped,
    tax_credit_back_if_stopped,
    funding_stop_penalty_cost,
    each_capital_sold_if_stopped,
    year_end_reserves_held,
    year_end_closed,
):
    """Still owed if the plant stops at the year's end [money]

    Loans, removal, grants and credit to pay back and contract penalties, less resale and reserves; what the family has to find.
    What had to be paid back is no longer owed once the plant has closed.
    """
    debts_left = year_end_loans_owed + year_end_bridge_owed_in_books
    back = (total(each_grant_back_if_stopped) + tax_credit_back_if_stopped + funding_stop_penalty_cost) * (1 - year_end_closed)
    brings = total(each_capital_sold_if_stopped) + year_end_reserves_held
    return debts_left + total(each_capital_removed_if_stopped) + back - brings
