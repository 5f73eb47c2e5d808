"""The recalculated workbook equals the engine under every way of counting greenhouse gases."""

from __future__ import annotations

from pathlib import Path

import pytest

from appraisal.appraise import appraise
from appraisal.lines.evaluate import evaluate
from appraisal.model import inputs as model_inputs
from appraisal.reports.export import input_labels
from appraisal.reports.workbook import workbook
from tests import credit_scenarios, emission_scenarios, land_scenarios
from tests.workbook.office import recalculated
from tests.workbook.test_workbook_equals_engine import changed, compared

pytestmark = pytest.mark.office


SETS = {"emissions": emission_scenarios, "credits": credit_scenarios, "land": land_scenarios}
PLAIN = ("store_never_emptied", "sold_short", "wide_land", "no_p_rule")  # no choice that another case does not have


@pytest.mark.parametrize("name", SETS)
def test_every_way_of_counting_equals_the_engine(name: str, tmp_path: Path) -> None:
    cases = []
    for seed, each in enumerate(each for each in SETS[name].CASES if each not in PLAIN):
        appraisal = appraise(SETS[name].scenario(each))
        moved, path = changed(appraisal, seed), tmp_path / f"{each}.xlsx"
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
