"""Capital paid, grants received, depreciation."""

import numpy as np

from appraisal.lines.define import line
from appraisal.lines.trace import total


@line(per="capital")
def capital_paid_share(month_number, capital_first_month, capital_months):
    """Share paid in this month [share]

    Even parts from the first month of payment on.
    """
    inside = np.where(month_number >= capital_first_month, 1, 0) * np.where(
        month_number < capital_first_month + capital_months, 1, 0
    )
    return inside / capital_months


@line(per="capital", role="capital")
def capital_spend(capital_amount, capital_contingency_share, capital_paid_share, capital_escalation, years_on):
    """Capital paid [money/month]

    Cost with contingency, in the money of the year it is paid.
    """
    return -(
        capital_amount * (1 + capital_contingency_share) * capital_paid_share * (1 + capital_escalation) ** years_on
    )


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


@line(per="grant", role="grant")
def grant_received(
    grant_share_of_eligible, life_sum_eligible_cost, grant_at_most, month_number, grant_arrives_in_month
):
    """Grant received [money/month]

    Share of the eligible cost, at most the largest amount, in its month of payment.
    """
    amount = np.minimum(grant_share_of_eligible * life_sum_eligible_cost, grant_at_most)
    return amount * np.where(np.equal(month_number, grant_arrives_in_month), 1, 0)


@line(when={"tax_depreciation_reduced_by_grants": "yes"})
def depreciable_share__yes(life_sum_investment, life_sum_grants):
    """Part of the capital that may be depreciated [share]

    Capital less grants over capital.
    """
    return np.where(
        life_sum_investment < 0,
        np.maximum(1 + life_sum_grants / np.where(life_sum_investment < 0, life_sum_investment, 1), 0),
        0,
    )


@line(when={"tax_depreciation_reduced_by_grants": "no"})
def depreciable_share__no(life_sum_investment):
    """Part of the capital that may be depreciated [share]

    All of it.
    """
    return np.where(life_sum_investment < 0, 1, 0)


@line(per="capital")
def capital_depreciation(
    life_sum_capital_spend,
    depreciable_share,
    capital_depreciation_years,
    months_per_year,
    months_fed,
    rounding_tolerance,
):
    """Depreciation [money/month]

    Straight line from the first feeding over the years of the item. No cash: it only lowers the tax.
    """
    inside = np.where(months_fed > 0, 1, 0) * np.where(
        months_fed > capital_depreciation_years * months_per_year + rounding_tolerance, 0, 1
    )
    return life_sum_capital_spend * depreciable_share / (capital_depreciation_years * months_per_year) * inside
