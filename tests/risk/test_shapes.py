"""Every curve against a second library and against its own sample: quantiles, ends, moments."""

from __future__ import annotations

import numpy as np
import pytest
from scipy import integrate, stats

from appraisal.risk.shapes import (
    Curve,
    curve,
    first_month,
    hazard,
    lognormal,
    pert,
    table,
    triangular,
    truncated_normal,
    uniform,
)
from appraisal.scenario.beside import PARAMETERS, Range

MU, SIGMA = (np.log(80) + np.log(150)) / 2, (np.log(150) - np.log(80)) / 2 / stats.norm.ppf(0.9)
SECOND_OPINION = {
    "uniform": (uniform(3, 9), stats.uniform(3, 6)),
    "triangular": (triangular(80, 100, 150), stats.triang(20 / 70, 80, 70)),
    "triangular, peak at an end": (triangular(80, 80, 150), stats.triang(0, 80, 70)),
    "triangular, peak at the other end": (triangular(80, 150, 150), stats.triang(1, 80, 70)),
    "pert": (pert(80, 100, 150), stats.beta(1 + 4 * 20 / 70, 1 + 4 * 50 / 70, 80, 70)),
    "truncated_normal": (
        truncated_normal(0.9, 0.15, low=0, high=1),
        stats.truncnorm((0 - 0.9) / 0.15, (1 - 0.9) / 0.15, 0.9, 0.15),
    ),
    "lognormal": (lognormal(80, 150), stats.lognorm(SIGMA, scale=np.exp(MU))),
}
SHARES = np.linspace(0.001, 0.999, 499)


@pytest.mark.parametrize("name", SECOND_OPINION)
def test_quantiles_and_moments_equal_a_second_library(name: str) -> None:
    ours, theirs = SECOND_OPINION[name]
    assert ours.at(SHARES) == pytest.approx(theirs.ppf(SHARES), rel=1e-9)
    assert (ours.mean, ours.variance) == pytest.approx((theirs.mean(), theirs.var()), rel=1e-7)


def test_a_cut_lognormal_against_integration() -> None:
    ours, raw = lognormal(80, 150, low=70, high=200), stats.lognorm(SIGMA, scale=np.exp(MU))
    left = raw.cdf(200) - raw.cdf(70)
    mean, square = (integrate.quad(lambda x, k=k: x**k * raw.pdf(x) / left, 70, 200)[0] for k in (1, 2))
    assert (ours.mean, ours.variance) == pytest.approx((mean, square - mean**2), rel=1e-8)
    assert ours.at(SHARES) == pytest.approx(raw.ppf(raw.cdf(70) + SHARES * left), rel=1e-9)


@pytest.mark.parametrize(
    "made",
    [pair[0] for pair in SECOND_OPINION.values()]
    + [lognormal(80, 150, low=70, high=200), table([3.0, 1.0, 2.0], [1, 0, 2]), hazard(0.08, years=7.5)],
)
def test_no_draw_lies_beyond_the_ends_and_more_is_never_less(made: Curve) -> None:
    values = made.at(np.concatenate(([2.0**-31], SHARES, [1 - 2.0**-31])))
    assert (np.diff(values) >= 0).all()
    assert made.low <= values[0] and values[-1] <= made.high


def test_a_table_gives_its_values_as_often_as_their_weights() -> None:
    made = table([3.0, 1.0, 2.0, 9.0], [1, 3, 2, 0])
    drawn = made.at((np.arange(6000) + 0.5) / 6000)
    assert [int((drawn == value).sum()) for value in (1.0, 2.0, 3.0, 9.0)] == [3000, 2000, 1000, 0]
    assert (made.mean, made.variance) == pytest.approx((drawn.mean(), drawn.var()), rel=1e-12)
    assert made.high == 3.0


def test_a_hazard_ends_the_years_and_never_lengthens_them() -> None:
    made = hazard(0.08, years=7.5)
    drawn = made.at((np.arange(100_000) + 0.5) / 100_000)
    assert set(np.unique(drawn)) == {1, 2, 3, 4, 5, 6, 7, 7.5}
    for year in range(1, 8):
        assert (drawn > year).mean() == pytest.approx(0.92**year, abs=1e-4)
    assert (made.mean, made.variance) == pytest.approx((drawn.mean(), drawn.var()), rel=1e-4)


def test_the_month_of_an_event_comes_as_often_as_its_yearly_hazard_says() -> None:
    made = first_month(0.1, months=30)
    drawn = made.at((np.arange(100_000) + 0.5) / 100_000)
    assert set(np.unique(drawn)) == set(range(31))
    never = 1 - (0.1 + 0.9 * 0.1 + 0.9**2 * 0.1 / 2)  # two years and half of the third
    for part, chance in ((drawn == 0, never), ((drawn > 0) & (drawn <= 12), 0.1), ((drawn > 12) & (drawn <= 24), 0.09)):
        assert part.mean() == pytest.approx(chance, abs=1e-4)
    assert (drawn == 5).mean() == pytest.approx(0.1 / 12, abs=1e-4)
    assert (made.mean, made.variance) == pytest.approx((drawn.mean(), drawn.var()), rel=1e-4)


@pytest.mark.parametrize("shape", PARAMETERS)
def test_a_range_of_every_shape_has_its_curve(shape: str) -> None:
    given = {
        "low": 1.0,
        "high": 9.0,
        "likely": 4.0,
        "p10": 2.0,
        "p90": 6.0,
        "sd_before_cut": 2.0,
        "values": [1.0, 5.0],
        "per_year": 0.1,
    }
    needed, extra = PARAMETERS[shape]
    used = {name: value for name, value in given.items() if name in (*needed, *extra)}
    made = curve(Range.model_validate({"shape": shape, "reason": "x", **used}), value=5.0, low=0.0, high=100.0)
    assert made.shape == shape
    assert made.low >= 1.0 - 1e-12 and made.high <= 9.0


def test_the_value_itself_is_the_peak_where_the_range_names_none() -> None:
    item = Range.model_validate({"shape": "triangular", "low": 1.0, "high": 9.0, "reason": "x"})
    assert curve(item, value=3.0, low=0.0, high=10.0).mean == pytest.approx((1 + 3 + 9) / 3)
