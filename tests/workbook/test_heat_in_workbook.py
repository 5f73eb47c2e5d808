"""What no demo switches on about heat is in the workbook too: mains, drying, a cone, frozen feed, a named backup fuel."""

from __future__ import annotations

from pathlib import Path

import pytest

from appraisal.lines.evaluate import evaluate
from appraisal.model import inputs as model_inputs
from appraisal.reports.export import input_labels
from appraisal.reports.workbook import workbook
from tests.properties.warm_plant import KINDS, full
from tests.workbook.office import recalculated
from tests.workbook.test_workbook_equals_engine import changed, compared

pytestmark = pytest.mark.office


def test_choices_of_heat_are_recalculated(tmp_path: Path) -> None:
    cases = []
    for seed, kind in enumerate(KINDS[1:]):
        case = full(*kind)
        moved, path = changed(case, seed), tmp_path / f"{kind[0]}.xlsx"
        content, plot = workbook(
            case.plan, inputs=moved, stored=case.values, timeline=case.timeline, labels=input_labels(case))
        path.write_bytes(content)
        cases.append((path, plot, evaluate(case.plan, model_inputs(case.structure, moved))))
    for path, (_, plot, lines) in zip(recalculated([path for path, _, _ in cases], tmp_path), cases, strict=True):
        assert lines["heat_sold"].sum() > 0
        assert compared(path, plot, lines) == []
