"""A lender's order of payments by year: interest, principal, sweep, and what may be taken out."""

import numpy as np

from appraisal.lines.define import line


@line(yearly=True)
def cash_of_year(year_sum_cash_available_for_debt_service):
    """Cash available for debt service [money/year]

    Of all twelve months.
    """
    return year_sum_cash_available_for_debt_service


@line(yearly=True)
def order_cash(cash_of_year, full_operation_so_far):
    """Cash for the lender's order of payments [money/year]

    From the first full operating year on.
    """
    return cash_of_year * full_operation_so_far


@line(yearly=True)
def order_due(due_of_year, full_operation_so_far):
    """Scheduled payment [money/year]

    Interest and principal; it stays as it is when a sweep has prepaid principal.
    """
    return due_of_year * full_operation_so_far


@line(yearly=True)
def order_year_opening(previous_order_year_closing):
    """Owed when the year begins, as scheduled [money]

    All loans together.
    """
    return previous_order_year_closing


@line(yearly=True)
def order_year_closing(year_end_loans_owed):
    """Owed when the year ends, as scheduled [money]

    All loans together.
    """
    return year_end_loans_owed


@line(yearly=True)
def order_rate(year_sum_interest_cost, order_year_opening, full_operation_so_far):
    """Interest of the year on what was owed when it began [share/year]

    As the schedule has it.
    """
    owed = np.where(order_year_opening > 0, order_year_opening, 1)
    return np.where(order_year_opening > 0, (0 - year_sum_interest_cost) / owed, 0) * full_operation_so_far


@line(yearly=True)
def order_debt(order_year_opening, first_full):
    """Debt when the tests begin [money]

    One entry, in the first full operating year.
    """
    return order_year_opening * first_full


@line(yearly=True, roll="order")
def order_owed(year_end_years_on, life_sum_order_debt, previous_order_balance):
    """Owed at the start of the year, with the sweep [money]

    The debt when the tests begin, then the balance of the year before.
    """
    return np.where(year_end_years_on > 0, previous_order_balance, life_sum_order_debt)


@line(yearly=True, roll="order")
def order_interest(order_owed, order_rate):
    """Interest [money/year]

    On what is owed at the start of the year.
    """
    return order_owed * order_rate


@line(yearly=True, roll="order")
def order_payment(order_due, order_owed, order_interest):
    """Payment [money/year]

    As scheduled, or what is left to pay.
    """
    return np.minimum(order_due, order_owed + order_interest)


@line(yearly=True, roll="order")
def order_indebted(order_owed, life_sum_order_debt, negligible_debt, full_operation_so_far):
    """There is debt to test [1]

    More than rounding, from the first full operating year on.
    """
    return np.where(order_owed > negligible_debt * life_sum_order_debt, 1, 0) * full_operation_so_far


@line(yearly=True, roll="order")
def order_cover(order_cash, order_payment, order_indebted):
    """Cover of the payment [1]

    Cash over the payment; 0 without debt.
    """
    return order_indebted * order_cash / np.where(order_payment > 0, order_payment, 1)


@line(yearly=True)
def order_reserved(year_sum_debt_reserve_moves, full_operation_so_far):
    """Put into the debt reserve [money/year]

    After debt service; negative where it is taken out.
    """
    return (0 - year_sum_debt_reserve_moves) * full_operation_so_far


@line(yearly=True, roll="order")
def order_left(order_cash, order_payment, order_reserved):
    """Left after payment and reserve [money/year]

    Negative where the cash falls short.
    """
    return order_cash - order_payment - order_reserved


@line(yearly=True, roll="order", when={"funding_sweep": "prepays"})
def order_sweep__prepays(swept):
    """Extra principal out of what is left [money/year]

    As it is prepaid.
    """
    return swept


@line(yearly=True, roll="order", when={"funding_sweep": "shown"})
def order_sweep__shown(
    order_left, order_payment, order_owed, order_interest, order_indebted, funding_sweep_share
):
    """Extra principal out of what is left [money/year]

    The agreed part of the cash left, at most what is still owed; exactly nothing where no more than rounding is owed.
    """
    spare = np.maximum(order_left, 0)
    return np.minimum(spare * funding_sweep_share, order_owed + order_interest - order_payment) * order_indebted


@line(yearly=True, roll="order")
def order_free(order_left, order_sweep):
    """Left after payment, reserve and sweep [money/year]

    Free for the family, or held back.
    """
    return np.maximum(order_left, 0) - order_sweep


@line(yearly=True, roll="order")
def order_trapped(order_free, order_cover, order_indebted, funding_lock_up_cover):
    """Held back under the lock-up cover [money/year]

    Nothing may be taken out while the cover lies under it.
    """
    return np.where(order_cover < funding_lock_up_cover, order_free, 0) * order_indebted


@line(yearly=True, roll="order")
def order_distributed(order_free, order_trapped):
    """Free for the family [money/year]

    What is left and not held back.
    """
    return order_free - order_trapped


@line(yearly=True, roll="order")
def order_short(order_left):
    """What the cash lacks [money/year]

    Negative.
    """
    return np.minimum(order_left, 0)


@line(yearly=True, roll="order")
def order_balance(order_owed, order_payment, order_interest, order_sweep):
    """Owed at the end of the year, with the sweep [money]

    Opening less principal and sweep.
    """
    return order_owed + order_interest - order_payment - order_sweep
