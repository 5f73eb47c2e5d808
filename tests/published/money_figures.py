"""What the answers to records of finance_money.json share."""

from __future__ import annotations

from typing import Any

import numpy as np

Values = dict[str, Any]


def flows(*rows: list[float]) -> np.ndarray:
    """Rows as a (draws, periods) array."""
    return np.array(rows, dtype=np.float64)
