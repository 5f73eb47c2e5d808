"""Depreciation for tax: how much of an item's cost may be deducted, and when. No cash: it only lowers the tax.

Straight line runs month by month; the other methods work by tax year (tax_year.py) on what is left of the basis. What is left
when the plant goes, at its closing or at the end, is set against what it brings.
"""

import numpy as np

from appraisal.lines.define import line
from appraisal.lines.trace import pick, total

BY_YEAR = "declining_balance|table|immediate"
METHOD, DECLINING = "capital_depreciation_method", "declining_balance"


@line(per="capital", when={METHOD: BY_YEAR})
def capital_tax_years_before(capital_service_start, tax_year_end_month, months_per_year):
    """From the start of the first tax year to the first use [year]

    Months over twelve; the first tax year may have begun before month 0.
    """
    return (capital_service_start + months_per_year - tax_year_end_month) / months_per_year


@line(per="capital", when={METHOD: BY_YEAR}, yearly=True)
def capital_service_year(year_end_year_number, capital_tax_years_before, rounding_tolerance):
    """Tax year of use [year]

    1 in the tax year of the first use, nothing or less before it.
    """
    return year_end_year_number - np.floor(capital_tax_years_before + rounding_tolerance)


@line(per="capital", when={"capital_depreciation_first_year": "whole", METHOD: DECLINING})
def capital_first_year_part__whole(capital_service_start):
    """Part of a year's rate in the first year [share]

    All of it.
    """
    return 1 + 0 * capital_service_start


@line(per="capital", when={"capital_depreciation_first_year": "half", METHOD: DECLINING})
def capital_first_year_part__half(capital_service_start, half_year):
    """Part of a year's rate in the first year [share]

    Half, whatever the month.
    """
    return half_year + 0 * capital_service_start


@line(per="capital", when={"capital_depreciation_first_year": "by_months", METHOD: DECLINING})
def capital_first_year_part__by_months(capital_tax_years_before, rounding_tolerance):
    """Part of a year's rate in the first year [share]

    Months of use in that tax year over twelve.
    """
    return 1 + np.floor(capital_tax_years_before + rounding_tolerance) - capital_tax_years_before


@line(per="capital", when={METHOD: DECLINING}, yearly=True)
def capital_year_part(capital_service_year, capital_first_year_part):
    """Part of a year's rate [share]

    The first year's part, then 1; 0 before the first use.
    """
    return np.where(capital_service_year > 1, 1, np.where(capital_service_year >= 1, capital_first_year_part, 0))


@line(per="capital", when={METHOD: DECLINING}, yearly=True)
def capital_years_left(capital_service_year, capital_first_year_part, capital_depreciation_years):
    """Years of life left at the start of the tax year [year]

    Life less the years gone by, the first counted by its part.
    """
    gone = np.where(capital_service_year > 1, capital_service_year - 1 - 1 + capital_first_year_part, 0)
    return np.maximum(capital_depreciation_years - gone, 0)


@line(per="capital", when={"capital_depreciation_switches": "no", METHOD: DECLINING}, yearly=True)
def capital_level_rate__no(year_end_year_number):
    """Rate of a change to straight line [share/year]

    None: the declining rate goes on.
    """
    return 0 * year_end_year_number


@line(per="capital", when={"capital_depreciation_switches": "yes", METHOD: DECLINING}, yearly=True)
def capital_level_rate__yes(capital_years_left):
    """Rate of a change to straight line [share/year]

    What is left of the basis over the years left.
    """
    return np.where(capital_years_left > 0, 1 / np.where(capital_years_left > 0, capital_years_left, 1), 1)


@line(per="capital", when={METHOD: DECLINING}, yearly=True, roll="capital_written")
def capital_year_share__declining_balance(
    previous_capital_share_written, capital_depreciation_rate, capital_level_rate, capital_year_part
):
    """Part of the basis deducted in the tax year [share/year]

    Rate x what is left, or the straight line over the years left where that is more.
    """
    left = 1 - previous_capital_share_written
    return np.minimum(left * np.maximum(capital_depreciation_rate, capital_level_rate) * capital_year_part, left)


@line(per="capital", when={METHOD: "table"}, yearly=True)
def capital_table_share(years_of_capital_depreciation_share_by_year, capital_service_year, project_years):
    """Part of the basis by the table [share/year]

    Entry of the year of use; the first entry is the tax year of the first use.
    """
    place = np.minimum(np.maximum(capital_service_year, 1), project_years)
    return pick(years_of_capital_depreciation_share_by_year, place) * np.where(capital_service_year >= 1, 1, 0)


@line(per="capital", when={METHOD: "table"}, yearly=True, roll="capital_written")
def capital_year_share__table(previous_capital_share_written, capital_table_share):
    """Part of the basis deducted in the tax year [share/year]

    As the table says, until the whole basis is deducted.
    """
    return np.minimum(capital_table_share, np.maximum(1 - previous_capital_share_written, 0))


@line(per="capital", when={METHOD: "immediate"}, yearly=True, roll="capital_written")
def capital_year_share__immediate(previous_capital_share_written, capital_service_year):
    """Part of the basis deducted in the tax year [share/year]

    All of it in the tax year of the first use.
    """
    return np.where(capital_service_year >= 1, 1 - previous_capital_share_written, 0)


@line(per="capital", when={METHOD: BY_YEAR}, yearly=True, roll="capital_written")
def capital_share_written(previous_capital_share_written, capital_year_share):
    """Part of the basis deducted so far [share]

    Of this year and all before.
    """
    return previous_capital_share_written + capital_year_share


@line(per="capital", when={METHOD: "straight_line"})
def capital_depreciation__straight_line(
    capital_basis, capital_service_part, capital_depreciation_years, months_per_year
):
    """Depreciation for tax [money/month]

    Basis over its life in equal parts, from the first use.
    """
    return -(capital_basis / (capital_depreciation_years * months_per_year) * capital_service_part)


@line(per="capital", when={METHOD: BY_YEAR})
def capital_depreciation__by_year(capital_basis, in_year_capital_year_share, tax_year_ends, closed):
    """Depreciation for tax [money/month]

    Basis x the part of the tax year, booked in its last month; none once the plant has closed.
    """
    return -(capital_basis * in_year_capital_year_share * tax_year_ends * (1 - closed))


@line()
def depreciation(each_capital_depreciation):
    """Depreciation for tax [money/month]

    Of all capital items; negative, no cash.
    """
    return total(each_capital_depreciation)
