"""Roots between 0 and 1 of p(x) = sum of term[k] * x**exponent[k], for many rows at once.

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

import numpy as np

from appraisal.measures.arrays import BoolArray, FloatArray, IntArray, whole_power

STEP_TOLERANCE = 1e-14  # relative; Newton doubles the digits, so the step after this one would be below rounding
BRACKET_TOLERANCE = 4.0 * np.finfo(np.float64).eps
SAME_ROOT = 1e-7  # relative; a touched root is known to about the square root of rounding, closer pairs count as one
STEP_LIMIT = 400  # a bracket from 1 down to 1e-20 and then to the last bit takes some 80


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
    if late.size == 0 or any(gap != 1 for gap in gaps):
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
    value = np.zeros(np.broadcast_shapes(terms[0].shape, x.shape)) + terms[-1]
    slope = np.zeros_like(value)
    for k in range(len(gaps) - 1, -1, -1):
        gap = gaps[k]
        jump = x if gap == 1 else whole_power(x, gap)
        slope += value if gap == 1 else gap * value
        slope *= jump
        value *= jump
        value += terms[k]
    return value, slope


def _middle(low: FloatArray, high: FloatArray) -> FloatArray:
    """Point that splits a bracket: halfway, or by ratio where the bracket spans more than a factor of 16."""
    by_ratio = np.maximum(np.sqrt(low) * np.sqrt(high), high / 16.0)
    return np.where(high > 16.0 * low, by_ratio, 0.5 * (low + high))


def root_between(
    terms: FloatArray, gaps: tuple[int, ...], low: FloatArray, high: FloatArray, *, low_sign: FloatArray, guess: float
) -> FloatArray:
    """Find the root inside a bracket by Newton steps, halving the bracket wherever Newton leaves it or slows down.

    Parameters
    ----------
    terms : ndarray (terms, rows) [1]
        One polynomial per column of the array.
    gaps : tuple of int (terms - 1) [count]
        Steps of the exponent.
    low, high : ndarray (rows,) [1]
        Bracket, 0 <= low < high <= 1, with a change of sign between.
    low_sign : ndarray (rows,) [1]
        Sign of p just above `low`, +1 or -1.
    guess : float [1]
        First point tried where it lies inside the bracket.

    Returns
    -------
    ndarray (rows,) [1]
        Root, to a relative step of 1e-14 or to the last bits of the bracket.

    Raises
    ------
    ArithmeticError
        If a bracket has not closed within the limit of steps, which cannot happen with a true change of sign.
    """
    root, rows = np.empty_like(low), np.arange(low.size)
    x = np.where((guess > low) & (guess < high), guess, _middle(low, high))
    last_step = high - low
    for _ in range(STEP_LIMIT):
        value, slope = value_and_slope(terms, gaps, x)
        is_low = value * low_sign >= 0.0
        low, high = np.where(is_low, x, low), np.where(is_low, high, x)
        step = np.where(slope == 0.0, 2.0, -value / np.where(slope == 0.0, 1.0, slope)) * x
        trusted = (x + step > low) & (x + step < high) & (np.abs(step) <= 0.5 * np.abs(last_step))
        arrived = np.abs(step) <= STEP_TOLERANCE * x
        following = np.where(trusted | arrived, x + step, _middle(low, high))
        last_step, x = following - x, following
        done = arrived | (high - low <= BRACKET_TOLERANCE * high)
        root[rows[done]] = x[done]
        if done.all():
            return root
        if done.any():
            keep = np.flatnonzero(~done)
            terms, rows, low_sign = terms[:, keep], rows[keep], low_sign[keep]
            low, high, x, last_step = low[keep], high[keep], x[keep], last_step[keep]
    raise ArithmeticError("a bracketed root did not settle")


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
    partial, before = np.zeros(of.size.size), np.zeros(of.size.size)
    count, first = np.zeros(of.size.size, dtype=np.int64), np.zeros(of.size.size)
    for term in of.terms:
        partial += term
        sign = np.sign(partial)
        count += sign * before < 0.0
        before = np.where(sign == 0.0, before, sign)
        first = np.where(first == 0.0, sign, first)
    return count, first
