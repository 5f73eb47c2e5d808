"""Shapes and records shared by the measures: flows by draw and period, one column per draw, a value with its status."""

from __future__ import annotations

from dataclasses import dataclass
from typing import ClassVar

import numpy as np
from numpy.typing import NDArray

FloatArray = NDArray[np.float64]
IntArray = NDArray[np.int64]
BoolArray = NDArray[np.bool_]

BLOCK_ROWS = 1024  # rows worked on together, so that the columns of one block stay in the processor's cache


@dataclass(frozen=True, eq=False)
class Locked:
    """A record whose arrays cannot be written to: freezing the record alone does not freeze what it holds."""

    def __post_init__(self) -> None:
        """Lock every array of the record."""
        for held in vars(self).values():
            if isinstance(held, np.ndarray):
                held.setflags(write=False)


@dataclass(frozen=True, eq=False)
class Measured(Locked):
    """A measure that can be missing: its value beside a status that says in words what the value means.

    value: one number per draw; NaN where the status says there is none. Print the words, or null, never the NaN.
    status: position in `names`, one per draw.
    """

    names: ClassVar[tuple[str, ...]] = ()

    value: FloatArray
    status: IntArray

    @property
    def words(self) -> list[str]:
        """The status of each entry in words, in row order."""
        return [self.names[code] for code in self.status.ravel().tolist()]


def as_flows(flows: FloatArray) -> FloatArray:
    """Flows as float64, checked to be two-dimensional, not empty and finite.

    Parameters
    ----------
    flows : ndarray (draws, periods) [any unit]
        One row per draw, one column per period.

    Returns
    -------
    ndarray (draws, periods) [as given]
        The same numbers; the same memory where they were float64 already.

    Raises
    ------
    ValueError
        If the array has not two axes, has no column, or holds NaN or infinity.
    """
    values = np.asarray(flows, dtype=np.float64)
    if values.ndim != 2 or values.shape[1] == 0:
        raise ValueError(f"flows must have the shape (draws, periods) with at least one period; got {values.shape}")
    if not np.isfinite(values).all():
        raise ValueError("flows must be finite; found NaN or infinity")
    return values


def columns(*values: float | FloatArray) -> list[FloatArray]:
    """Bring numbers, (draws,) vectors and (draws, 1) columns to contiguous vectors of one common length.

    Parameters
    ----------
    values : float, ndarray (draws,) or ndarray (draws, 1) [any unit]
        Length one is repeated for every draw.

    Returns
    -------
    list of ndarray (draws,) [as given]
        In the order given.

    Raises
    ------
    ValueError
        If an array is wider than one column, if lengths do not fit together, or if a number is not finite.
    """
    arrays = [np.asarray(value, dtype=np.float64) for value in values]
    for array in arrays:
        if array.ndim > 2 or (array.ndim == 2 and array.shape[1] != 1):
            raise ValueError(f"expected one number per draw, shape (draws,) or (draws, 1); got {array.shape}")
        if not np.isfinite(array).all():
            raise ValueError("expected finite numbers; found NaN or infinity")
    return [np.ascontiguousarray(vector) for vector in np.broadcast_arrays(*[array.reshape(-1) for array in arrays])]


def column(value: float | FloatArray, draws: int) -> FloatArray:
    """One number per draw as a contiguous vector of a given length.

    Parameters
    ----------
    value : float, ndarray (draws,) or ndarray (draws, 1) [any unit]
        Length one is repeated for every draw.
    draws : int [count]
        Length wanted.

    Returns
    -------
    ndarray (draws,) [as given]
        The value of each draw.

    Raises
    ------
    ValueError
        If the length is neither one nor `draws`, and as `columns`.
    """
    (vector,) = columns(value)
    if vector.size not in (1, draws):
        raise ValueError(f"expected one number for each of {draws} draws; got {vector.size}")
    return np.ascontiguousarray(np.broadcast_to(vector, (draws,)))


def whole_power(base: FloatArray, exponent: int) -> FloatArray:
    """Raise to a whole power by repeated squaring, so that the bits do not depend on the length of the array.

    Parameters
    ----------
    base : ndarray (any shape) [1]
        Numbers to raise.
    exponent : int [count]
        Whole number from zero.

    Returns
    -------
    ndarray (as base) [1]
        base**exponent.
    """
    result, square = np.ones_like(base), base
    while exponent:
        if exponent & 1:
            result = result * square
        exponent >>= 1
        if exponent:
            square = square * square
    return result


def weighted_sum(flows: FloatArray, ratio: FloatArray) -> FloatArray:
    """Sum of flow[k] * ratio**k over the periods, added in a fixed order from the last period to the first.

    Parameters
    ----------
    flows : ndarray (draws, periods) [any unit]
        Coefficients in rising powers.
    ratio : ndarray (draws,) [1]
        Factor from one period to the next.

    Returns
    -------
    ndarray (draws,) [as flows]
        The nested form f0 + q (f1 + q (f2 + ...)).

    Notes
    -----
    A library sum over an axis may add in an order that depends on the memory layout; this loop does not, so a row of
    a batch equals the run of that row alone to the last bit.
    """
    result = np.empty(flows.shape[0])
    for start in range(0, flows.shape[0], BLOCK_ROWS):
        block, step = flows[start : start + BLOCK_ROWS], ratio[start : start + BLOCK_ROWS]
        total = block[:, -1].copy()
        for k in range(flows.shape[1] - 2, -1, -1):
            total *= step
            total += block[:, k]
        result[start : start + BLOCK_ROWS] = total
    return result
