"""Two losing years in a row: both answers worked out by hand, and equal where nothing is gained by stopping."""

from __future__ import annotations

import numpy as np
import pytest

from appraisal.appraise import Appraisal, appraise
from appraisal.present.money_words import stop_rule
from appraisal.scenario.load import loads
from tests.money_cases import Tables, changed_demo
from tests.plan_by_hand import worth

YEARS = 12


def plan(**power: float) -> Appraisal:
    """A contract of five years, a market that does not carry the running costs, a grant obliged for ten years."""
    changes: Tables = {
        "project": {"years": YEARS, "build_months": 12},
        "loan": {"bank": {"years": 11}},
        "power": {"contract_years": 5, "market_price_per_kwh": 0.0, **power},
        "feed": {name: {"gate_fee_per_t": 0, "gate_fee_after_per_t": 0} for name in ("whey", "bakery")},
        "grant": {"state_energy": {"obligation_years": 10}},
        "funding": {"stop_penalty_cost": 30_000, "debt_reserve": "from_start"},
        "capital": {"digester": {"resale_share": 0.2, "removal_cost": 60_000, "end_value": 10_000}},
    }
    return appraise(loads(changed_demo(changes)))


def by_hand(case: Appraisal) -> int:
    """Project year of the second losing year in a row, from 1; 0 where there is none."""
    result = (case.values["operating_result"] + case.values["overhauls_paid"])[0].reshape(-1, 12).sum(axis=1)
    fed = np.broadcast_to(case.values["feeding"], (1, 12 * YEARS))[0].reshape(-1, 12).sum(axis=1)
    for year in range(1, YEARS):
        if result[year] < 0 and result[year - 1] < 0 and fed[year] == 12 == fed[year - 1]:
            return year + 1
    return 0


def test_both_answers_by_hand() -> None:
    case = plan()
    v, stop, rate = case.values, case.money.stop, case.loaded.scenario.judging.discount_rate
    year = by_hand(case)
    assert 6 < year < YEARS and int(stop.year[0]) == year
    last, ran, inflation = 12 * year - 1, year - 1, case.loaded.scenario.project.inflation
    cost = -float(v["capital.digester.spend"].sum())
    sold = cost * (1 - ran / case.loaded.scenario.capital["digester"].depreciation_years) * 0.2
    back = float(v["grants"].sum()) * (1 - ran / 10) + 30_000
    removed = 60_000 * (1 + inflation) ** (year - 1)
    project = list(v["project_cash"][0, : last + 1])
    project[-1] += sold - removed - back
    assert float(stop.npv_stopping[0]) == pytest.approx(worth(project, rate), rel=1e-9)
    owner = list(v["net_cash"][0, : last + 1])
    owner[-1] += sold - removed - back - float(v["loans_owed"][0, last]) + float(v["reserves_held"][0, last])
    assert float(stop.owner_stopping[0]) == pytest.approx(worth(owner, rate), rel=1e-9)
    assert float(stop.npv_running_on[0]) == pytest.approx(worth(list(v["project_cash"][0]), rate), rel=1e-9)
    assert float(stop.owner_running_on[0]) == pytest.approx(worth(list(v["net_cash"][0]), rate), rel=1e-9)
    said = stop_rule(case)
    better = "stopping is better" if stop.npv_stopping[0] > stop.npv_running_on[0] else "running on is still better"
    assert better in said and f"project year {year}" in said


def test_a_plan_that_never_loses_twice_has_one_answer() -> None:
    case = plan(market_price_per_kwh=0.2)
    assert by_hand(case) == 0 == int(case.money.stop.year[0])
    assert case.money.stop.npv_stopping[0] == case.money.stop.npv_running_on[0]


def test_at_the_end_of_the_project_nothing_is_removed_twice() -> None:
    case = plan()
    removed, sold = (case.values[f"capital.digester.{part}_if_stopped"][0] for part in ("removed", "sold"))
    assert removed[-2] > 60_000 and removed[-1] == 0 and sold[-1] == 0
    assert case.values["owed_if_stopped"][0, -1] == pytest.approx(-case.values["reserves_held"][0, -1], abs=1e-6)
