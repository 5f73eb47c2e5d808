"""Invented plants that between them take every choice about money: the dairy demo with other contracts, funding and tax."""

from __future__ import annotations

import tomllib
from collections.abc import Mapping
from functools import cache
from typing import Any

import numpy as np
import numpy.typing as npt

from appraisal import model
from appraisal.appraise import Appraisal, appraise
from appraisal.demos import demos
from appraisal.lines.evaluate import evaluate
from appraisal.scenario.load import loads
from appraisal.scenario.model import ASIDE, declared
from tests.edges.scenario_text import toml

Array = npt.NDArray[np.float64]
BASE = "dairy_with_leftovers"
Tables = dict[str, Any]

OTHER_INCOME: Tables = {
    "capacity": {"counted_as": "cash", "signed": "yes", "per_kw_year": 20, "years": 10},
    "certificates": {"counted_as": "evidenced_saving", "signed": "yes", "per_kwh_gross": 0.004, "escalation": -0.02},
    "solids": {"counted_as": "modelled_saving", "per_t_digestate": 0.3, "per_t_fed": 0.1},
    "clean_water": {"counted_as": "benefit_to_others", "per_year": 9000},
}

# What each case changes in the demo: tables are merged, None takes a value out.
CASES: Mapping[str, Tables] = {
    "lender": {
        "loan": {"bank": {
            "repayment": "equal_principal", "payment_every_months": 3, "rate_fixed_years": 5, "rate_after": 0.075,
            "interest_before_repayment": "capitalised"}},
        "capital": {
            "digester": {
                "depreciation_method": "declining_balance", "depreciation_rate": 0.15, "depreciation_switches": "yes",
                "sales_tax_rate": 0.135, "end_value": 60000, "removal_cost": 90000, "resale_share": 0.3,
                "worn_after_years": 7, "replacement_cost": 45000},
            "engine_set": {
                "depreciation_method": "declining_balance", "depreciation_rate": 0.3,
                "depreciation_first_year": "by_months", "sales_tax_rate": 0.135}},
        "grant": {"state_energy": {
            "paid": "by_claims", "first_claim_month": 4, "claim_every_months": 3, "eligible_from_month": 2}},
        "funding": {
            "bridge": "until_grants", "debt_reserve": "from_start", "overhaul_reserve": "three_years_ahead",
            "customer_days": 40, "supplier_days": 25, "sweep_share": 0.5, "stop_penalty_cost": 20000},
        "tax": {
            "paid_months_after_year": 5, "year_first_month": 1, "loss_use_at_most_share": 0.8,
            "investment_credit": "against_tax",
            "investment_credit_rate": 0.3, "sales_tax": "counted", "sales_tax_recoverable_share": 0.9},
        "power": {
            "contract": "premium", "contract_premium_per_kwh": 0.095, "market_received_share": 0.95,
            "farm_use_matched_share": 0.1, "demand_charge": "falls", "peak_replaced_kw": 40, "demand_price_per_kw_month": 9,
            "contract_indexed_share": 0.4},
    },
    "gap": {
        "loan": {
            "bank": {
                "amount": None, "size": "to_cover", "repayment": "sculpted", "rate": 0.065, "interest_only_months": 18,
                "years": 12, "target_cover": 2.5, "payment_every_months": 6, "interest_before_repayment": "capitalised"},
            "second": {
                "size": "fills_the_gap", "rate": 0.08, "interest_only_months": 14, "years": 10, "fee_share": 0.02}},
        "capital": {
            "digester": {"depreciation_method": "table", "depreciation_like": "macrs7"},
            "engine_set": {"depreciation_method": "table", "depreciation_share_by_year": [0.6, 0.4]}},
        "other_income": OTHER_INCOME,
        "task": {
            "feeding": {"done_by": "hired", "hours_per_t_fed": 0.01},
            "rounds": {"done_by": "family", "hours_per_week": 4, "hours_per_year": 60}},
        "labour": {"night_calls_per_year": 20, "stand_in_weeks_per_year": 3},
        "funding": {"own_money": 300000, "debt_reserve": "from_cash", "debt_reserve_months": 4},
        "tax": {
            "depreciation_reduced_by_grants": "grant_is_income", "investment_credit": "paid_out",
            "investment_credit_rate": 0.1, "credit_after_grants": "no"},
        "power": {
            "contract": "net_metering", "farm_use_matched_share": 0.3, "demand_charge": "falls", "peak_replaced_kw": 80,
            "demand_price_per_kw_month": 9, "outage_months_per_year_by_year": [6, 4, 3], "peak_counts_months": 2},
    },
    "difference": {
        "feed": {"whey": {"supply_by": "own"}},
        "loan": {"bank": {
            "amount": None, "size": "share_of_cost", "share_of_cost": 0.5, "repayment": "sculpted",
            "payment_every_months": 12}},
        "capital": {
            "digester": {"depreciation_method": "immediate"},
            "engine_set": {
                "depreciation_method": "declining_balance", "depreciation_rate": 0.25, "depreciation_first_year": "whole"}},
        "funding": {"grants_shown": "as_owed_income", "supplier_days": 30},
        "tax": {
            "losses": "used_at_once", "depreciation_reduced_by_grants": "no", "paid_months_after_year": 11,
            "year_first_month": 7},
        "power": {"contract": "difference", "market_received_share": 0.9, "contract_signed": "no"},
        "running_cost": {"tax_on_land": {"share_of_capital_per_year": 0.003, "per_kw_year": 5}},
    },
    "upward": {
        "loan": {"bank": {
            "amount": None, "size": "fills_the_gap", "interest_only_months": 15, "payment_every_months": 3}},
        "funding": {
            "own_money": 500000, "debt_reserve": "from_start", "debt_reserve_months": 6, "bridge": "until_grants",
            "bridge_share": 0.8, "lock_up": "held", "lock_up_cover": 1.5},
        "tax": {"losses": "lost"},
        "power": {"contract": "difference_upward", "market_received_share": 0.9},
    },
    "swept": {
        "power": {"contract": "net_metering", "farm_use_matched_share": 0.2},
        "loan": {
            "bank": {"interest_only_months": 18, "payment_every_months": 6, "rate_fixed_years": 6, "rate_after": 0.07},
            "second": {
                "amount": 90000, "rate": 0.05, "years": 8, "repayment": "equal_principal", "interest_only_months": 12,
                "payment_every_months": 3, "interest_before_repayment": "capitalised"}},
        "funding": {
            "sweep": "prepays", "sweep_share": 0.6, "sweep_keeps_amount": 15000, "debt_reserve": "from_cash",
            "debt_reserve_months": 3, "lock_up": "held", "lock_up_cover": 1.15, "overhaul_reserve": "three_years_ahead"},
        "tax": {"paid_months_after_year": 4, "loss_use_at_most_share": 0.8},
    },
}  # fmt: skip


