"""Ranges that move together: the normal copula, and the reordering of a whole sample by Iman and Conover."""

from __future__ import annotations

import numpy as np
import numpy.typing as npt
import scipy

from appraisal.risk.points import SAMPLES, RiskError

Array = npt.NDArray[np.float64]


def lower_root(matrix: Array) -> Array:
    """The lower triangle L with L L' = matrix (n, n) [1]; raises RiskError where the matrix is not positive definite."""
    try:
        return np.asarray(np.linalg.cholesky(matrix), dtype=np.float64)
    except np.linalg.LinAlgError:
        raise RiskError("the correlations contradict each other: their matrix is not positive definite") from None


def with_copula(points: Array, root: Array) -> Array:
    """Points whose normal scores have the correlations of `root`.

    points: (draws, n) [1] independent. root: (n, n) from `lower_root` of the correlations of the normal variables.
    Sums run in a fixed order, so that a point does not depend on its neighbours.
    """
    scores, out = scipy.special.ndtri(points), points.copy()
    for row in range(1, root.shape[0]):
        if not root[row, :row].any():
            continue
        total = root[row, row] * scores[:, row]
        for column in range(row):
            total = total + root[row, column] * scores[:, column]
        out[:, row] = scipy.special.ndtr(total)
    return out


def reordered(sample: Array, scores: Array, target: Array) -> Array:
    """Columns of a sample put in the order that gives their scores the wanted correlations.

    Parameters
    ----------
    sample : (draws, n), any unit; each column keeps its values.
    scores : (draws, n) [1], each column a shuffled set of one and the same scores with mean 0.
    target : (n, n) [1] wanted correlations.

    Returns
    -------
    (draws, n) in the unit of the sample. The scores get the wanted correlations exactly; the ranks and values of the
    sample come near them, as near as its shapes allow.

    Raises
    ------
    RiskError
        Fewer draws than columns, or a target that is not positive definite.

    Notes
    -----
    Iman and Conover 1982, Communications in Statistics B11(3), 311-334: T = M F^-1 C with E = M'M/n = F'F, target = C'C.
    """
    steps = reordering(scores, target)
    out = np.empty_like(sample)
    for column in range(sample.shape[1]):
        order = np.argsort(steps[:, column], kind="stable")
        out[order, column] = np.sort(sample[:, column], kind="stable")
    return out


def reordering(scores: Array, target: Array) -> Array:
    """The scores T = M F^-1 C (draws, n) [1] whose ranks a sample takes on."""
    draws = scores.shape[0]
    if draws <= scores.shape[1]:
        raise RiskError(
            f"too few draws to reorder {scores.shape[1]} correlated values: each of the {SAMPLES} samples has {draws} and needs "
            "more draws than values"
        )
    spread = lower_root(scores.T @ scores / draws).T
    return np.asarray(scores @ np.linalg.solve(spread, lower_root(target).T))


def with_reordering(points: Array, target: Array) -> Array:
    """Points (draws, n) [1] with the rank correlations of `target`, each of the sixteen samples put in order by itself."""
    out = np.empty_like(points)
    for place in range(SAMPLES):
        part = points[place::SAMPLES]
        ranks = np.argsort(np.argsort(part, axis=0, kind="stable"), axis=0, kind="stable")
        out[place::SAMPLES] = reordered(part, scipy.special.ndtri((ranks + 1) / (part.shape[0] + 1)), target)
    return out
