"""What must hold for every plant: balances close, money is counted once, a batch row is the single run."""

from __future__ import annotations

from collections import Counter

import numpy as np
import numpy.testing as npt
import pytest

from appraisal import model
from appraisal.demos import demos
from appraisal.lines.evaluate import evaluate_in_blocks, year_sum
from appraisal.measures.headline import headline
from appraisal.technical_yield.part_load import on_curve
from tests.properties.cases import appraised, batch, drawn, lines

DEMOS = sorted(demos())
CLOSE = 1e-9  # of the row's largest value
TOTALS = {
    "cash_income": "cash_income",
    "evidenced_saving": "evidenced_savings",
    "modelled_saving": "modelled_savings",
    "running_cost": "running_costs",
    "overhaul": "overhauls_paid",
    "capital": "investment",
    "grant": "grants",
    "loan_draw": "loans_drawn",
    "loan_fee": "fees_paid",
    "interest": "interest_paid",
    "principal": "principal_paid",
    "sweep": "loans_prepaid",
    "tax": "taxes",
    "tax_credit": "tax_credits_paid_out",
    "disposal": "disposals",
    "sales_tax": "sales_tax_moves",
    "working_capital": "working_capital_moves",
    "bridge": "bridge_moves",
    "bridge_interest": "bridge_interest_paid",
    "debt_reserve": "debt_reserve_moves",
    "overhaul_reserve": "overhaul_reserve_moves",
    "lock_up": "lock_up_moves",
}


def equal(left: np.ndarray, right: np.ndarray) -> None:
    """Equal to 1e-9 of the largest value of each row."""
    scale = np.maximum(np.abs(right).max(axis=1, keepdims=True), 1e-300)
    npt.assert_array_less(np.abs(left - right) / scale, CLOSE)


@pytest.mark.parametrize("name", DEMOS)
def test_methane_is_accounted_for_every_month(name: str) -> None:
    v = batch(name)
    used = v["methane_burned"] + v["methane_to_upgrading"] + v["methane_to_boiler"] + v["methane_flared"]
    equal(v["methane_leaked"] + used, v["methane_made"])


@pytest.mark.parametrize("name", DEMOS)
def test_mass_and_nutrients_balance(name: str) -> None:
    v, items = batch(name), model.items(appraised(name).structure)["substrate"]
    equal(v["digestate_mass"] + v["dry_gas_mass"] + v["vapour_mass"], v["tonnes_fed"])
    equal(v["digestate_nitrogen"] + v["nitrogen_lost"], v["nitrogen_fed"])
    for line, per_tonne in (("digestate_phosphorus", "p_kg_per_t"), ("digestate_potassium", "k_kg_per_t")):
        moved = drawn(name)
        brought = [
            v[f"substrate.{item}.{part}"] * moved[f"{table}.{item}.{prefix}{per_tonne}"]
            for table, item in items
            for part, prefix in ((("manure", ""), ("bedding", "bedding_")) if table == "herd" else (("tonnes", ""),))
        ]
        equal(sum(brought), v[line])


@pytest.mark.parametrize("name", DEMOS)
def test_power_and_heat_balance(name: str) -> None:
    v = batch(name)
    equal(v["power_sold"] + v["power_to_farm"] + v["power_own_use"], v["power_gross"])
    equal(v["heat_used"] + v["heat_dumped"], v["heat_recoverable"])
    equal(v["heat_digester_met"] + v["heat_shortfall"], v["heat_to_digester"])


@pytest.mark.parametrize("name", DEMOS)
def test_energy_out_never_exceeds_energy_in(name: str) -> None:
    v, moved = batch(name), drawn(name)
    fuel = v["methane_burned"] * 9.97
    sane = np.ones((v["power_gross"].shape[0], 1), dtype=bool)
    for engine in appraised(name).structure.items["engine"]:
        known, path = {**moved, **v}, f"engine.{engine}"
        full, middle, half = (
            known[f"{path}.{power}"] + known[f"{path}.{heat}"]
            for power, heat in (
                ("efficiency_full", "heat_efficiency_full"),
                ("efficiency_at_three_quarters", "heat_at_three_quarters"),
                ("efficiency_at_half", "heat_efficiency_half"),
            )
        )
        least = on_curve(known[f"{path}.minimum_load"], full, middle, half, three_quarter_load=0.75, half_load=0.5)
        sane &= (full <= 1) & (middle <= 1) & (least <= 1)
    assert sane.any()
    assert ((v["power_gross"] + v["heat_recoverable"] <= fuel * (1 + 1e-9)) | ~sane).all()


