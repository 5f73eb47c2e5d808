"""Correlations between ranges: from pairs to a matrix, and who is to blame when no futures can move that way."""

from __future__ import annotations

from collections.abc import Callable, Sequence

import numpy as np
import numpy.typing as npt

from appraisal.scenario.beside import Culprit, Pair

Array = npt.NDArray[np.float64]
LEAST_EIGENVALUE = 1e-9
HALVINGS = 60
PART_OF_IT = 0.1  # of an eigenvector of length 1: a value with less has no part in the contradiction


def normal_of_rank(rank: npt.ArrayLike) -> Array:
    """Correlation [1] of two normal variables whose rank correlation (Spearman) is given: 2 sin(pi rank / 6)."""
    return np.asarray(2 * np.sin(np.pi * np.asarray(rank, dtype=np.float64) / 6))


def rank_of_normal(correlation: npt.ArrayLike) -> Array:
    """Rank correlation (Spearman) [1] of two normal variables: (6/pi) arcsin(correlation / 2)."""
    return np.asarray(6 / np.pi * np.arcsin(np.asarray(correlation, dtype=np.float64) / 2))


def kendall_of_normal(correlation: npt.ArrayLike) -> Array:
    """Kendall's rank correlation [1] of two normal variables: (2/pi) arcsin(correlation)."""
    return np.asarray(2 / np.pi * np.arcsin(np.asarray(correlation, dtype=np.float64)))


def matrix(paths: Sequence[str], pairs: Sequence[Pair]) -> Array:
    """Rank correlations (paths, paths) [1] with ones on the diagonal and zero where nothing is declared."""
    place = {path: number for number, path in enumerate(paths)}
    ranks = np.eye(len(paths))
    for pair in pairs:
        one, other = place[pair.first], place[pair.second]
        ranks[one, other] = ranks[other, one] = pair.rank
    return ranks


def possible(ranks: Array) -> bool:
    """Whether variables with these rank correlations exist, both as ranks and as the normal variables behind them."""
    return min(_least(ranks), _least(normal_of_rank(ranks))) > LEAST_EIGENVALUE


def culprit(paths: Sequence[str], pairs: Sequence[Pair]) -> Culprit | None:
    """Who makes the matrix impossible; None when it is possible.

    The least eigenvalue rises and then falls with one entry, so the values that mend the matrix form one interval.
    """
    ranks = matrix(paths, pairs)
    if possible(ranks):
        return None
    place = {path: number for number, path in enumerate(paths)}
    mends: list[tuple[float, Pair, float, float]] = []
    for pair in pairs:
        span = _interval(ranks, place[pair.first], place[pair.second])
        if span is not None:
            change = max(span[0] - pair.rank, pair.rank - span[1], 0.0)
            mends.append((change, pair, *span))
    vector = np.linalg.eigh(normal_of_rank(ranks))[1][:, 0]
    taking_part = tuple(path for path, part in zip(paths, np.abs(vector), strict=True) if part > PART_OF_IT)
    if not mends:
        return Culprit(None, 0.0, 0.0, taking_part)
    _, pair, low, high = min(mends, key=lambda each: (each[0], each[1].name))
    return Culprit(pair, low, high, taking_part)


def _least(symmetric: Array) -> float:
    return float(np.linalg.eigvalsh(symmetric)[0])


def _interval(ranks: Array, one: int, other: int) -> tuple[float, float] | None:
    """Rank correlations that one pair may have while the others stay, or None."""

    def least(rank: float) -> float:
        changed = ranks.copy()
        changed[one, other] = changed[other, one] = rank
        return min(_least(changed), _least(normal_of_rank(changed))) - LEAST_EIGENVALUE

    low, high = -1.0, 1.0
    for _ in range(HALVINGS):
        third = (high - low) / 3
        if least(low + third) < least(high - third):
            low += third
        else:
            high -= third
    best = (low + high) / 2
    return (_edge(least, best, -1.0), _edge(least, best, 1.0)) if least(best) > 0 else None


def _edge(function: Callable[[float], float], inside: float, outside: float) -> float:
    """The border between a point where a function is above zero and one where it is not."""
    for _ in range(HALVINGS):
        middle = (inside + outside) / 2
        inside, outside = (middle, outside) if function(middle) > 0 else (inside, middle)
    return inside
