"""What must hold for overhauls and worn parts: each engine by its own hours, each part after its own life."""

from __future__ import annotations

import numpy as np
import numpy.testing as npt
import pytest

from appraisal import model
from appraisal.appraise import appraise
from appraisal.lines.evaluate import evaluate, year_sum
from appraisal.scenario.load import loads
from tests import money_cases
from tests.money_cases import changed_demo
from tests.properties.adding_up import overhauls_by_hand


def test_two_engines_are_overhauled_by_their_own_hours_in_every_draw() -> None:
    """Other sizes, intervals, hours and costs, one of them round; each draw has its own hours."""
    text = changed_demo({"engine": {
        "main": {"rated_kw": 160, "top_end_interval_hours": 8000, "major_interval_hours": 40000, "major_cost": 60000},
        "old": {"rated_kw": 100, "maintenance": "routine", "maintenance_per_kwh": 0.02, "top_end_interval_hours": 12345,
                "major_interval_hours": 37035, "top_end_cost": 9000, "major_cost": 41000}}})  # fmt: skip
    case = appraise(loads(text))
    steady = {"engine.main.availability": np.array([[1.0], [0.9], [0.77]]),
              "engine.old.availability": np.array([[0.8], [1.0], [0.93]])}  # fmt: skip
    v = evaluate(case.plan, model.inputs(case.structure, {**case.inputs, **steady}))
    months = {}
    for name in ("main", "old"):
        paid = np.zeros_like(v["engine.main.overhaul"])
        for draw in range(3):
            top_ends, majors = overhauls_by_hand(
                v[f"engine.{name}.hours"][draw], top_end=case.inputs[f"engine.{name}.top_end_interval_hours"][0, 0],
                major=case.inputs[f"engine.{name}.major_interval_hours"][0, 0],
            )  # fmt: skip
            assert top_ends and majors
            paid[draw, top_ends] -= case.inputs[f"engine.{name}.top_end_cost"][0, 0]
            paid[draw, majors] -= case.inputs[f"engine.{name}.major_cost"][0, 0]
            months[name, draw] = (*top_ends, *majors)
        npt.assert_allclose(v[f"engine.{name}.overhaul"], paid * v["inflation_index"], rtol=1e-12)
    assert len(set(months.values())) == 6


def test_worn_parts_are_paid_after_each_whole_life_and_never_in_the_last_month() -> None:
    """20 years of feeding: every 7 years twice, every 10 years once (not again when the plant ends), every 2.5 years 7 times."""
    for life, months in ((7.0, [84, 168]), (10.0, [120]), (2.5, list(range(30, 240, 30))), (0.0, [])):
        worn = {"worn_after_years": life, "replacement_cost": 1000}
        v = appraise(loads(changed_demo({"capital": {"grid": worn}}))).values
        paid = -v["capital.grid.worn_parts_paid"][0] / np.broadcast_to(v["inflation_index"], (1, 252))[0]
        assert (np.flatnonzero(paid) - 12).tolist() == months
        assert paid[paid > 0] == pytest.approx(1000)


def test_the_overhaul_reserve_pays_in_the_month_of_the_overhaul() -> None:
    """So that cover over any twelve months, which hold one filling each, is as smooth as that of the years."""
    case = appraise(loads(changed_demo({"funding": {"overhaul_reserve": "three_years_ahead"}})))
    v = case.values
    overhaul = np.flatnonzero(v["overhauls_paid"][0])
    between = overhaul[(overhaul + 1) % 12 != 0]
    assert between.size
    npt.assert_allclose(v["overhaul_reserve_moves"][0, between], -v["overhauls_paid"][0, between], rtol=1e-12)
    npt.assert_allclose(year_sum(v["overhaul_reserve_moves"]), v["overhaul_reserve_change"], atol=1e-6)
    assert abs(v["overhaul_reserve_moves"].sum()) < 1e-6
    bank = case.money.bank
    assert float(bank.rolling[0]) > 0.8 * float(bank.least["as_assumed"].value[0])
    unsaved = appraised_base().money.bank
    npt.assert_allclose(unsaved.with_overhaul_reserve.value, bank.least["as_assumed"].value, rtol=1e-12)


def appraised_base() -> money_cases.Appraisal:
    """The demo as it stands: overhauls are paid out of the cash of their year."""
    return appraise(loads(changed_demo({})))
