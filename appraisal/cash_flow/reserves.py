"""Money put by: a debt reserve for the loan, an overhaul reserve for the engine. It stays the family's, but is not free."""

import numpy as np

from appraisal.lines.define import line

KEPT = "from_start|from_cash"


@line(per="loan", when={"funding_debt_reserve": "none|from_cash"})
def loan_reserve_share__none(loan_fee_share):
    """Debt reserve filled from the start, of one unit lent [share]

    None.
    """
    return 0 * loan_fee_share


@line(per="loan", when={"funding_debt_reserve": "from_start"})
def loan_first_service_share(loan_interest_share, loan_principal_share, in_year_opens_full_years):
    """Debt service of the first full operating year, of one unit lent [share/month]

    Interest and principal, in that year only.
    """
    return (loan_interest_share + loan_principal_share) * in_year_opens_full_years


@line(per="loan", when={"funding_debt_reserve": "from_start"})
def loan_reserve_share__from_start(life_sum_loan_first_service_share, funding_debt_reserve_months, months_per_year):
    """Debt reserve filled from the start, of one unit lent [share]

    Months of the debt service of the first full operating year.
    """
    return life_sum_loan_first_service_share * funding_debt_reserve_months / months_per_year


@line(yearly=True)
def debt_service_of_year(year_sum_debt_service):
    """Debt service of the year [money/year]

    Interest and principal, negative.
    """
    return year_sum_debt_service


@line(yearly=True)
def left_after_debt_service(year_sum_cash_available_for_debt_service, debt_service_of_year):
    """Left after debt service [money/year]

    Cash available less interest and principal; what reserves, other lenders' tests and the family come after.
    """
    return year_sum_cash_available_for_debt_service + debt_service_of_year


@line(yearly=True, when={"funding_debt_reserve": KEPT})
def debt_reserve_target(
    debt_service_to_come, full_year, next_full_year, funding_debt_reserve_months, months_per_year
):
    """Debt reserve wanted at the year's end [money]

    Months of next year's debt service, from the end of the last year before full operation on.
    """
    wanted = np.maximum(full_year, next_full_year) * funding_debt_reserve_months / months_per_year
    return -(debt_service_to_come * wanted)


@line(yearly=True, when={"funding_debt_reserve": "from_start"})
def debt_reserve_first_fill__from_start(before_full_years):
    """Debt reserve is filled whatever the cash [1]

    1 in the last year before full operation: it is part of the funding.
    """
    return before_full_years


@line(yearly=True, when={"funding_debt_reserve": "from_cash"})
def debt_reserve_first_fill__from_cash(before_full_years):
    """Debt reserve is filled whatever the cash [1]

    Never: it grows out of what is left after debt service.
    """
    return 0 * before_full_years


@line(yearly=True, roll="debt_reserve", when={"funding_debt_reserve": KEPT})
def debt_reserve_drawn(previous_debt_reserve, left_after_debt_service):
    """Taken from the debt reserve [money/year]

    As much as cash falls short of the debt service, as far as it goes.
    """
    return np.minimum(previous_debt_reserve, np.maximum(-left_after_debt_service, 0))


@line(yearly=True, roll="debt_reserve", when={"funding_debt_reserve": KEPT})
def debt_reserve_released(previous_debt_reserve, debt_reserve_drawn, debt_reserve_target, statement_tolerance):
    """Released from the debt reserve [money/year]

    What stands above the target.
    """
    above = previous_debt_reserve - debt_reserve_drawn - debt_reserve_target
    return np.where(above > statement_tolerance * previous_debt_reserve, above, 0)


@line(yearly=True, roll="debt_reserve", when={"funding_debt_reserve": KEPT})
def debt_reserve_filled(
    previous_debt_reserve,
    debt_reserve_drawn,
    debt_reserve_target,
    left_after_debt_service,
    debt_reserve_first_fill,
    statement_tolerance,
):
    """Put into the debt reserve [money/year]

    What the target lacks, as far as the cash left after debt service goes.
    """
    under = debt_reserve_target - (previous_debt_reserve - debt_reserve_drawn)
    lacks = np.where(under > statement_tolerance * debt_reserve_target, under, 0)
    return np.where(debt_reserve_first_fill > 0, lacks, np.minimum(lacks, np.maximum(left_after_debt_service, 0)))


@line(yearly=True, roll="debt_reserve", when={"funding_debt_reserve": KEPT})
def debt_reserve(previous_debt_reserve, debt_reserve_drawn, debt_reserve_released, debt_reserve_filled):
    """Debt reserve [money]

    Opening - taken - released + put in.
    """
    return previous_debt_reserve - debt_reserve_drawn - debt_reserve_released + debt_reserve_filled


