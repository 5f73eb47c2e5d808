"""The choices of gas, engine and grid that the demonstration farms do not make, through the spreadsheet program."""

from __future__ import annotations

from pathlib import Path

import pytest

from appraisal.lines.evaluate import evaluate
from appraisal.model import inputs as model_inputs
from appraisal.reports.export import input_labels
from appraisal.reports.workbook import workbook
from tests.properties.gas_choices import NAMES, chosen
from tests.workbook.office import recalculated
from tests.workbook.test_workbook_equals_engine import changed, compared

pytestmark = pytest.mark.office


def test_recalculated_workbook_equals_engine_under_every_choice(tmp_path: Path) -> None:
    cases = []
    for seed, name in enumerate(NAMES):
        appraisal = chosen(name)
        moved, path = changed(appraisal, seed), tmp_path / f"{name}.xlsx"
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
        assert compared(path, plot, lines) == [], path.name
