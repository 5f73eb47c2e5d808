"""Findings about money inputs that are possible and odd: nothing to pay for, nothing of one's own, prices that outrun all."""

from __future__ import annotations

from collections.abc import Iterator, Mapping

import numpy as np

from appraisal.errors import Finding
from appraisal.measures.arrays import FloatArray
from appraisal.scenario.model import Scenario

Values = Mapping[str, FloatArray]
CENT = 0.005
JUDGED = "common practice, no source"
ARITHMETIC = "sources and uses"
OUTGOING = ("running_cost.", "labour.", "capital.")  # a quick rise of these is the cautious side


def findings(scenario: Scenario, values: Values) -> tuple[Finding, ...]:
    """All findings about odd money inputs of one case (the first draw)."""
    money = scenario.project.currency
    return (
        *_no_capital(values, money),
        *_worth_more_at_the_end(scenario, money),
        *_nothing_of_ones_own(values, money),
        *_grants_over_cost(values, money),
        *_loan_of_nothing(scenario, values, money),
        *_bridge_of_nothing(scenario, values, money),
        *_no_contract(scenario),
        *_losses_of_a_company(scenario),
        *_unpriced_nutrients(scenario, values),
        *_outrun(scenario, values),
        *_rate_under_inflation(scenario),
    )


def _one(values: Values, name: str) -> float:
    return float(values[name][0].sum())


def _no_capital(values: Values, money: str) -> Iterator[Finding]:
    if _one(values, "building_cost") <= CENT:
        yield Finding(
            "capital", "No capital is paid for: worth, return and payback are those of a plant that costs nothing.",
            "stop and ask", _one(values, "building_cost"), 0.0, money, ARITHMETIC,
        )  # fmt: skip


def _worth_more_at_the_end(scenario: Scenario, money: str) -> Iterator[Finding]:
    for name, item in scenario.capital.items():
        cost = item.amount * (1 + item.contingency_share)
        if item.end_value > cost + CENT:
            yield Finding(
                f"capital.{name}.end_value",
                f"It is to be worth {item.end_value:,.0f} {money} at the end and costs {cost:,.0f} {money}: used plant is "
                "worth "
                "less than new plant.",
                "warning", item.end_value, cost, money, JUDGED,
            )  # fmt: skip


def _nothing_of_ones_own(values: Values, money: str) -> Iterator[Finding]:
    own, uses = _one(values, "own_money_needed"), _one(values, "uses_of_funds")
    if uses > CENT and abs(own) <= CENT:
        yield Finding(
            "own_money_needed", "Grants and loans pay for everything: a lender will ask what the family itself puts in.",
            "warning", own, 0.0, money, JUDGED,
        )  # fmt: skip


def _grants_over_cost(values: Values, money: str) -> Iterator[Finding]:
    grants, cost = _one(values, "grants"), _one(values, "building_cost")
    if grants > cost + CENT:
        yield Finding(
            "grant", f"Grants come to {grants:,.0f} {money}, capital to {cost:,.0f} {money}: no cost can be paid twice.",
            "stop and ask", grants, cost, money, ARITHMETIC,
        )  # fmt: skip


def _loan_of_nothing(scenario: Scenario, values: Values, money: str) -> Iterator[Finding]:
    """A loan that is worked out and comes to nothing, and why."""
    gap = _one(values, "gap_to_fund")
    for name, loan in scenario.loan.items():
        if loan.size not in ("fills_the_gap", "to_cover") or _one(values, f"loan.{name}.sum") > CENT:
            continue
        if loan.size == "to_cover":
            yield Finding(
                f"loan.{name}", "The cash before tax carries no loan at all.", "warning", 0.0, 0.0, money, ARITHMETIC
            )
        elif gap > CENT:
            what = f"No sum fills the gap of {gap:,.0f} {money}: fee, interest while building and reserve eat the whole loan."
            yield Finding(f"loan.{name}", what, "stop and ask", 0.0, gap, money, ARITHMETIC)
        else:
            what = "Nothing is left to fill: own money, grants and other loans pay for everything."
            yield Finding(f"loan.{name}", what, "note", 0.0, 0.0, money, ARITHMETIC)


def _bridge_of_nothing(scenario: Scenario, values: Values, money: str) -> Iterator[Finding]:
    if scenario.funding.bridge == "until_grants" and _one(values, "grants") <= CENT:
        yield Finding(
            "funding.bridge", "There is no grant to bridge: the bridge loan lends nothing.", "note", 0.0, 0.0, money, ARITHMETIC,
        )  # fmt: skip


def _no_contract(scenario: Scenario) -> Iterator[Finding]:
    if scenario.power.contract_years == 0 and scenario.engine:
        yield Finding(
            "power.contract_years", "The power contract runs for no month: all power is sold at the price after it.",
            "note", 0.0, 0.0, "year", ARITHMETIC,
        )  # fmt: skip


def _losses_of_a_company(scenario: Scenario) -> Iterator[Finding]:
    tax = scenario.tax
    if tax.losses == "used_at_once" and tax.entity in ("company", "cooperative"):
        yield Finding(
            "tax.losses",
            f"Losses are used against other farm income, but the plant is taxed as a {tax.entity}, whose losses usually "
            "stay in "
            "it: ask your accountant, or carry them forward.",
            "warning", None, None, None, JUDGED,
        )  # fmt: skip


def _unpriced_nutrients(scenario: Scenario, values: Values) -> Iterator[Finding]:
    """Nutrients that replace what the farm buys, at a price of nothing: a saving that is left out."""
    farm = scenario.farm_now
    bought = {"nitrogen": farm.fertilizer_n_kg, "phosphorus": farm.fertilizer_p_kg, "potassium": farm.fertilizer_k_kg}
    free = [
        name
        for name, kg in bought.items()
        if kg > 0 and _one(values, f"{name}_replaced") > 0 and float(np.max(values[f"{name}_price"])) <= 0
    ]
    if free and farm.fertilizer_bill > 0:
        yield Finding(
            "fertilizer",
            f"The digestate replaces {' and '.join(free)} that the farm buys, and no price is given for it: this saving counts "
            "as nothing. Enter what it costs you.",
            "note", 0.0, None, "money/kg", ARITHMETIC,
        )  # fmt: skip


def _outrun(scenario: Scenario, values: Values) -> Iterator[Finding]:
    """Prices of what comes in that rise faster than money is discounted."""
    rate = scenario.judging.discount_rate
    if rate <= scenario.project.inflation:
        return  # said once, below
    for path in sorted(values):
        ends = path.endswith((".escalation", "_escalation")) and not path.startswith(OUTGOING)
        if ends and float(np.max(values[path])) > rate:
            rise = float(np.max(values[path]))
            yield Finding(
                path,
                f"Rises by {rise:.1%} a year, faster than money is discounted ({rate:.1%}): each later year counts for more "
                "than "
                "the one before, and the worth hangs on the years nobody can see.",
                "warning", rise, rate, "share/year", JUDGED,
            )  # fmt: skip


def _rate_under_inflation(scenario: Scenario) -> Iterator[Finding]:
    rate, prices = scenario.judging.discount_rate, scenario.project.inflation
    if rate <= prices:
        yield Finding(
            "judging.discount_rate",
            f"Money is discounted at {rate:.1%} while prices rise by {prices:.1%}: waiting costs nothing in these figures.",
            "warning", rate, prices, "share/year", JUDGED,
        )  # fmt: skip