@line(yearly=True, when={"funding_debt_reserve": KEPT})
def debt_reserve_short(debt_reserve_target, debt_reserve, statement_tolerance):
    """Debt reserve under its target [money]

    What lacks at the year's end.
    """
    under = debt_reserve_target - debt_reserve
    return np.where(under > statement_tolerance * debt_reserve_target, under, 0)


@line(when={"funding_debt_reserve": KEPT}, role="debt_reserve")
def debt_reserve_moved(
    in_year_debt_reserve_drawn, in_year_debt_reserve_released, in_year_debt_reserve_filled, last_of_year
):
    """Out of and into the debt reserve [money/month]

    In the last month of the project year; what is put in is negative.
    """
    return (in_year_debt_reserve_drawn + in_year_debt_reserve_released - in_year_debt_reserve_filled) * last_of_year


@line(yearly=True)
def overhauls_of_year(year_sum_overhauls_paid):
    """Overhauls of the year [money/year]

    Of engines, tank and worn parts, negative.
    """
    return year_sum_overhauls_paid


@line(yearly=True, when={"funding_overhaul_reserve": "three_years_ahead"})
def overhauls_next_year(next_overhauls_of_year):
    """Overhauls of the year after [money/year]

    Of engines, tank and worn parts, negative.
    """
    return next_overhauls_of_year


@line(yearly=True, when={"funding_overhaul_reserve": "three_years_ahead"})
def overhauls_in_two_years(next_overhauls_next_year):
    """Overhauls two years on [money/year]

    Of engines, tank and worn parts, negative.
    """
    return next_overhauls_next_year


@line(yearly=True, when={"funding_overhaul_reserve": "three_years_ahead"})
def overhaul_reserve(
    overhauls_next_year,
    overhauls_in_two_years,
    next_overhauls_in_two_years,
    two_thirds,
    one_third,
    months_fed_in_year,
):
    """Overhaul reserve at the year's end [money]

    All of next year's overhauls, two thirds of those of the year after, one third of the third year's; nothing before the
    plant runs, for there is no cash yet to put by.
    """
    ahead = overhauls_next_year + two_thirds * overhauls_in_two_years + one_third * next_overhauls_in_two_years
    return -(ahead * np.where(months_fed_in_year > 0, 1, 0))


@line(yearly=True, when={"funding_overhaul_reserve": "three_years_ahead"})
def overhaul_reserve_change(overhaul_reserve, previous_overhaul_reserve):
    """Change of the overhaul reserve [money/year]

    Released to pay an overhaul or put in; what is put in is negative.
    """
    return previous_overhaul_reserve - overhaul_reserve


@line(yearly=True, when={"funding_overhaul_reserve": "three_years_ahead"})
def overhaul_reserve_pays_share(previous_overhaul_reserve, overhauls_of_year):
    """Part of the year's overhauls that the reserve pays [share]

    All of them, save in the first year of feeding, before which nothing was put by.
    """
    due = np.where(overhauls_of_year < 0, -overhauls_of_year, 1)
    return np.where(overhauls_of_year < 0, np.minimum(previous_overhaul_reserve / due, 1), 0)


@line(yearly=True, when={"funding_overhaul_reserve": "three_years_ahead"})
def overhaul_reserve_used(overhauls_of_year, overhaul_reserve_pays_share):
    """Taken from the overhaul reserve [money/year]

    Overhauls x the part of them that the reserve pays.
    """
    return -(overhauls_of_year * overhaul_reserve_pays_share)


@line(when={"funding_overhaul_reserve": "three_years_ahead"}, role="overhaul_reserve")
def overhaul_reserve_moved(
    overhauls_paid,
    in_year_overhaul_reserve_pays_share,
    in_year_overhaul_reserve_change,
    in_year_overhaul_reserve_used,
    last_of_year,
):
    """Out of and into the overhaul reserve [money/month]

    Taken out in the month of the overhaul; put in in the last month of the project year, which is negative.
    """
    put_in = (in_year_overhaul_reserve_change - in_year_overhaul_reserve_used) * last_of_year
    return put_in - overhauls_paid * in_year_overhaul_reserve_pays_share


@line()
def reserves_held(cumulative_debt_reserve_moves, cumulative_overhaul_reserve_moves, cumulative_lock_up_moves):
    """Reserves held [money]

    What was put in or held back and not taken out again.
    """
    return -(cumulative_debt_reserve_moves + cumulative_overhaul_reserve_moves + cumulative_lock_up_moves)
