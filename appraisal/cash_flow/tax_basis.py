"""What of the capital may be deducted from profit: cost less grants and credit, as the law requires; the rest at the end."""

import numpy as np

from appraisal.lines.define import line
from appraisal.lines.trace import total


@line()
def share_not_granted(life_sum_investment, life_sum_grants):
    """Part of the capital that no grant pays [share]

    Capital less grants over capital.
    """
    paid = np.where(life_sum_investment < 0, life_sum_investment, -1)
    return np.where(life_sum_investment < 0, np.maximum(1 + life_sum_grants / paid, 0), 0)


@line(when={"tax_depreciation_reduced_by_grants": "yes"})
def depreciable_share__yes(share_not_granted):
    """Part of the capital that may be depreciated [share]

    Capital less grants over capital.
    """
    return share_not_granted


@line(when={"tax_depreciation_reduced_by_grants": "no|grant_is_income"})
def depreciable_share__no(life_sum_investment):
    """Part of the capital that may be depreciated [share]

    All of it.
    """
    return np.where(life_sum_investment < 0, 1, 0)


@line(per="capital", when={"tax_investment_credit": "none"})
def capital_credit__none(capital_amount):
    """Investment credit [money]

    None.
    """
    return 0 * capital_amount


@line(per="capital", when={"tax_investment_credit": "against_tax|paid_out"})
def capital_credit__some(
    life_sum_capital_spend, capital_credit_share, tax_investment_credit_rate, tax_credit_counts_share
):
    """Investment credit [money]

    Rate x the part of the cost that counts, after grants where the law takes them off first.
    """
    return -(life_sum_capital_spend * capital_credit_share * tax_investment_credit_rate * tax_credit_counts_share)


@line(when={"tax_credit_after_grants": "yes"})
def tax_credit_counts_share__yes(share_not_granted):
    """Part of the cost the credit counts [share]

    What no grant pays.
    """
    return share_not_granted


@line(when={"tax_credit_after_grants": "no"})
def tax_credit_counts_share__no(share_not_granted):
    """Part of the cost the credit counts [share]

    All of it.
    """
    return 1 + 0 * share_not_granted


@line(per="capital")
def capital_basis(life_sum_capital_spend, depreciable_share, capital_credit, tax_credit_lowers_basis_share):
    """Basis of depreciation [money]

    Cost less grants, where they lower it, less the part of the investment credit that the law takes off.
    """
    return np.maximum(-life_sum_capital_spend * depreciable_share - capital_credit * tax_credit_lowers_basis_share, 0)


@line()
def depreciation_basis(each_capital_basis):
    """Basis of depreciation of all items [money]

    What may be deducted over the years, the rest at the end included.
    """
    return total(each_capital_basis)


@line()
def basis_left_at_end(depreciation_basis, life_sum_depreciation, plant_goes, statement_tolerance):
    """Basis not yet deducted at the end [money/month]

    Deducted when the plant goes, at its closing or in the last month; what it brings then is taxed in full: the balancing
    charge is the difference.
    """
    left = depreciation_basis + life_sum_depreciation
    return -(np.where(left > statement_tolerance * depreciation_basis, left, 0) * plant_goes)
