"""How strongly each drawn value and a result move together: rank correlation, partial rank correlation, regression."""

from __future__ import annotations

from dataclasses import dataclass

import numpy as np
import numpy.typing as npt

from appraisal.risk.points import SAMPLES, RiskError
from appraisal.risk.statistics import FEWEST_EACH

Array = npt.NDArray[np.float64]


@dataclass(frozen=True, eq=False)
class Together:
    """One row an input (inputs,), each [1] between -1 and 1.

    rank: Spearman's rank correlation with the result; error: its standard error, NaN where draws are too few.
    partial: the same with the straight-line effect of the other inputs' ranks taken out of both.
    regression: standardised coefficient of a straight line through all inputs; its square is a share of the variance
    where the model is linear and the inputs are independent.
    """

    rank: Array
    error: Array
    partial: Array
    regression: Array


def together(inputs: Array, result: Array) -> Together:
    """Work out how inputs (draws, inputs) and a result (draws,) move together.

    Raises RiskError where there are no more draws than inputs, or the result never changes.
    """
    if inputs.shape[0] < inputs.shape[1] + 3:
        raise RiskError(f"{inputs.shape[0]} draws are too few for {inputs.shape[1]} inputs")
    if np.ptp(result) == 0 or (np.ptp(inputs, axis=0) == 0).any():
        raise RiskError("a value that never changes has no correlation")
    ranks = np.column_stack([ranked(column) for column in (*inputs.T, result)])
    both = np.asarray(np.corrcoef(ranks, rowvar=False))
    return Together(both[:-1, -1], _errors(inputs, result), _partial(ranks), _regression(inputs, result))


def ranked(column: Array) -> Array:
    """Ranks from 1 (draws,) [1]; equal values share the mean of their ranks."""
    order = np.argsort(column, kind="stable")
    ordered = column[order]
    first = np.concatenate(([True], ordered[1:] != ordered[:-1]))
    starts = np.flatnonzero(first)
    ends = np.concatenate((starts[1:], [column.size]))
    out = np.empty(column.size)
    out[order] = ((starts + 1 + ends) / 2)[np.cumsum(first) - 1]
    return out


def _partial(ranks: Array) -> Array:
    """Correlation of what is left of each input's ranks and of the result's once the other inputs' ranks are taken out."""
    centred = ranks - ranks.mean(axis=0)
    out = np.empty(centred.shape[1] - 1)
    for place in range(out.size):
        others = np.delete(centred[:, :-1], place, axis=1)
        left = [_without(column, others) for column in (centred[:, place], centred[:, -1])]
        size = float(np.sqrt((left[0] ** 2).sum() * (left[1] ** 2).sum()))
        out[place] = float((left[0] * left[1]).sum()) / size if size > 0 else 0.0
    return out


def _without(column: Array, others: Array) -> Array:
    """What is left of a centred column once the best straight line through the others is taken away."""
    if others.shape[1] == 0:
        return column
    return np.asarray(column - others @ np.linalg.lstsq(others, column, rcond=None)[0])


def _regression(inputs: Array, result: Array) -> Array:
    centred = inputs - inputs.mean(axis=0)
    slopes = np.linalg.lstsq(centred / inputs.std(axis=0), result - result.mean(), rcond=None)[0]
    return np.asarray(slopes / result.std())


def _errors(inputs: Array, result: Array) -> Array:
    if result.size < SAMPLES * FEWEST_EACH:
        return np.full(inputs.shape[1], np.nan)
    parts = []
    for place in range(SAMPLES):
        columns = np.column_stack([ranked(c) for c in (*inputs[place::SAMPLES].T, result[place::SAMPLES])])
        with np.errstate(invalid="ignore", divide="ignore"):
            parts.append(np.asarray(np.corrcoef(columns, rowvar=False))[:-1, -1])
    return np.asarray(np.std(parts, axis=0, ddof=1) / np.sqrt(SAMPLES))
