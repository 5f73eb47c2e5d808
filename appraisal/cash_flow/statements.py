"""From the totals to cash: for debt service, for the project, for the family; each total once."""

import numpy as np

from appraisal.lines.define import line


@line()
def operating_result(cash_income, evidenced_savings, modelled_savings, running_costs):
    """Operating result [money/month]

    Income and savings less running costs, before overhauls, tax and loans.
    """
    return cash_income + evidenced_savings + modelled_savings + running_costs


@line()
def debt_service(interest_paid, principal_paid):
    """Debt service [money/month]

    Interest and principal, negative.
    """
    return interest_paid + principal_paid


@line()
def cash_before_tax(
    cash_income, evidenced_savings, running_costs, overhauls_paid, working_capital_moves, overhaul_reserve_moves
):
    """Cash for debt service before tax [money/month]

    Cash income and evidenced savings less running costs, overhauls, change of working capital and what the overhaul reserve
    takes; modelled savings stay out. No loan changes it, so loans can be sized on it.
    """
    running = cash_income + evidenced_savings + running_costs + overhauls_paid
    return running + working_capital_moves + overhaul_reserve_moves


@line()
def cash_available_for_debt_service(cash_before_tax, taxes):
    """Cash available for debt service [money/month]

    After tax. Grants, sales tax, bridge and debt reserve stay out on both sides.
    """
    return cash_before_tax + taxes


@line()
def project_cash_before_tax(
    operating_result, overhauls_paid, investment, grants, sales_tax_moves, working_capital_moves, disposals
):
    """Project's cash before tax [money/month]

    As if no bank and no tax office took part.
    """
    running = operating_result + overhauls_paid + investment + grants
    return running + sales_tax_moves + working_capital_moves + disposals


@line()
def project_cash(project_cash_before_tax, tax_paid_without_loans, tax_credits_paid_out):
    """Project's cash after tax [money/month]

    As if no bank took part: result, overhauls, capital, grants, and the tax without loans.
    """
    return project_cash_before_tax + tax_paid_without_loans + tax_credits_paid_out


@line()
def net_cash_before_tax(
    project_cash_before_tax,
    loans_drawn,
    fees_paid,
    interest_paid,
    principal_paid,
    loans_prepaid,
    bridge_moves,
    bridge_interest_paid,
    debt_reserve_moves,
    overhaul_reserve_moves,
    lock_up_moves,
):
    """Family's net cash before tax [money/month]

    The project's cash with loans, reserves and what a lender holds back.
    """
    loans = loans_drawn + fees_paid + interest_paid + principal_paid + loans_prepaid + bridge_moves + bridge_interest_paid
    return project_cash_before_tax + loans + debt_reserve_moves + overhaul_reserve_moves + lock_up_moves


@line()
def net_cash(net_cash_before_tax, taxes, tax_credits_paid_out):
    """Family's net cash [money/month]

    Everything that comes in and goes out, loans and tax included; negative months are the family's own money.
    """
    return net_cash_before_tax + taxes + tax_credits_paid_out


@line()
def bank_balance(cumulative_net_cash):
    """Family's cash so far [money]

    Net cash added up from month 0; its lowest point is the own money the plant needs.
    """
    return cumulative_net_cash


@line(yearly=True)
def cover(year_sum_cash_available_for_debt_service, year_sum_debt_service):
    """Cover of debt service [times]

    Cash available over debt service of the year; 0 where nothing is due.
    """
    due = year_sum_debt_service < 0
    return np.where(due, year_sum_cash_available_for_debt_service / np.where(due, -year_sum_debt_service, 1), 0)
