"""Figures that the answers to records of emissions.json share."""

from __future__ import annotations

from typing import Any

from appraisal.constants import CONSTANTS
from appraisal.scenario.reference import figure
from appraisal.timeline import DAYS

Values = dict[str, Any]
FIXED = {constant.name: constant.value for constant in CONSTANTS}
DAYS_A_YEAR = sum(DAYS)
KG = 1000.0  # in a tonne


def of(table: str, id: str, column: str = "mid") -> float:
    """One figure of a reference table."""
    return figure(table, id, column).value
