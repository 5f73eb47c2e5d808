"""Events: each runs through gas and money month by month, hits as often as its hazard says, and is told in plain words."""

from __future__ import annotations

from functools import cache

import numpy as np
import pytest

from appraisal import model
from appraisal.lines.evaluate import evaluate
from appraisal.present import risk_page, risk_result
from appraisal.risk.draws import Settings, drawing
from appraisal.risk.futures import rows
from appraisal.risk.simulate import Simulation, simulate
from appraisal.scenario.load import Loaded
from appraisal.scenario.values import structure, values
from tests.risk.farms import edited

Lines = dict[str, np.ndarray]
DAIRY = "dairy_with_leftovers"
HAZARD = '\n[range."{}"]\nshape = "hazard"\nper_year = {}\nreason = "For a test."\n'
FAILING = ("[engine.main]\n", '[engine.main]\nfailure = "counted"\nfailure_stop_months = 2.5\nfailure_cost = 50000\n')
SOLD = ("[herd.milkers]\n", '[herd.milkers]\nkeeping = "may_be_sold"\nleft_after_sale_share = 0.25\n')
GAP = ("[feed.bakery]\n", '[feed.bakery]\nreplaced = "after_a_gap"\ngap_months = 7\n')


def lines(loaded: Loaded) -> Lines:
    """All lines of one run."""
    shape = structure(loaded.scenario)
    return dict(evaluate(model.plan_of(shape), model.inputs(shape, values(loaded.scenario))))


def hazards(**per_year: float) -> tuple[str, str]:
    """A swap that adds hazards by path, with `__` for a point."""
    text = "".join(HAZARD.format(path.replace("__", "."), rate) for path, rate in per_year.items())
    return "[source.", f"{text}\n[source."


@cache
def eventful() -> Simulation:
    """Many plain futures in which everything may happen."""
    rates = hazards(
        engine__main__failure_month=0.04, upset__month=0.03, herd__milkers__sold_after_years=0.02,
        power__contract_years=0.01, credits__law_after_years=0.05,
    )
    wide = edited(DAIRY, FAILING, SOLD, GAP, rates)
    return simulate(wide, Settings(8192, seed=5, method="plain"))


