"""Four identities of the money, each over a thousand random plants of each of ten plans: ten thousand plants an identity.

The plans are the five demos and the five money cases, which between them take every choice about money. Every draw moves
every number inside its limits. Only the lines that an identity reads are kept, so that a thousand rows cost little.
"""

from __future__ import annotations

import re
from collections.abc import Iterable, Mapping
from functools import cache

import numpy as np
import numpy.testing as npt
import pytest

from appraisal import model
from appraisal.lines.prepared import evaluate_in_blocks
from appraisal.measures.discounting import npv
from tests import money_cases
from tests.money_cases import CASES, Appraisal
from tests.properties import cases as demo_cases
from tests.properties.cases import DEMOS
from tests.properties.money_plants import NAMES, Array, nothing

PLANTS = 1000
PLANS = (*NAMES, *DEMOS)
NOTHING = np.array([[0.0]])
# Paid at once, and no reserve that fills from what is left: both make cash move in steps.
NO_DELAY = dict.fromkeys(("funding.customer_days", "funding.supplier_days", "funding.debt_reserve_months"), NOTHING)
# What is set to nothing, and the lines that it earns, as patterns of full names.
REVENUES = {
    "power": (r"power\.(contract_price|market_price|contract_premium)_per_kwh", "power_sales"),
    "heat": (r"heat\.sold_price_per_kwh", "heat_sales"),
    "fertilizer": (r"fertilizer\.[npk]_price_per_kg", "fertilizer_saved"),
    "fees": (r"feed\.\w+\.gate_fee(_after)?_per_t", r"substrate\.\w+\.(tipping_fee|bought)"),
    "other": (r"other_income\.\w+\.per_\w+", r"other_income\.\w+\.(received|bill_saved|worth)"),
}
EARNS = [
    *((name, revenue) for name in PLANS for revenue in ("power", "heat", "fertilizer")),
    *((name, "fees") for name in PLANS if name != "small_herd_manure_only"),
    ("gap", "other"),
]


def appraised(name: str) -> Appraisal:
    return money_cases.appraised(name) if name in CASES else demo_cases.appraised(name)


@cache
def plants(name: str) -> Mapping[str, Array]:
    """A thousand random plants of one plan, by dotted path."""
    return (money_cases if name in CASES else demo_cases).drawn(name, draws=PLANTS)


def kept(name: str, *lines: str, given: Mapping[str, Array]) -> dict[str, Array]:
    """Some lines of a thousand plants, (1000, months)."""
    case = appraised(name)
    inputs = model.inputs(case.structure, {**plants(name), **given})
    (found,) = evaluate_in_blocks(case.plan, inputs, keep=lines)
    assert all(array.shape[0] == PLANTS for array in found.values())
    return found


def matching(pattern: str, names: Iterable[str]) -> list[str]:
    return [each for each in names if re.fullmatch(pattern, each)]


@pytest.mark.parametrize("name", PLANS)
def test_debt_service_at_the_loans_rate_is_worth_what_was_lent(name: str) -> None:
    """Discounted from payment date to payment date; what is drawn inside a period grows to its end by simple interest."""
    for loan, facts in appraised(name).loaded.scenario.loan.items():
        of = f"loan.{loan}."
        v = kept(name, *(of + part for part in ("rate_now", "drawn", "interest", "principal", "prepaid")), given={})
        every, rate = facts.payment_every_months, v[f"{of}rate_now"]
        to_end = (every - 1 - np.arange(rate.shape[1]) % every) / 12
        lent = v[f"{of}drawn"] * (1 + rate * to_end)
        paid = -(v[f"{of}interest"] + v[f"{of}principal"] + v[f"{of}prepaid"])
        factor = 1 / np.cumprod(1 + rate[:, every - 1 :: every] * every / 12, axis=1)
        worth = [(flows.reshape(PLANTS, -1, every).sum(axis=2) * factor).sum(axis=1) for flows in (lent, paid)]
        npt.assert_allclose(worth[1], worth[0], rtol=1e-9, atol=1e-9)
        assert (worth[0] > 0).mean() > 0.9  # a loan that fills the gap may not be needed


