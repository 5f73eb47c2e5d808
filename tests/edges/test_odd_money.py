"""Money inputs that try to break the sum: each is refused in words or worked out with a finding, never a bare NaN."""

from __future__ import annotations

import json
import re
from functools import cache
from typing import Any

import numpy as np
import pytest

from appraisal.appraise import Appraisal, appraise
from appraisal.demos import demos
from appraisal.errors import ScenarioError
from appraisal.present.page import page
from appraisal.present.result import result
from appraisal.scenario.load import Loaded, load, with_values

GRANT, LOAN = "grant.state_energy", "loan.bank"
ITEMS = ("digester", "engine_set", "reception", "grid", "engineering")
SCULPTED = {f"{LOAN}.size": "to_cover", f"{LOAN}.repayment": "sculpted"}
UNPAID = {"power.contract_price_per_kwh": 0.0, "power.market_price_per_kwh": 0.0}
FREE = {**{f"capital.{item}.amount": 0.0 for item in ITEMS}, f"{LOAN}.amount": 0.0}

# What is changed, and where the finding then stands.
FOUND: dict[str, tuple[dict[str, Any], str]] = {
    "grants and loan over the cost": ({f"{GRANT}.share_of_eligible": 1.0, f"{GRANT}.at_most": 1e9}, "own_money_needed"),
    "grants pay for everything": (
        {f"{GRANT}.share_of_eligible": 1.0, f"{GRANT}.at_most": 1e9, f"{LOAN}.amount": 0.0}, "own_money_needed"),
    "no capital": (FREE, "capital"),
    "hardly any capital": ({**FREE, **{f"capital.{item}.amount": 1e-6 for item in ITEMS}}, "capital"),
    "huge capital": ({"capital.digester.amount": 1e9}, "measures.npv"),
    "capital a hundred times too high": ({"capital.digester.amount": 9.8e7}, "capital"),
    "nutrients replaced for nothing": (
        {f"fertilizer.{nutrient}_price_per_kg": 0.0 for nutrient in "npk"}, "fertilizer"),
    "no upkeep at all": (
        {f"running_cost.{name}.per_year": 0.0 for name in ("digester_upkeep", "insurance", "laboratory_and_office")},
        "running_costs"),
    "nobody works there": ({"labour.hired_hours_per_week": 0.0, "labour.family_hours_per_week": 1.0},
                           "labour.family_hours_per_week"),
    "fee a landfill would envy": ({"feed.whey.gate_fee_per_t": 900.0}, "feed.whey.gate_fee_per_t"),
    "feed dearer than glycerol": ({"feed.whey.gate_fee_after_per_t": -400.0}, "feed.whey.gate_fee_after_per_t"),
    "power at a fancy price": ({"power.contract_price_per_kwh": 0.9}, "power.contract_price_per_kwh"),
    "bought power at a fancy price": ({"power.bought_price_per_kwh": 0.9}, "power.bought_price_per_kwh"),
    "engine in watts": ({"engine.main.rated_kw": 20000.0}, "capital"),
    "loan over all the cost": ({f"{LOAN}.size": "share_of_cost", f"{LOAN}.share_of_cost": 1.0}, "own_money_needed"),
    "dearest loan": ({f"{LOAN}.rate": 0.4}, "funding.default_cover"),
    "loan without interest": ({f"{LOAN}.rate": 0.0}, "measures.dscr_min"),
    "no power income": (UNPAID, "operating_result"),
    "cash carries no loan": ({**SCULPTED, **UNPAID}, "loan.bank"),
    "cash carries far too much": ({**SCULPTED, "power.contract_price_per_kwh": 1.0}, "own_money_needed"),
    "own money leaves no gap": ({f"{LOAN}.size": "fills_the_gap", "funding.own_money": 1e9}, "loan.bank"),
    "bridge without a grant": ({f"{GRANT}.share_of_eligible": 0.0, "funding.bridge": "until_grants"}, "funding.bridge"),
    "losses of a company": ({"tax.losses": "used_at_once", "tax.entity": "company"}, "tax.losses"),
    "contract that never runs": ({"power.contract_years": 0.0}, "power.contract_years"),
    "fee that turns to a price": ({"feed.whey.gate_fee_after_per_t": -100.0}, "measures.dscr_min"),
    "worth more at the end than new": ({"capital.digester.end_value": 1e9}, "capital.digester.end_value"),
    "huge removal": ({"capital.digester.removal_cost": 1e9}, "measures.npv"),
    "prices outrun the discount rate": ({"power.market_escalation": 0.3}, "power.market_escalation"),
    "nothing discounted": ({"judging.discount_rate": 0.0}, "judging.discount_rate"),
    "grant counts nothing": ({f"{GRANT}.eligible_from_month": 100}, f"{GRANT}.eligible_from_month"),
    "two years in all": ({"project.years": 2, f"{LOAN}.years": 2}, "measures.npv"),
    "every hour hired": ({"labour.hired_hours_per_week": 1000.0, "labour.hired_wage_per_hour": 200.0}, "operating_result"),
    "bills half a year late": ({"funding.customer_days": 180.0, "funding.supplier_days": 180.0}, "bank_balance"),
    "every lender's level at its highest": (
        {"funding.sweep_share": 1.0, "funding.lock_up_cover": 3.0, "funding.default_cover": 3.0}, "funding.default_cover"),
}  # fmt: skip
# What is changed, and what the refusal says.
REFUSED: dict[str, tuple[dict[str, Any], str]] = {
    "loan over the cost": ({f"{LOAN}.amount": 3e6}, "more loan than cost"),
    "loan longer than the project": ({f"{LOAN}.years": 30}, "runs longer than the project"),
    "loan that ends before it is drawn": (
        {f"{LOAN}.years": 1, f"{LOAN}.interest_only_months": 0}, "ends before all capital is paid"),
    "loan sized on cash while drawn": ({**SCULPTED, f"{LOAN}.interest_only_months": 0}, "repaid once all capital is paid"),
    "gap without own money": ({f"{LOAN}.size": "fills_the_gap"}, "fills the gap"),
    "negative market price": ({"power.market_price_per_kwh": -0.05}, "below the allowed range"),
    "grant after the project": ({f"{GRANT}.arrives_in_month": 300}, "after the project ends"),
    "rate for the time after is missing": ({f"{LOAN}.rate_fixed_years": 5}, "needed"),
    "payments that part no year": ({f"{LOAN}.payment_every_months": 7}, "does not part a year evenly"),
}  # fmt: skip


