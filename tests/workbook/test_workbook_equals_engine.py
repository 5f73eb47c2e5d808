"""What all tests of the workbook share, and that a wrong stored value does not hide. `test_whole_book` proves the book."""

from __future__ import annotations

from pathlib import Path

import numpy as np
import pytest

from appraisal.appraise import Appraisal, appraise
from appraisal.demos import demos
from appraisal.model import paths
from appraisal.reports.export import input_labels
from appraisal.reports.layout import FIRST_COLUMN, ONCE_COLUMN, Layout
from appraisal.reports.workbook import workbook
from appraisal.scenario.load import load
from appraisal.scenario.model import declared
from tests.workbook.office import cells, recalculated

TOLERANCE = 1e-6  # of the row's largest value
pytestmark = pytest.mark.office
Arrays = dict[str, np.ndarray]


def changed(appraisal: Appraisal, seed: int) -> Arrays:
    """All inputs of a scenario, a third of its numbers moved by up to 20 % inside their limits."""
    rng = np.random.default_rng(seed)
    limits = {
        path: item
        for pattern, item in declared().items()
        for path in paths(appraisal.structure, pattern)
        if item.kind == "number"
    }
    moved = {name: array.copy() for name, array in appraisal.inputs.items()}
    for name in rng.permutation(sorted(limits))[: len(limits) // 3]:
        item = limits[name]
        moved[name] = np.clip(moved[name] * rng.uniform(0.8, 1.2), item.low, item.high)
    return moved


def compared(book: Path, plot: Layout, lines: Arrays) -> list[str]:
    """Names of lines whose recalculated row differs from the engine by more than the tolerance."""
    wrong = []
    for sheet in {place.sheet for name, place in plot.places.items() if name in plot.plan.nodes}:
        grid = cells(book, sheet)
        for name, row in plot.on(sheet):
            if name not in plot.plan.nodes:
                continue
            want = lines[name][0]
            first = ONCE_COLUMN if plot.plan.grid(name) == "once" else FIRST_COLUMN
            if not near(grid[row][first : first + want.size], want):
                wrong.append(name)
    return wrong


def near(got: list[str], want: np.ndarray) -> bool:
    """Whether recalculated cells are numbers within the tolerance of the row's largest value."""
    try:
        numbers = np.array(got, dtype=float)
    except ValueError:
        return False
    return bool(np.abs(numbers - want).max() <= TOLERANCE * max(float(np.abs(want).max()), 1e-12))


def test_a_wrong_stored_value_does_not_hide(tmp_path: Path) -> None:
    """With recalculation forced a planted 999 goes away; without it the program keeps it, so the check has teeth."""
    appraisal = appraise(load(demos()["dairy_with_leftovers"]))
    wrong = {
        name: np.full_like(array, 999.0) if name == "power_sales" else array for name, array in appraisal.values.items()
    }
    path = tmp_path / "planted.xlsx"
    content, plot = workbook(
        appraisal.plan,
        inputs=appraisal.inputs,
        stored=wrong,
        timeline=appraisal.timeline,
        labels=input_labels(appraisal),
    )
    path.write_bytes(content)
    (trusting, forcing) = (tmp_path / "trusting", tmp_path / "forcing")
    assert compared(recalculated([path], trusting, force=False)[0], plot, dict(appraisal.values)) == ["power_sales"]
    assert compared(recalculated([path], forcing)[0], plot, dict(appraisal.values)) == []


def test_the_same_input_gives_the_same_bytes() -> None:
    appraisal = appraise(load(demos()["dairy_with_leftovers"]))
    facts = dict(
        inputs=appraisal.inputs, stored=appraisal.values, timeline=appraisal.timeline, labels=input_labels(appraisal)
    )
    assert workbook(appraisal.plan, **facts)[0] == workbook(appraisal.plan, **facts)[0]
