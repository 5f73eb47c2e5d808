"""The root of a sum of terms inside a bracket between 0 and 1, for many rows at once."""

from __future__ import annotations

import numpy as np

from appraisal.measures.arrays import BoolArray, FloatArray
from appraisal.measures.polynomials import value_and_slope

STEP_TOLERANCE = 1e-14  # relative; Newton doubles the digits, so the step after this one would be below rounding
BRACKET_TOLERANCE = 4.0 * np.finfo(np.float64).eps
STEP_LIMIT = 400  # a bracket from 1 down to 1e-20 and then to the last bit takes some 80


def _middle(low: FloatArray, high: FloatArray) -> FloatArray:
    """Point that splits a bracket: halfway, or by ratio where the bracket spans more than a factor of 16."""
    by_ratio = np.maximum(np.sqrt(low) * np.sqrt(high), high / 16.0)
    return np.where(high > 16.0 * low, by_ratio, 0.5 * (low + high))


def _moved(
    x: FloatArray, value: FloatArray, slope: FloatArray, low: FloatArray, high: FloatArray, *, last_step: FloatArray
) -> tuple[FloatArray, BoolArray]:
    """Newton's next point, or the middle of the bracket where it cannot be trusted; and where the root is reached."""
    step = np.where(slope == 0.0, 2.0, -value / np.where(slope == 0.0, 1.0, slope)) * x
    trusted = (x + step > low) & (x + step < high) & (np.abs(step) <= 0.5 * np.abs(last_step))
    arrived = np.abs(step) <= STEP_TOLERANCE * x
    return np.where(trusted | arrived, x + step, _middle(low, high)), arrived


def root_between(
    terms: FloatArray, gaps: tuple[int, ...], low: FloatArray, high: FloatArray, *, low_sign: FloatArray, guess: float
) -> FloatArray:
    """Find the root inside a bracket by Newton steps, halving the bracket wherever Newton leaves it or slows down.

    Parameters
    ----------
    terms, gaps : as `value_and_slope` takes them
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
        following, arrived = _moved(x, value, slope, low, high, last_step=last_step)
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