def merged(tables: Tables, changes: Tables) -> Tables:
    """Tables with changes put in; None takes a value out."""
    out = dict(tables)
    for name, value in changes.items():
        if isinstance(value, dict):
            out[name] = merged(out.get(name, {}), value)
        elif value is None:
            out.pop(name, None)
        else:
            out[name] = value
    return out


def changed_demo(changes: Tables) -> str:
    """The demo with changes put in, without ranges, sources and other things beside the values."""
    tables = tomllib.loads(demos()[BASE].read_text(encoding="utf-8"))
    return "\n".join(toml(merged({name: part for name, part in tables.items() if name not in ASIDE}, changes)))


@cache
def appraised(name: str) -> Appraisal:
    """One case, appraised once a test process."""
    return appraise(loads(changed_demo(CASES[name]), file=name))


def drawn(name: str, *, draws: int, seed: int = 1) -> dict[str, Array]:
    """Inputs of a case by dotted path, every number (draws, 1) moved by up to 30 % inside its declared limits."""
    rng, case = np.random.default_rng(seed), appraised(name)
    moved = dict(case.inputs)
    for pattern, item in declared().items():
        for path in model.paths(case.structure, pattern):
            if item.kind == "number":
                value = case.inputs[path] * rng.uniform(0.7, 1.3, (draws, 1))
                moved[path] = np.clip(value, item.low, item.high)
    moved["project.build_months"] = np.round(moved["project.build_months"])
    return moved


def lines(name: str, inputs: Mapping[str, Array]) -> dict[str, Array]:
    """All lines of a case at other inputs."""
    case = appraised(name)
    return evaluate(case.plan, model.inputs(case.structure, inputs))


@cache
def batch(name: str, draws: int = 250) -> dict[str, Array]:
    """All lines of one case over random plants: with the five cases together over a thousand."""
    return lines(name, drawn(name, draws=draws))
