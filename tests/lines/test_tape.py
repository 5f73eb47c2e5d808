"""The tape: no operation twice, nothing that no kept line needs, and the same numbers as the lines give themselves."""

from __future__ import annotations

from collections.abc import Sequence

import numpy as np
import pytest

from appraisal.lines.evaluate import evaluate
from appraisal.lines.plan import Plan
from appraisal.lines.play import ROWS, Stretch
from appraisal.lines.prepared import Prepared, evaluate_block, prepare
from tests.lines.test_kit import MONTH, a_line, planned

DRAWS = 2 * ROWS + 37
RATE = np.linspace(-2.0, 3.0, DRAWS)[:, None]


def ready(built: Plan, *keep: str, sums: dict[str, Sequence[str]] | None = None, share: float = 0.5) -> Prepared:
    inputs = {"time.month": MONTH, "plant.rate": RATE, "plant.share": np.array([[share]])}
    return prepare(built, inputs, drawn=("plant.rate",), keep=keep, sums=sums or {})


def operations(prepared: Prepared) -> list[str]:
    parts = [part for part in prepared.score.parts if isinstance(part, Stretch)]
    return [getattr(act.do, "__name__", "laid out") for part in parts for act, _, _ in part.acts]


TWICE = a_line("x", "rate, month", "rate * month + 1 * rate") + a_line("y", "rate, month, share", "rate * month * share")


def test_an_operation_stands_once_and_only_where_a_kept_line_needs_it() -> None:
    built = planned(TWICE)
    assert operations(ready(built, "x")) == ["multiply", "add"]
    assert operations(ready(built, "y")) == ["multiply", "multiply"]
    assert sorted(operations(ready(built, "x", "y"))) == ["add", "multiply", "multiply"]
    assert operations(ready(built, "y", share=1.0)) == ["multiply"], "times one is left out"
    assert operations(ready(built, "y", share=0.0)) == [], "nought is nought in every draw"


LAID_OUT = (
    a_line("start", "rate, share", "np.where(rate > share, rate, 0)")
    + a_line("flow", "start, month", "np.maximum(start * month, month - start)")
    + a_line("before", "previous_flow, next_flow", "previous_flow - next_flow")
    + a_line("so_far", "cumulative_flow, life_sum_flow", "cumulative_flow / (1 + np.exp(-life_sum_flow / life_sum_flow))")
    + a_line("year", "year_sum_flow, year_end_flow", "year_sum_flow - year_end_flow", "yearly=True")
    + a_line("back", "in_year_year, flow", "in_year_year * flow")
    + a_line("store", "previous_store, back, rate", "np.minimum(previous_store * 0 + back, rate)", 'roll="s"')
    + a_line("last", "store, so_far, before", "store - so_far + before")
)


@pytest.mark.filterwarnings("ignore:divide by zero", "ignore:invalid value")
@pytest.mark.parametrize("keep", [("last",), ("store", "year"), ("start", "before", "so_far", "back", "last")])
def test_every_view_and_group_gives_what_the_lines_give(keep: tuple[str, ...]) -> None:
    built = planned(LAID_OUT)
    inputs = {"time.month": MONTH, "plant.rate": RATE, "plant.share": np.array([[0.5]])}
    whole = evaluate(built, inputs)
    made = evaluate_block(ready(built, *keep), {"plant.rate": RATE})
    assert set(made) == set(keep)
    for name in keep:
        assert made[name].shape == (DRAWS, whole[name].shape[1])
        assert np.array_equal(made[name], whole[name], equal_nan=True), name


def test_a_sum_is_handed_on_without_its_parts() -> None:
    built = planned(TWICE)
    prepared = ready(built, sums={"both": ("x", "y")})
    inputs = {"time.month": MONTH, "plant.rate": RATE, "plant.share": np.array([[0.5]])}
    whole, made = evaluate(built, inputs), evaluate_block(prepared, {"plant.rate": RATE})
    assert set(made) == {"both"}
    assert made["both"] == pytest.approx(whole["x"] + whole["y"], rel=1e-15)
    assert [len(part.leaves) for part in prepared.score.parts if isinstance(part, Stretch)] == [1]


def test_a_kept_line_that_no_draw_changes_stands_in_every_draw() -> None:
    built = planned(TWICE + a_line("still", "share, month", "share * month"))
    made = evaluate_block(ready(built, "still", "x"), {"plant.rate": RATE})
    assert made["still"].shape == (DRAWS, 24)
    assert (made["still"] == 0.5 * MONTH).all()
