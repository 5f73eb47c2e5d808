"""What a lender looks at, step by step: cover from three sides, and cover over the life of loan and plant."""

import numpy as np

from appraisal.lines.define import line


@line(yearly=True)
def due_of_year(year_sum_debt_service):
    """Debt service due [money/year]

    Interest and principal, positive as paid.
    """
    return np.maximum(0 - year_sum_debt_service, 0)


@line(yearly=True)
def debt_falls_due(due_of_year, life_sum_due_of_year, negligible_debt):
    """Debt falls due in the year [1]

    A sum far below all debt service is rounding, not a payment.
    """
    return np.where(due_of_year > negligible_debt * life_sum_due_of_year, 1, 0)


@line(yearly=True)
def divisor_of_year(due_of_year, debt_falls_due):
    """Debt service to divide by [money/year]

    1 where nothing falls due, so that nothing is divided by nothing.
    """
    return np.where(debt_falls_due > 0, due_of_year, 1)


@line(yearly=True)
def cover_as_assumed(year_sum_cash_available_for_debt_service, divisor_of_year, debt_falls_due):
    """Cover as assumed [1]

    Cash available over debt service; 0 where nothing falls due.
    """
    return year_sum_cash_available_for_debt_service / divisor_of_year * debt_falls_due


@line(yearly=True)
def cover_family_hours_paid(year_sum_cash_with_family_paid, divisor_of_year, debt_falls_due):
    """Cover with the family's hours paid [1]

    As above, after the hired wage for every hour of the family.
    """
    return year_sum_cash_with_family_paid / divisor_of_year * debt_falls_due


@line(yearly=True)
def cover_signed_contracts_only(year_sum_cash_on_signed_contracts, divisor_of_year, debt_falls_due):
    """Cover on signed contracts only [1]

    As above, counting income of signed contracts and nothing else; every cost stays.
    """
    return year_sum_cash_on_signed_contracts / divisor_of_year * debt_falls_due


@line(yearly=True)
def bank_year(year_sum_feeding, year_sum_closed, months_per_year):
    """Year that a lender counts in full [1]

    Fed, or closed for good, in all twelve months: a plant that closed early still owes its debt.
    """
    return np.where(year_sum_feeding + year_sum_closed >= months_per_year, 1, 0)


@line(yearly=True)
def counted_year(debt_falls_due, bank_year):
    """Full operating year with debt [1]

    The years that least and average cover are taken over.
    """
    return debt_falls_due * bank_year


@line(yearly=True)
def part_year(debt_falls_due, bank_year):
    """Year with debt that is no full operating year [1]

    Shown apart.
    """
    return debt_falls_due * (1 - bank_year)


@line(yearly=True)
def signed_share_of_year(year_sum_signed_income, year_sum_cash_income):
    """Part of the income that is signed for [share]

    Signed over all cash income; 0 without income.
    """
    some = np.where(year_sum_cash_income > 0, year_sum_cash_income, 1)
    return np.where(year_sum_cash_income > 0, year_sum_signed_income / some, 0)


@line(yearly=True)
def full_operation_so_far(cumulative_bank_year):
    """Full operation has begun [1]

    From the first full operating year on.
    """
    return np.where(cumulative_bank_year > 0, 1, 0)


@line(yearly=True)
def first_full(full_operation_so_far, previous_full_operation_so_far):
    """First full operating year of all [1]

    The year from which a lender counts.
    """
    return full_operation_so_far - previous_full_operation_so_far


@line()
def counts(in_year_full_operation_so_far):
    """Month counts for cover over the life [1]

    From the first full operating year on.
    """
    return in_year_full_operation_so_far


@line()
def debt_floor(life_sum_loans_owed, months_in_all, negligible_debt):
    """Debt below this is rounding [money]

    A very small part of the mean debt, or of one unit of money.
    """
    return negligible_debt * np.maximum(life_sum_loans_owed / months_in_all, 1)


@line()
def owed_before(previous_loans_owed, debt_floor):
    """A loan is owed before the month [1]

    1 where the opening balance is more than rounding.
    """
    return np.where(previous_loans_owed > debt_floor, 1, 0)


@line(roll="rate_of_loans")
def rate_of_loans(previous_rate_of_loans, previous_loans_owed, interest_cost, owed_before):
    """Interest of the month over what was owed before it [share]

    All loans together; when nothing is owed any more the last rate stays.
    """
    owed = np.where(owed_before > 0, previous_loans_owed, 1)
    return np.where(owed_before > 0, (0 - interest_cost) / owed, previous_rate_of_loans)


@line(roll="growth_at_loan_rate")
def growth_at_loan_rate(previous_growth_at_loan_rate, counts, rate_of_loans):
    """One unit of money with interest from the start of full operation [1]

    The divisor that brings cash back to that day.
    """
    return np.where(counts > 0, np.maximum(previous_growth_at_loan_rate, 1) * (1 + rate_of_loans), 1)


@line()
def cash_ahead(cash_available_for_debt_service, counts, growth_at_loan_rate):
    """Cash available, worth at the start of full operation [money/month]

    Over the life of the plant.
    """
    return cash_available_for_debt_service * counts / growth_at_loan_rate


@line()
def scheduled_debt_floor(life_sum_loans_owed_as_scheduled, months_in_all, negligible_debt):
    """Scheduled debt below this is rounding [money]

    A very small part of the mean debt, or of one unit of money.
    """
    return negligible_debt * np.maximum(life_sum_loans_owed_as_scheduled / months_in_all, 1)


@line()
def cash_ahead_while_owed(cash_ahead, previous_loans_owed_as_scheduled, scheduled_debt_floor):
    """The same while a loan is owed, as scheduled [money/month]

    Over the life of the loans, whether or not a sweep ends them sooner.
    """
    return cash_ahead * np.where(previous_loans_owed_as_scheduled > scheduled_debt_floor, 1, 0)


@line()
def debt_at_start(loans_owed, counts, next_counts):
    """Debt when full operation begins [money/month]

    One entry: what is owed at the end of the month before.
    """
    return loans_owed * np.maximum(next_counts - counts, 0)


@line()
def full_months(in_year_bank_year):
    """Month of a full operating year [1]

    Only windows of twelve such months count for cover over any twelve months.
    """
    return in_year_bank_year