@cache
def base() -> Loaded:
    return load(demos()["dairy_with_leftovers"])


@cache
def odd(name: str) -> Appraisal:
    return appraise(with_values(base(), FOUND[name][0]))


@pytest.mark.parametrize("name", FOUND)
def test_an_odd_input_is_worked_out_and_asked_about(name: str) -> None:
    appraisal = odd(name)
    assert FOUND[name][1] in {finding.where for finding in appraisal.findings}
    assert [each.name for each in appraisal.money.checks if not each.passed] == []
    assert [line for line, array in appraisal.values.items() if not np.isfinite(array).all()] == []


@pytest.mark.parametrize("name", FOUND)
def test_no_reader_is_shown_a_bare_nan(name: str) -> None:
    appraisal = odd(name)
    json.dumps(result(appraisal), allow_nan=False)
    for reader in (None, "family", "bank", "grant"):
        assert not re.search(r"\b(nan|inf)\b", page(appraisal, reader=reader)), reader  # type: ignore[arg-type]


@pytest.mark.parametrize("name", REFUSED)
def test_an_impossible_input_is_refused_in_words(name: str) -> None:
    changes, says = REFUSED[name]
    with pytest.raises(ScenarioError, match=says):
        with_values(base(), changes)


def test_the_demo_itself_raises_none_of_the_odd_findings() -> None:
    wheres = {
        "capital", "running_costs", "labour.family_hours_per_week", "grant", "loan.bank",
        "own_money_needed", "feed.whey.gate_fee_per_t", "power.contract_price_per_kwh", "power.bought_price_per_kwh",
        "funding.bridge", "power.contract_years", "judging.discount_rate",
    }  # fmt: skip
    found = {finding.where for finding in appraise(base()).findings}
    assert not found & wheres
    assert not {where for where in found if where.endswith(("escalation", "end_value"))}
