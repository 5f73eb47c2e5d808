"""How numbers are written: columns with alike decimals, covers beside a limit, futures out of a hundred."""

from __future__ import annotations

import pytest

from appraisal.present.numbers import alike, times
from appraisal.present.risk_words import of_futures


@pytest.mark.parametrize(
    ("values", "text"),
    [
        ((35.556, 38.7, 0), ("35.6", "38.7", "0.0")),
        ((0.03407, -0.02), ("0.0341", "-0.0200")),
        ((47_296.4, 3), ("47,296", "3")),
        ((0, 0), ("0", "0")),
        ((), ()),
    ],
)
def test_numbers_of_a_column_have_as_many_decimals_as_the_largest_needs(
    values: tuple[float, ...], text: tuple[str, ...]
) -> None:
    assert alike(values) == text


@pytest.mark.parametrize(
    ("value", "text"),
    [(1.2969, "1.296"), (1.2999, "1.299"), (1.3, "1.30"), (1.301, "1.30"), (0.4, "0.40"), (-0.001, "0.00")],
)
def test_a_cover_never_reads_as_its_limit_while_it_is_under_it(value: float, text: str) -> None:
    assert times(value, 1.3) == text


@pytest.mark.parametrize(
    ("share", "text"),
    [
        (0.0, "none of the futures"),
        (1.0, "all futures"),
        (0.001, "fewer than 1 of 100 futures"),
        (0.5, "50 of 100 futures"),
    ],
)
def test_futures_are_told_with_their_noun(share: float, text: str) -> None:
    assert of_futures(share) == text
