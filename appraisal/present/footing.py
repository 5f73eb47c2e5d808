"""Whole amounts that foot: rounded so that rows and columns still add up to their totals."""

from __future__ import annotations

import numpy as np
import numpy.typing as npt

Array = npt.NDArray[np.float64]
Whole = npt.NDArray[np.int64]


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


def crossed(matrix: Array, *, rows: Whole, columns: Whole) -> Whole:
    """Whole numbers near `matrix` (r, c) with the given sums of rows (r,) and of columns (c,), which have one grand total.

    Every row is rounded by itself; the row whose least cell is largest takes what the columns then lack.
    """
    if not matrix.size:
        return np.zeros(matrix.shape, dtype=np.int64)
    made = np.array([whole(row, total=int(total)) for row, total in zip(matrix, rows, strict=True)])
    taker = int(np.argmax(np.abs(np.where(matrix == 0, 0.0, matrix)).min(axis=1)))
    made[taker] += columns - made.sum(axis=0)
    return made
