"""Random plants of the money cases and of the demos, and when a sum of theirs is nothing."""

from __future__ import annotations

import numpy as np
import numpy.testing as npt

from tests import money_cases
from tests.money_cases import CASES, appraised, batch
from tests.properties import cases as demo_cases
from tests.properties.adding_up import CLOSE

NAMES = sorted(CASES)
Array = np.ndarray


def of_both(name: str) -> tuple[dict[str, Array], money_cases.Appraisal]:
    """Lines over random plants, and the appraisal behind them, of a money case or a demo."""
    return (batch(name), appraised(name)) if name in CASES else (demo_cases.batch(name), demo_cases.appraised(name))


def nothing(gap: Array, size: Array) -> None:
    """Zero to 1e-9 of the largest amount of each row."""
    scale = np.maximum(np.abs(size).max(axis=1, keepdims=True), 1.0)
    npt.assert_array_less(np.abs(np.broadcast_to(gap, np.broadcast_shapes(gap.shape, scale.shape))) / scale, CLOSE)
