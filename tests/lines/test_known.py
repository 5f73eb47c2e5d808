"""What is known to be nought or one gives what numbers give, and saves the work."""

from __future__ import annotations

from collections.abc import Callable
from typing import Any

import numpy as np
import pytest

from appraisal.lines.known import NOUGHT, ONE, Known, noticed, plain, spread

X = np.array([[2.5, -3.0, 0.25]])

BOTH: dict[str, Callable[[Any, Any], Any]] = {
    "sum": lambda a, b: a + b,
    "difference": lambda a, b: a - b,
    "product": lambda a, b: a * b,
    "larger": np.maximum,
    "smaller": np.minimum,
    "chosen": lambda a, b: np.where(a > b, a, b),
    "both": lambda a, b: np.where((a > 0) & (b < 1), a, b),
    "either": lambda a, b: np.where((a > 0) | (b < 1), a, b),
    "not": lambda a, b: np.where(~(a > 0), a, b),
    "kept off zero": lambda a, b: np.where(b > 0, a / np.where(b > 0, b, 1), 0),
    "whole": lambda a, b: np.floor(a * 2 - b),
    "mixed with plain numbers": lambda a, b: (1 - a) * b + 0 - (-b) ** 2 + 0.5 * a,
}


@pytest.mark.parametrize("operation", BOTH)
@pytest.mark.parametrize("right", ["nought", "one", "numbers"])
@pytest.mark.parametrize("left", ["nought", "one", "numbers"])
def test_every_operation_gives_what_numbers_give(operation: str, left: str, right: str) -> None:
    each = {"nought": NOUGHT, "one": ONE, "numbers": X}
    do = BOTH[operation]
    expected = np.broadcast_to(do(np.atleast_2d(plain(each[left])), np.atleast_2d(plain(each[right]))), X.shape)
    assert np.array_equal(np.broadcast_to(spread(plain(do(each[left], each[right]))), X.shape), expected)


@pytest.mark.parametrize(
    ("folded", "expected"),
    [(X * NOUGHT, NOUGHT), (NOUGHT / X, NOUGHT), (ONE**X, ONE), (X**NOUGHT, ONE)],
    ids=["times nought", "nought over", "one to the power", "to the power nought"],
)
def test_what_comes_out_known_stays_known(folded: Any, expected: Known) -> None:
    assert isinstance(folded, Known) and folded.value == expected.value


@pytest.mark.parametrize("same", [X + NOUGHT, NOUGHT + X, X - NOUGHT, X * ONE, ONE * X, X / ONE, X**ONE])
def test_what_changes_nothing_touches_nothing(same: Any) -> None:
    assert same is X


def test_only_nought_and_one_throughout_are_noticed() -> None:
    held = noticed({"nought": np.zeros((1, 3)), "one": np.ones((1, 1)), "two": np.full((1, 1), 2.0), "mixed": np.eye(2)})
    assert {name for name, value in held.items() if isinstance(value, Known)} == {"nought", "one"}
    assert np.array_equal(spread(held["nought"]), np.zeros((1, 3)))
