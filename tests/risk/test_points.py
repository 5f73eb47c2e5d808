"""Points and correlations: any number of draws, the same for the same seed, balanced, and correlated as asked."""

from __future__ import annotations

import numpy as np
import pytest

from appraisal.lines.prepared import BLOCK
from appraisal.risk.draws import JOININGS, Joining, Settings, cube_of
from appraisal.risk.joining import lower_root, reordered, with_reordering
from appraisal.risk.points import METHODS, SAMPLES, Method, RiskError, points
from appraisal.risk.ranks import ranked
from appraisal.scenario.beside import Pair
from appraisal.scenario.correlations import culprit, matrix, possible


@pytest.mark.parametrize("method", METHODS)
@pytest.mark.parametrize("draws", [1, 7, 1000, BLOCK, BLOCK + 1, 2500])
def test_any_number_of_draws_inside_the_cube_without_a_warning(method: Method, draws: int) -> None:
    made = points(method, seed=3, draws=draws, dimensions=4)
    whole = made.whole()
    assert whole.shape == (draws, 4)
    assert (whole > 0).all() and (whole < 1).all()
    blocks = [made.block(number) for number in range(made.blocks)]
    assert np.array_equal(np.concatenate(blocks), whole)


@pytest.mark.parametrize("method", ["sobol", "plain"])
def test_blocks_come_out_alike_in_any_order_and_for_any_total(method: Method) -> None:
    one, other = (points(method, seed=5, draws=draws, dimensions=3) for draws in (5000, 3 * BLOCK))
    backwards = {number: one.block(number) for number in (4, 2, 3, 0, 1)}
    forwards = [other.block(number) for number in range(3)]
    for number in range(3):
        assert np.array_equal(backwards[number], forwards[number])


@pytest.mark.parametrize("method", METHODS)
def test_another_seed_is_another_sample(method: Method) -> None:
    first, second = (points(method, seed=seed, draws=500, dimensions=2).whole() for seed in (1, 2))
    assert np.array_equal(first, points(method, seed=1, draws=500, dimensions=2).whole())
    assert not np.isclose(first, second).any(axis=0).all()


def test_every_sobol_sample_is_balanced() -> None:
    whole = points("sobol", seed=1, draws=SAMPLES * 256, dimensions=5).whole()
    for place in range(SAMPLES):
        cells = np.floor(whole[place::SAMPLES] * 256).astype(int)
        assert all(np.array_equal(np.sort(column), np.arange(256)) for column in cells.T)


def test_every_latin_sample_has_one_draw_in_each_cell() -> None:
    whole = points("latin", seed=1, draws=1601, dimensions=3).whole()
    for place in range(SAMPLES):
        part = whole[place::SAMPLES]
        cells = np.floor(part * part.shape[0]).astype(int)
        assert all(np.array_equal(np.sort(column), np.arange(part.shape[0])) for column in cells.T)


PAIRS = [Pair("a", "x", "y", 0.7), Pair("b", "y", "z", -0.4)]


@pytest.mark.parametrize("method", METHODS)
@pytest.mark.parametrize("joining", JOININGS)
def test_rank_correlations_come_out_as_asked_and_others_stay_alone(method: Method, joining: Joining) -> None:
    cube = cube_of(("w", "x", "y", "z"), Settings(20_000, 1, method, joining), pairs=PAIRS)
    whole = np.concatenate([cube.shares(number) for number in range(cube.blocks)])
    ranks = np.corrcoef(np.column_stack([ranked(column) for column in whole.T]), rowvar=False)
    wanted = matrix(("w", "x", "y", "z"), PAIRS)
    assert ranks == pytest.approx(wanted, abs=4 / np.sqrt(20_000))
    plain = points(method, seed=1, draws=20_000, dimensions=4)
    assert np.array_equal(whole[:, 0], plain.whole()[:, 0])
    assert (whole > 0).all() and (whole < 1).all()


def test_reordering_keeps_every_value_of_a_column() -> None:
    rng = np.random.default_rng(1)
    sample, scores = rng.exponential(size=(400, 3)), rng.standard_normal((400, 3))
    target = np.array([[1, 0.5, 0.2], [0.5, 1, -0.3], [0.2, -0.3, 1]])
    moved = reordered(sample, scores - scores.mean(axis=0), target)
    assert np.array_equal(np.sort(moved, axis=0), np.sort(sample, axis=0))
    assert not np.array_equal(moved, sample)


def test_too_few_draws_for_reordering_are_refused() -> None:
    with pytest.raises(RiskError, match="too few"):
        with_reordering(np.random.default_rng(1).random((40, 3)), np.eye(3))


def test_a_matrix_that_is_not_positive_definite_is_refused_and_its_culprit_named() -> None:
    bad = [Pair("a", "x", "y", 0.9), Pair("b", "y", "z", 0.9), Pair("odd", "x", "z", -0.9)]
    assert not possible(matrix(("x", "y", "z"), bad))
    with pytest.raises(RiskError, match="not positive definite"):
        lower_root(matrix(("x", "y", "z"), bad))
    odd = [
        Pair("a", "x", "y", 0.9),
        Pair("b", "y", "z", 0.9),
        Pair("c", "z", "u", 0.9),
        Pair("odd", "x", "u", -0.5),
        Pair("d", "x", "z", 0.85),
        Pair("e", "y", "u", 0.85),
    ]
    found = culprit(("x", "y", "z", "u"), odd)
    assert found is not None and found.pair is not None
    assert found.pair.name == "odd" and found.low > 0.3
    mended = [pair if pair.name != "odd" else Pair("odd", "x", "u", found.low + 1e-6) for pair in odd]
    assert possible(matrix(("x", "y", "z", "u"), mended))


def test_where_no_single_pair_mends_it_the_values_are_named() -> None:
    names = tuple("abcdef")
    far = [Pair(f"{i}{j}", i, j, -0.6) for n, i in enumerate(names) for j in names[n + 1 :]]
    found = culprit(names, far)
    assert found is not None and found.pair is None
    assert set(found.paths) == set(names)


@pytest.mark.parametrize(
    ("settings", "words"),
    [
        (Settings(method="halton"), "halton"),  # type: ignore[arg-type]
        (Settings(joining="vine"), "vine"),  # type: ignore[arg-type]
        (Settings(draws=0), "at least 1"),
        (Settings(seed=-1), "at least 0"),
    ],
)
def test_settings_that_make_no_sample_are_refused(settings: Settings, words: str) -> None:
    with pytest.raises(RiskError, match=words):
        cube_of(("x",), settings, pairs=[])


def test_nothing_to_draw_is_said() -> None:
    with pytest.raises(RiskError, match="no value of this scenario carries a range"):
        cube_of((), Settings(), pairs=[])
