"""Figures of risk with their source, how each is known and its tolerance in `risk.json`, against the package.

Where the package has a closed form it is held to the figure itself; where it has only a sample, the sample is held to
the closed form within four of its own standard errors.
"""

from __future__ import annotations

import json
from collections.abc import Callable
from math import log, sqrt
from pathlib import Path
from typing import Any

import numpy as np
import pytest
from scipy.special import ndtri

from appraisal.measures.discounting import npv
from appraisal.risk.draws import Settings, draws_of
from appraisal.risk.joining import lower_root, reordered, reordering
from appraisal.risk.paths import first_year_lost, reverting
from appraisal.risk.points import METHODS, Method, points
from appraisal.risk.ranks import ranked, together
from appraisal.risk.shapes import Curve, lognormal, pert, triangular, truncated_normal
from appraisal.risk.shares import variance_shares
from appraisal.risk.statistics import (
    Estimate,
    chance,
    estimated,
    mean,
    normal_tail,
    quantile,
    quantile_error,
    tail_mean,
)
from appraisal.risk.swings import swing_shares
from appraisal.scenario.correlations import kendall_of_normal, normal_of_rank, rank_of_normal

RECORDS: dict[str, dict[str, Any]] = {
    record["id"]: record for record in json.loads((Path(__file__).parent / "risk.json").read_text("utf-8"))
}
Array = np.ndarray
DRAWS = 16_384


def facts(name: str) -> tuple[dict[str, Any], dict[str, Any]]:
    return RECORDS[name]["inputs"], RECORDS[name]["expected"]


def close(name: str, key: str, ours: Any, theirs: Any = None) -> None:
    record = RECORDS[name]
    allowed = record["tolerance"].get(key, record["tolerance"].get("default"))
    about = f"{key}: {record['topic']}; source: {record['source']}; known: {record['basis']}"
    wanted = record["expected"][key] if theirs is None else theirs
    assert np.asarray(ours) == pytest.approx(np.asarray(wanted), abs=allowed, rel=0.0), about


def within(found: Estimate, wanted: float, errors: float = 4.0) -> None:
    assert found.error is not None and found.error > 0
    assert abs(found.value - wanted) < errors * found.error, (found, wanted)


def sd(sample: Array) -> float:
    return float(sample.std(ddof=1))


def scores(dimensions: int, method: Method = "sobol", seed: int = 3, draws: int = DRAWS) -> Array:
    return ndtri(points(method, seed=seed, draws=draws, dimensions=dimensions).whole())


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


def sampled(curve: Curve, method: Method = "sobol") -> Array:
    sample = draws_of({"x": curve}, Settings(DRAWS, 5, method), central={}, pairs=[])
    return np.concatenate([sample.block(k)["x"][:, 0] for k in range(sample.cube.blocks)])


def has_moments(curve: Curve, *, of: dict[str, float]) -> None:
    for method in METHODS:
        sample = sampled(curve, method)
        within(estimated(sample, mean), of["mean"])
        within(estimated(sample, lambda part: float(part.var(ddof=1))), of["variance"])


def skewness(sample: Array) -> float:
    away = sample - sample.mean()
    return float((away**3).mean() / (away**2).mean() ** 1.5)


def test_fo_43_pert() -> None:
    given, expected = facts("FO-43")
    curve = pert(given["min"], given["mode"], given["max"])
    for key in ("alpha", "beta"):
        close("FO-43", key, curve.facts[key])
    close("FO-43", "mean", curve.mean)
    close("FO-43", "variance", curve.variance)
    close("FO-43", "classic_variance_approx", ((given["max"] - given["min"]) / 6) ** 2)
    assert curve.variance != pytest.approx(expected["classic_variance_approx"], rel=0.1)
    for key, share in (("p10", 0.1), ("p50", 0.5), ("p90", 0.9)):
        close("FO-43", key, float(curve.at(share)))
    has_moments(curve, of=expected)
    within(estimated(sampled(curve), skewness), expected["skew"])