@pytest.mark.parametrize("name", DEMOS)
def test_flows_are_never_negative_and_conversion_stays_below_one(name: str) -> None:
    v = batch(name)
    for line in (
        "methane_made",
        "biogas_made",
        "methane_flared",
        "power_gross",
        "power_sold",
        "power_bought",
        "heat_dumped",
        "heat_shortfall",
        "heat_sold",
        "run_hours",
        "credit_tonnes",
        "tonnes_fed",
    ):
        assert (v[line] >= 0).all(), line
    conversions = [array for line, array in v.items() if line.endswith(".conversion")]
    assert conversions
    assert all((array >= 0).all() and (array < 1).all() for array in conversions)


@pytest.mark.parametrize("name", DEMOS)
def test_a_batch_row_is_exactly_the_single_run(name: str) -> None:
    moved, whole = drawn(name), batch(name)
    measured = headline(whole)
    for row in (0, 7, 123, 349):
        single = lines(
            name, {path: array[row : row + 1] if array.shape[0] > 1 else array for path, array in moved.items()}
        )
        for line, array in whole.items():
            got = array[row : row + 1] if array.shape[0] > 1 else array
            assert np.array_equal(got, single[line]), line
        alone = headline(single)
        assert alone.npv[0] == measured.npv[row]
        assert np.array_equal(alone.irr.value[:1], measured.irr.value[row : row + 1], equal_nan=True)
        assert np.array_equal(alone.cover.value[0], measured.cover.value[row], equal_nan=True)


@pytest.mark.parametrize("name", DEMOS)
def test_blocks_are_exactly_the_batch(name: str) -> None:
    case, keep = appraised(name), ["net_cash", "project_cash", "methane_made", "cover"]
    parts = list(evaluate_in_blocks(case.plan, model.inputs(case.structure, drawn(name)), keep=keep, block=100))
    for line in keep:
        assert np.array_equal(np.concatenate([part[line] for part in parts]), batch(name)[line])


@pytest.mark.parametrize("name", DEMOS)
def test_each_money_line_is_in_exactly_one_total(name: str) -> None:
    nodes = appraised(name).plan.nodes
    counted = Counter(ref.name for total in TOTALS.values() for ref in nodes[total].refs())
    money = {full for full, node in nodes.items() if node.line.role}
    assert set(counted) == money
    assert set(counted.values()) == {1}
    assert {node.line.role for node in nodes.values() if node.line.role} <= set(TOTALS)


@pytest.mark.parametrize("name", DEMOS)
def test_net_cash_is_the_sum_of_all_money_lines(name: str) -> None:
    v, nodes = batch(name), appraised(name).plan.nodes
    equal(sum(v[full] for full, node in nodes.items() if node.line.role), v["net_cash"])


@pytest.mark.parametrize("name", DEMOS)
def test_loans_end_at_zero_and_every_payment_is_interest_and_principal(name: str) -> None:
    v, case = batch(name), appraised(name)
    for loan in case.structure.items["loan"]:
        facts = case.loaded.scenario.loan[loan]
        last = facts.years * 12 - 1
        debt = v[f"loan.{loan}.closing"]
        assert (np.abs(debt[:, last:]) <= CLOSE * debt.max(axis=1, keepdims=True)).all()
        assert (debt >= -CLOSE * debt.max()).all()
        start = max(
            facts.interest_only_months, max(c.first_month + c.months for c in case.loaded.scenario.capital.values())
        )
        paid = (v[f"loan.{loan}.interest"] + v[f"loan.{loan}.principal"])[:, start : last + 1]
        npt.assert_allclose(paid, np.broadcast_to(paid[:, :1], paid.shape), rtol=1e-9)


@pytest.mark.parametrize("name", DEMOS)
def test_a_loan_without_interest_is_paid_in_equal_parts(name: str) -> None:
    case = appraised(name)
    for loan in case.structure.items["loan"]:
        v = lines(name, {**case.inputs, f"loan.{loan}.rate": np.array([[0.0]])})
        facts = case.loaded.scenario.loan[loan]
        start = max(
            facts.interest_only_months, max(c.first_month + c.months for c in case.loaded.scenario.capital.values())
        )
        paid = v[f"loan.{loan}.principal"][0, start : facts.years * 12]
        npt.assert_allclose(paid, paid[0], rtol=1e-9)
        assert (v[f"loan.{loan}.interest"] == 0).all()
        assert abs(v[f"loan.{loan}.closing"][0, -1]) < 1e-6


@pytest.mark.parametrize("name", DEMOS)
def test_twice_the_price_is_twice_the_revenue(name: str) -> None:
    case = appraised(name)
    prices = ["power.contract_price_per_kwh", "power.market_price_per_kwh"]
    twice = lines(name, {**case.inputs, **{path: 2 * case.inputs[path] for path in prices}})
    equal(twice["power_sales"], 2 * case.values["power_sales"])
    assert case.values["power_sales"].sum() > 0


