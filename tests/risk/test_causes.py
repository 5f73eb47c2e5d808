"""Ranked causes: against known answers, against a second library, and against each other."""

from __future__ import annotations

import numpy as np
import pytest
from scipy import stats

from appraisal.risk.draws import Settings
from appraisal.risk.grids import engine_sizes, grid
from appraisal.risk.points import RiskError
from appraisal.risk.rank import rank
from appraisal.risk.ranks import ranked, together
from appraisal.risk.shapes import Z90
from appraisal.risk.shares import of_runs, variance_shares
from appraisal.risk.swings import swings_by_share, swings_to_quantiles
from appraisal.risk.walks import held_away, planned, walks_of
from appraisal.scenario.load import with_values
from tests.properties.cases import lines
from tests.risk.farms import DEMOS, edited, plain, wide


def bent(cube: np.ndarray) -> np.ndarray:
    return np.exp(cube[:, 0]) + 2 * cube[:, 1] * cube[:, 2] + 0.1 * cube[:, 3]


def test_ranks_and_rank_correlations_equal_a_second_library() -> None:
    rng = np.random.default_rng(1)
    inputs = rng.integers(0, 6, (300, 3)).astype(float)  # many ties
    result = inputs[:, 0] ** 2 - inputs[:, 1] + rng.normal(size=300)
    assert np.array_equal(ranked(inputs[:, 0]), stats.rankdata(inputs[:, 0]))
    found = together(inputs, result)
    for place in range(3):
        assert found.rank[place] == pytest.approx(stats.spearmanr(inputs[:, place], result).statistic, rel=1e-12)


def test_partial_correlation_takes_the_others_out() -> None:
    rng = np.random.default_rng(2)
    cause = rng.normal(size=4000)
    shadow = cause + 0.5 * rng.normal(size=4000)  # moves with the cause and does nothing itself
    found = together(np.column_stack([cause, shadow]), cause + 0.2 * rng.normal(size=4000))
    assert found.rank[1] > 0.8
    assert abs(found.partial[1]) < 0.1 and found.partial[0] > 0.9
    alone = together(cause[:, None], cause**3)
    assert (alone.rank[0], alone.partial[0]) == pytest.approx((1.0, 1.0))


def test_what_never_changes_has_no_correlation() -> None:
    with pytest.raises(RiskError, match="never changes"):
        together(np.ones((50, 1)), np.arange(50.0))


def test_variance_shares_against_a_library_for_sensitivity() -> None:
    sobol = pytest.importorskip("SALib.analyze.sobol")
    sample = pytest.importorskip("SALib.sample.sobol")
    problem = {"num_vars": 4, "names": list("abcd"), "bounds": [[0, 1]] * 4}
    theirs_at = sample.sample(problem, 1024, calc_second_order=False, seed=1)
    results = bent(theirs_at)
    theirs = sobol.analyze(problem, results, calc_second_order=False, num_resamples=10, seed=1)
    block = results.reshape(1024, 6)  # A, four mixed columns, B
    same_runs = of_runs(block[:, 0], block[:, 5], block[:, 1:5].T)
    assert [each.value for each in same_runs.total] == pytest.approx(theirs["ST"], abs=2e-3)
    assert [each.value for each in same_runs.first] == pytest.approx(theirs["S1"], abs=5e-3)
    own = variance_shares(bent, dimensions=4, draws=4096, seed=3)
    for place in range(4):
        assert own.total[place].value == pytest.approx(theirs["ST"][place], abs=0.02)
        assert own.first[place].value == pytest.approx(theirs["S1"][place], abs=0.03)


def test_a_function_that_never_changes_has_no_shares() -> None:
    found = variance_shares(lambda cube: np.full(cube.shape[0], 3.0), dimensions=2, draws=64, seed=1)
    assert [each.value for each in (*found.first, *found.total)] == [0.0] * 4


@pytest.mark.parametrize("name", DEMOS)
def test_swings_are_single_runs_at_the_ends_widest_first(name: str) -> None:
    loaded = plain(name)
    found = swings_to_quantiles(loaded)
    widths = [abs(each.npv_width) for each in found.swings]
    assert widths == sorted(widths, reverse=True)
    from appraisal.measures.headline import headline
    from tests.properties.cases import appraised

    walks = {walk.name: walk for walk in walks_of(loaded)}
    assert {*loaded.scenario.range, *walks} == {each.path for each in found.swings}
    for each in found.swings:
        for value, worth, away in ((each.low, each.npv_low, -Z90), (each.high, each.npv_high, Z90)):
            moved = {each.path: np.array([[value]])}
            if each.path in walks:
                walk = walks[each.path]
                assert value == pytest.approx(np.exp(away * walk.sd_of_mean), rel=1e-12)
                moved = held_away(planned(loaded, (walk,)), walk, away)
            alone = headline(lines(name, {**appraised(name).inputs, **moved}))
            assert worth == alone.npv[0]


