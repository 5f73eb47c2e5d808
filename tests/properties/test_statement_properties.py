"""What must hold for the statements of every plant: they close, revenue counts once, a batch row is the single run.

Over a thousand random plants: the cases of tests/money_cases.py, 250 draws each, and the demos. Every draw moves every number.
"""

from __future__ import annotations

from collections import Counter

import numpy as np
import pytest

from appraisal import model
from appraisal.measures.checks import BRIDGE, CHECKS
from appraisal.measures.money_view import money_view
from tests.money_cases import CASES, appraised, batch, drawn, lines
from tests.properties import cases as demo_cases
from tests.properties.adding_up import CLOSE, TOTALS
from tests.properties.cases import DEMOS
from tests.properties.money_plants import NAMES, Array, nothing, of_both


@pytest.mark.parametrize("name", [*NAMES, *DEMOS])
def test_the_balance_sheet_balances_in_every_month_of_every_draw(name: str) -> None:
    v, _ = of_both(name)
    nothing(v["assets"] - v["debts"] - v["equity"], np.maximum(v["assets"], v["building_cost"]))
    assert (v["balance_difference"] == 0).all()
    assert (v["cash_held"] >= 0).all()
    assert np.abs(v["assets"]).max() > 0


@pytest.mark.parametrize("name", [*NAMES, *DEMOS])
def test_every_check_holds_for_every_draw(name: str) -> None:
    v, _ = of_both(name)
    for what, _, _, of in CHECKS:
        gap, size = of(v)
        scale = np.maximum(np.abs(size).max(axis=1, keepdims=True), 1.0)
        assert (np.abs(gap) <= CLOSE * scale).all(), what


def test_a_check_that_is_broken_says_so() -> None:
    """Planted faults: each check must notice the one that it is about."""
    v = dict(appraised("lender").values)
    faults = {
        "balance": "cash_held",
        "debt_not_negative": "loans_owed",
        "depreciation": "depreciation",
        "books": "written_off",
        "grants": "grants_earned",
        "profit_to_cash": "net_cash",
        "tax": "taxes",
        "time_only": "working_capital_moves",
        "power": "power_sold",
        "power_money": "power_sales",
        "gas": "methane_flared",
        "mass": "digestate_mass",
        "flags": "in_first_full_year",
        "debt_reserve": "debt_reserve_short",
        "fees": next(line for line in v if line.endswith(".tipping_fee")),
    }
    for check, line in faults.items():
        broken = v | {line: v[line] - 1.0 if line != "loans_owed" else v[line] - v[line].max()}
        if check == "balance":
            broken["assets"] = v["assets"] - 1.0 * np.abs(v["assets"]).max() * 1e-5
        failed = {what for what, _, _, of in CHECKS if _missed(of(broken))}
        assert check in failed, check


def _missed(pair: tuple[Array, Array]) -> bool:
    gap, size = pair
    return bool(np.abs(gap).max() > 1e-6 * max(float(np.abs(size).max()), 1e-9))


@pytest.mark.parametrize("name", [*NAMES, *DEMOS])
def test_steps_from_profit_to_cash_give_the_cash_by_month(name: str) -> None:
    v, _ = of_both(name)
    nothing(sum(sign * v[line] for _, parts in BRIDGE for line, sign in parts) - v["net_cash"], v["investment"])


@pytest.mark.parametrize("name", NAMES)
def test_each_money_line_is_in_exactly_one_total_under_every_choice(name: str) -> None:
    nodes = appraised(name).plan.nodes
    counted = Counter(ref.name for total in TOTALS.values() for ref in nodes[total].refs())
    money = {full for full, node in nodes.items() if node.line.role}
    assert set(counted) == money and set(counted.values()) == {1}
    v = batch(name)
    nothing(sum(v[full] for full in money) - v["net_cash"], v["investment"])


def test_the_cases_take_every_choice_about_money() -> None:
    """Every variant of every money line is computed in some case or demo."""
    sheets = {module.__name__.rpartition(".")[2] for module in (*model.SHEETS, *model.STATEMENTS)}
    mine = sheets - {"credits", "fertilizer", "heat_value", "gas_sales", "cleaning_costs", "tipping_fees"}
    taken = {
        (node.line.name, node.line.variant)
        for name in (*NAMES, *DEMOS)
        for node in (appraised(name) if name in CASES else demo_cases.appraised(name)).plan.nodes.values()
    }
    there = {
        (line.name, line.variant)
        for variants in model.CATALOGUE.lines.values()
        for line in variants
        if line.sheet in mine and not any(key.startswith(OTHERS) for key in line.when)
    }
    assert there - taken == set()


OTHERS = ("upgrading_", "cleaning_", "credits_", "carbon_claim_", "engine_")  # choices of other sheets


@pytest.mark.parametrize("name", NAMES)
def test_a_batch_row_is_exactly_the_single_run_under_every_choice(name: str) -> None:
    moved, whole = drawn(name, draws=250), batch(name)
    seen = money_view(whole, year=3)
    for row in (0, 17, 249):
        single = lines(name, {path: a[row : row + 1] if a.shape[0] > 1 else a for path, a in moved.items()})
        for line, array in whole.items():
            assert np.array_equal(array[row : row + 1] if array.shape[0] > 1 else array, single[line]), line
        alone = money_view(single, year=3)
        for one, many in zip(alone.views, seen.views, strict=True):
            assert one.npv[0] == many.npv[row] and one.npv_year_end[0] == many.npv_year_end[row]
            assert np.array_equal(one.irr.value[:1], many.irr.value[row : row + 1], equal_nan=True)
        for part in ("llcr", "plcr"):
            single_row, batch_row = getattr(alone.bank, part).value[:1], getattr(seen.bank, part).value[row : row + 1]
            assert np.array_equal(single_row, batch_row, equal_nan=True)
        assert np.array_equal(alone.bank.rolling, seen.bank.rolling[row : row + 1], equal_nan=True)
        assert alone.stop.owner_stopping[0] == seen.stop.owner_stopping[row]
