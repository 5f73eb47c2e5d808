"""Whole amounts that foot: rounded so that rows and columns still add up to their totals."""

from __future__ import annotations

import numpy as np
import numpy.typing as npt

Array = npt.NDArray[np.float64]
Whole = npt.NDArray[np.int64]
TENTHS = 1000  # of a per cent in one


def whole(values: Array, *, total: int | None = None) -> Whole:
    """Whole numbers (n,) whose sum is `total`, or the rounded sum of `values` (n,); what is nothing stays nothing.

    The largest remainders are rounded up, so no number is off by a whole unit or more; only where the total asked for lies
    further off does the largest number take the difference.
    """
    wanted = round(float(values.sum())) if total is None else total
    made = np.floor(values).astype(np.int64)
    order = [place for place in np.argsort(made - values, kind="stable") if values[place] != made[place]]
    made[order[: max(wanted - int(made.sum()), 0)]] += 1
    if made.size:
        made[int(np.argmax(np.abs(values)))] += wanted - int(made.sum())
    return made


def shares(amounts: Whole) -> tuple[str, ...]:
    """Each amount over all of them as per cent with one decimal, so that what is shown adds up to 100.0 %; of nothing, empty."""
    total = int(amounts.sum())
    if not total:
        return ("",) * amounts.size
    tenths = np.asarray(amounts * (TENTHS / total), dtype=np.float64)
    return tuple(f"{one / TENTHS:.1%}" for one in whole(tenths, total=TENTHS).tolist())


def crossed(matrix: Array, *, rows: Whole, columns: Whole) -> Whole:
    """Whole numbers near `matrix` (r, c) with the given sums of rows (r,) and of columns (c,), which have one grand total.

    Every row is rounded by itself; then single units move within a row from a column with too much to one with too little,
    there where that does the least harm. What is nothing stays nothing, unless a column could not be met otherwise.
    """
    if not matrix.size:
        return np.zeros(matrix.shape, dtype=np.int64)
    made = np.array([whole(row, total=int(total)) for row, total in zip(matrix, rows, strict=True)])
    lack = columns - made.sum(axis=0)
    while lack.any():
        to, of = int(np.argmax(lack)), int(np.argmin(lack))
        place = _cheapest(matrix - made, matrix != 0, to, of)
        made[place, to] += 1
        made[place, of] -= 1
        lack = columns - made.sum(axis=0)
    return made


def _cheapest(short: Array, filled: npt.NDArray[np.bool_], to: int, of: int) -> int:
    """The row in which a unit moves from column `of` to column `to` with the least harm; short (r, c): exact less whole."""
    gain = short[:, to] - short[:, of]
    both = filled[:, to] & filled[:, of]
    return int(np.argmax(np.where(both, gain, -np.inf) if both.any() else gain))
