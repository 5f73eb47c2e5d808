"""The invented demonstration farms, appraised once a test process."""

from __future__ import annotations

from functools import cache
from pathlib import Path

import numpy as np
import numpy.typing as npt

from appraisal.appraise import Appraisal, appraise
from appraisal.scenario.load import load

FOLDER = Path(__file__).parents[1] / "demo_scenarios"
DAIRY, SMALL, SHARED = "dairy_with_leftovers", "small_herd_manure_only", "shared_plant_three_farms"
SHORT = "leftovers_outgrow_land"
CHEESE = "heat_for_the_cheese_dairy"
NAMES = (DAIRY, SMALL, SHARED, SHORT, CHEESE)
Array = npt.NDArray[np.float64]


@cache
def demo(name: str) -> Appraisal:
    """Appraise one demonstration farm."""
    return appraise(load(FOLDER / f"{name}.toml"))
