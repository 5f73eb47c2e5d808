"""Figures of a sample, and whether their standard errors tell the truth."""

from __future__ import annotations

import numpy as np
import pytest
from scipy.special import ndtri

from appraisal.risk.points import METHODS, SAMPLES, Method, points
from appraisal.risk.statistics import chance, estimated, mean, quantile, spread, tail_mean


def worth(cube: np.ndarray) -> np.ndarray:
    """A bent function of three inputs with a known mean: E = 1 + 0.5 + 0."""
    z = ndtri(cube)
    return z[:, 0] ** 2 + cube[:, 1] + 0.3 * z[:, 2]


@pytest.mark.parametrize("method", METHODS)
def test_two_standard_errors_hold_the_truth_nineteen_times_in_twenty(method: Method) -> None:
    found = [estimated(worth(points(method, seed=seed, draws=1600, dimensions=3).whole()), mean) for seed in range(200)]
    hits = sum(abs(each.value - 1.5) < 2.13 * (each.error or 0.0) for each in found)  # t of 15 degrees of freedom, 95 %
    assert 180 <= hits <= 199
    told = np.sqrt(np.mean([(each.error or 0.0) ** 2 for each in found]))
    seen = np.std([each.value for each in found])
    assert told == pytest.approx(seen, rel=0.3)


def test_sobol_points_settle_faster_than_plain_ones() -> None:
    sobol, plain = (
        estimated(worth(points(method, seed=1, draws=16_384, dimensions=3).whole()), mean).error
        for method in ("sobol", "plain")
    )
    assert sobol is not None and plain is not None
    assert sobol < plain / 5


def test_too_few_draws_tell_no_error() -> None:
    assert estimated(np.arange(16.0 * 9), mean).error is None
    assert estimated(np.arange(16.0 * 10), mean).error is not None


@pytest.mark.parametrize("size", [1, 3, 19, 20, 21, 1000, 1010])
def test_mean_of_the_worst_part_counts_the_draw_on_the_border_in_part(size: int) -> None:
    sample = np.random.default_rng(size).normal(size=size)
    fine = np.sort(np.repeat(sample, 20))  # each draw twenty times over: a twentieth is exactly `size` of them
    assert tail_mean(sample) == pytest.approx(fine[:size].mean(), rel=1e-12)


def test_a_constant_has_no_error_and_no_spread() -> None:
    found = spread(np.full(SAMPLES * 20, 7.0), 7.0)
    assert found is not None
    assert (found.mean.value, found.mean.error, found.sd, found.below_central) == (7.0, 0.0, 0.0, 0.0)


def test_what_does_not_exist_is_left_out_and_counted() -> None:
    sample = np.arange(400.0)
    sample[::4] = np.nan
    found = spread(sample, np.nan)
    assert found is not None
    assert (found.known, found.central, found.below_central) == (0.75, None, None)
    assert found.p50.value == pytest.approx(np.nanmedian(sample))
    assert spread(np.full(10, np.nan), 1.0) is None


def test_a_chance_is_a_share_with_its_error() -> None:
    happens = points("plain", seed=2, draws=16_000, dimensions=1).whole()[:, 0] < 0.2
    found = chance(happens)
    assert found.value == happens.mean()
    assert found.error == pytest.approx(np.sqrt(0.2 * 0.8 / 16_000), rel=0.6)


def test_quantiles_follow_the_convention() -> None:
    assert quantile(0.1)(np.arange(101.0)) == 10.0  # one in ten lies below P10
