"""One assumption: a value in use, how it was written, and where it comes from."""

from __future__ import annotations

from dataclasses import dataclass
from typing import Literal

from appraisal.scenario.quantity import Declaration

Origin = Literal["scenario", "default", "reference", "computed"]
Value = float | int | str | tuple[float, ...]


@dataclass(frozen=True, kw_only=True)
class Assumption:
    """One declared input of one scenario, ready to be listed.

    path: dotted path of the field.
    value: in the declaration's unit; a profile holds twelve, January first.
    declaration: label, unit, range and help of the field.
    given_as: text as the file has it where that is not the value itself, for example "5200 short_ton/year"; else empty.
    origin: the scenario file, the declaration's default, a reference table, or worked out from other fields.
    source: where the value comes from, empty when nobody said.
    known: how it is known (quote, measured, read, from memory, guess ...), empty when nobody said.
    low, high: the reference figure's own range, in the declaration's unit; None when there is none.
    """

    path: str
    value: Value
    declaration: Declaration
    given_as: str = ""
    origin: Origin
    source: str = ""
    known: str = ""
    low: float | None = None
    high: float | None = None
