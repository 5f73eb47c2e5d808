"""The only place that adds items up. Every money line has a role, every role is in exactly one total below."""

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
def overhauls_paid(all_overhaul):
    """Overhauls [money/month]

    All engines, clean-outs of the tank and worn parts, negative.
    """
    return total(all_overhaul)


@line()
def investment(all_capital):
    """Capital paid [money/month]

    All items, negative.
    """
    return total(all_capital)


@line()
def disposals(all_disposal):
    """Sold, removed or paid back at the end [money/month]

    End value less removal cost of all items; what an early closing makes due: grants, penalties.
    """
    return total(all_disposal)


@line()
def sales_tax_moves(all_sales_tax):
    """Sales tax on the capital, paid and given back [money/month]

    Only what comes back; it adds to nothing.
    """
    return total(all_sales_tax)


@line()
def working_capital_moves(all_working_capital):
    """Change of working capital [money/month]

    Bills paid later; it adds to nothing.
    """
    return total(all_working_capital)


@line()
def grants(all_grant):
    """Grants [money/month]

    All of them.
    """
    return total(all_grant)


@line()
def tax_credits_paid_out(all_tax_credit):
    """Investment credits paid out [money/month]

    Refunded or sold.
    """
    return total(all_tax_credit)


@line()
def bridge_moves(all_bridge):
    """Bridge loan drawn less paid back [money/month]

    It carries grants until they arrive; outside the cover on both sides.
    """
    return total(all_bridge)


@line()
def bridge_interest_paid(all_bridge_interest):
    """Interest on the bridge loan [money/month]

    Negative; outside the cover.
    """
    return total(all_bridge_interest)


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
def loans_prepaid(all_sweep):
    """Principal prepaid by a sweep [money/month]

    All loans, negative; no scheduled debt service, so it stays out of the cover.
    """
    return total(all_sweep)


@line()
def taxes(all_tax):
    """Tax [money/month]

    Income tax paid, negative.
    """
    return total(all_tax)


@line()
def debt_reserve_moves(all_debt_reserve):
    """Out of and into the debt reserve [money/month]

    Put in is negative; it never counts as income.
    """
    return total(all_debt_reserve)


@line()
def lock_up_moves(all_lock_up):
    """Out of and into the locked cash [money/month]

    Held back is negative; it never counts as income.
    """
    return total(all_lock_up)


@line()
def overhaul_reserve_moves(all_overhaul_reserve):
    """Out of and into the overhaul reserve [money/month]

    Put in is negative; it never counts as income.
    """
    return total(all_overhaul_reserve)
