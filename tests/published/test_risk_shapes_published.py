"""Published figures of ranges, ranks, tails and errors of quantiles, against the package.

Where the package has a closed form it is held to the figure itself; where it has only a sample, the sample is held to
the closed form within four of its own standard errors. Sources and tolerances stand in `risk.json`.
"""

from __future__ import annotations

from math import sqrt

import numpy as np
import pytest
from scipy.special import ndtri

from appraisal.risk.draws import Settings, draws_of
from appraisal.risk.joining import lower_root, reordered, reordering
from appraisal.risk.points import METHODS, Method
from appraisal.risk.ranks import ranked
from appraisal.risk.shapes import Curve, lognormal, pert, triangular, truncated_normal
from appraisal.risk.statistics import (
    estimated,
    mean,
    normal_tail,
    quantile,
    quantile_error,
    tail_mean,
)
from appraisal.scenario.correlations import kendall_of_normal, normal_of_rank, rank_of_normal
from tests.published.risk_records import DRAWS, RECORDS, Array, close, facts, scores, within


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
