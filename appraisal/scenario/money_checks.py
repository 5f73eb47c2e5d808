"""Dates, bills, capital, grants and loans that are fine alone and wrong together."""

from __future__ import annotations

import re

from appraisal.errors import Fault
from appraisal.scenario.faults import did_you_mean, shown
from appraisal.scenario.funding import Capital, Loan
from appraisal.scenario.model import Scenario
from appraisal.scenario.quantity import MONTHS_PER_YEAR
from appraisal.scenario.reference import rows

CURRENCY = re.compile(r"[A-Z]{3}")
CALENDAR_MONTH = re.compile(r"(19|20)\d\d-(0[1-9]|1[0-2])")
ROUNDING = 1e-9


def currency_code(scenario: Scenario) -> list[Fault]:
    """The currency is three capital letters."""
    code = scenario.project.currency
    if CURRENCY.fullmatch(code):
        return []
    hint = f"write {code.upper()}" if CURRENCY.fullmatch(code.upper()) else None
    return [Fault("project.currency", "not a currency", got=shown(code), allowed="three capital letters", hint=hint)]


def calendar_month(scenario: Scenario) -> list[Fault]:
    """The first month is a year and a month."""
    written = scenario.project.first_month
    if CALENDAR_MONTH.fullmatch(written):
        return []
    return [Fault("project.first_month", "not a month", got=shown(written), allowed="year and month as 2027-04")]


def time_to_run(scenario: Scenario) -> list[Fault]:
    """Building and the rise to full gas end before the project does."""
    end = scenario.project.years * MONTHS_PER_YEAR
    start = scenario.project.build_months + scenario.digester.ramp_months
    if start < end:
        return []
    return [Fault("project.build_months", "building and the rise to full gas take the whole project",
                  got=f"{start:g} month", allowed=f"below {end} month together")]


def power_bill(scenario: Scenario) -> list[Fault]:
    """A power bill and its kilowatt-hours come together."""
    now = scenario.farm_now
    return _bill_and_amount("power", bill=sum(now.power_bill), amount=sum(now.power_kwh))


def heating_fuel_bill(scenario: Scenario) -> list[Fault]:
    """A fuel bill and its kilowatt-hours come together."""
    now = scenario.farm_now
    return _bill_and_amount("heating_fuel", bill=sum(now.heating_fuel_bill), amount=sum(now.heating_fuel_kwh))


def _bill_and_amount(what: str, *, bill: float, amount: float) -> list[Fault]:
    """bill [money/year], amount [kWh/year]."""
    if (bill > 0) == (amount > 0):
        return []
    given, lacking = ("bill", "kwh") if bill > 0 else ("kwh", "bill")
    figure = f"{bill:g} money/year" if bill > 0 else f"{amount:g} kWh/year"
    return [Fault(f"farm_now.{what}_{given}", f"stands without {what}_{lacking}", got=figure,
                  hint=f"give {what}_{lacking} too, or neither")]


def payments_within_project(scenario: Scenario) -> list[Fault]:
    """Capital is paid before the project ends."""
    end = scenario.project.years * MONTHS_PER_YEAR
    return [
        Fault(f"capital.{name}.first_month", "is still being paid after the project ends",
              got=f"last payment in month {_end(item):g}", allowed=f"at most month {end}")
        for name, item in scenario.capital.items() if _end(item) > end
    ]


def _end(item: Capital) -> float:
    return item.first_month + item.months


def like_a_row(scenario: Scenario) -> list[Fault]:
    """The row that a cost is like is one of the table, also where the amount is given beside it."""
    known = [line["id"] for line in rows("capital_costs")]
    return [
        Fault(f"capital.{name}.like", "no such row of the table capital_costs", got=shown(item.like),
              allowed="a row of `appraisal reference capital_costs`", hint=did_you_mean(item.like, known))
        for name, item in scenario.capital.items()
        if item.like and item.like not in known
    ]


def grants_within_project(scenario: Scenario) -> list[Fault]:
    """A grant arrives before the project ends."""
    end = scenario.project.years * MONTHS_PER_YEAR
    return [
        Fault(f"grant.{name}.arrives_in_month", "arrives after the project ends",
              got=f"month {item.arrives_in_month:g}", allowed=f"below month {end}")
        for name, item in scenario.grant.items() if item.arrives_in_month >= end
    ]


def loan_terms(scenario: Scenario) -> list[Fault]:
    """A loan ends within the project, and leaves months to pay it back."""
    faults, project = [], scenario.project.years
    for name, loan in scenario.loan.items():
        if loan.years > project:
            faults.append(Fault(f"loan.{name}.years", "runs longer than the project", got=f"{loan.years:g} year",
                                allowed=f"at most {project} year"))
        if loan.interest_only_months >= loan.years * MONTHS_PER_YEAR:
            faults.append(Fault(
                f"loan.{name}.interest_only_months", "leaves no month to pay the loan back",
                got=f"{loan.interest_only_months:g} month", allowed=f"below {loan.years * MONTHS_PER_YEAR:g} month"))
    return faults


def loan_outlasts_spending(scenario: Scenario) -> list[Fault]:
    """A loan, drawn as the capital is paid, ends after the last payment of capital."""
    spent = max((_end(item) for item in scenario.capital.values()), default=0)
    if spent > scenario.project.years * MONTHS_PER_YEAR:
        return []  # said of the capital
    return [
        Fault(f"loan.{name}.years", "ends before all capital is paid, for which the loan is drawn", got=f"{loan.years:g} year",
              allowed=f"above {spent / MONTHS_PER_YEAR:g} year")
        for name, loan in scenario.loan.items() if loan.years * MONTHS_PER_YEAR <= spent
    ]


def no_more_loan_than_cost(scenario: Scenario) -> list[Fault]:
    """Loans together stay within the capital, contingency and price rise until payment included."""
    cost = sum(_highest_cost(item) for item in scenario.capital.values())
    borrowed = sum(_stated_sum(loan, cost) for loan in scenario.loan.values())
    if borrowed <= cost * (1 + ROUNDING):
        return []
    unit = scenario.project.currency
    return [Fault("loan", "more loan than cost", got=f"{borrowed:.10g} {unit}", allowed=f"at most {cost:.10g} {unit}")]


def _stated_sum(loan: Loan, cost: float) -> float:
    """Sum lent [money], as far as it does not follow from the cash or from what is left open."""
    return {"amount": loan.amount, "share_of_cost": loan.share_of_cost * cost}.get(loan.size, 0.0)


def _highest_cost(item: Capital) -> float:
    """Cost with contingency [money], at the prices of its last payment when prices rise."""
    rise: float = max(1.0, (1 + item.escalation) ** (_end(item) / MONTHS_PER_YEAR))
    return item.amount * (1 + item.contingency_share) * rise