def test_fo_44_triangular() -> None:
    given, expected = facts("FO-44")
    curve = triangular(given["min"], given["mode"], given["max"])
    close("FO-44", "mean", curve.mean)
    close("FO-44", "variance", curve.variance)
    for key, share in (("p10", 0.1), ("p50", 0.5), ("p90", 0.9)):
        close("FO-44", key, float(curve.at(share)))
    has_moments(curve, of=expected)


def test_fo_45_lognormal_from_two_quantiles() -> None:
    given, expected = facts("FO-45")
    curve = lognormal(given["p10"], given["p90"])
    close("FO-45", "mu", curve.facts["mu"])
    close("FO-45", "sigma", curve.facts["sigma"])
    close("FO-45", "median", float(curve.at(0.5)))
    close("FO-45", "mean", curve.mean)
    close("FO-45", "sd", sqrt(curve.variance))
    close("FO-45", "mode", np.exp(curve.facts["mu"] - curve.facts["sigma"] ** 2))
    assert curve.at([0.1, 0.9]) == pytest.approx([given["p10"], given["p90"]], rel=1e-12)
    has_moments(curve, of={"mean": expected["mean"], "variance": expected["sd"] ** 2})


def test_fo_46_truncated_normal() -> None:
    given, expected = facts("FO-46")
    curve = truncated_normal(given["parent_mean"], given["parent_sd"], low=given["low"], high=given["high"])
    close("FO-46", "mean", curve.mean)
    close("FO-46", "variance", curve.variance)
    close("FO-46", "sd", sqrt(curve.variance))
    has_moments(curve, of=expected)


def test_fo_47_worst_part_of_a_normal() -> None:
    given, _ = facts("FO-47")
    ends = [normal_tail(given["mean"], given["sd"], share) for share in given["tail"]]
    close("FO-47", "var", [given["mean"] - low for low, _ in ends])
    close("FO-47", "cvar", [given["mean"] - worst for _, worst in ends])
    sample = scores(1)[:, 0]
    for share, (low, worst) in zip(given["tail"], ends, strict=True):
        within(estimated(sample, lambda part, s=share: tail_mean(part, s)), worst)
        within(estimated(sample, quantile(share)), low)


def test_fo_48_error_of_a_quantile() -> None:
    given, _ = facts("FO-48")

    def error(share: float, draws: int) -> float:
        return quantile_error(share, draws, float(np.exp(-(ndtri(share) ** 2) / 2) / sqrt(2 * np.pi)))

    close("FO-48", "variance_n200", [error(share, given["n"]) ** 2 for share in given["p"]])
    close("FO-48", "se_extra", [error(share, draws) for share, draws in given["extra"]])
    share, draws = given["extra"][0]
    seen = [
        estimated(scores(1, "plain", seed, draws)[:, 0], quantile(share)).error or 0.0 for seed in range(60)
    ]  # each is known to a fifth or so, sixty of them to a fortieth
    assert np.mean(seen) == pytest.approx(error(share, draws), rel=4 * 0.19 / sqrt(60))


def ishigami(cube: Array, a: float, b: float) -> Array:
    x = -np.pi + 2 * np.pi * cube
    return np.sin(x[:, 0]) + a * np.sin(x[:, 1]) ** 2 + b * x[:, 2] ** 4 * np.sin(x[:, 0])


def test_fo_49_ishigami() -> None:
    given, expected = facts("FO-49")
    a, b, variance = given["a"], given["b"], expected["variance"]
    first = (1 + b * np.pi**4 / 5) ** 2 / 2
    mixed = b**2 * np.pi**8 * 8 / 225
    close("FO-49", "variance", first + a * a / 8 + mixed)
    close("FO-49", "S", [first / variance, a * a / 8 / variance, 0])
    close("FO-49", "S13", mixed / variance)
    found = variance_shares(lambda cube: ishigami(cube, a, b), dimensions=3, draws=DRAWS, seed=2)
    within(found.variance, variance)
    for place in range(3):
        within(found.first[place], expected["S"][place])
        within(found.total[place], expected["ST"][place])
        assert found.first[place].value == pytest.approx(expected["S"][place], abs=0.01)
    assert found.runs == 5 * DRAWS


