"""What a result on the sheet of measures is: its formula, and the tool's figure at export."""

from __future__ import annotations

from dataclasses import dataclass

import numpy as np

from appraisal.measures.arrays import FloatArray, Measured

Stored = float | str
VALUE, EXPORTED = "C", "D"
FORMS = {
    "money": "#,##0",
    "money/year": "#,##0",
    "share/year": "0.00%",
    "year": "0.0",
    "1": "0.000",
    "money/kWh": "0.0000",
}
NOTHING, NO_DEBT, NEVER, NONE = "nothing to divide by", "no debt due", "never", "none"


@dataclass(frozen=True)
class Result:
    """One measure: what it is, unit, formula, the tool's figure at export (or its status in words), and a note."""

    label: str
    unit: str
    formula: str
    stored: Stored
    note: str = ""


@dataclass(frozen=True)
class Written:
    """Where a result stands (row, 0-based), and what the tool had at export."""

    row: int
    stored: Stored


def known(measure: Measured, place: int = 0) -> Stored:
    """Value of the first draw, or its status in words."""
    value = float(measure.value[place])
    return value if np.isfinite(value) else measure.words[place]


def number(array: FloatArray) -> float:
    """The first draw of an array."""
    return float(np.ravel(array)[0])


def quotient(top: str, bottom: str) -> str:
    """Top over bottom, or the word for a divisor that is not above zero."""
    return f'=IF({bottom}>0,({top})/({bottom}),"{NOTHING}")'
