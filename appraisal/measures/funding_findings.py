"""Findings about funding: rules of grants, quotes that end, lender's tests, reserves, the whole farm, sums that do not add up."""

from __future__ import annotations

from collections.abc import Iterator, Mapping

import numpy as np
import numpy.typing as npt

from appraisal.errors import Finding
from appraisal.measures.checks import failures
from appraisal.measures.money_findings import CASE
from appraisal.measures.money_view import MoneyView
from appraisal.measures.uplift import COST_UPPER, mixed_uplift
from appraisal.scenario.model import Scenario
from appraisal.timeline import Timeline, said_month

Values = Mapping[str, npt.NDArray[np.float64]]
RULE = "the rule as the scenario states it; the programme decides"
UPLIFT = "Mott MacDonald, Review of Large Public Procurement (2002): upper bounds for unusual and ordinary buildings, read"
CENT = 0.005


def findings(scenario: Scenario, values: Values, view: MoneyView, *, timeline: Timeline) -> tuple[Finding, ...]:
    """All findings about funding of one case (the first draw)."""
    money = scenario.project.currency
    return (
        *failures(view.checks, money),
        *_public_money(scenario, values),
        *_match(scenario, values, money),
        *_paid_too_early(scenario, values, money),
        *_too_much_money(values, money),
        *_quotes(scenario, timeline),
        *_contingency(scenario, values),
        *_lenders_case(scenario, view),
        *_lenders_tests(scenario, view),
        *_reserve(values, money),
        *_whole_farm(view),
    )


def _sum(values: Values, name: str) -> float:
    return float(values[name][0].sum())


def _public_money(scenario: Scenario, values: Values) -> Iterator[Finding]:
    """Public grants together stay under their cap."""
    names = [name for name, grant in scenario.grant.items() if grant.public == "yes"]
    public, eligible = sum(_sum(values, f"grant.{name}.received") for name in names), _sum(values, "eligible_cost")
    cap = scenario.funding.public_share_at_most
    if eligible > 0 and public > cap * eligible + CENT:
        yield Finding(
            "funding.public_share_at_most",
            f"Public grants come to {public / eligible:.1%} of the eligible cost; {cap:.1%} is the most allowed.",
            "stop and ask", public / eligible, cap, "share", RULE,
        )  # fmt: skip


def _match(scenario: Scenario, values: Values, money: str) -> Iterator[Finding]:
    """The match of a grant comes from other than public money."""
    spent, eligible = -_sum(values, "investment"), _sum(values, "eligible_cost")
    public = sum(_sum(values, f"grant.{name}.received") for name, g in scenario.grant.items() if g.public == "yes")
    for name, grant in scenario.grant.items():
        wanted, there = grant.match_share * eligible, spent - public
        if wanted > there + CENT:
            yield Finding(
                f"grant.{name}.match_share",
                f"The match wanted is {wanted:,.0f} {money} of other than public money; there is {there:,.0f}.",
                "stop and ask", there, wanted, money, RULE,
            )  # fmt: skip


def _paid_too_early(scenario: Scenario, values: Values, money: str) -> Iterator[Finding]:
    """What is paid before the eligible start is lost to the grant."""
    for name, grant in scenario.grant.items():
        lost = float(values["eligible_cost"][0, : grant.eligible_from_month].sum())
        if lost > CENT:
            yield Finding(
                f"grant.{name}.eligible_from_month",
                f"{lost:,.0f} {money} of eligible cost are paid before month {grant.eligible_from_month} and do not count: "
                "order later, or ask for an earlier start.",
                "warning", lost, 0.0, money, RULE,
            )  # fmt: skip


def _too_much_money(values: Values, money: str) -> Iterator[Finding]:
    """Grants and loans together bring more than is used."""
    left = float(values["own_money_needed"][0, 0])
    if left < -CENT:
        yield Finding(
            "own_money_needed",
            f"Grants and loans bring {-left:,.0f} {money} more than building costs: lower the loan.",
            "warning", left, 0.0, money, "sources and uses",
        )  # fmt: skip