@pytest.mark.parametrize("name", DEMOS)
def test_savings_never_exceed_the_bill(name: str) -> None:
    v, moved = batch(name), drawn(name)
    spread = model.inputs(appraised(name).structure, moved)
    for saved, bill, index in (
        ("power_bill_saved", "farm_now.power_bill", "bought_power_index"),
        ("fuel_bill_saved", "farm_now.heating_fuel_bill", "fuel_index"),
    ):
        assert (v[saved] <= spread[bill] * v[index] * (1 + CLOSE)).all(), saved
    assert (
        v["fertilizer_saved"]
        <= moved["farm_now.fertilizer_bill"] * v["timeline.days"] / 365 * v["fertilizer_index"] * (1 + CLOSE) + 1e-9
    ).all()


@pytest.mark.parametrize("name", DEMOS)
def test_months_add_up_to_years_and_present_value_at_the_rate_of_return_is_zero(name: str) -> None:
    v = batch(name)
    equal(year_sum(v["net_cash"]).sum(axis=1, keepdims=True), v["net_cash"].sum(axis=1, keepdims=True))
    found = headline(v).irr
    month = np.arange(v["project_cash"].shape[1])
    rows = np.flatnonzero((found.status == 0) & (found.value > -0.5))[:50]
    assert rows.size > 10
    for row in rows:
        terms = v["project_cash"][row] * (1 + found.value[row]) ** (-month / 12)
        assert abs(terms.sum()) < 1e-9 * np.abs(terms).sum()


def overhauls_by_hand(hours: np.ndarray, *, top_end: float, major: float) -> tuple[list[int], list[int]]:
    """Months of top-end and major overhauls, counted hour by hour as a mechanic would: a major restarts the top-end clock."""
    run, next_major, next_top_end = 0.0, major, top_end
    top_ends, majors = [], []
    for month, worked in enumerate(hours):
        run += worked
        if run >= next_major * (1 - 1e-9):
            majors.append(month)
            next_top_end, next_major = next_major + top_end, next_major + major
        elif run >= next_top_end * (1 - 1e-9):
            top_ends.append(month)
            next_top_end += top_end
    return top_ends, majors


@pytest.mark.parametrize("name", DEMOS)
def test_overhauls_fall_in_the_month_where_the_hours_cross_also_for_round_numbers(name: str) -> None:
    case = appraised(name)
    for place, engine in enumerate(case.structure.items["engine"]):
        top_end, major = (
            np.array([[8000.0], [10000.0], [12345.6]]) + 500 * place,
            np.array([[40000.0], [30000.0], [50001.0]]),
        )
        intervals = {f"engine.{engine}.top_end_interval_hours": top_end, f"engine.{engine}.major_interval_hours": major}
        v = lines(name, {**case.inputs, **intervals, f"engine.{engine}.availability": np.array([[0.9], [1.0], [0.8]])})
        for row in range(3):
            hours = np.broadcast_to(v[f"engine.{engine}.hours"], (3, case.timeline.months))[row]
            want = overhauls_by_hand(hours, top_end=float(top_end[row, 0]), major=float(major[row, 0]))
            got = [np.flatnonzero(v[f"engine.{engine}.{kind}_due"][row]).tolist() for kind in ("top_ends", "majors")]
            assert got == list(want)
            assert all(got)


def test_a_contract_that_ends_runs_through_the_physics_like_a_plant_without_that_feed() -> None:
    case = appraised("dairy_with_leftovers")
    ends = lines(
        "dairy_with_leftovers",
        {
            **case.inputs,
            "feed.bakery.contract_years": np.array([[4.0]]),
            "feed.bakery.share_after_contract": np.array([[0.0]]),
        },
    )
    never = lines("dairy_with_leftovers", {**case.inputs, "feed.bakery.tonnes_per_year": np.array([[0.0]])})
    last = int(case.inputs["project.build_months"][0, 0]) + 48
    for line in (
        "methane_made",
        "retention",
        "power_gross",
        "heat_dumped",
        "digestate_mass",
        "digestate_nitrogen",
        "loading_rate",
    ):
        assert np.array_equal(ends[line][0, last:], never[line][0, last:]), line
        assert not np.array_equal(ends[line][0, :last], never[line][0, :last]), line
    assert (ends["substrate.bakery.tipping_fee"][0, last:] == 0).all()
    assert (ends["substrate.bakery.tipping_fee"][0, last - 1] > 0).all()


def test_no_head_and_no_feed_is_a_plant_without_gas_and_not_an_error() -> None:
    case = appraised("dairy_with_leftovers")
    nothing = {path: 0 * case.inputs[path] for path in case.inputs if path.endswith((".head", ".tonnes_per_year"))}
    v = lines("dairy_with_leftovers", {**case.inputs, **nothing})
    assert all(np.isfinite(array).all() for array in v.values())
    assert v["power_gross"].sum() == 0
    assert headline(v).npv[0] < 0
