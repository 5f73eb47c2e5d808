"""A check for machines without an office program: formulas of a two-year book worked out in Python, against the engine.

The package reads formulas one by one, far too slowly for a whole book; some lines of one month, with every cell they rest
on, take a minute at most.
"""

from __future__ import annotations

from pathlib import Path

import numpy as np
import pytest

from appraisal.appraise import appraise
from appraisal.demos import demos
from appraisal.reports.export import input_labels
from appraisal.reports.layout import letter
from appraisal.reports.workbook import workbook
from appraisal.scenario.load import load, with_values

MONTH = 5  # the third month of feeding
LINES = ("power_sales", "digestate_mass", "running_costs", "project_cash_before_tax")


@pytest.mark.filterwarnings("ignore")
def test_formulas_worked_out_in_python_equal_the_engine(tmp_path: Path) -> None:
    formulas = pytest.importorskip("formulas")
    loaded = load(demos()["small_herd_manure_only"])
    short = {f"loan.{name}.{key}": value for name in loaded.scenario.loan for key, value in LOAN.items()}
    case = appraise(with_values(loaded, {**short, "project.years": 2, "project.build_months": 3}))
    nothing = {name: np.zeros_like(array) for name, array in case.values.items()}
    content, plot = workbook(
        case.plan, inputs=case.inputs, stored=nothing, timeline=case.timeline, labels=input_labels(case)
    )
    path = tmp_path / "book.xlsx"
    path.write_bytes(content)
    places = {name: plot.places[name] for name in LINES}
    cells = {name: f"{place.sheet.upper()}'!{letter(MONTH)}{place.row + 1}" for name, place in places.items()}
    model = formulas.ExcelModel().from_ranges(*(f"'{path.parent}/[{path.name}]{cell}" for cell in cells.values()))
    model.finish(complete=False)
    worked = model.calculate()
    for name, cell in cells.items():
        (found,) = (value for key, value in worked.items() if str(key).upper().endswith(f"]{cell}".upper()))
        want = case.values[name][0, MONTH]
        assert want != 0
        assert float(found.value[0, 0]) == pytest.approx(want, rel=1e-9), name


LOAN = {"years": 1, "interest_only_months": 3}
