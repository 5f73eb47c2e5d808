"""Sums p(x) = sum of term[k] * x**exponent[k] for x between 0 and 1, many rows at once.

Terms are held as (terms, rows), so that one term of all rows is contiguous. Exponents start at zero; `gaps` are the
whole steps from one exponent to the next (all 1 for equal periods, days for dated flows). Only additions,
multiplications, divisions and square roots are used, each on one row at a time, so a row's root does not depend on
its neighbours. The sums are read through their partial sums: p has at most as many roots in (0, 1) as the partial
sums of its terms have changes of sign (Norstrom's condition is the case of one change [1]_, from memory).

References
----------
.. [1] C. J. Norstrom, A sufficient condition for a unique nonnegative internal rate of return, Journal of Financial
       and Quantitative Analysis 7 (1972), from memory.
"""

from __future__ import annotations

from dataclasses import dataclass
from itertools import pairwise

import numpy as np

from appraisal.measures.arrays import BoolArray, FloatArray, IntArray, whole_power

STRETCH, LONG = 12, 48  # terms worked on side by side; from how many terms on that is worth it


@dataclass(frozen=True, eq=False)
class Sums:
    """Rows of one polynomial each, with what is known of them at x = 1.

    terms: (terms, rows). gaps: terms - 1 whole numbers.
    size: (rows,) sum of the terms' magnitudes. total: (rows,) p(1).
    balanced: (rows,) p(1) is zero to rounding.
    """

    terms: FloatArray
    gaps: tuple[int, ...]
    size: FloatArray
    total: FloatArray
    balanced: BoolArray

    def rows(self, chosen: IntArray | BoolArray) -> Sums:
        """Take a choice of rows.

        Parameters
        ----------
        chosen : ndarray (chosen,) or (rows,) [row number, or yes and no]
            Rows wanted.

        Returns
        -------
        Sums (chosen) [1]
            The same record for those rows.
        """
        held = (self.size[chosen], self.total[chosen], self.balanced[chosen])
        return Sums(self.terms[:, chosen], self.gaps, *held)

    def mirrored(self) -> Sums:
        """The sums read from the last term to the first: the roots become 1/x."""
        gaps = self.gaps[::-1]
        return Sums(aligned(self.terms[::-1], gaps), gaps, self.size, self.total, self.balanced)


def aligned(terms: FloatArray, gaps: tuple[int, ...]) -> FloatArray:
    """Drop each row's leading zeros, since high powers of x with nothing before them would underflow.

    Parameters
    ----------
    terms : ndarray (terms, rows) [1]
        One polynomial per column of the array.
    gaps : tuple of int (terms - 1) [count]
        Steps of the exponent; where they are uneven the terms stay in place.

    Returns
    -------
    ndarray (terms, rows) [1]
        The terms divided by a common power of x, which moves no root above zero.
    """
    leading = np.argmax(terms != 0.0, axis=0)
    late = np.flatnonzero(leading)
    if late.size == 0 or set(gaps) - {1}:
        return terms
    source = np.arange(terms.shape[0])[:, np.newaxis] + leading[late]
    inside = source < terms.shape[0]
    moved = terms.copy()
    moved[:, late] = np.where(inside, terms[np.where(inside, source, 0), late], 0.0)
    return moved


def sums(terms: FloatArray, gaps: tuple[int, ...]) -> Sums:
    """Add up the terms at x = 1, in a fixed order, and note which rows balance.

    Parameters
    ----------
    terms : ndarray (terms, rows) [1]
        One polynomial per column of the array.
    gaps : tuple of int (terms - 1) [count]
        Steps of the exponent.

    Returns
    -------
    Sums (rows) [1]
        A row balances when |p(1)| <= terms * eps * sum of |terms|.
    """
    size, total = np.zeros(terms.shape[1]), np.zeros(terms.shape[1])
    for term in terms:
        size += np.abs(term)
        total += term
    rounding = terms.shape[0] * np.finfo(np.float64).eps * size
    return Sums(aligned(terms, gaps), gaps, size, total, (np.abs(total) <= rounding) & (size > 0.0))


