"""What must hold for the worth of every plant: nominal and real views agree, contracts pay what they say.

Over a thousand random plants: the five cases of tests/money_cases.py, 250 draws each. Every draw moves every number.
Revenues, grants and deflated runs: test_thousand_plants.py.
"""

from __future__ import annotations

import numpy as np
import numpy.testing as npt
import pytest

from appraisal import model
from appraisal.lines.evaluate import year_sum
from appraisal.measures.money_view import money_view
from tests.money_cases import appraised, batch, drawn, lines
from tests.properties.adding_up import CLOSE
from tests.properties.money_plants import NAMES


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
