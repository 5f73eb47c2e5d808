"""The whole workbook equals the engine under every choice about money, at changed inputs: lines, years, measures, checks."""

from __future__ import annotations

from pathlib import Path

import numpy as np
import pytest

from tests.money_cases import CASES, appraised
from tests.workbook.test_whole_book import prove
from tests.workbook.test_workbook_equals_engine import changed

pytestmark = pytest.mark.office
RUNS_ON = (0,)
CLOSES = (1, 4.5)  # seed, years after the first feeding: grants, credit and penalties are due, machines are sold


@pytest.mark.parametrize("name", sorted(CASES))
def test_recalculated_workbook_equals_engine(name: str, tmp_path: Path) -> None:
    """Once for a plant that runs to the end, once for one that closes early."""
    case, (seed, years) = appraised(name), CLOSES
    closing = {**changed(case, seed), "project.closes_after_years": np.array([[years]])}
    runs_on = [(f"{name}{each}", case, changed(case, each)) for each in RUNS_ON]
    prove([*runs_on, (f"{name}_closes", case, closing)], tmp_path)