@pytest.mark.parametrize(("name", "revenue"), EARNS)
def test_zeroing_a_revenue_moves_the_worth_by_exactly_its_present_value(name: str, revenue: str) -> None:
    """Before tax, without loans and working capital."""
    case, (paid, earning) = appraised(name), REVENUES[revenue]
    prices, earned = matching(paid, case.inputs), matching(earning, case.plan.nodes)
    assert prices and earned
    rate = np.broadcast_to(plants(name)["judging.discount_rate"], (PLANTS, 1))
    v = kept(name, "project_cash_before_tax", "cash_income", *earned, given=NO_DELAY)
    zeroed = {path: 0 * plants(name)[path] for path in prices}
    without = kept(name, "project_cash_before_tax", *earned, given={**NO_DELAY, **zeroed})
    lost = sum(npv(np.ascontiguousarray(v[line]), rate) for line in earned)
    moved_by = npv(v["project_cash_before_tax"], rate) - npv(without["project_cash_before_tax"], rate)
    npt.assert_allclose(moved_by, lost, rtol=0, atol=1e-9 * np.abs(npv(v["cash_income"], rate)).max())
    assert all((without[line] == 0).all() for line in earned)
    if revenue != "heat":  # some farms sell none
        assert np.abs(lost).max() > 1


@pytest.mark.parametrize("name", PLANS)
def test_the_worth_is_linear_in_the_grant(name: str) -> None:
    """Before tax, the loan fixed: half the grant moves the worth of project and owner by half."""
    (grant,) = appraised(name).structure.items["grant"][:1]
    scenario = appraised(name).loaded.scenario
    fixed = all(loan.size == "amount" for loan in scenario.loan.values()) and scenario.funding.sweep != "prepays"
    seen = ("project_cash_before_tax", "net_cash_before_tax")[: 2 if fixed else 1]
    rate, worth = plants(name)["judging.discount_rate"], []
    for part in (0.0, 0.5, 1.0):
        given = {
            f"grant.{grant}.share_of_eligible": np.array([[0.6 * part]]),
            f"grant.{grant}.at_most": np.array([[1e9]]),
        }
        v = kept(name, *seen, given={**NO_DELAY, **given})
        worth.append([npv(v[cash], rate) for cash in seen])
    none, half, whole = np.array(worth)
    npt.assert_allclose(half - none, (whole - none) / 2, rtol=1e-9, atol=1e-3)
    assert (whole > none).all()


@pytest.mark.parametrize("name", PLANS)
def test_a_real_run_is_the_deflated_nominal_one_where_nothing_is_fixed_in_nominal_terms(name: str) -> None:
    """All prices rise with general inflation; before tax, without loans and grants, which are fixed in nominal terms."""
    rise, inputs = 0.031, appraised(name).inputs
    rising = [path for path in inputs if path.endswith((".escalation", "_escalation", ".inflation"))]
    fixed = [path for path in inputs if path.startswith("grant.") and path.endswith("share_of_eligible")]
    fixed += [path for path in inputs if path.endswith("sales_tax_rate")]  # comes back as it was paid
    given = {**NO_DELAY, **dict.fromkeys(fixed, NOTHING), "power.contract_indexed_share": np.array([[1.0]])}
    nominal, real = (
        kept(name, "project_cash_before_tax", "investment",
             given={**given, **{path: np.array([[each]]) for path in rising}})
        for each in (rise, 0.0)
    )  # fmt: skip
    deflated = nominal["project_cash_before_tax"] / (1 + rise) ** appraised(name).values["timeline.years_on"]
    nothing(deflated - real["project_cash_before_tax"], real["investment"])
    assert np.abs(nominal["project_cash_before_tax"] - real["project_cash_before_tax"]).max() > 1