def test_fo_50_product_of_eight() -> None:
    given, expected = facts("FO-50")
    a = np.array(given["a"])
    each = 1 / (3 * (1 + a) ** 2)
    variance = float(np.prod(1 + each) - 1)
    close("FO-50", "variance", variance)
    close("FO-50", "S", each / variance)
    close("FO-50", "ST", each * np.prod(1 + each) / (1 + each) / variance)
    found = variance_shares(
        lambda cube: np.prod((np.abs(4 * cube - 2) + a) / (1 + a), axis=1), dimensions=8, draws=DRAWS, seed=2
    )
    for place in range(8):
        within(found.first[place], expected["S"][place], errors=5)
        within(found.total[place], expected["ST"][place], errors=5)
        assert found.total[place].value == pytest.approx(expected["ST"][place], abs=0.01)


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


def test_fo_52_iman_and_conover_step_by_step() -> None:
    given, _ = facts("FO-52")
    marginals, target, shuffled = (
        np.array(given[key]) for key in ("X_sorted_marginals", "S_target", "M_scores_shuffled")
    )
    spread = shuffled.T @ shuffled / shuffled.shape[0]
    close("FO-52", "E", spread)
    close("FO-52", "F", lower_root(spread).T)
    close("FO-52", "C", lower_root(target).T)
    steps = reordering(shuffled, target)
    assert np.corrcoef(steps, rowvar=False) == pytest.approx(
        target, abs=1e-5
    )  # the record's scores are rounded to 1e-5
    ours = reordered(marginals, shuffled, target)
    close("FO-52", "Y", ours)
    close("FO-52", "pearson_of_Y", np.corrcoef(ours, rowvar=False))
    ranks = np.column_stack([ranked(column) for column in ours.T])
    close("FO-52", "spearman_of_Y", np.corrcoef(ranks, rowvar=False))
    each = ndtri(np.arange(1, 21) / 21)
    printed = RECORDS["FO-52"]["expected"]["score_sd_before_scaling"]
    assert each.std() == pytest.approx(printed, abs=5e-11)  # ten digits are printed


def test_fo_53_ranks_of_normal_variables() -> None:
    given, expected = facts("FO-53")
    close("FO-53", "spearman", rank_of_normal(given["rho"]))
    close("FO-53", "kendall", kendall_of_normal(given["rho"]))
    for rank, rho in expected["rho_for_target_spearman"].items():
        close("FO-53", "rho_for_target_spearman", float(normal_of_rank(float(rank))), theirs=rho)


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


def test_fo_56_in_a_linear_model_all_causes_agree() -> None:
    given, expected = facts("FO-56")
    weight, sds = np.array([3.0, -2.0, 0.5]), np.array(given["sd"], dtype=float)

    def model(cube: Array) -> Array:
        return 100 + (ndtri(cube) * sds) @ weight

    close("FO-56", "sd", sqrt(((weight * sds) ** 2).sum()))
    swings = swing_shares(model, dimensions=3)
    close("FO-56", "tornado_P10_P90_swing", swings)
    found = variance_shares(model, dimensions=3, draws=DRAWS, seed=6)
    cube = points("sobol", seed=7, draws=DRAWS, dimensions=3).whole()
    causes = together(ndtri(cube), model(cube))
    for place in range(3):
        within(found.first[place], expected["S"][place])
        within(found.total[place], expected["S"][place])
        assert causes.regression[place] == pytest.approx(expected["src"][place], abs=2e-3)
        assert causes.regression[place] ** 2 == pytest.approx(found.first[place].value, abs=0.01)
    assert np.argsort(-np.abs(swings)).tolist() == np.argsort([-each.value for each in found.first]).tolist()


TESTED: dict[str, Callable[..., None]] = {
    name.removeprefix("test_").upper().replace("_", "-", 1)[:5]: function
    for name, function in dict(globals()).items()
    if name.startswith("test_fo_")
}


def test_every_record_is_tested() -> None:
    assert set(TESTED) == set(RECORDS)
