"""Carbon credits and other climate claims that the plant sells, and what they cost."""

import numpy as np

from appraisal.lines.define import line


@line()
def credit_price(credits_price_per_t_co2e, credits_price_share_by_year, credits_escalation, years_on):
    """Price of a credit [money/t CO2e]

    Price x its own path by project year x yearly rise.
    """
    return credits_price_per_t_co2e * credits_price_share_by_year * (1 + credits_escalation) ** years_on


@line()
def credit_worth(credit_tonnes_sold, credits_share_kept, credit_price):
    """Worth of the credits made [money/month]

    Credits sold x share kept x price, in the month of the reduction.
    """
    return credit_tonnes_sold * credits_share_kept * credit_price


@line(yearly=True, when={"credits_paid": "next_year"})
def credit_worth_of_year(year_sum_credit_worth):
    """Worth of a year's credits [money/year]

    Of the twelve months of the project year.
    """
    return year_sum_credit_worth + 0


@line(yearly=True, when={"credits_paid": "next_year"})
def credit_worth_paid_in_year(previous_credit_worth_of_year):
    """Credits that are paid in the year [money/year]

    Those of the year before: they are verified, issued and sold first.
    """
    return previous_credit_worth_of_year + 0


@line(role="cash_income", when={"credits_paid": "monthly"})
def credit_sales__monthly(credit_worth):
    """Credits sold [money/month]

    Creditable tonnes after discount and buffer x share kept x price.
    """
    return credit_worth + 0


@line(role="cash_income", when={"credits_paid": "next_year"})
def credit_sales__next_year(
    in_year_credit_worth_paid_in_year, month_number, year_number, months_per_year, credits_paid_in_month
):
    """Credits sold [money/month]

    Those of the project year before, all in one month.
    """
    month_of_year = month_number - (year_number - 1) * months_per_year + 1
    return in_year_credit_worth_paid_in_year * np.where(np.equal(month_of_year, credits_paid_in_month), 1, 0)


@line(role="running_cost")
def credit_cost(credits_cost_per_year, days, days_per_year, credits_run, inflation_index):
    """Registry and verification [money/month]

    Spread over every month of the crediting period.
    """
    return -(credits_cost_per_year * days / days_per_year * credits_run * inflation_index)


@line(role="running_cost")
def credit_registration(credits_registration_cost, months_fed, inflation_index):
    """Listing and validation of credits [money/month]

    Once, in the first month of feeding.
    """
    return -(credits_registration_cost * np.where(np.equal(months_fed, 1), 1, 0) * inflation_index)


@line()
def credit_verifications(
    months_fed, credits_verification_every_years, months_per_year, rounding_tolerance, credits_run
):
    """Verifications due [1/month]

    One each time the years between two are full, as long as credits run.
    """
    apart = credits_verification_every_years * months_per_year
    full = np.floor(months_fed / apart + rounding_tolerance)
    before = np.floor(np.maximum(months_fed - 1, 0) / apart + rounding_tolerance)
    return (full - before) * credits_run


@line(role="running_cost")
def credit_verification(credits_verification_cost, credit_verifications, inflation_index):
    """Verification of credits [money/month]

    Verifications due x cost of one.
    """
    return -(credits_verification_cost * credit_verifications * inflation_index)


@line(role="running_cost")
def credit_issuance(credits_issuance_fee_per_t, credit_tonnes_sold, inflation_index):
    """Fee of the registry [money/month]

    Credits sold x fee per credit.
    """
    return -(credits_issuance_fee_per_t * credit_tonnes_sold * inflation_index)


@line(per="carbon_claim", role="cash_income", when={"carbon_claim_by": "plant"})
def carbon_claim_income(
    carbon_claim_sold,
    carbon_claim_price_per_t_co2e,
    power_sold,
    carbon_claim_claimed_share,
    carbon_claim_price_per_kwh,
    carbon_claim_runs,
    carbon_claim_escalation,
    years_on,
):
    """Income of the claim [money/month]

    Tonnes x price, and kWh sold x price where it is paid by the kWh.
    """
    by_tonne = carbon_claim_sold * carbon_claim_price_per_t_co2e
    by_kwh = power_sold * carbon_claim_claimed_share * carbon_claim_price_per_kwh * carbon_claim_runs
    return (by_tonne + by_kwh) * (1 + carbon_claim_escalation) ** years_on


@line(per="carbon_claim", role="running_cost", when={"carbon_claim_by": "plant"})
def carbon_claim_cost(carbon_claim_cost_per_year, days, days_per_year, carbon_claim_runs, inflation_index):
    """Cost of the claim [money/month]

    Spread over the months it runs.
    """
    return -(carbon_claim_cost_per_year * days / days_per_year * carbon_claim_runs * inflation_index)
