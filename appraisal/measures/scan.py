"""Search for every root in (0, 1) on a grid of points, and the short cut for rows that can have only one."""

from __future__ import annotations

import numpy as np

from appraisal.measures.arrays import BoolArray, FloatArray, IntArray
from appraisal.measures.polynomials import Sums, sign_changes, value_and_slope
from appraisal.measures.roots import root_between

DOUBT = 4.0 * np.finfo(np.float64).eps  # per term, of the row's sum of magnitudes: more than rounding can do
SAME_ROOT = 1e-7  # relative; a touched root is known to about the square root of rounding, closer pairs count as one
Found = tuple[IntArray, FloatArray]  # row and root of each root found


def _signs(of: Sums, grid: FloatArray, first: FloatArray) -> tuple[FloatArray, FloatArray]:
    """Signs of p and of its slope at the grid points, each (points, rows) [1]; zero counts as plus."""
    value, slope = _at_points(of, grid)
    sign = np.where(value >= 0.0, 1.0, -1.0)
    sign[0] = first
    sign[-1] = np.where(of.balanced, sign[-2], np.where(of.total >= 0.0, 1.0, -1.0))
    return sign, np.where(slope >= 0.0, 1.0, -1.0)


def _at_points(of: Sums, grid: FloatArray) -> tuple[FloatArray, FloatArray]:
    """Value and slope (points, rows) with their true signs: a product of matrices, nested where that is too near zero.

    The last digits of a product of matrices hang on how many rows it has; a row's signs must not.
    """
    exponents = np.concatenate(([0.0], np.cumsum(of.gaps, dtype=np.float64)))
    powers = grid[:, np.newaxis] ** exponents
    value, slope = powers @ of.terms, (exponents * powers) @ of.terms
    doubt = DOUBT * of.terms.shape[0] * of.size
    unsure = (np.abs(value[1:-1]) <= doubt).any(axis=0) | (np.abs(slope[1:]) <= doubt * exponents[-1]).any(axis=0)
    chosen = np.flatnonzero(unsure)
    value[:, chosen], slope[:, chosen] = value_and_slope(of.terms[:, chosen], of.gaps, grid[:, np.newaxis])
    return value, slope


def _crossings(of: Sums, rows: IntArray, low: FloatArray, high: FloatArray, *, sign: FloatArray) -> Found:
    """Roots of the brackets (pairs,) whose ends differ in sign."""
    return rows, root_between(of.terms[:, rows], of.gaps, low, high, low_sign=sign, guess=-1.0)


def _turning_points(of: Sums, grid: FloatArray, sign: FloatArray, slope: FloatArray) -> list[Found]:
    """Roots hidden between two points of equal sign: p comes towards zero, turns, and goes away again."""
    hidden: BoolArray = (sign[1:] == sign[:-1]) & (slope[1:] != slope[:-1]) & (sign[:-1] * slope[:-1] < 0.0)
    hidden[0] = False
    cell, rows = np.nonzero(hidden)
    if rows.size == 0:
        return []
    low, high, here = grid[cell], grid[cell + 1], sign[cell, rows]
    terms, exponents = of.terms[:, rows], np.concatenate(([0.0], np.cumsum(of.gaps, dtype=np.float64)))
    turn = root_between(exponents[:, np.newaxis] * terms, of.gaps, low, high, low_sign=slope[cell, rows], guess=-1.0)
    value, _ = value_and_slope(terms, of.gaps, turn)
    size, _ = value_and_slope(np.abs(terms), of.gaps, turn)
    touches = np.abs(value) <= 2.0 * terms.shape[0] * np.finfo(np.float64).eps * size
    through = ~touches & (value * here < 0.0)
    pair, falling, rising = rows[through], here[through], -here[through]
    return [
        (rows[touches], turn[touches]),
        _crossings(of, pair, low[through], turn[through], sign=falling),
        _crossings(of, pair, turn[through], high[through], sign=rising),
    ]


def all_roots(of: Sums, grid: FloatArray) -> Found:
    """Find the roots in (0, 1) that a grid can show.

    Parameters
    ----------
    of : Sums (rows) [1]
        The polynomials.
    grid : ndarray (points,) [1]
        Rising points from 0 to 1.

    Returns
    -------
    tuple of ndarray (roots,) [row number] and ndarray (roots,) [1]
        Sorted by row, then from the largest root down. A root that is only touched counts once; the root at 1 itself,
        of rows that balance, is left out.

    Notes
    -----
    Between two neighbouring points one root is seen by the change of sign and a pair by the turn of the slope. Three
    or more roots between two neighbouring points can be taken for fewer.
    """
    _, first = sign_changes(of)
    sign, slope = _signs(of, grid, first)
    cell, rows = np.nonzero(sign[1:] != sign[:-1])
    found = [_crossings(of, rows, grid[cell], grid[cell + 1], sign=sign[cell, rows])]
    found += _turning_points(of, grid, sign, slope)
    row, root = np.concatenate([f[0] for f in found]), np.concatenate([f[1] for f in found])
    order = np.lexsort((-root, row))
    row, root = row[order], root[order]
    repeated: BoolArray = of.balanced[row] & (root >= 1.0 - SAME_ROOT)
    repeated[1:] |= (row[1:] == row[:-1]) & (root[1:] >= root[:-1] * (1.0 - SAME_ROOT))
    return row[~repeated], root[~repeated]


def largest_roots(of: Sums, grid: FloatArray, *, guess: float) -> tuple[IntArray, FloatArray]:
    """Count the roots in (0, 1) of each row and find the one nearest to 1.

    Parameters
    ----------
    of : Sums (rows) [1]
        The polynomials.
    grid : ndarray (points,) [1]
        Rising points from 0 to 1, for the rows that need the scan.
    guess : float [1]
        First point tried for the rows that do not.

    Returns
    -------
    tuple of ndarray (rows,) [count] and ndarray (rows,) [1]
        Number of roots, and the largest; NaN where there is none.
    """
    changes, first = sign_changes(of)
    count, root = np.zeros(changes.size, dtype=np.int64), np.full(changes.size, np.nan)
    single = np.flatnonzero((changes == 1) & ~of.balanced)
    if single.size:
        count[single] = 1
        low, high = np.zeros(single.size), np.ones(single.size)
        root[single] = root_between(of.terms[:, single], of.gaps, low, high, low_sign=first[single], guess=guess)
    doubtful = np.flatnonzero((changes > 1) | ((changes == 1) & of.balanced))
    if doubtful.size:
        row, found = all_roots(of.rows(doubtful), grid)
        count[doubtful] = np.bincount(row, minlength=doubtful.size)
        np.fmax.at(root, doubtful[row], found)
    return count, root
