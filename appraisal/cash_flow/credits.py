"""Carbon credits for avoided methane, and what they cost."""

import numpy as np

from appraisal.lines.define import line


@line(role="cash_income")
def credit_sales(credit_tonnes, credits_price_per_t_co2e, credits_share_kept, credits_escalation, years_on):
    """Credits sold [money/month]

    Creditable tonnes x share kept x price with its yearly rise.
    """
    return credit_tonnes * credits_share_kept * credits_price_per_t_co2e * (1 + credits_escalation) ** years_on


@line(role="running_cost")
def credit_cost(
    credits_cost_per_year,
    days,
    days_per_year,
    feeding,
    months_fed,
    credits_crediting_years,
    months_per_year,
    rounding_tolerance,
    inflation_index,
):
    """Registry and verification [money/month]

    In every month of the crediting period.
    """
    inside = np.where(months_fed > credits_crediting_years * months_per_year + rounding_tolerance, 0, 1) * feeding
    return -(credits_cost_per_year * days / days_per_year * inside * inflation_index)
