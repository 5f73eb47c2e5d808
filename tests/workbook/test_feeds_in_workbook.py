"""What no demo switches on about feeds is in the workbook too: manure by milk, measured manure, sand, ageing, lorries."""

from __future__ import annotations

from pathlib import Path

import pytest

from appraisal.lines.evaluate import evaluate
from appraisal.model import inputs as model_inputs
from appraisal.reports.export import input_labels
from appraisal.reports.workbook import workbook
from tests.properties.test_feed_properties import rich
from tests.workbook.office import recalculated
from tests.workbook.test_workbook_equals_engine import changed, compared

pytestmark = pytest.mark.office


def test_every_kind_of_manure_and_delivery_is_recalculated(tmp_path: Path) -> None:
    case, path = rich(), tmp_path / "feeds.xlsx"
    moved = changed(case, 3)
    content, plot = workbook(case.plan, inputs=moved, stored=case.values, timeline=case.timeline, labels=input_labels(case))
    path.write_bytes(content)
    lines = evaluate(case.plan, model_inputs(case.structure, moved))
    assert lines["grit_settled"].sum() > 0 and lines["substrate.milkers.lost_solids"].sum() > 0
    assert compared(recalculated([path], tmp_path)[0], plot, lines) == []
