"""The only place that adds money up. Every money line has a role, every role is in exactly one total below."""

import numpy as np

from appraisal.lines.define import line
from appraisal.lines.trace import total


@line()
def cash_income(all_cash_income):
    """Cash income [money/month]

    Everything somebody pays the plant for.
    """
    return total(all_cash_income)


@line()
def evidenced_savings(all_evidenced_saving):
    """Savings shown by a bill [money/month]

    Bills of the farm now that fall.
    """
    return total(all_evidenced_saving)


@line()
def modelled_savings(all_modelled_saving):
    """Savings by the model [money/month]

    Worth to the family, but no bill proves them; a lender leaves them out.
    """
    return total(all_modelled_saving)


@line()
def running_costs(all_running_cost):
    """Running costs [money/month]

    All of them, negative.
    """
    return total(all_running_cost)


@line()
def operating_result(cash_income, evidenced_savings, modelled_savings, running_costs):
    """Operating result [money/month]

    Income and savings less running costs, before overhauls, tax and loans.
    """
    return cash_income + evidenced_savings + modelled_savings + running_costs


@line()
def overhauls_paid(all_overhaul):
    """Overhauls [money/month]

    All engines, negative.
    """
    return total(all_overhaul)


@line()
def investment(all_capital):
    """Capital paid [money/month]

    All items, negative.
    """
    return total(all_capital)


@line()
def grants(all_grant):
    """Grants [money/month]

    All of them.
    """
    return total(all_grant)


@line()
def loans_drawn(all_loan_draw):
    """Loans drawn [money/month]

    All loans.
    """
    return total(all_loan_draw)


@line()
def fees_paid(all_loan_fee):
    """Loan fees [money/month]

    All loans, negative.
    """
    return total(all_loan_fee)


@line()
def interest_paid(all_interest):
    """Interest [money/month]

    All loans, negative.
    """
    return total(all_interest)


@line()
def principal_paid(all_principal):
    """Principal [money/month]

    All loans, negative.
    """
    return total(all_principal)


@line()
def debt_service(interest_paid, principal_paid):
    """Debt service [money/month]

    Interest and principal, negative.
    """
    return interest_paid + principal_paid


@line()
def taxes(all_tax):
    """Tax [money/month]

    Income tax paid, negative.
    """
    return total(all_tax)


@line()
def cash_available_for_debt_service(cash_income, evidenced_savings, running_costs, overhauls_paid, taxes):
    """Cash available for debt service [money/month]

    Cash income and evidenced savings less running costs, overhauls and tax; modelled savings stay out.
    """
    return cash_income + evidenced_savings + running_costs + overhauls_paid + taxes


@line()
def project_cash(operating_result, overhauls_paid, investment, grants, in_year_tax_due_without_loans, last_of_year):
    """Project's cash after tax [money/month]

    As if no bank took part: result, overhauls, capital, grants, and the tax without loans.
    """
    return operating_result + overhauls_paid + investment + grants + in_year_tax_due_without_loans * last_of_year


@line()
def net_cash(
    operating_result, overhauls_paid, investment, grants, loans_drawn, fees_paid, interest_paid, principal_paid, taxes
):
    """Family's net cash [money/month]

    Everything that comes in and goes out, loans and tax included; negative months are the family's own money.
    """
    return (
        operating_result
        + overhauls_paid
        + investment
        + grants
        + loans_drawn
        + fees_paid
        + interest_paid
        + principal_paid
        + taxes
    )


@line()
def bank_balance(cumulative_net_cash):
    """Family's cash so far [money]

    Net cash added up from month 0; its lowest point is the own money the plant needs.
    """
    return cumulative_net_cash


@line(yearly=True)
def cover(year_sum_cash_available_for_debt_service, year_sum_debt_service):
    """Cover of debt service [share]

    Cash available over debt service of the year; 0 where nothing is due.
    """
    due = year_sum_debt_service < 0
    return np.where(due, year_sum_cash_available_for_debt_service / np.where(due, -year_sum_debt_service, 1), 0)
