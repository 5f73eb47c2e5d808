"""The tax year, where it is not the project year: it ends once in every project year, in the same month of each.

A tax year is told by the project year in which it ends. The plant's first one may be short: it began before month 0, for a farm
is taxed for whole years. The last one runs on to the end of the project, where the business ends and every tax is settled.
"""

import numpy as np

from appraisal.lines.define import line


@line()
def tax_year_end_met(calendar_month, month_of_year, month_number, tax_year_first_month, months_per_year):
    """Month of the first project year in which a tax year ends [month]

    In that month only; the month before the first calendar month of the tax year.
    """
    ends = np.where(tax_year_first_month > 1, tax_year_first_month - 1, months_per_year)
    return month_of_year * np.where(np.equal(calendar_month, ends), 1, 0) * np.where(month_number < months_per_year, 1, 0)


@line()
def tax_year_end_month(life_sum_tax_year_end_met, tax_year_first_month, months_per_year):
    """Month of every project year in which a tax year ends [month]

    1 to 12; the twelfth where the tax year is the project year.
    """
    return np.where(tax_year_first_month > 0, life_sum_tax_year_end_met, months_per_year)


@line()
def after_tax_year_end(month_of_year, tax_year_end_month):
    """Month belongs to the tax year that ends in the next project year [1]

    Nowhere, where the tax year is the project year.
    """
    return np.where(month_of_year > tax_year_end_month, 1, 0)


@line()
def in_last_year(year_number, project_years):
    """In the last project year [1]

    1 in its twelve months.
    """
    return np.where(year_number >= project_years, 1, 0)


@line(yearly=True)
def last_project_year(year_end_year_number, project_years):
    """Last project year [1]

    1 there; its tax year runs on to the end of the project.
    """
    return np.where(year_end_year_number >= project_years, 1, 0)


@line()
def tax_year_ends(month_of_year, tax_year_end_month, in_last_year, last_month):
    """A tax year ends with this month [1]

    Once in every project year; in the last one with the project.
    """
    return np.where(np.equal(month_of_year, tax_year_end_month), 1, 0) * (1 - in_last_year) + last_month


@line()
def tax_paid_in_month(tax_year_end_month, tax_paid_months_after_year):
    """Month of payment, counted from the start of the project year in which the tax year ends [month]

    Over twelve: in the project year after.
    """
    return tax_year_end_month + tax_paid_months_after_year


@line(when={"tax_depreciation_reduced_by_grants": "yes|no"})
def grants_taxed__yes(grants):
    """Grants taxed as income [money/month]

    None: they lower the depreciation, or the law leaves them free.
    """
    return 0 * grants


@line(when={"tax_depreciation_reduced_by_grants": "grant_is_income"})
def grants_taxed__grant_is_income(grants):
    """Grants taxed as income [money/month]

    All of them, when they are received.
    """
    return grants


@line()
def taxed_flows(operating_result, overhauls_paid, depreciation, grants_taxed, disposals, basis_left_at_end):
    """What the tax counts, without loans [money/month]

    Operating result, overhauls, depreciation, grants where they are income, and what the end brings against the basis left.
    """
    running = operating_result + overhauls_paid + depreciation
    return running + grants_taxed + disposals + basis_left_at_end


@line()
def taxed_flows_carried(taxed_flows, after_tax_year_end):
    """What the tax counts after the tax year's end, without loans [money/month]

    It belongs to the tax year that ends in the next project year.
    """
    return taxed_flows * after_tax_year_end


@line(yearly=True)
def taxed_flows_carried_on(year_sum_taxed_flows_carried):
    """What the tax counts in the next tax year, without loans [money/year]

    Of the months after the tax year's end.
    """
    return year_sum_taxed_flows_carried


@line()
def costs_of_loans(interest_cost, fees_paid, bridge_interest_paid):
    """Cost of all loans [money/month]

    Interest of the month, fees, and interest on the bridge.
    """
    return interest_cost + fees_paid + bridge_interest_paid


@line()
def costs_of_loans_carried(costs_of_loans, after_tax_year_end):
    """Cost of all loans after the tax year's end [money/month]

    It belongs to the tax year that ends in the next project year.
    """
    return costs_of_loans * after_tax_year_end


@line(yearly=True)
def costs_of_loans_carried_on(year_sum_costs_of_loans_carried):
    """Cost of all loans in the next tax year [money/year]

    Of the months after the tax year's end.
    """
    return year_sum_costs_of_loans_carried


@line(yearly=True)
def first_feeding_in_tax_year(
    year_end_year_number, project_build_months, tax_year_end_month, months_per_year, rounding_tolerance
):
    """Tax year of the first feeding [1]

    1 in that year.
    """
    first = -np.floor(rounding_tolerance - project_build_months)
    gone = np.floor((first + months_per_year - tax_year_end_month) / months_per_year + rounding_tolerance)
    return np.where(np.equal(year_end_year_number, gone + 1), 1, 0)