def _quotes(scenario: Scenario, timeline: Timeline) -> Iterator[Finding]:
    """A quote ends before the item is ordered."""
    for name, item in scenario.capital.items():
        order = timeline.name(item.first_month)
        if item.quote_ends and item.quote_ends < order:
            yield Finding(
                f"capital.{name}.quote_ends",
                f"The quote ends in {said_month(item.quote_ends)}, the first payment is in {said_month(order)}: ask for it to be "
                "held.",
                "warning", None, None, None, "dates of the scenario",
            )  # fmt: skip


def _contingency(scenario: Scenario, values: Values) -> Iterator[Finding]:
    """Contingency against how far projects without quotes ran over."""
    cost = sum(item.amount for item in scenario.capital.values())
    if cost <= 0:
        return
    spare = sum(item.amount * item.contingency_share for item in scenario.capital.values()) / cost
    loose = sum(item.amount for item in scenario.capital.values() if item.estimate in ("screening", "not_said")) / cost
    upper = mixed_uplift(loose, COST_UPPER) / 100
    if loose > 0 and spare < upper:
        yield Finding(
            "capital.contingency",
            f"{loose:.0%} of the capital has no quote or budget, and contingency is {spare:.0%}. Building projects have run over "
            f"by up to {upper:.0%} (taking what has no quote as unusual, which is a judgement): try the case with it.",
            "note", spare, upper, "share", UPLIFT,
        )  # fmt: skip


def _lenders_case(scenario: Scenario, view: MoneyView) -> Iterator[Finding]:
    """Cover on signed contracts only, where income that nobody has signed for makes a difference to it."""
    least, hoped = view.bank.least["signed_contracts_only"], view.bank.least["as_assumed"]
    value, whole = float(least.value[0]), float(hoped.value[0])
    if least.words[0] != "no debt due" and value < 1 and value < whole:
        covers = f"cash covers {value:.2f} times the debt service" if value >= 0 else "running the plant costs more than comes in"
        then = (
            "the loan hangs on income nobody has signed for"
            if whole >= 1
            else f"income nobody has signed for lifts the worst year to {whole:.2f} times, which does not carry the loan either"
        )
        yield Finding(
            "bank.signed_contracts_only",
            f"On signed contracts alone {covers} in project year {int(least.year[0])}: {then}.",
            "warning", value, 1.0, "1", "debt service covered once",
        )  # fmt: skip


def _lenders_tests(scenario: Scenario, view: MoneyView) -> Iterator[Finding]:
    """Lock-up and default level, by year of full operation."""
    least, funding = view.bank.least["as_assumed"], scenario.funding
    if least.words[0] == "no debt due":
        return
    value, year = float(least.value[0]), int(least.year[0])
    for where, level, what in (
        ("default_cover", funding.default_cover, "a lender could call the loan"),
        ("lock_up_cover", funding.lock_up_cover, "a lender would let nothing be taken out"),
    ):
        if value < level:
            yield Finding(
                f"funding.{where}",
                f"In project year {year} cover is {value:.2f}, under {level:.2f}: {what}.",
                "warning", value, level, "1", CASE,
            )  # fmt: skip
            return


def _reserve(values: Values, money: str) -> Iterator[Finding]:
    """The debt reserve is not at its target."""
    if "debt_reserve_short" not in values:
        return
    short = values["debt_reserve_short"][0] * values["full_year"][0]
    if short.max() > CENT:
        year = int(np.argmax(short > CENT))
        yield Finding(
            "debt_reserve",
            f"At the end of project year {year + 1} the reserve for debt service lacks {short[year]:,.0f} {money}.",
            "warning", float(values["debt_reserve"][0, year]), float(values["debt_reserve_target"][0, year]), money,
            "months of debt service in reserve, as the scenario states them",
        )  # fmt: skip


def _whole_farm(view: MoneyView) -> Iterator[Finding]:
    """The farm as a whole must carry its debts."""
    if view.farm is None:
        return
    without, together = (side.capacity.coverage for side in view.farm)
    if together.words[0] == "given" and float(together.value[0]) < 1:
        before = f"; without the plant {float(without.value[0]):.2f}" if without.words[0] == "given" else ""
        yield Finding(
            "whole_farm",
            f"With the plant the whole farm covers {float(together.value[0]):.2f} times its term debts{before}.",
            "warning", float(together.value[0]), 1.0, "1", "Farm Financial Standards Council measure, term debt coverage",
        )  # fmt: skip
