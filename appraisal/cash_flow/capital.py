"""Capital paid and what of it a grant, the tax and the books count; what is left of it at the end."""

import numpy as np

from appraisal.lines.define import line
from appraisal.lines.trace import total


@line(per="capital")
def capital_paid_share(month_number, capital_first_month, capital_months, closed, closing_month):
    """Share paid in this month [share]

    Even parts from the first month of payment on. A plant that closes pays what is left of items begun, and buys no more.
    """
    inside = np.where(month_number >= capital_first_month, 1, 0) * np.where(
        month_number < capital_first_month + capital_months, 1, 0
    )
    left = np.maximum(capital_first_month + capital_months - month_number, 0)
    begun = np.where(month_number > capital_first_month, 1, 0)
    return (inside * (1 - closed) + left * begun * closing_month) / capital_months


@line(per="capital", role="capital")
def capital_spend(
    capital_amount,
    capital_contingency_share,
    capital_sales_tax_kept_share,
    capital_paid_share,
    capital_escalation,
    years_on,
):
    """Capital paid [money/month]

    Cost with contingency and the sales tax nobody gives back, in the money of the year it is paid.
    """
    cost = capital_amount * (1 + capital_contingency_share) * (1 + capital_sales_tax_kept_share)
    return -(cost * capital_paid_share * (1 + capital_escalation) ** years_on)


@line()
def building_cost(life_sum_investment):
    """Capital in all [money]

    Of all items, in the money of the years in which they are paid.
    """
    return -life_sum_investment


@line(per="capital")
def capital_eligible(capital_spend, capital_eligible_share):
    """Capital a grant may count [money/month]

    Eligible share of what was paid.
    """
    return -(capital_spend * capital_eligible_share)


@line()
def eligible_cost(each_capital_eligible):
    """Eligible cost [money/month]

    Of all items.
    """
    return total(each_capital_eligible)


@line(per="capital")
def capital_service_start(project_build_months, capital_first_month, capital_months):
    """Month in which the item is first used [month]

    The first feeding, or the last payment of an item that comes later.
    """
    return np.maximum(project_build_months, capital_first_month + capital_months - 1)


@line(per="capital")
def capital_service_part(month_number, capital_service_start, capital_depreciation_years, months_per_year, closed):
    """Part of the month inside the item's life [share]

    1 from the first use to the end of its life, the last month in part when the life is no whole number of months; 0 once
    the plant has closed.
    """
    served = month_number - capital_service_start
    left = capital_depreciation_years * months_per_year - served
    return np.where(served >= 0, np.maximum(np.minimum(left, 1), 0), 0) * (1 - closed)


@line(per="capital")
def capital_written_off(life_sum_capital_spend, capital_service_part, capital_depreciation_years, months_per_year):
    """Depreciation in the books [money/month]

    Cost over its life in equal parts, before any grant. No cash.
    """
    return life_sum_capital_spend / (capital_depreciation_years * months_per_year) * capital_service_part


@line(per="capital", role="disposal")
def capital_left_at_end(capital_end_value, capital_removal_cost, inflation_index, last_month, closed):
    """Sold or removed at the end [money/month]

    End value less removal cost, both raised by general inflation, in the last month of a plant that runs to the end.
    """
    return (capital_end_value - capital_removal_cost) * inflation_index * last_month * (1 - closed)