def test_swings_by_per_cent_take_every_input_and_stop_at_limits() -> None:
    found = swings_by_share(plain("dairy_with_leftovers"), 0.1)
    by_path = {each.path: each for each in found.swings}
    assert len(by_path) > 60
    price = by_path["power.contract_price_per_kwh"]
    assert (price.low, price.high) == pytest.approx((0.9 * price.value, 1.1 * price.value))
    assert not price.cut and price.npv_low < found.npv < price.npv_high
    assert by_path["digester.availability"].cut and by_path["digester.availability"].high == 1
    assert not any(path.startswith(("judging.", "claims.")) for path in by_path)
    with pytest.raises(RiskError):
        swings_by_share(plain("dairy_with_leftovers"), 1.0)


def test_a_ranking_of_a_scenario_agrees_with_itself() -> None:
    found = rank(wide("dairy_with_leftovers"), Settings(4096))
    assert found.warning  # two inputs are correlated
    assert set(found.paths) == {each.path for each in found.swings.swings}
    totals = np.array([each.value for each in found.shares.total])
    strongest = found.paths[int(np.argmax(totals))]
    assert strongest in [each.path for each in found.swings.swings[:3]]
    assert ((totals > -0.05) & (totals < 1.3)).all()
    again = rank(wide("dairy_with_leftovers"), Settings(4096), workers=2)
    assert np.array_equal(found.causes.rank, again.causes.rank)


def test_a_table_of_two_inputs_is_its_single_runs() -> None:
    from appraisal.measures.headline import headline
    from tests.properties.cases import appraised

    name, first, second = "dairy_with_leftovers", "feed.bakery.tonnes_per_year", "labour.hired_wage_per_hour"
    found = grid(plain(name), first, second)
    assert found.npv.shape == (5, 5)
    for row, column in ((0, 0), (2, 4), (4, 1)):
        moved = {first: np.array([[found.at_first[row]]]), second: np.array([[found.at_second[column]]])}
        alone = headline(lines(name, {**appraised(name).inputs, **moved}))
        assert found.npv[row, column] == alone.npv[0]
    assert found.at_second.tolist() == pytest.approx([24 * factor for factor in (0.8, 0.9, 1.0, 1.1, 1.2)])


@pytest.mark.parametrize(
    ("first", "second"), [("project.years", "tax.rate"), ("tax.rate", "tax.rate"), ("tax.rat", "tax.rate")]
)
def test_a_table_that_cannot_be_is_refused(first: str, second: str) -> None:
    with pytest.raises(RiskError):
        grid(plain(DEMOS[0]), first, second)


def test_engine_sizes_are_the_scenario_read_anew_at_each_size() -> None:
    from appraisal.appraise import appraise

    loaded = plain("dairy_with_leftovers")
    found = engine_sizes(loaded, "main", priced_by=["engine_set"], factors=(0.8, 1.0, 1.5), exponent=0.7)
    assert [each.rated_kw for each in found.sizes] == pytest.approx([240, 300, 450])
    for each, factor in zip(found.sizes, (0.8, 1.0, 1.5), strict=True):
        amount = loaded.scenario.capital["engine_set"].amount * factor**0.7
        alone = appraise(
            with_values(loaded, {"engine.main.rated_kw": 300 * factor, "capital.engine_set.amount": amount})
        )
        assert each.npv == alone.headline.npv[0]
        assert alone.loaded.assumptions["engine.main.efficiency_full"].origin == "reference"
    for words in (("other", ()), ("main", ("nothing",))):
        with pytest.raises(RiskError, match="there are:"):
            engine_sizes(loaded, words[0], priced_by=words[1])


def test_nothing_with_a_range_is_said() -> None:
    bare = edited("dairy_with_leftovers", ranges=False)
    assert not bare.scenario.range
    for ask in (swings_to_quantiles, lambda each: rank(each, Settings(100))):
        with pytest.raises(RiskError, match="no value of this scenario carries a range"):
            ask(bare)


def test_a_table_over_the_month_of_an_event_goes_from_never_through_the_project() -> None:
    found = grid(plain("dairy_with_leftovers"), "upset.month", "feed.whey.contract_years")
    assert found.at_first.tolist() == [0, 26, 63, 126, 189]
    assert (found.npv[1:, -1] < found.npv[0, -1]).all()


@pytest.mark.parametrize(
    ("path", "words"),
    [
        ("project.years", "a whole number fixes the shape"),
        ("power.contract", "a choice fixes the shape"),
        ("power.market_price_share_by_year", "wander"),
        ("feed.bakry.tonnes_per_year", "did you mean `feed.bakery.tonnes_per_year`"),
        ("digester.gas_cut_share", "give it a range"),
    ],
)
def test_what_cannot_stand_in_a_table_says_why(path: str, words: str) -> None:
    with pytest.raises(RiskError, match=words):
        grid(plain("dairy_with_leftovers"), path, "engine.main.rated_kw")
