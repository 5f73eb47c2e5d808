"""Sales tax (value-added tax) on the capital: what is given back is only a matter of time, the rest is cost."""

import numpy as np

from appraisal.lines.define import line


@line(per="capital", when={"tax_sales_tax": "none"})
def capital_sales_tax_kept_share__none(capital_amount):
    """Sales tax nobody gives back, over the cost [share]

    Not counted: the costs are stated as they are paid in the end.
    """
    return 0 * capital_amount


@line(per="capital", when={"tax_sales_tax": "counted"})
def capital_sales_tax_kept_share__counted(capital_sales_tax_rate, tax_sales_tax_recoverable_share):
    """Sales tax nobody gives back, over the cost [share]

    Rate x the share that cannot be recovered; it joins the capital.
    """
    return capital_sales_tax_rate * (1 - tax_sales_tax_recoverable_share)


@line(per="capital", when={"tax_sales_tax": "counted"}, role="sales_tax")
def capital_sales_tax_paid(
    capital_amount,
    capital_contingency_share,
    capital_sales_tax_rate,
    tax_sales_tax_recoverable_share,
    capital_paid_share,
    capital_escalation,
    years_on,
):
    """Sales tax paid that comes back [money/month]

    With every payment of the item.
    """
    cost = capital_amount * (1 + capital_contingency_share) * capital_paid_share * (1 + capital_escalation) ** years_on
    return -(cost * capital_sales_tax_rate * tax_sales_tax_recoverable_share)


@line(per="capital", when={"tax_sales_tax": "counted"}, role="sales_tax")
def capital_sales_tax_refund(
    life_sum_capital_sales_tax_paid, month_number, capital_first_month, capital_months, tax_sales_tax_refund_months
):
    """Sales tax given back [money/month]

    The same sum in even parts, later by the months a refund takes.
    """
    paid_in = month_number - tax_sales_tax_refund_months
    inside = np.where(paid_in >= capital_first_month, 1, 0) * np.where(
        paid_in < capital_first_month + capital_months, 1, 0
    )
    return -(life_sum_capital_sales_tax_paid / capital_months * inside)
