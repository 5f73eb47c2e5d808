"""Published figures of flows over the years that are not certain, against the package.

Where the package has a closed form it is held to the figure itself; where it has only a sample, the sample is held to
the closed form within four of its own standard errors. Sources and tolerances stand in `risk.json`.
"""

from __future__ import annotations

from math import log, sqrt

import numpy as np
import pytest

from appraisal.measures.discounting import npv
from appraisal.risk.joining import lower_root
from appraisal.risk.paths import first_year_lost, reverting
from appraisal.risk.points import METHODS, Method, points
from appraisal.risk.statistics import (
    chance,
    estimated,
    mean,
    normal_tail,
    quantile,
    tail_mean,
)
from tests.published.risk_records import DRAWS, Array, close, facts, scores, within


def sd(sample: Array) -> float:
    return float(sample.std(ddof=1))


def present_values(flows: Array, outlay: float, rate: float) -> Array:
    rows = np.column_stack([np.full(flows.shape[0], -outlay), flows])
    return npv(rows, rate, timing="end of year")


@pytest.mark.parametrize("method", METHODS)
def test_fo_41_hillier(method: Method) -> None:
    given, expected = facts("FO-41")
    v = (1 + given["rate"]) ** -np.arange(1.0, given["years"] + 1)
    close("FO-41", "mean_npv", given["mean"] * v.sum() - given["outlay"])
    close("FO-41", "sd_perfect", given["sd"] * v.sum())
    close("FO-41", "sd_independent", given["sd"] * sqrt((v * v).sum()))
    z = scores(given["years"], method)
    for kind, flows in (
        ("independent", given["mean"] + given["sd"] * z),
        ("perfect", given["mean"] + given["sd"] * np.repeat(z[:, :1], given["years"], axis=1)),
    ):
        sample = present_values(flows, given["outlay"], given["rate"])
        within(estimated(sample, mean), expected["mean_npv"])
        within(estimated(sample, sd), expected[f"sd_{kind}"])
        within(chance(sample < 0), expected["prob_npv_negative_normal"][kind])


def test_fo_42_flows_that_remember_the_year_before() -> None:
    given, expected = facts("FO-42")
    years = np.arange(given["years"])
    together_ = given["lag1_correlation"] ** np.abs(years[:, None] - years[None, :])
    v = (1 + given["rate"]) ** -(years + 1.0)
    spread = given["sd"] * sqrt(v @ together_ @ v)
    close("FO-42", "sd_npv", spread)
    low, worst = normal_tail(expected["mean_npv"], spread, 0.05)
    close("FO-42", "p5", low)
    close("FO-42", "cvar5_mean_of_worst_5pct", worst)
    flows = given["mean"] + given["sd"] * (scores(given["years"]) @ lower_root(together_).T)
    sample = present_values(flows, given["outlay"], given["rate"])
    within(estimated(sample, mean), expected["mean_npv"])
    within(estimated(sample, sd), expected["sd_npv"])
    within(chance(sample < 0), expected["prob_negative"])
    within(estimated(sample, quantile(0.05)), expected["p5"])
    within(estimated(sample, tail_mean), expected["cvar5_mean_of_worst_5pct"])


def test_fo_51_price_that_comes_back_to_its_mean() -> None:
    given, expected = facts("FO-51")
    volatility = given["sigma"]  # the record's stationary deviation of 20 at kappa 0.5 is sigma / sqrt(2 kappa)
    years = np.array(given["times"])
    path = reverting(
        scores(int(years.max())), start=given["x0"], mean=given["theta"], speed=given["kappa"], volatility=volatility
    )
    quiet = reverting(
        np.zeros((1, int(years.max()))),
        start=given["x0"],
        mean=given["theta"],
        speed=given["kappa"],
        volatility=volatility,
    )
    close("FO-51", "mean", quiet[0, years - 1])
    one = reverting(np.eye(20), start=given["theta"], mean=given["theta"], speed=given["kappa"], volatility=volatility)
    close("FO-51", "variance", [((one - given["theta"]) ** 2)[:, year - 1].sum() for year in years])
    close("FO-51", "half_life", log(2) / given["kappa"])
    close("FO-51", "stationary_sd", volatility / sqrt(2 * given["kappa"]))
    assert expected["lag1_autocorrelation"] == pytest.approx(np.exp(-given["kappa"]), abs=1e-8)
    for place, year in enumerate(years):
        within(estimated(path[:, year - 1], mean), expected["mean"][place])
        within(estimated(path[:, year - 1], lambda part: float(part.var(ddof=1))), expected["variance"][place])
    late = np.corrcoef(path[:, -2], path[:, -1])[0, 1]
    assert late == pytest.approx(expected["lag1_autocorrelation"], abs=4 / sqrt(DRAWS))


def test_fo_54_price_times_amount() -> None:
    given, expected = facts("FO-54")
    q, p = given["mean_q"], given["mean_p"]
    spread = sqrt((q * given["sd_p"]) ** 2 + (p * given["sd_q"]) ** 2 + (given["sd_q"] * given["sd_p"]) ** 2)
    close("FO-54", "mean", q * p)
    close("FO-54", "sd", spread)
    z = scores(2)
    for rho, wanted in ((0.0, expected["mean"]), (given["corr_case"], expected["mean_if_bivariate_normal_corr_0_4"])):
        root = lower_root(np.array([[1.0, rho], [rho, 1.0]]))
        moved = z @ root.T
        sample = (q + given["sd_q"] * moved[:, 0]) * (p + given["sd_p"] * moved[:, 1])
        within(estimated(sample, mean), wanted)
        if rho == 0:
            within(estimated(sample, sd), expected["sd"])


def test_fo_55_contract_that_may_be_lost_every_year() -> None:
    given, expected = facts("FO-55")
    years = np.arange(1, given["years"] + 1)
    v = (1 + given["rate"]) ** -years.astype(float)
    close("FO-55", "pv_if_never_lost", given["annual_tipping_revenue"] * v.sum())
    chance_of = np.append(
        (1 - given["hazard"]) ** (years[:-1] - 1) * given["hazard"], (1 - given["hazard"]) ** (years[-1] - 1)
    )
    worth = given["annual_tipping_revenue"] * np.cumsum(v)  # lost at the end of year k: k years are paid
    middle = float((chance_of * worth).sum())
    close("FO-55", "expected_pv", middle)
    close("FO-55", "sd_pv", sqrt(float((chance_of * (worth - middle) ** 2).sum())))
    shares = points("sobol", seed=4, draws=DRAWS, dimensions=1).whole()[:, 0]
    lost = first_year_lost(shares, given["hazard"])  # the first year is certain: a loss counts from the year after
    sample = given["annual_tipping_revenue"] * np.cumsum(v)[np.minimum(lost, given["years"]).astype(int) - 1]
    within(estimated(sample, mean), expected["expected_pv"])
    within(estimated(sample, sd), expected["sd_pv"])
    survived = (1 - given["hazard"]) ** (given["years"] - 1)
    close("FO-55", "prob_never_lost_15y", survived)
    within(chance(lost >= given["years"]), survived)
