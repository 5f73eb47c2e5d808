"""Contracts, loans, grants, depreciation and credits whose figures must come together with a choice."""

from __future__ import annotations

import re
from collections.abc import Iterator

from appraisal.errors import Fault
from appraisal.scenario.faults import shown
from appraisal.scenario.funding import Capital
from appraisal.scenario.model import Scenario
from appraisal.scenario.money_checks import CALENDAR_MONTH
from appraisal.scenario.plant_checks import Assumptions
from appraisal.scenario.quantity import MONTHS_PER_YEAR


def one_loan_fills_the_gap(scenario: Scenario) -> list[Fault]:
    """Two loans cannot both be what is left open."""
    names = [name for name, loan in scenario.loan.items() if loan.size == "fills_the_gap"]
    return [
        Fault(
            f"loan.{name}.size",
            "another loan fills the gap already",
            got="fills_the_gap",
            hint=f"give this one an amount, or loan.{names[0]}",
        )
        for name in names[1:]
    ]


def payment_dates(scenario: Scenario) -> list[Fault]:
    """Payments fall on the ends of whole parts of a year."""
    return [
        Fault(
            f"loan.{name}.payment_every_months",
            "does not part a year evenly",
            got=f"{loan.payment_every_months} month",
            allowed="1, 2, 3, 4, 6 or 12 month",
        )
        for name, loan in scenario.loan.items()
        if MONTHS_PER_YEAR % loan.payment_every_months
    ]


def loan_sized_on_cover(scenario: Scenario) -> list[Fault]:
    """A loan sized on cover is sculpted, and all of it is drawn before the first repayment."""
    drawn = max((item.first_month + item.months for item in scenario.capital.values()), default=0)
    faults = []
    for name, loan in scenario.loan.items():
        if loan.size != "to_cover":
            continue
        if loan.repayment != "sculpted":
            faults.append(
                Fault(
                    f"loan.{name}.repayment",
                    "must be `sculpted`, because the loan is sized to cover",
                    got=loan.repayment,
                )
            )
        first = max(drawn, loan.payment_every_months)
        if loan.interest_only_months < first:
            faults.append(
                Fault(
                    f"loan.{name}.interest_only_months",
                    "a loan sized to cover is repaid once all capital is paid",
                    got=f"{loan.interest_only_months} month",
                    allowed=f"at least {first} month",
                )
            )
    return faults


def claims_before_the_last_payment(scenario: Scenario) -> list[Fault]:
    """A grant that is paid by claims has a claim before its last payment."""
    return [
        Fault(
            f"grant.{name}.first_claim_month",
            "no claim before the last payment",
            got=f"month {grant.first_claim_month}",
            allowed=f"below month {grant.arrives_in_month}",
        )
        for name, grant in scenario.grant.items()
        if grant.paid == "by_claims" and grant.first_claim_month >= grant.arrives_in_month
    ]


def declining_rate(scenario: Scenario) -> list[Fault]:
    """A declining balance needs its rate."""
    return [
        Fault(f"capital.{name}.depreciation_rate", "needed above 0, because depreciation_method is `declining_balance`")
        for name, item in scenario.capital.items()
        if item.depreciation_method == "declining_balance" and item.depreciation_rate == 0
    ]


def depreciation_table(scenario: Scenario) -> list[Fault]:
    """A depreciation by table needs the table."""
    return [
        Fault(
            f"capital.{name}.depreciation_share_by_year",
            "needed, because depreciation_method is `table`",
            hint="give the shares, or name a row in depreciation_like",
        )
        for name, item in scenario.capital.items()
        if item.depreciation_method == "table" and not any(item.depreciation_share_by_year)
    ]


def credit_has_a_rate(scenario: Scenario) -> list[Fault]:
    """An investment credit and its rate come together."""
    tax = scenario.tax
    if (tax.investment_credit != "none") == (tax.investment_credit_rate > 0):
        return []
    needed = "needed above 0" if tax.investment_credit_rate == 0 else "stands without investment_credit"
    return [
        Fault(
            "tax.investment_credit_rate",
            needed,
            got=f"{tax.investment_credit_rate:g}",
            hint='say `against_tax` or `paid_out` in investment_credit, or "none" and no rate',
        )
    ]


def bill_to_meter_against(scenario: Scenario) -> list[Fault]:
    """Net metering needs a power bill to be set against."""
    if scenario.power.contract != "net_metering" or sum(scenario.farm_now.power_kwh) > 0:
        return []
    return [Fault("farm_now.power_kwh", "needed above 0, because the power contract is `net_metering`")]


def falling_demand_charge(scenario: Scenario) -> list[Fault]:
    """A demand charge that falls needs its price and the peak."""
    power = scenario.power
    if power.demand_charge == "stays":
        return []
    return [
        Fault(f"power.{field}", "needed above 0, because demand_charge is `falls`")
        for field in ("peak_replaced_kw", "demand_price_per_kw_month")
        if getattr(power, field) == 0
    ]


def end_of_quote(scenario: Scenario) -> list[Fault]:
    """The last month of a quote is a year and a month."""
    return [
        Fault(
            f"capital.{name}.quote_ends", "not a month", got=shown(item.quote_ends), allowed="year and month as 2027-04"
        )
        for name, item in scenario.capital.items()
        if item.quote_ends and not re.fullmatch(CALENDAR_MONTH, item.quote_ends)
    ]


def sales_tax_comes_back_in_time(scenario: Scenario) -> list[Fault]:
    """Sales tax is given back before the project ends."""
    if scenario.tax.sales_tax == "none":
        return []
    end = scenario.project.years * MONTHS_PER_YEAR
    return [
        Fault(
            "tax.sales_tax_refund_months",
            f"the sales tax on {name} comes back after the project ends",
            got=f"month {_refunded(item, scenario)}",
            allowed=f"at most month {end}",
        )
        for name, item in scenario.capital.items()
        if item.sales_tax_rate > 0 and _refunded(item, scenario) > end
    ]


def _refunded(item: Capital, scenario: Scenario) -> int:
    return item.first_month + item.months + scenario.tax.sales_tax_refund_months


def figures_of_choices(scenario: Scenario, assumptions: Assumptions) -> list[Fault]:
    """Figures that a choice reads are written in the file, not left to a default of zero."""
    return [
        Fault(path, f"needed, because {why}", allowed=assumptions[path].declaration.allowed())
        for path, why in _wanted(scenario)
        if assumptions[path].origin == "default"
    ]


def _wanted(scenario: Scenario) -> Iterator[tuple[str, str]]:
    for name, loan in scenario.loan.items():
        if loan.size in ("amount", "share_of_cost"):
            yield f"loan.{name}.{loan.size}", f"size is `{loan.size}`"
        if loan.size == "fills_the_gap":
            yield "funding.own_money", f"loan.{name} fills the gap"
        if loan.rate_fixed_years < loan.years:
            yield f"loan.{name}.rate_after", "the rate is fixed for less than the term"
    if scenario.funding.sweep == "prepays":
        yield "funding.sweep_share", "the sweep prepays the loans"
    if scenario.power.contract == "premium":
        yield "power.contract_premium_per_kwh", "the power contract is `premium`"
