"""The balance sheet at the end of every month: what the plant owns, what it owes, what is the family's."""

import numpy as np

from appraisal.lines.define import line
from appraisal.lines.trace import total


@line(roll="paid_in")
def paid_in_so_far(previous_paid_in_so_far, bank_balance):
    """Paid in by the family so far [money]

    As much as the account would otherwise have gone below zero.
    """
    return np.maximum(previous_paid_in_so_far, -bank_balance)


@line()
def cash_held(bank_balance, paid_in_so_far):
    """Cash held [money]

    All the plant has brought, with what the family paid in; nothing is taken out, so that the whole of it stays in sight.
    """
    return bank_balance + paid_in_so_far


@line()
def plant_in_books(cumulative_investment, cumulative_written_off, cumulative_written_off_at_end):
    """Plant in the books [money]

    Paid so far less depreciation, before grants.
    """
    return cumulative_written_off + cumulative_written_off_at_end - cumulative_investment


@line()
def grants_not_earned(cumulative_grants, grants_earned_so_far):
    """Grants not yet earned [money]

    Received, but not yet income.
    """
    return cumulative_grants - grants_earned_so_far


@line(when={"funding_grants_shown": "off_the_plant"})
def grants_off_assets__off_the_plant(grants_not_earned):
    """Grants taken off the plant [money]

    All that are not yet earned.
    """
    return grants_not_earned


@line(when={"funding_grants_shown": "as_owed_income"})
def grants_off_assets__as_owed_income(grants_not_earned):
    """Grants taken off the plant [money]

    None: they stand on the other side as income still to be earned.
    """
    return 0 * grants_not_earned


@line()
def sales_tax_to_come(cumulative_sales_tax_moves):
    """Sales tax to come back [money]

    Paid and not yet given back.
    """
    return -cumulative_sales_tax_moves


@line()
def assets(cash_held, reserves_held, receivables, sales_tax_to_come, plant_in_books, grants_off_assets):
    """Assets [money]

    Cash, reserves, what customers and the tax office owe, and the plant.
    """
    return cash_held + reserves_held + receivables + sales_tax_to_come + plant_in_books - grants_off_assets


@line(monthly=True)
def loans_owed(each_loan_closing, each_loan_accrued):
    """Loans owed [money]

    With interest not yet due.
    """
    return total(each_loan_closing) + total(each_loan_accrued)


@line(monthly=True)
def loans_owed_as_scheduled(each_loan_owed_as_scheduled):
    """Loans owed without any sweep [money]

    All loans; the years of the loans are counted by it.
    """
    return total(each_loan_owed_as_scheduled)


@line()
def bridge_owed_in_books(cumulative_bridge_moves):
    """Bridge loan owed [money]

    Drawn and not yet paid back.
    """
    return cumulative_bridge_moves


@line()
def grants_among_debts(grants_not_earned, grants_off_assets):
    """Grants still to be earned, among the debts [money]

    Those that are not taken off the plant.
    """
    return grants_not_earned - grants_off_assets


@line()
def debts(loans_owed, bridge_owed_in_books, payables, tax_owed, grants_among_debts):
    """Debts [money]

    Loans, bridge, suppliers, tax, and grants still to be earned where they are shown so.
    """
    return loans_owed + bridge_owed_in_books + payables + tax_owed + grants_among_debts


@line()
def equity(paid_in_so_far, cumulative_profit_after_tax):
    """The family's part [money]

    Paid in and profits so far.
    """
    return paid_in_so_far + cumulative_profit_after_tax


@line()
def balance_difference(assets, debts, equity, building_cost, statement_tolerance):
    """Assets less debts and the family's part [money]

    Nothing in every month; less than a billionth of the assets is rounding and shown as nothing.
    """
    gap = assets - debts - equity
    size = np.maximum(assets, building_cost)
    return np.where(np.maximum(gap, -gap) > statement_tolerance * size, gap, 0)
