"""The whole workbook equals the engine under every choice about money, at changed inputs: lines, years, measures, checks."""

from __future__ import annotations

from pathlib import Path

import pytest

from tests.money_cases import CASES, appraised
from tests.workbook.test_whole_book import prove
from tests.workbook.test_workbook_equals_engine import changed

pytestmark = pytest.mark.office
SEEDS = range(2)


@pytest.mark.parametrize("name", sorted(CASES))
def test_recalculated_workbook_equals_engine(name: str, tmp_path: Path) -> None:
    case = appraised(name)
    prove([(f"{name}{seed}", case, changed(case, seed)) for seed in SEEDS], tmp_path)
