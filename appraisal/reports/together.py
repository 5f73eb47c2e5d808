"""Inputs that are fine alone and impossible together, as live conditions: what the loader refuses, the workbook shows.

The rules are those of `scenario/*_checks.py` that a number typed over can break. Not here: those that choices and counts decide,
which are fixed at export, and the ceiling that its composition sets to a feed's gas.
"""

from __future__ import annotations

from collections.abc import Iterator

from appraisal.lines.names import Ref
from appraisal.reports.sheets import Book
from appraisal.scenario.model import Scenario

Rule = tuple[str, str]  # what must hold, in words, and as a formula that is true where it holds


def rules(book: Book, scenario: Scenario) -> Iterator[Rule]:
    """All rules of a scenario, in the order of its sections."""
    yield from _plant(book, scenario)
    for name in scenario.feed:
        yield from _feed(book, name)
    for name in scenario.engine:
        yield from _engine(book, name)
    yield from _shares(book, scenario)
    yield from _time(book)
    yield from _loans(book, scenario)


def _sum(book: Book, path: str) -> str:
    """Sum of an input by calendar month."""
    return f"SUM({book.plot.address(Ref(path, 'years_of'), sheet='')(0)})"


def _plant(book: Book, scenario: Scenario) -> Iterator[Rule]:
    one = book.one
    for what in ("power", "heating_fuel"):
        bill, amount = _sum(book, f"farm_now.{what}_bill"), _sum(book, f"farm_now.{what}_kwh")
        yield f"A bill for {what.replace('_', ' ')} and its kWh come together", f"({bill}>0)=({amount}>0)"
    low, high = one("digester.ph_low"), one("digester.ph_high")
    yield "The lower pH of the digester is not above the higher one", f"{low}<={high}"
    if scenario.pasteuriser.treats != "nothing":
        oven, tank = one("pasteuriser.temperature_degc"), one("digester.temperature_degc")
        yield "The pasteuriser is no colder than the digester", f"{oven}>={tank}"


def _feed(book: Book, name: str) -> Iterator[Rule]:
    words, one = name.replace("_", " "), book.one
    yield f"Feed {words} comes in some month", f"{_sum(book, f'feed.{name}.monthly_weight')}>0"
    parts = f"{one(f'feed.{name}.landfilled_share')}+{one(f'feed.{name}.fed_before_share')}"
    yield f"Feed {words}: landfill and animals got no more than all", f"{parts}<=1+{one('constant.check_limit')}"


def _engine(book: Book, name: str) -> Iterator[Rule]:
    words = name.replace("_", " ")
    at = {
        part: book.one(f"engine.{name}.{part}")
        for part in ("efficiency_full", "efficiency_half", "heat_efficiency_full", "heat_efficiency_half",
                     "top_end_interval_hours", "major_interval_hours")
    }  # fmt: skip
    for load in ("full", "half"):
        both = f"{at[f'efficiency_{load}']}+{at[f'heat_efficiency_{load}']}<1"
        yield f"Engine {words}: power and heat at {load} load stay below the gas energy", both
    order = f"{at['efficiency_half']}<={at['efficiency_full']}"
    yield f"Engine {words}: half load is not the more efficient one", order
    hours = f"{at['major_interval_hours']}>{at['top_end_interval_hours']}"
    yield f"Engine {words}: a major overhaul comes after more hours than a top-end one", hours


def _shares(book: Book, scenario: Scenario) -> Iterator[Rule]:
    one, whole = book.one, f"1+{book.one('constant.check_limit')}"
    if scenario.upgrading.takes != "nothing":
        parts = f"{one('upgrading.recovery_share')}+{one('upgrading.slip_share')}"
        yield "Methane won and lost in upgrading is no more than what was sent", f"{parts}<={whole}"
    parts = f"{one('separation.sold_share')}+{one('separation.bedding_share')}"
    yield "Solids sold and used as bedding are no more than all", f"{parts}<={whole}"
    if scenario.partner:
        parts = "+".join(one(f"partner.{name}.plant_share") for name in scenario.partner)
        yield "The parts of all partners are one together", f"ABS({parts}-1)<={one('constant.check_limit')}"


def _time(book: Book) -> Iterator[Rule]:
    one = book.one
    end = f"{one('project.years')}*{one('constant.months_per_year')}"
    start = f"{one('project.build_months')}+{one('digester.ramp_months')}"
    yield "Building and the rise to full gas end before the project", f"{start}<{end}"


def _loans(book: Book, scenario: Scenario) -> Iterator[Rule]:
    """Loans together stay within the capital, contingency and price rise until payment included."""
    if not scenario.loan or not scenario.capital:
        return
    cost = "+".join(_highest_cost(book, name) for name in scenario.capital)
    stated = [f"loan.{name}.amount" for name, each in scenario.loan.items() if each.size == "amount"]
    shares = [f"loan.{name}.share_of_cost" for name, each in scenario.loan.items() if each.size == "share_of_cost"]
    amounts, parts = ("+".join(map(book.one, paths)) or "0" for paths in (stated, shares))
    limit = f"({cost})*(1-({parts})+{book.one('constant.check_limit')})"
    yield "Loans together are no more than what they pay for", f"{amounts}<={limit}"


def _highest_cost(book: Book, name: str) -> str:
    one = {
        part: book.one(f"capital.{name}.{part}")
        for part in ("amount", "contingency_share", "escalation", "first_month", "months")
    }
    time = f"({one['first_month']}+{one['months']})/{book.one('constant.months_per_year')}"
    return f"{one['amount']}*(1+{one['contingency_share']})*MAX(1,(1+{one['escalation']})^({time}))"
