"""What must hold for the money of every plant: statements close, loans cost what they are worth, revenue counts once.

Over a thousand random plants: four cases that take every choice about money, 250 draws each (tests/money_cases.py), and
the demos. Every draw moves every number of the scenario.
"""

from __future__ import annotations

from collections import Counter

import numpy as np
import numpy.testing as npt
import pytest

from appraisal import model
from appraisal.appraise import appraise
from appraisal.lines.evaluate import evaluate, year_sum
from appraisal.measures.checks import BRIDGE, CHECKS
from appraisal.measures.discounting import npv
from appraisal.measures.money_view import money_view
from appraisal.scenario.load import loads
from tests import money_cases
from tests.money_cases import CASES, appraised, batch, changed_demo, drawn, lines
from tests.properties import cases as demo_cases
from tests.properties.adding_up import CLOSE, TOTALS, overhauls_by_hand
from tests.properties.cases import DEMOS

NAMES = sorted(CASES)
Array = np.ndarray


def of_both(name: str) -> tuple[dict[str, Array], money_cases.Appraisal]:
    """Lines over random plants, and the appraisal behind them, of a money case or a demo."""
    return (batch(name), appraised(name)) if name in CASES else (demo_cases.batch(name), demo_cases.appraised(name))


def nothing(gap: Array, size: Array) -> None:
    """Zero to 1e-9 of the largest amount of each row."""
    scale = np.maximum(np.abs(size).max(axis=1, keepdims=True), 1.0)
    npt.assert_array_less(np.abs(np.broadcast_to(gap, np.broadcast_shapes(gap.shape, scale.shape))) / scale, CLOSE)


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


# Loans.


@pytest.mark.parametrize("name", [*NAMES, *DEMOS])
def test_debt_ends_at_exactly_nothing_and_is_never_negative(name: str) -> None:
    v, case = of_both(name)
    for loan, facts in case.loaded.scenario.loan.items():
        debt = v[f"loan.{loan}.closing"]
        assert (debt[:, facts.years * 12 - 1 :] == 0).all()
        assert (debt >= 0).all()
        assert (v[f"loan.{loan}.accrued"][:, facts.years * 12 - 1 :] == 0).all()
        assert debt.max() > 0


@pytest.mark.parametrize("name", [*NAMES, *DEMOS])
def test_debt_service_at_the_loans_rate_is_worth_what_was_lent(name: str) -> None:
    """Discounted from payment date to payment date; what is drawn inside a period grows to its end by simple interest."""
    v, case = of_both(name)
    for loan, facts in case.loaded.scenario.loan.items():
        every = facts.payment_every_months
        rate = v[f"loan.{loan}.rate_now"]
        month = np.arange(rate.shape[1])
        to_end = (every - 1 - month % every) / 12
        lent = v[f"loan.{loan}.drawn"] * (1 + rate * to_end)
        paid = -(v[f"loan.{loan}.interest"] + v[f"loan.{loan}.principal"] + v[f"loan.{loan}.prepaid"])
        per_period = rate[:, every - 1 :: every] * every / 12
        factor = 1 / np.cumprod(1 + per_period, axis=1)
        worth = [(flows.reshape(flows.shape[0], -1, every).sum(axis=2) * factor).sum(axis=1) for flows in (lent, paid)]
        npt.assert_allclose(worth[1], worth[0], rtol=1e-9)
        assert (worth[0] > 0).all()


def test_a_loan_sized_to_cover_has_that_cover_at_every_payment() -> None:
    """Without overhauls, so that no year is so poor that the schedule must be held at no principal."""
    covers = np.linspace(1.2, 4.0, 40)[:, None]
    case = appraised("gap")
    free = {path: np.array([[0.0]]) for path in case.inputs if path.endswith(("top_end_cost", "major_cost"))}
    v = lines("gap", {**case.inputs, **free, "loan.bank.target_cover": covers})
    assert case.loaded.scenario.loan["bank"].payment_every_months == 6
    cash, paid = v["loan.bank.cash_for_payment"], -(v["loan.bank.interest"] + v["loan.bank.principal"])
    pays = v["loan.bank.payments_left"][0] > 0
    assert pays.sum() == 21 and (v["loan.bank.principal"][:, pays] < 0).all()
    ratio = np.broadcast_to(cash, paid.shape)[:, pays] / paid[:, pays]
    npt.assert_allclose(ratio, np.broadcast_to(covers, ratio.shape), rtol=1e-9)


@pytest.mark.parametrize(("name", "loan"), [("gap", "second"), ("upward", "bank")])
def test_sources_equal_uses_where_a_loan_fills_the_gap(name: str, loan: str) -> None:
    v, moved = batch(name), drawn(name, draws=250)
    own, gap = moved["funding.own_money"], v["gap_to_fund"]
    filled = (gap > 0)[:, 0]
    assert filled.any()
    npt.assert_allclose(v["own_money_needed"][filled], own[filled], rtol=1e-9)
    assert (v[f"loan.{loan}.sum"][~filled] == 0).all()
    assert (v["uses_less_sources"] == 0).all()


@pytest.mark.parametrize("name", ["lender", "upward"])
def test_the_bridge_is_paid_back_by_the_grants(name: str) -> None:
    v = batch(name)
    assert v["bridge_owed"].max() > 0
    assert (v["bridge_owed"] >= 0).all() and (v["bridge_owed"][:, -1] == 0).all()
    share = drawn(name, draws=250)["funding.bridge_share"]
    assert (v["bridge_owed"] <= share * (v["grants"].sum(axis=1, keepdims=True)) * (1 + CLOSE)).all()


