"""Nought and one, known for every draw: what numbers do with them need not be worked out number by number.

A plant has no wood chips, no second engine, no rent: half of all operations add a nought or multiply by one. Here such a
value stands for itself, and an operation with it gives what numbers would give, without touching them. All is exact for
numbers that are finite; the sign of a nought is lost.
"""

from __future__ import annotations

from collections.abc import Callable, Mapping
from dataclasses import dataclass
from typing import Any

import numpy as np
import numpy.typing as npt
from numpy.lib.mixins import NDArrayOperatorsMixin

Array = npt.NDArray[np.float64]


@dataclass(frozen=True, eq=False)
class Known(NDArrayOperatorsMixin):
    """A value that is nought or one, or true or false, in every draw and month; columns: months, years or 1 when spread."""

    value: float | np.bool_
    columns: int = 1

    def __array_ufunc__(self, ufunc: np.ufunc, method: str, *operands: Any, **options: Any) -> Any:
        """What the operation gives; with numbers that say more than nought or one it is done on them."""
        if method == "__call__" and not options:
            if all(isinstance(each, (Known, int, float)) for each in operands):
                return known(ufunc(*[_number(each) for each in operands]))
            short = SHORT.get(ufunc)
            found = short(*operands) if short else None
            if found is not None:
                return found
        return getattr(ufunc, method)(*[plain(each) for each in operands], **options)

    def __array_function__(self, function: Callable[..., Any], types: Any, operands: Any, options: Any) -> Any:
        """`np.where` with a known condition is one of its sides; all else is done on numbers."""
        if function is np.where and isinstance(operands[0], Known):
            return known(operands[1] if operands[0].value else operands[2])
        return function(*[plain(each) for each in operands], **options)


NOUGHT, ONE = Known(0.0), Known(1.0)


def known(value: Any) -> Any:
    """A plain number that is nought or one, or a truth, as `Known`; anything else as it is, numbers as (1, 1)."""
    if isinstance(value, (bool, np.bool_)):
        return Known(np.bool_(value))
    if isinstance(value, (int, float)):
        return NOUGHT if value == 0 else ONE if value == 1 else np.array([[float(value)]])
    return value


def plain(value: Any) -> Any:
    """A known value as an array (1, 1); lists of values one by one; anything else as it is."""
    if isinstance(value, (list, tuple)):
        return type(value)(plain(each) for each in value)
    return np.array([[value.value]]) if isinstance(value, Known) else value


def spread(value: Any) -> Array:
    """A known value as an array (1, columns); arrays as they are."""
    return np.full((1, value.columns), float(value.value)) if isinstance(value, Known) else value


def noticed(values: Mapping[str, Array]) -> dict[str, Any]:
    """The same values by name, those that are nought or one throughout as `Known`."""
    return {name: _noticed(array) for name, array in values.items()}


def _noticed(array: Array) -> Any:
    first = float(array.flat[0]) if array.size else np.nan
    return Known(first, array.shape[1]) if first in (0, 1) and bool((array == first).all()) else array


def _number(each: Any) -> Any:
    return each.value if isinstance(each, Known) else float(each)


def _is(value: Any, number: int) -> bool:
    return isinstance(value, (Known, int, float)) and _number(value) == number


def _product(left: Any, right: Any) -> Any:
    if _is(left, 0) or _is(right, 0):
        return NOUGHT
    return right if _is(left, 1) else left if _is(right, 1) else None


def _sum(left: Any, right: Any) -> Any:
    return right if _is(left, 0) else left if _is(right, 0) else None


def _difference(left: Any, right: Any) -> Any:
    return left if _is(right, 0) else -right if _is(left, 0) else None


def _quotient(left: Any, right: Any) -> Any:
    return NOUGHT if _is(left, 0) else left if _is(right, 1) else None


def _power(base: Any, exponent: Any) -> Any:
    return ONE if _is(base, 1) or _is(exponent, 0) else base if _is(exponent, 1) else None


SHORT: dict[np.ufunc, Callable[[Any, Any], Any]] = {
    np.multiply: _product,
    np.add: _sum,
    np.subtract: _difference,
    np.true_divide: _quotient,
    np.power: _power,
}
