"""Prices that wander: back to the plan with the stated half-life and spread, together where stated, and never below zero."""

from __future__ import annotations

import json
from dataclasses import replace
from functools import cache

import numpy as np
import pytest

from appraisal.present import risk_page
from appraisal.present.risk_words import wandering
from appraisal.risk.compare import compare
from appraisal.risk.draws import Draws, Settings, drawing
from appraisal.risk.futures import outcomes, prepared_model, rows
from appraisal.risk.rank import rank, stand_ins
from appraisal.risk.simulate import simulate
from appraisal.risk.walks import FURTHEST, Walk, walks_of
from appraisal.scenario.load import Loaded, loads, with_values
from appraisal.scenario.schema import json_schema
from tests.edges.scenario_text import STARTER, only_fault
from tests.risk.farms import edited

SOLD, BOUGHT = "power.market_price_share_by_year", "power.bought_price_share_by_year"
CONTRACT = ("contract_years = 20", "contract_years = 5")
DRAWS = 16384


def wander(name: str = "energy", *, half_life: object = 3, sd: object = 0.25, moves: str = f'"{SOLD}" = 1') -> str:
    head = f"\n[wander.{name}]\nhalf_life_years = {half_life}\nsd_long_run = {sd}\n"
    return head + f'reason = "For a test."\nmoves = {{ {moves} }}\n'


@cache
def farm(text: str, ranges: bool = False) -> Loaded:
    short = edited("dairy_with_leftovers", CONTRACT, ranges=ranges)  # the market pays from year 6 of feeding on
    return loads(short.text + text)


def drawn(text: str) -> tuple[Draws, dict[str, np.ndarray]]:
    draws = drawing(farm(text), Settings(DRAWS))
    parts = [draws.block(number) for number in range(draws.cube.blocks)]
    return draws, {path: np.concatenate([part[path] for part in parts]) for path in draws.paths}


def test_half_life_and_spread_are_those_stated() -> None:
    _, found = drawn(wander())
    years = farm(wander()).scenario.project.years
    away = np.log(found[SOLD])
    kept = 0.5 ** (1 / 3)
    assert (away[:, 0] == 0).all()
    for year in range(1, years):
        variance = 0.25**2 * (1 - kept ** (2 * year))
        assert away[:, year].mean() == pytest.approx(0, abs=4 * np.sqrt(variance / DRAWS))
        assert away[:, year].var() == pytest.approx(variance, rel=4 * np.sqrt(2 / DRAWS))
    last = np.corrcoef(away[:, years - 4], away[:, years - 1])[0, 1]
    assert last == pytest.approx(0.5, abs=4 * 0.75 / np.sqrt(DRAWS) + 0.005)
    assert (away[:, years:] == away[:, [years - 1]]).all()


def test_a_shared_movement_is_common_and_an_own_one_is_not() -> None:
    _, found = drawn(wander(moves=f'"{SOLD}" = 1, "{BOUGHT}" = -0.5'))
    assert np.log(found[BOUGHT]) == pytest.approx(-0.5 * np.log(found[SOLD]), abs=1e-12)
    _, apart = drawn(wander("one") + wander("two", moves=f'"{BOUGHT}" = 1'))
    last = farm(wander()).scenario.project.years - 1
    assert abs(np.corrcoef(np.log(apart[SOLD][:, last]), np.log(apart[BOUGHT][:, last]))[0, 1]) < 4 / np.sqrt(DRAWS)


def test_movements_that_reach_one_value_multiply() -> None:
    draws, found = drawn(wander("one") + wander("two", sd=0.1, half_life=1, moves=f'"{SOLD}" = 2'))
    shares = draws.cube.shares(0)
    one, two = (walk.logarithms(shares[:, list(draws.causes[walk.name])]) for walk in draws.walks)
    assert found[SOLD][:1024] == pytest.approx(np.exp(one + 2 * two), rel=1e-12)


def test_a_path_of_the_plan_is_what_is_come_back_to() -> None:
    path = [1.0, 1.2, 0.5] + [0.4] * 57
    draws = drawing(farm(wander()), Settings(64))
    moved = replace(draws, central={**draws.central, SOLD: np.array([path])}).block(0)[SOLD]
    assert moved == pytest.approx(np.array(path) * draws.block(0)[SOLD], rel=1e-12)
    assert (moved[:, 0] == 1.0).all()


def test_no_step_goes_beyond_its_bound() -> None:
    walk = Walk("wander.x", 3.0, 0.2, {SOLD: 1.0}, 2)
    ends = walk.logarithms(np.array([[1e-300], [0.5], [1 - 1e-16]]))[:, 1]
    step = 0.2 * np.sqrt(1 - 0.5 ** (2 / 3))
    assert ends == pytest.approx([-FURTHEST * step, 0, FURTHEST * step], abs=1e-9)


