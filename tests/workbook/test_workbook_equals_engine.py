"""The workbook is a second, independent calculation: recalculated at changed inputs, every line equals the engine."""

from __future__ import annotations

from pathlib import Path

import numpy as np
import openpyxl
import pytest

from appraisal.appraise import Appraisal, appraise
from appraisal.demos import demos
from appraisal.lines.evaluate import evaluate
from appraisal.model import inputs as model_inputs
from appraisal.model import paths
from appraisal.reports import layout as where
from appraisal.reports.export import input_labels
from appraisal.reports.layout import FIRST_COLUMN, ONCE_COLUMN, Layout
from appraisal.reports.workbook import workbook
from appraisal.scenario.load import load
from appraisal.scenario.model import declared
from tests.workbook.office import recalculated

TOLERANCE = 1e-6  # of the row's largest value
CHANGES = {"dairy_with_leftovers": 10}  # changed cases a demo; the others get FEWER
FEWER = 2
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


def compared(path: Path, plot: Layout, lines: Arrays) -> list[str]:
    """Names of lines whose recalculated row differs from the engine by more than the tolerance."""
    book = openpyxl.load_workbook(path, data_only=True, read_only=True)
    wrong = []
    for sheet, rows, count in (
        (where.MONTHS, plot.months, plot.month_count),
        (where.YEARS, plot.years, plot.year_count),
    ):
        grid = list(book[sheet].iter_rows(min_row=1, max_col=FIRST_COLUMN + count, values_only=True))
        for name, row in rows.items():
            if name not in plot.plan.nodes:
                continue
            once = plot.plan.grid(name) == "once"
            got = grid[row][ONCE_COLUMN : ONCE_COLUMN + 1] if once else grid[row][FIRST_COLUMN : FIRST_COLUMN + count]
            want = lines[name][0]
            scale = max(float(np.abs(want).max()), 1e-12)
            if (
                any(not isinstance(x, (int, float)) for x in got)
                or np.abs(np.array(got, float) - want).max() > TOLERANCE * scale
            ):
                wrong.append(name)
    book.close()
    return wrong


@pytest.mark.parametrize("name", sorted(demos()))
def test_recalculated_workbook_equals_engine(name: str, tmp_path: Path) -> None:
    appraisal = appraise(load(demos()[name]))
    cases = []
    for seed in range(CHANGES.get(name, FEWER)):
        moved, path = changed(appraisal, seed), tmp_path / f"case{seed}.xlsx"
        content, plot = workbook(
            appraisal.plan,
            inputs=moved,
            stored=appraisal.values,
            timeline=appraisal.timeline,
            labels=input_labels(appraisal),
        )
        path.write_bytes(content)
        cases.append((path, plot, evaluate(appraisal.plan, model_inputs(appraisal.structure, moved))))
    made = recalculated([path for path, _, _ in cases], tmp_path)
    for path, (_, plot, lines) in zip(made, cases, strict=True):
        assert compared(path, plot, lines) == []


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
