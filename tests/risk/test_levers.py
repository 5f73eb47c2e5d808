"""Levers take the ranges of what they move along, so that futures of the moved plan can be asked for."""

from __future__ import annotations

import numpy as np
import pytest

from appraisal.risk.draws import Settings
from appraisal.risk.levers import contracts_by_gas, with_levers
from appraisal.risk.ranges_moved import moved_range
from appraisal.risk.simulate import simulate
from appraisal.risk.stress import stress_test
from appraisal.scenario.beside import Range
from appraisal.scenario.quantity import Declaration
from tests.properties.cases import appraised
from tests.risk.farms import DEMOS, plain

DAIRY = "dairy_with_leftovers"
PRICE, COST, BUILD = "power.contract_price_per_kwh", "capital.digester.amount", "project.build_months"
FIELD = Declaration("amount_t", "number", "", "", unit="t", low=0.0, high=100.0)


def test_a_range_is_stretched_with_a_factor() -> None:
    loaded = plain(DAIRY)
    moved = with_levers(loaded, {"price": 0.2, "capital": 0.1})
    for path, factor in ((PRICE, 1.2), (COST, 1.1)):
        before, after = loaded.scenario.range[path], moved.scenario.range[path]
        assert (after.low, after.high) == pytest.approx((before.low * factor, before.high * factor))  # type: ignore[operator]
    assert moved.scenario.range[BUILD] == loaded.scenario.range[BUILD]
    assert set(moved.scenario.correlation) == set(loaded.scenario.correlation)
    assert set(moved.scenario.stress) == set(loaded.scenario.stress)


@pytest.mark.parametrize(
    ("shape", "given", "kind", "before", "after", "want"),
    [
        ("triangular", {"low": 20, "high": 60}, "plus", 40, 50, {"low": 30, "high": 70}),
        ("triangular", {"low": 20, "high": 60}, "plus", 40, 90, {"low": 70, "high": 100}),
        ("truncated_normal", {"low": 20, "high": 60, "sd_before_cut": 5}, "times", 40, 20,
         {"low": 10, "high": 30, "sd_before_cut": 2.5}),
        ("table", {"values": [40, 60], "weights": [3, 1]}, "times", 40, 20, {"values": [20, 30], "weights": [3, 1]}),
        ("hazard", {"per_year": 0.1}, "to", 40, 2, {"per_year": 0.1}),
        ("uniform", {"low": 20, "high": 60}, "to", 40, 2, None),
        ("uniform", {"low": 20, "high": 60}, "times", 40, 0, None),
    ],
)  # fmt: skip
def test_each_kind_of_move(
    shape: str, given: dict[str, object], kind: str, before: float, after: float, want: dict[str, object] | None
) -> None:
    item = Range.model_validate({"shape": shape, "reason": "x", **_floats(given)})
    made = moved_range(item, kind, before=before, after=after, field=FIELD)
    assert made == (None if want is None else {"shape": shape, "reason": "x", **_floats(want)})


def _floats(given: dict[str, object]) -> dict[str, object]:
    return {name: [float(v) for v in value] if isinstance(value, list) else float(str(value)) for name, value in given.items()}


@pytest.mark.parametrize("name", DEMOS)
def test_futures_of_a_moved_plan_hold_its_own_central_case(name: str) -> None:
    loaded = plain(name)
    moved = with_levers(loaded, {"gas": 0.2, "interest": 0.01})
    assert set(moved.scenario.range) == set(loaded.scenario.range)
    found, before = simulate(moved, Settings(256)), simulate(loaded, Settings(256))
    assert found.central.npv[0] == stress_test(moved).plan.npv
    assert np.mean(found.outcomes.npv) < np.mean(before.outcomes.npv)
    assert not any(found.checks.values())


def test_a_lost_contract_leaves_its_hazard_and_the_rest() -> None:
    worst = contracts_by_gas(appraised(DAIRY))[0]
    moved = with_levers(plain(DAIRY), {}, lost=worst.name)
    assert set(moved.scenario.range) == set(plain(DAIRY).scenario.range)