def test_an_engine_that_fails_stands_and_everything_else_follows() -> None:
    """By hand: month 30 from the first feeding is month 41; it stands 2.5 months and costs once."""
    stated = ("failure_cost", "failure_month = 30\nfailure_cost")
    plain, failed = lines(edited(DAIRY, FAILING)), lines(edited(DAIRY, FAILING, stated))
    first = 12 + 30 - 1
    around = slice(first - 1, first + 4)
    hours = failed["engine.main.ready_hours"][0, around] / plain["engine.main.ready_hours"][0, around]
    assert hours == pytest.approx([1, 0, 0, 0.5, 1], rel=1e-12)
    stands = slice(first, first + 2)
    assert (failed["power_gross"][0, stands] == 0).all() and (plain["power_gross"][0, stands] > 0).all()
    assert (failed["methane_made"] == plain["methane_made"]).all()
    lost = plain["methane_burned"] - failed["methane_burned"]
    assert failed["methane_flared"][0, stands] - plain["methane_flared"][0, stands] == pytest.approx(lost[0, stands], rel=1e-12)
    assert (failed["power_sales"][0, stands] == 0).all()
    assert (failed["plant_power_bought"][0, stands] < plain["plant_power_bought"][0, stands]).all()
    paid = failed["engine.main.failure_paid"][0]
    assert np.flatnonzero(paid).tolist() == [first] and paid[first] == pytest.approx(-50000 * 1.023 ** (first // 12))
    for line in ("power_gross", "net_cash", "methane_flared"):
        assert np.array_equal(failed[line][0, :first], plain[line][0, :first]), line


def test_a_failure_counted_but_not_stated_changes_no_figure() -> None:
    still, without = lines(edited(DAIRY, FAILING)), lines(edited(DAIRY))
    for line in ("power_gross", "net_cash", "methane_flared", "cover"):
        assert np.array_equal(still[line], without[line]), line


def test_a_herd_that_is_sold_takes_its_manure_with_and_without_the_plant() -> None:
    plain, sold = lines(edited(DAIRY)), lines(edited(DAIRY, ("[herd.milkers]\n", SOLD[1] + "sold_after_years = 6\n")))
    first = 12 + 6 * 12
    for line in ("substrate.milkers.manure", "substrate.milkers.baseline_methane", "substrate.milkers.heads"):
        assert np.array_equal(sold[line][0, :first], plain[line][0, :first]), line
        assert sold[line][0, first:] == pytest.approx(0.25 * plain[line][0, first:], rel=1e-12), line
    assert np.array_equal(sold["methane_made"][0, :first], plain["methane_made"][0, :first])
    assert (sold["methane_made"][0, first:] < plain["methane_made"][0, first:]).all()
    assert sold["net_cash"][0, first:].sum() < plain["net_cash"][0, first:].sum()


def test_nothing_comes_in_the_gap_after_a_contract() -> None:
    plain, gap = lines(edited(DAIRY)), lines(edited(DAIRY, GAP))
    over = 12 + 5 * 12
    come = gap["substrate.bakery.tonnes"][0]
    assert (come[over : over + 7] == 0).all() and come[over - 1] > 0 and come[over + 7] > 0
    apart = np.r_[0:over, over + 7 : come.size]
    assert np.array_equal(come[apart], plain["substrate.bakery.tonnes"][0, apart])
    assert (gap["substrate.bakery.tipping_fee"][0, over : over + 7] == 0).all()
    assert (gap["methane_made"][0, over : over + 7] < plain["methane_made"][0, over : over + 7]).all()


def test_events_hit_as_often_as_their_hazards_say() -> None:
    """Shares within four standard errors of the closed form; plain draws, so the error is that of the binomial."""
    found = eventful()
    told = {each.path: each.chance.value for each in found.events}
    sample, draws = drawing(found.loaded, found.settings), found.outcomes.draws
    build = np.concatenate([sample.block(number)["project.build_months"][:, 0] for number in range(sample.cube.blocks)])
    fed = 21 * 12 - np.ceil(build)  # whole months, by draw

    def within(path: str, chances: np.ndarray | float) -> None:
        chance = float(np.mean(chances))
        assert abs(told[path] - chance) < 4 * np.sqrt(chance * (1 - chance) / draws), (path, told[path], chance)

    def first_of(hazard: float) -> np.ndarray:
        return 1 - (1 - hazard) ** (fed // 12) * (1 - hazard * (fed % 12) / 12)

    within("engine.main.failure_month", first_of(0.04))
    within("upset.month", first_of(0.03))
    within("feed.whey.contract_years", 1 - 0.95 ** (8 - 1))
    within("power.contract_years", 1 - 0.99 ** (np.ceil((21 * 12 - build) / 12) - 1))
    within("credits.law_after_years", 1 - 0.95**20)


def test_an_event_that_falls_after_the_end_hits_nobody() -> None:
    loaded = edited(DAIRY, FAILING, hazards(engine__main__failure_month=0.04))
    closing = np.array([[3.0], [3.0], [3.0], [60.0]])
    months = np.array([[0.0], [36.0], [37.0], [37.0]])
    made = rows(loaded, {"engine.main.failure_month": months, "project.closes_after_years": closing})
    assert made.happened.T.tolist() == [[False, True, False, True], [True, True, True, False]]


def test_a_single_run_with_the_drawn_times_is_the_future() -> None:
    """Several events at once, given as one case, are exactly the row of the future that drew them."""
    found = eventful()
    draws = drawing(found.loaded, found.settings).block(0)
    row = int(np.flatnonzero(found.outcomes.happened[:1024].sum(axis=1) >= 4)[0])
    assert rows(found.loaded, {path: column[[row]] for path, column in draws.items()}).npv[0] == found.outcomes.npv[row]


def test_events_are_told_in_words_and_in_the_result() -> None:
    found = eventful()
    page, told = risk_page.simulation(found).lower(), risk_result.simulation(found)["events"]
    for words in ("the tank turns sour", "engine main fails", "the herd milkers is sold", "the contract for whey ends early"):
        assert words in page, words
    assert [each["path"] for each in told] == [each.path for each in found.events]
    for event, hits in zip(found.events, found.outcomes.happened.T, strict=True):
        assert event.worth_hit == pytest.approx(found.outcomes.npv[hits].mean())
        assert event.worth_spared == pytest.approx(found.outcomes.npv[~hits].mean())


def test_a_sour_tank_and_a_failed_engine_cost_worth() -> None:
    told = {each.path: each for each in eventful().events}
    for path in ("upset.month", "engine.main.failure_month", "feed.whey.contract_years"):
        hit, spared = told[path].worth_hit, told[path].worth_spared
        assert hit is not None and spared is not None and hit < spared, path
