"""A future is the single run of its draw, exactly; the same on one worker or two; small in memory; checked every time."""

from __future__ import annotations

from dataclasses import fields, replace

import numpy as np
import pytest

from appraisal import model
from appraisal.lines.evaluate import evaluate
from appraisal.lines.prepared import BLOCK, evaluate_block, evaluate_in_blocks, prepare
from appraisal.measures.discounting import npv
from appraisal.measures.headline import headline
from appraisal.risk.changes import ANY
from appraisal.risk.draws import Settings, drawing
from appraisal.risk.futures import Outcomes, outcomes, prepared_model, rows, run_blocks
from appraisal.risk.points import METHODS, Method, RiskError
from appraisal.risk.simulate import FAN_BLOCKS, outcomes_of, simulate
from appraisal.scenario.values import structure, values
from tests.risk.farms import DEMOS, plain, wide

ROWS = (0, 1, 17, 500, 1023, 1024, 1199)


def same(one: Outcomes, other: Outcomes) -> None:
    for each in fields(Outcomes):
        left, right = getattr(one, each.name), getattr(other, each.name)
        assert np.array_equal(left, right, equal_nan=left.dtype.kind == "f"), each.name


@pytest.mark.parametrize("name", DEMOS)
def test_a_future_is_exactly_the_single_run_of_its_draw(name: str) -> None:
    loaded = wide(name)
    draws = drawing(loaded, Settings(draws=1200, seed=4))
    made = outcomes_of(draws, prepared_model(loaded, draws.paths))
    assert made.draws == 1200 and len(np.unique(made.npv)) > 1000
    shape, flat = structure(loaded.scenario), values(loaded.scenario)
    plan = model.plan_of(shape)
    rates = [(f"loan.{loan}.rate", f"loan.{loan}.amount") for loan in shape.items["loan"]]
    for row in ROWS:
        block = draws.block(row // BLOCK)
        drawn = {path: column[[row % BLOCK]] for path, column in block.items()}
        lines = evaluate(plan, model.inputs(shape, {**flat, **drawn}))
        alone = headline(lines)
        assert made.npv[row] == alone.npv[0]
        assert np.array_equal(made.irr[row], alone.irr.value[0], equal_nan=True)
        assert made.irr_status[row] == alone.irr.status[0]
        assert np.array_equal(made.least_cover[row], alone.dscr_min.value[0], equal_nan=True)
        assert made.lowest_cash[row] == lines["bank_balance"][0].min()
        assert made.lowest_month[row] == lines["bank_balance"][0].argmin()
        assert np.array_equal(made.cash_by_year[row], lines["bank_balance"][0, 11::12].astype(np.float32))
        owed = sum(flat[rate][0, 0] * flat[amount][0, 0] for rate, amount in rates)
        mean_rate = owed / sum(flat[amount][0, 0] for _, amount in rates)
        assert made.npv_at_loan_rate[row] == pytest.approx(npv(lines["project_cash"], mean_rate)[0], rel=1e-9, abs=1e-3)


@pytest.mark.parametrize("name", DEMOS)
def test_pruned_and_freed_blocks_give_what_the_whole_evaluation_gives(name: str) -> None:
    loaded = wide(name)
    draws = drawing(loaded, Settings(draws=50))
    shape, flat, block = structure(loaded.scenario), values(loaded.scenario), draws.block(0)
    plan = model.plan_of(shape)
    inputs = model.inputs(shape, {**flat, **block})
    whole = evaluate(plan, inputs)
    for keep in (("project_cash", "methane_made"), tuple(plan.nodes)):
        prepared = prepare(plan, inputs, drawn=block, keep=keep)
        made = evaluate_block(prepared, model.by_month(model.timeline(shape), block))
        assert set(made) == set(keep)
        for line in keep:
            assert np.array_equal(made[line], np.broadcast_to(whole[line], made[line].shape)), line
    few = prepare(plan, inputs, drawn=block, keep=("project_cash",))
    assert len(few.steps) < len(plan.steps)
    assert any(few.score.done)
    acts = [sum(len(getattr(part, "acts", ())) for part in each.score.parts) for each in (few, prepared)]
    assert 0 < acts[0] < acts[1]


def test_a_batch_of_nothing_drawn_is_one_row() -> None:
    shape, flat = structure(plain(DEMOS[0]).scenario), values(plain(DEMOS[0]).scenario)
    inputs = model.inputs(shape, flat)
    (made,) = evaluate_in_blocks(model.plan_of(shape), inputs, keep=["project_cash"])
    assert np.array_equal(made["project_cash"], evaluate(model.plan_of(shape), inputs)["project_cash"])


@pytest.mark.parametrize("method", METHODS)
def test_one_worker_and_two_give_the_same(method: Method) -> None:
    loaded = wide(DEMOS[0])
    made = [simulate(loaded, Settings(3000, 2, method), workers=workers).outcomes for workers in (1, 2)]
    same(*made)


def test_reordered_draws_are_the_same_on_one_worker_and_two() -> None:
    loaded = wide(DEMOS[0])
    settings = Settings(2500, 2, joining="iman_conover")
    made = [simulate(loaded, settings, workers=workers).outcomes for workers in (1, 2)]
    same(*made)


def test_the_first_futures_do_not_depend_on_how_many_follow() -> None:
    loaded = wide(DEMOS[1])
    few, many = (simulate(loaded, Settings(draws)).outcomes.npv for draws in (700, 2100))
    assert np.array_equal(few, many[:700])


@pytest.mark.parametrize("name", DEMOS)
def test_every_check_holds_in_every_future(name: str) -> None:
    found = simulate(wide(name), Settings(2000))
    assert len(found.checks) >= 4
    assert set(found.checks.values()) == {0}


def test_a_check_that_fails_is_counted(monkeypatch: pytest.MonkeyPatch) -> None:
    loaded = wide(DEMOS[0])
    case = prepared_model(loaded, drawing(loaded, Settings(draws=40)).paths)
    worse = replace(case.checks[0], sides=lambda v: (v["methane_made"], v["methane_made"] * 1.001))
    made = outcomes(replace(case, checks=(worse, *case.checks[1:])), drawing(loaded, Settings(draws=40)).block(0))
    assert made.failed.tolist() == [40, *[0] * (len(case.checks) - 1)]


def test_little_is_kept_of_a_future() -> None:
    made = simulate(plain(DEMOS[0]), Settings(2048)).outcomes
    assert made.bytes_per_draw <= 400


def test_years_are_kept_of_the_first_futures_only() -> None:
    loaded = plain(DEMOS[0])
    draws = drawing(loaded, Settings(draws=2 * BLOCK))
    case = prepared_model(loaded, draws.paths)
    made = run_blocks(case, draws.block, blocks=2, fan_blocks=1)
    assert (made.draws, made.cash_by_year.shape[0]) == (2 * BLOCK, BLOCK)
    assert FAN_BLOCKS * BLOCK == 65_536


def test_progress_counts_every_block() -> None:
    told: list[tuple[int, int]] = []
    simulate(plain(DEMOS[0]), Settings(2 * BLOCK + 1), progress=lambda done, whole: told.append((done, whole)))
    assert told == [(1, 3), (2, 3), (3, 3)]


def test_a_value_outside_its_fields_limits_is_refused() -> None:
    with pytest.raises(RiskError, match=r"digester\.availability: 1\.2 share lies outside the allowed 0\.3 to 1 share"):
        rows(plain(DEMOS[0]), {"digester.availability": np.array([[0.9], [1.2]])})
    with pytest.raises(RiskError, match="no single number"):
        rows(plain(DEMOS[0]), {"project.display_units": np.array([[1.0]])})


def test_a_range_that_moves_nothing_is_named() -> None:
    loaded = plain(DEMOS[0])
    case = prepared_model(loaded, ("digester.declared_retention_days", "digester.availability", ANY))
    assert case.idle == ("digester.declared_retention_days",)


def test_the_plan_among_its_futures() -> None:
    found = simulate(plain("dairy_with_leftovers"), Settings(2000))
    npv_spread = found.spreads["npv"]
    assert npv_spread is not None and npv_spread.central is not None
    assert npv_spread.below_central == (found.outcomes.npv < npv_spread.central).mean()
    lines = headline(
        evaluate(
            model.plan_of(structure(found.loaded.scenario)),
            model.inputs(structure(found.loaded.scenario), values(found.loaded.scenario)),
        )
    )
    assert npv_spread.central == lines.npv[0]


def test_the_fan_holds_the_quantiles_of_each_year() -> None:
    found = simulate(plain("dairy_with_leftovers"), Settings(1500))
    year = 9
    assert found.fan.cash[:, year] == pytest.approx(
        np.quantile(found.outcomes.cash_by_year[:, year].astype(float), (0.1, 0.5, 0.9))
    )
    assert (np.diff(found.fan.cash, axis=0) >= 0).all()
    assert np.isnan(found.fan.cover[:, -1]).all()  # the loan is paid off by then


def test_a_rate_far_under_nothing_is_told_as_none() -> None:
    """Where the programme price ends early every flow of the small farm loses, and its only root lies near -100 % a year."""
    found = simulate(plain("small_herd_manure_only"), Settings(1024))
    rate, made = found.spreads["irr"], found.outcomes.irr
    assert (made < -0.9).any() and rate is not None and rate.least >= -0.5
    told = np.isfinite(made) & (made >= -0.5)
    assert rate.known == told.mean() == 1 - found.chances["no_rate_of_return"].value
    assert rate.mean.value == pytest.approx(made[told].mean())
