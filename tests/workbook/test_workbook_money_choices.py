"""The workbook equals the engine under every choice about money, at changed inputs."""

from __future__ import annotations

from pathlib import Path

import pytest

from appraisal.lines.evaluate import evaluate
from appraisal.model import inputs as model_inputs
from appraisal.reports.export import input_labels
from appraisal.reports.workbook import workbook
from tests.money_cases import CASES, appraised
from tests.workbook.office import recalculated
from tests.workbook.test_workbook_equals_engine import changed, compared

pytestmark = pytest.mark.office


@pytest.mark.parametrize("name", sorted(CASES))
def test_recalculated_workbook_equals_engine(name: str, tmp_path: Path) -> None:
    appraisal, cases = appraised(name), []
    for seed in range(2):
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
