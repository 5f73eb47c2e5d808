"""Income tax. Rates are dated inputs: ask your accountant."""

from __future__ import annotations

from typing import Literal

from appraisal.scenario.quantity import Section, choice, count, number


class Tax(Section):
    """Taxes, by tax year. Rates are dated inputs: ask your accountant."""

    rate: float = number("share", 0, 0.7, label="Rate on profit", help="All income taxes together.")
    rate_year: int = count("year", 1990, 2100, label="Year the rate is valid for", help="Shown beside the tax.")
    paid_months_after_year: int = count(
        "month", 0, 11, default=0, label="Months between the year's end and the tax",
        help="0: paid in the last month of the tax year it is for.")
    year_first_month: int = count(
        "month", 0, 12, default=0, label="First calendar month of the tax year",
        help="1 for January, 4 for April, 7 for July; 0: the tax year is the project year. Losses, depreciation by year, the "
        "half-year rule, the investment credit and the payment of the tax follow it.")
    entity: Literal["not_said", "farm_itself", "partnership", "company", "cooperative"] = choice(
        "not_said", "farm_itself", "partnership", "company", "cooperative", default="not_said", label="Who is taxed",
        help="Whose tax return the plant stands in; it moves no figure, but decides who may use a loss: ask your accountant.")
    losses: Literal["carried_forward", "used_at_once", "lost"] = choice(
        "carried_forward", "used_at_once", "lost", default="carried_forward", label="What happens to a loss",
        help="used_at_once needs other farm income large enough to take it.")
    loss_use_at_most_share: float = number(
        "share", 0, 1, default=1.0, label="Part of a profit that old losses may cover",
        help="0.8 where the law leaves a fifth of each profit taxed.")
    depreciation_reduced_by_grants: Literal["yes", "no", "grant_is_income"] = choice(
        "yes", "no", "grant_is_income", default="yes", label="Grants lower the depreciation base",
        help="Usual; the law decides. grant_is_income: the grant is taxed when it arrives, the whole cost is depreciated.")
    investment_credit: Literal["none", "against_tax", "paid_out"] = choice(
        "none", "against_tax", "paid_out", default="none", label="Investment credit",
        help="against_tax: taken off the plant's tax from the year of the first feeding on, the rest carried forward; "
        "paid_out: refunded, or sold to somebody who can use it.")
    investment_credit_rate: float = number(
        "share", 0, 0.6, default=0.0, label="Rate of the investment credit", help="Of the capital that counts.")
    credit_after_grants: Literal["yes", "no"] = choice(
        "yes", "no", default="yes", label="Grants are taken off before the credit", help="The law decides; yes is cautious.")
    credit_lowers_basis_share: float = number(
        "share", 0, 1, default=0.5, source="26 USC 50(c)(3)", basis="from memory",
        label="Part of the credit taken off the depreciation base", help="Half in the United States.")
    credit_paid_after_months: float = number(
        "month", 0, 60, default=12.0, label="Months from the first feeding to the payment of the credit",
        help="For a credit that is paid out.")
    credit_kept_years: float = number(
        "year", 0, 20, default=5.0, source="26 USC 50(a)", basis="from memory",
        label="Years the plant must run to keep the credit",
        help="When it stops before, the part of the years that lack is paid back.")
    sales_tax: Literal["none", "counted"] = choice(
        "none", "counted", default="none", label="Sales tax on the capital",
        help="none: costs are stated as they are paid in the end; counted: with the rates beside the items.")
    sales_tax_recoverable_share: float = number(
        "share", 0, 1, default=1.0, label="Part of the sales tax that comes back",
        help="What does not come back joins the capital.")
    sales_tax_refund_months: int = count("month", 0, 24, default=3, label="Months until sales tax comes back",
        help="From payment to refund.")
