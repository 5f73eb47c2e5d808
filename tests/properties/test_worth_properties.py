"""What must hold for the worth of every plant: each revenue counts at its present value, nominal and real views agree.

Over a thousand random plants: the cases of tests/money_cases.py, 250 draws each, and the demos. Every draw moves every number.
"""

from __future__ import annotations

import numpy as np
import numpy.testing as npt
import pytest

from appraisal import model
from appraisal.lines.evaluate import year_sum
from appraisal.measures.discounting import npv
from appraisal.measures.money_view import money_view
from tests.money_cases import appraised, batch, drawn, lines
from tests.properties import cases as demo_cases
from tests.properties.adding_up import CLOSE
from tests.properties.cases import DEMOS
from tests.properties.money_plants import NAMES, Array, nothing


def before_tax_worth(v: dict[str, Array], rate: Array) -> Array:
    return npv(v["project_cash_before_tax"], rate)


# Paid at once, and no reserve that fills from what is left: both make cash move in steps.
NO_DELAY = {
    path: np.array([[0.0]]) for path in ("funding.customer_days", "funding.supplier_days", "funding.debt_reserve_months")
}
REVENUES = {
    "power": (("power.contract_price_per_kwh", "power.market_price_per_kwh"), ("power_sales",)),
    "heat": (("heat.sold_price_per_kwh",), ("heat_sales",)),
    "fertilizer": (
        ("fertilizer.n_price_per_kg", "fertilizer.p_price_per_kg", "fertilizer.k_price_per_kg"),
        ("fertilizer_saved",),
    ),
}


@pytest.mark.parametrize("revenue", sorted(REVENUES))
@pytest.mark.parametrize("name", DEMOS)
def test_zeroing_a_revenue_moves_the_worth_by_exactly_its_present_value(name: str, revenue: str) -> None:
    """Before tax, without loans and working capital."""
    prices, earned = REVENUES[revenue]
    moved = {**demo_cases.drawn(name), **NO_DELAY}
    v = demo_cases.lines(name, moved)
    without = demo_cases.lines(name, {**moved, **{path: 0 * moved[path] for path in prices}})
    rate = moved["judging.discount_rate"]
    lost = sum(npv(np.ascontiguousarray(np.broadcast_to(v[line], v["net_cash"].shape)), rate) for line in earned)
    moved_by = before_tax_worth(v, rate) - before_tax_worth(without, rate)
    npt.assert_allclose(moved_by, lost, rtol=0, atol=1e-9 * np.abs(npv(v["cash_income"], rate)).max())
    if revenue == "power":
        assert (lost >= 0).all() and (lost > 0).mean() > 0.95  # in a few plants the farm takes all the power


@pytest.mark.parametrize("name", DEMOS)
def test_the_worth_is_linear_in_the_grant(name: str) -> None:
    """Before tax, the loan fixed: half the grant moves the worth of project and owner by half."""
    case = demo_cases.appraised(name)
    moved = {**demo_cases.drawn(name, draws=100), **NO_DELAY}
    (grant,) = case.structure.items["grant"][:1]
    worth = []
    for part in (0.0, 0.5, 1.0):
        given = {
            f"grant.{grant}.share_of_eligible": np.array([[0.6 * part]]),
            f"grant.{grant}.at_most": np.array([[1e9]]),
        }
        v = demo_cases.lines(name, {**moved, **given})
        worth.append(
            [
                npv(v[cash], moved["judging.discount_rate"])
                for cash in ("project_cash_before_tax", "net_cash_before_tax")
            ]
        )
    none, half, whole = np.array(worth)
    npt.assert_allclose(half - none, (whole - none) / 2, rtol=1e-9, atol=1e-3)
    assert (whole > none).all()