# Time only.


def test_what_only_moves_in_time_leaves_nothing_but_costs_interest() -> None:
    v, rate = batch("lender"), drawn("lender", draws=250)["judging.discount_rate"]
    for line in ("sales_tax_moves", "working_capital_moves", "debt_reserve_moves", "overhaul_reserve_moves"):
        left = v[line].sum(axis=1)
        npt.assert_allclose(left, 0.0, atol=1e-9 * np.abs(v[line]).max())
        assert np.abs(npv(v[line], rate)).max() > 1, line


@pytest.mark.parametrize("name", ["lender", "upward", "gap"])
def test_the_debt_reserve_is_at_its_target_or_the_shortfall_is_shown(name: str) -> None:
    v = batch(name)
    held, wanted, short = v["debt_reserve"], v["debt_reserve_target"], v["debt_reserve_short"]
    nothing(held + short - np.maximum(wanted, held), np.maximum(wanted, 1.0))
    assert (held >= 0).all()
    if name != "gap":  # filled from the start: nothing lacks when full operation begins
        begins = v["before_full_years"] > 0
        assert (short[np.broadcast_to(begins, short.shape)] == 0).all()


# Worth.


def before_tax_worth(v: dict[str, Array], rate: Array) -> Array:
    return npv(v["project_cash_before_tax"], rate)


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
    moved, v = demo_cases.drawn(name), demo_cases.batch(name)
    without = demo_cases.lines(name, {**moved, **{path: 0 * moved[path] for path in prices}})
    rate = moved["judging.discount_rate"]
    lost = sum(npv(np.ascontiguousarray(np.broadcast_to(v[line], v["net_cash"].shape)), rate) for line in earned)
    moved_by = before_tax_worth(v, rate) - before_tax_worth(without, rate)
    npt.assert_allclose(moved_by, lost, rtol=0, atol=1e-9 * np.abs(npv(v["cash_income"], rate)).max())
    if revenue == "power":
        assert (lost > 0).all()


@pytest.mark.parametrize("name", DEMOS)
def test_the_worth_is_linear_in_the_grant(name: str) -> None:
    """Before tax, the loan fixed: half the grant moves the worth of project and owner by half."""
    case = demo_cases.appraised(name)
    moved = demo_cases.drawn(name, draws=100)
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
    moved = {**demo_cases.drawn(name, draws=100), **grants, "power.contract_indexed_share": np.array([[1.0]])}
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
def test_a_lenders_order_of_payments_spends_every_unit_of_cash_once(name: str) -> None:
    v, case = batch(name), appraised(name)
    seen = money_view(v, year=3).bank
    tests = seen.tests
    cash = year_sum(v["cash_available_for_debt_service"])
    counts = np.arange(cash.shape[1]) >= (seen.first_year - 1)[:, None]
    spent = tests.interest + tests.principal + tests.reserved + tests.sweep + tests.distributed + tests.trapped + tests.short
    nothing(np.where(counts, cash, 0.0) - spent, cash)
    if case.loaded.scenario.funding.sweep_share == 0:
        owed = v["loans_owed"][:, 11::12]
        nothing(np.where(counts, tests.balance - owed, 0.0), owed)


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


def test_locked_cash_is_held_until_the_cover_is_met_or_nothing_is_owed() -> None:
    """Stepped by hand, year by year and draw by draw, against the lines; what is never released would be a loss."""
    v = batch("upward")
    cash, due = year_sum(v["cash_available_for_debt_service"]), -year_sum(v["debt_service"])
    reserve, owed = year_sum(v["debt_reserve_moves"]), v["loans_owed"][:, 11::12]
    fed, level = year_sum(v["feeding"]), np.ravel(v["funding.lock_up_cover"])
    account, seen = v["lock_up_account"], set()
    for draw in range(account.shape[0]):
        held = 0.0
        for year in range(account.shape[1]):
            left = cash[draw, year] - due[draw, year] + reserve[draw, year]
            under = due[draw, year] > 0 and cash[draw, year] / due[draw, year] < level[draw % level.size]
            if under and fed[draw % fed.shape[0], year] >= 12 and owed[draw, year] > 1:
                seen.add("held" if left > 0 else "drawn" if held > 0 else "nothing there")
                held = max(held + left, 0.0) if left < 0 else held + left
            else:
                seen.add("released" if held > 0 else "free")
                held = 0.0
            assert account[draw, year] == pytest.approx(held, abs=1e-3)
    assert {"held", "drawn", "released", "free"} <= seen
    assert (account[:, -1] == 0).all()


def test_held_cash_costs_the_owner_time_and_leaves_the_project_alone() -> None:
    held = appraise(loads(changed_demo({"funding": {"lock_up": "held", "lock_up_cover": 1.6}})))
    free = appraise(loads(changed_demo({"funding": {"lock_up": "shown", "lock_up_cover": 1.6}})))
    npt.assert_array_equal(held.values["project_cash"], free.values["project_cash"])
    npt.assert_array_equal(held.values["cover"], free.values["cover"])
    owner = [next(float(view.npv[0]) for view in each.money.views if (view.whose, view.tax, view.money)
                  == ("owner", "after tax", "nominal")) for each in (held, free)]  # fmt: skip
    assert owner[0] < owner[1]
    npt.assert_allclose(held.values["bank_balance"][0, -1], free.values["bank_balance"][0, -1], rtol=1e-9)


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
