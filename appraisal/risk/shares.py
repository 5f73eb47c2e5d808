"""Which input carries how much of the variance of the result: Sobol indices, for independent inputs."""

from __future__ import annotations

from collections.abc import Callable, Sequence
from dataclasses import dataclass

import numpy as np
import numpy.typing as npt

from appraisal.risk.points import SAMPLES, Method, points
from appraisal.risk.statistics import Estimate

Array = npt.NDArray[np.float64]
Function = Callable[[Array], Array]
CORRELATED = (
    "Variance shares take the inputs as independent; the correlations of this scenario are left out of them. "
    "The rank correlations beside them hold the correlations in."
)


@dataclass(frozen=True, eq=False)
class Shares:
    """Variance shares of one result.

    first: of each input by itself; total: with everything it does together with others. Both near 0 to 1, an estimate
    may lie slightly outside. variance: of the result, in its unit squared. runs: of the function.
    """

    first: tuple[Estimate, ...]
    total: tuple[Estimate, ...]
    variance: Estimate
    runs: int


def variance_shares(
    function: Function,
    *,
    dimensions: int,
    draws: int,
    seed: int,
    method: Method = "sobol",
    groups: Sequence[tuple[int, ...]] | None = None,
) -> Shares:
    """Sobol indices of a function over the unit cube.

    Parameters
    ----------
    function : points (n, dimensions) [1] -> results (n,), one row at a time independent of the others.
    dimensions : coordinates of a point.
    draws : points of each of the two base samples; the function runs draws * (inputs + 2) times.
    seed : of the points.
    method : kind of sampling.
    groups : coordinates of each input, where one has several; each coordinate is an input by itself when left out.

    Returns
    -------
    Shares with standard errors from sixteen independent samples.

    Notes
    -----
    First order: mean of f(B) (f(AB_i) - f(A)) over the variance, total: mean of (f(A) - f(AB_i))**2 / 2 over the variance
    (Saltelli and others 2010, Computer Physics Communications 181, 259-270; Jansen 1999; from memory). Results are
    centred first, which leaves the indices alone and narrows their errors.
    """
    base = points(method, seed=seed, draws=draws, dimensions=2 * dimensions).whole()
    a, b = np.ascontiguousarray(base[:, :dimensions]), np.ascontiguousarray(base[:, dimensions:])
    at_a, at_b = function(a), function(b)
    inputs = [list(group) for group in groups] if groups is not None else [[column] for column in range(dimensions)]
    mixed = np.empty((len(inputs), draws))
    for number, columns in enumerate(inputs):
        ab = a.copy()
        ab[:, columns] = b[:, columns]
        mixed[number] = function(ab)
    return of_runs(at_a, at_b, mixed)


def of_runs(at_a: Array, at_b: Array, mixed: Array) -> Shares:
    """Indices from the results at A and B (draws,) and at A with one column of B each (inputs, draws)."""
    middle = (at_a.mean() + at_b.mean()) / 2
    whole = _indices(at_a - middle, at_b - middle, mixed - middle)
    each = (
        [
            _indices(at_a[k::SAMPLES] - middle, at_b[k::SAMPLES] - middle, mixed[:, k::SAMPLES] - middle)
            for k in range(SAMPLES)
        ]
        if at_a.size >= 2 * SAMPLES
        else []
    )

    def with_errors(place: int) -> tuple[Estimate, ...]:
        """The shares [1] at one place of the estimates, with the standard errors that the samples apart give."""
        values = whole[place]
        if not each:
            return tuple(Estimate(float(value), None) for value in values)
        errors = np.std([part[place] for part in each], axis=0, ddof=1) / np.sqrt(SAMPLES)
        return tuple(Estimate(float(v), float(e)) for v, e in zip(values, errors, strict=True))

    runs = at_a.size * (mixed.shape[0] + 2)
    return Shares(with_errors(0), with_errors(1), with_errors(2)[0], runs)


def _indices(at_a: Array, at_b: Array, mixed: Array) -> tuple[Array, Array, Array]:
    variance = float(np.concatenate((at_a, at_b)).var())
    if variance == 0:
        nothing = np.zeros(mixed.shape[0])
        return nothing, nothing, np.zeros(1)
    first = (at_b * (mixed - at_a)).mean(axis=1) / variance
    total = ((at_a - mixed) ** 2).mean(axis=1) / 2 / variance
    return first, total, np.array([variance])