@pytest.mark.parametrize("name", DEMOS)
def test_a_real_run_is_the_deflated_nominal_one_where_nothing_is_fixed_in_nominal_terms(name: str) -> None:
    """All prices rise with general inflation; before tax, without loans and grants, which are fixed in nominal terms."""
    case, rise = demo_cases.appraised(name), 0.031
    paths = [path for path in case.inputs if path.endswith((".escalation", "_escalation", ".inflation"))]
    grants = {
        path: np.array([[0.0]])
        for path in case.inputs
        if path.startswith("grant.") and path.endswith("share_of_eligible")
    }
    taxes = {path: np.array([[0.0]]) for path in case.inputs if path.endswith("sales_tax_rate")}  # comes back as it was paid
    fixed = {**NO_DELAY, **grants, **taxes, "power.contract_indexed_share": np.array([[1.0]])}
    moved = {**demo_cases.drawn(name, draws=100), **fixed}
    nominal, real = (
        demo_cases.lines(name, {**moved, **{path: np.array([[each]]) for path in paths}}) for each in (rise, 0.0)
    )
    deflated = nominal["project_cash_before_tax"] / (1 + rise) ** nominal["timeline.years_on"]
    nothing(deflated - real["project_cash_before_tax"], real["investment"])
    assert np.abs(nominal["project_cash_before_tax"] - real["project_cash_before_tax"]).max() > 1


@pytest.mark.parametrize("name", NAMES)
def test_real_and_nominal_views_agree_on_the_worth(name: str) -> None:
    seen = {(view.whose, view.tax, view.money): view for view in money_view(batch(name), year=3).views}
    for whose in ("project", "owner"):
        for tax in ("before tax", "after tax"):
            nominal, real = seen[whose, tax, "nominal"], seen[whose, tax, "real"]
            size = np.abs(batch(name)["investment"]).sum(axis=1)
            npt.assert_array_less(np.abs(nominal.npv - real.npv) / size, 1e-9)
            both = (nominal.irr.status == 0) & (real.irr.status == 0) & (nominal.irr.value > -0.5)
            inflation = drawn(name, draws=250)["project.inflation"][:, 0]
            there = nominal.irr.value[both], real.irr.value[both], inflation[both]
            npt.assert_allclose((1 + there[0]) / (1 + there[2]) - 1, there[1], atol=1e-7)


@pytest.mark.parametrize("name", NAMES)
def test_signed_income_is_part_of_the_income_and_the_family_is_paid_for(name: str) -> None:
    v = batch(name)
    assert (v["cash_on_signed_contracts"] <= v["cash_available_for_debt_service"] + 1e-6).all()
    assert (v["cash_with_family_paid"] <= v["cash_available_for_debt_service"]).all()
    after = v["power_under_contract"] == 0
    assert (
        np.broadcast_to(v["power_income_signed"], after.shape)[np.broadcast_to(after, v["power_income_signed"].shape)]
        == 0
    ).all()


def test_net_metering_never_pays_more_than_the_bill() -> None:
    v, moved = batch("gap"), drawn("gap", draws=250)
    spread = model.inputs(appraised("gap").structure, moved)
    bill = spread["farm_now.power_bill"] * v["bought_power_index"]
    saved = v["power_bill_saved"] + v["power_bill_metered"] + v["demand_charge_saved"]
    assert (year_sum(saved) <= year_sum(bill) * (1 + CLOSE)).all()
    assert v["power_bill_metered"].min() >= 0 and v["power_bill_metered"].max() > 0


def test_a_difference_contract_pays_the_price_whatever_the_market() -> None:
    """With the market price received in full, a two-way difference is a fixed price."""
    given = {"power.market_received_share": np.array([[1.0]])}
    case = appraised("difference")
    low, high = (
        lines("difference", {**case.inputs, **given, "power.market_price_per_kwh": np.array([[price]])})
        for price in (0.03, 0.2)
    )
    under = low["power_under_contract"][0] > 0
    npt.assert_allclose(low["contract_price"][0, under], high["contract_price"][0, under], rtol=1e-12)
    upward = lines("upward", {**appraised("upward").inputs, **given, "power.market_price_per_kwh": np.array([[0.5]])})
    npt.assert_allclose(upward["contract_price"], upward["market_price"], rtol=1e-12)
