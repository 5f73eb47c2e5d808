"""Cash that a lender takes to prepay the loans: a share of what debt service and reserves leave, while nothing is locked up.

The sweep comes at the end of the project year, out of cash that has been taxed; it lowers interest, and so tax, from the next
year on. Cash stays on the account first, up to the least balance. What a lock-up sets free later is not swept.
"""

import numpy as np

from appraisal.lines.define import line
from appraisal.lines.trace import total

PREPAYS = {"funding_sweep": "prepays"}


@line(monthly=True, when={"funding_sweep": "shown"})
def owed_before_sweep__shown(loans_owed):
    """Loans owed before a sweep [money]

    As they are: a sweep moves no cash.
    """
    return loans_owed


@line(monthly=True, when=PREPAYS)
def owed_before_sweep__prepays(each_loan_owed_before_sweep, each_loan_interest_waiting):
    """Loans owed before a sweep [money]

    With interest not yet due.
    """
    return total(each_loan_owed_before_sweep) + total(each_loan_interest_waiting)


@line(yearly=True, when={"funding_sweep": "shown"})
def debt_service_to_come__shown(next_debt_service_of_year):
    """Debt service of the year after [money/year]

    Interest and principal, negative.
    """
    return next_debt_service_of_year


@line(monthly=True, when=PREPAYS)
def payments_scheduled(each_loan_payment_scheduled):
    """Debt service as scheduled [money/month]

    Of all loans, without any sweep.
    """
    return total(each_loan_payment_scheduled)


@line(yearly=True, when=PREPAYS)
def payments_scheduled_of_year(year_sum_payments_scheduled):
    """Debt service of the year as scheduled [money/year]

    Of all loans, without any sweep.
    """
    return year_sum_payments_scheduled


@line(yearly=True, when=PREPAYS)
def debt_service_to_come__prepays(next_payments_scheduled_of_year, year_end_owed_before_sweep):
    """Debt service of the year after [money/year]

    As scheduled, at most what is still owed; negative.
    """
    return -np.minimum(next_payments_scheduled_of_year, year_end_owed_before_sweep)


@line(yearly=True, when=PREPAYS)
def sweep_cash(left_after_debt_reserve, locked, lender_tests):
    """Cash a sweep may come upon [money/year]

    What debt service and its reserve leave of a year of full operation that is not locked up.
    """
    return np.maximum(left_after_debt_reserve, 0) * lender_tests * (1 - locked)


@line(yearly=True, when=PREPAYS, roll="sweep_balance")
def sweep_balance_used(previous_sweep_balance, left_after_debt_reserve):
    """Taken from the cash kept on the account [money/year]

    As much as the year falls short, as far as it goes.
    """
    return np.minimum(previous_sweep_balance, np.maximum(-left_after_debt_reserve, 0))


@line(yearly=True, when=PREPAYS, roll="sweep_balance")
def sweep_balance_kept(previous_sweep_balance, sweep_balance_used, sweep_cash, funding_sweep_keeps_amount):
    """Left on the account before a sweep [money/year]

    What the least balance lacks, as far as the year's cash goes. It stays the family's and moves no money.
    """
    lacks = np.maximum(funding_sweep_keeps_amount - (previous_sweep_balance - sweep_balance_used), 0)
    return np.minimum(lacks, sweep_cash)


@line(yearly=True, when=PREPAYS, roll="sweep_balance")
def sweep_balance(previous_sweep_balance, sweep_balance_used, sweep_balance_kept):
    """Cash kept on the account from sweeps [money]

    Opening - taken + left there.
    """
    return previous_sweep_balance - sweep_balance_used + sweep_balance_kept


@line(yearly=True, when=PREPAYS)
def swept(sweep_cash, sweep_balance_kept, funding_sweep_share, year_end_owed_before_sweep):
    """Swept to prepay the loans [money/year]

    The agreed share of the cash over the least balance, at most what is owed.
    """
    return np.minimum((sweep_cash - sweep_balance_kept) * funding_sweep_share, year_end_owed_before_sweep)


@line(yearly=True, when=PREPAYS)
def swept_part(swept, year_end_owed_before_sweep):
    """Part of the loans that is swept [share]

    The same of every loan; 1 where the sweep pays off all.
    """
    owed = year_end_owed_before_sweep > 0
    return np.where(owed, swept / np.where(owed, year_end_owed_before_sweep, 1), 0)
