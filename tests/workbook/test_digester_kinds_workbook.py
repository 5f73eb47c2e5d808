"""Every kind of digester, with all that can happen to one: recalculated at changed inputs, every line equals the engine."""

from __future__ import annotations

from pathlib import Path

import pytest

from appraisal.lines.evaluate import evaluate
from appraisal.model import inputs as model_inputs
from appraisal.reports.export import input_labels
from appraisal.reports.workbook import workbook
from tests.properties.tanks import EVENTS, KINDS, RETURN, plant
from tests.workbook.office import recalculated
from tests.workbook.test_workbook_equals_engine import changed, compared

pytestmark = pytest.mark.office
TANKS = {
    "stirred_tank": 'kinetics = "chen_hashimoto"\nvolume_from = "sized"',
    "tanks_in_series": "second_volume_m3 = 60",
    "plug_flow": 'gas_method = "measured"\nmeasured_gas_nm3_per_day = 240',
    "covered_lagoon": "active_volume_m3 = 1500",
}


def test_every_kind_of_digester_in_the_recalculated_workbook(tmp_path: Path) -> None:
    cases = []
    for seed, kind in enumerate(KINDS):
        case = plant("small_herd_manure_only", kind, f"{TANKS[kind]}\ngrit_share_per_year = 0.03", EVENTS + RETURN)
        moved, path = changed(case, seed), tmp_path / f"{kind}.xlsx"
        facts = {"stored": case.values, "timeline": case.timeline, "labels": input_labels(case)}
        content, plot = workbook(case.plan, inputs=moved, **facts)
        path.write_bytes(content)
        cases.append((path, plot, evaluate(case.plan, model_inputs(case.structure, moved))))
    made = recalculated([path for path, _, _ in cases], tmp_path)
    for path, (_, plot, lines) in zip(made, cases, strict=True):
        assert compared(path, plot, lines) == []
        for line in ("clean_out_begins", "upset_begins", "seed_sludge_bought"):
            assert (lines[line] != 0).any(), line