def value_and_slope(terms: FloatArray, gaps: tuple[int, ...], x: FloatArray) -> tuple[FloatArray, FloatArray]:
    """Evaluate p(x) and x * p'(x) by nested multiplication.

    Parameters
    ----------
    terms : ndarray (terms, rows) [1 or currency]
        One polynomial per column of the array.
    gaps : tuple of int (terms - 1) [count]
        Steps of the exponent.
    x : ndarray (rows,) or (points, 1) [1]
        One point for each row, or several points for all rows.

    Returns
    -------
    tuple of two ndarray (rows,) or (points, rows) [as terms]
        p(x), and x * p'(x), which makes -p/(x p') the Newton step relative to x.
    """
    if len(gaps) + 1 >= LONG and x.shape == terms[0].shape and set(gaps) == {1}:
        return _in_stretches(terms, x)
    value = np.zeros(np.broadcast_shapes(terms[0].shape, x.shape)) + terms[-1]
    slope = np.zeros_like(value)
    for k in range(len(gaps) - 1, -1, -1):
        gap = gaps[k]
        jump = x if gap == 1 else whole_power(x, gap)
        _carried(value, slope, jump, gap)
        value += terms[k]
    return value, slope


def _in_stretches(terms: FloatArray, x: FloatArray) -> tuple[FloatArray, FloatArray]:
    """The same for many equal periods: all stretches of `STRETCH` terms side by side, then one stretch after the other.

    A tenth as many operations, each on longer arrays, as nested multiplication through every term.
    """
    count, rows = terms.shape
    whole = count // STRETCH * STRETCH
    held = terms[:whole].reshape(count // STRETCH, STRETCH, rows)
    if whole < count:
        last = np.zeros((1, STRETCH, rows))
        last[0, : count - whole] = terms[whole:]
        held = np.concatenate((held, last))
    values = held[:, -1].copy()
    slopes = np.zeros_like(values)
    for place in range(STRETCH - 2, -1, -1):
        _carried(values, slopes, x, 1)
        values += held[:, place]
    jump = whole_power(x, STRETCH)
    value, slope = values[-1].copy(), slopes[-1].copy()
    for stretch in range(held.shape[0] - 2, -1, -1):
        _carried(value, slope, jump, STRETCH)
        value += values[stretch]
        slope += slopes[stretch]
    return value, slope


def _carried(value: FloatArray, slope: FloatArray, jump: FloatArray, gap: int) -> None:
    """Multiply by x to the power `gap`, in place."""
    slope += value if gap == 1 else gap * value
    slope *= jump
    value *= jump


def sign_changes(of: Sums) -> tuple[IntArray, FloatArray]:
    """Count changes of sign along the partial sums of each row.

    Parameters
    ----------
    of : Sums (rows) [1]
        The polynomials.

    Returns
    -------
    tuple of ndarray (rows,) [count] and ndarray (rows,) [1]
        Number of changes, zeros passed over, and the first sign: that of p just above x = 0.
    """
    partial = of.terms.copy()
    for before, here in pairwise(partial):
        here += before
    count, first = _changes_of(partial) if partial.all() else _changes_past_zeros(partial)
    return count, first


def _changes_of(partial: FloatArray) -> tuple[IntArray, FloatArray]:
    """The same where no partial sum (terms, rows) is zero."""
    rising = partial > 0.0
    return np.count_nonzero(rising[1:] != rising[:-1], axis=0), np.where(rising[0], 1.0, -1.0)


def _changes_past_zeros(partial: FloatArray) -> tuple[IntArray, FloatArray]:
    """The same with zeros, each of which takes the sign of the sum before it."""
    before, first = np.zeros(partial.shape[1]), np.zeros(partial.shape[1])
    count = np.zeros(partial.shape[1], dtype=np.int64)
    for sign in np.sign(partial):
        count += sign * before < 0.0
        before = np.where(sign == 0.0, before, sign)
        first = np.where(first == 0.0, sign, first)
    return count, first