def test_prices_that_stay_put_leave_the_plan_as_it_is() -> None:
    loaded = farm(wander())
    draws = drawing(loaded, Settings(16))
    still = outcomes(prepared_model(loaded, draws.paths), draws.at(np.full((1, len(draws.cube.paths)), 0.5)))
    assert still.npv[0] == simulate(loaded, Settings(16)).central.npv[0]


def test_without_spread_of_the_price_there_is_none_in_the_worth() -> None:
    found = simulate(farm(wander()), Settings(512))
    none = simulate(farm(wander(sd=0.001)), Settings(512))
    assert found.paths == (SOLD,) and not any(found.checks.values())
    assert found.outcomes.npv.std() > 100 * none.outcomes.npv.std() > 0


def test_a_movement_is_one_cause_beside_the_ranges() -> None:
    loaded = farm(wander(sd=0.6), ranges=True)
    found = rank(loaded, Settings(2048))
    assert found.paths == (*loaded.scenario.range, "wander.energy")
    place = found.paths.index("wander.energy")
    assert found.causes.rank[place] > 0 and found.shares.total[place].value > 0
    assert len(found.shares.total) == len(found.paths) == found.causes.rank.size
    draws = drawing(loaded, Settings(64))
    assert stand_ins(draws, draws.cube.shares(0)).shape == (64, len(found.paths))


def test_plans_share_a_movement_of_the_same_name() -> None:
    found = compare([farm(wander(), ranges=True), farm(wander(), ranges=True)], Settings(256))
    assert found.against[0].difference is not None and found.against[0].difference.sd == 0
    other = compare([farm(wander(), ranges=True), farm(wander("other"), ranges=True)], Settings(256))
    assert other.against[0].difference is not None and other.against[0].difference.sd > 0


def test_the_page_says_what_wanders() -> None:
    (sentence,) = wandering(farm(wander()))
    assert all(words in sentence for words in ("energy", SOLD, "25.0%", "gone in 3 years"))


def test_a_changed_plan_leaves_movements_out_as_it_does_ranges() -> None:
    assert not with_values(farm(wander()), {"project.inflation": 0.01}).scenario.wander


@pytest.mark.parametrize(
    ("text", "path", "words"),
    [
        (wander(moves='"power.market_price_share_by_yeer" = 1'), "market_price_share_by_yeer", "did you mean"),
        (wander(moves='"power.market_price_per_kwh" = 1'), "market_price_per_kwh", "only values by project year wander"),
        (wander(moves=f'"{SOLD}" = 0'), "moves", "-3 to 3, not 0"),
        (wander(moves=f'"{SOLD}" = 4'), "moves", "-3 to 3, not 0"),
        (wander(moves=f'"{SOLD}" = "much"'), "moves", "must be a number"),
        (wander(moves=""), "wander.energy.moves", "one at least"),
        (wander(half_life=0), "wander.energy.half_life_years", "below the allowed range"),
        (wander(sd=0.9), "wander.energy.sd_long_run", "above the allowed range"),
        (wander().replace("half_life", "halflife"), "wander.energy.halflife_years", "did you mean"),
        ("\n[wander]\nsd = 1\n", "wander.sd", "must be a table"),
    ],
)
def test_a_movement_that_cannot_be_is_one_fault(text: str, path: str, words: str) -> None:
    fault = only_fault(STARTER + text)
    assert path in fault.path
    assert words in fault.text("farm.toml")


def test_a_movement_satisfies_the_schema() -> None:
    table = json_schema()["properties"]["wander"]["patternProperties"]
    assert set(next(iter(table.values()))["properties"]) == {"half_life_years", "sd_long_run", "reason", "moves"}
    assert json.dumps(table)


def test_a_movement_alone_is_ranked_by_its_mean_over_the_years() -> None:
    """Closed form of the spread of the mean against the drawn means; the swing is the run with that mean all along."""
    loaded = farm(wander())
    (walk,) = walks_of(loaded)
    _, found = drawn(wander())
    means = np.log(found[SOLD][:, 1 : walk.years]).mean(axis=1)
    assert means.std() == pytest.approx(walk.sd_of_mean, rel=4 / np.sqrt(2 * DRAWS))
    (swing,) = rank(loaded, Settings(512)).swings.swings
    assert (swing.path, swing.low * swing.high) == (walk.name, pytest.approx(1))
    assert swing.high == pytest.approx(float(np.exp(1.2815515655 * walk.sd_of_mean)))
    low = [1.0] + [swing.low] * 59
    assert swing.npv_low == rows(loaded, {SOLD: np.array([low])}).npv[0] < swing.npv_high
    page = risk_page.ranking(rank(loaded, Settings(512)))
    assert "What moves the worth most by itself is Prices that wander" in page
