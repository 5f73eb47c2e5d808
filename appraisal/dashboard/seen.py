"""What a screen is given: one scenario with its results, and how the reader wants to see them."""

from __future__ import annotations

from dataclasses import dataclass, replace
from typing import Literal

from appraisal.appraise import Appraisal, said_anew
from appraisal.scenario.load import Loaded

Reader = Literal["family", "bank", "grant"]
System = Literal["metric", "us"]
SYSTEMS: dict[str, str] = {"metric": "tonnes, litres, °C", "us": "short tons, gallons, °F"}


@dataclass(frozen=True, eq=False)
class Seen:
    """One scenario as a reader looks at it.

    loaded, appraisal: with the levers as they stand. plain: the case of the draft when a lever is moved, else None.
    reader: for whom the results are arranged. units: shown, already set in both appraisals. draft: its id.
    """

    loaded: Loaded
    appraisal: Appraisal
    plain: Appraisal | None
    reader: Reader
    units: System
    draft: str


def loaded_in_units(loaded: Loaded, units: System) -> Loaded:
    """The same scenario shown in one unit system; the fingerprint stays that of the file."""
    project = loaded.scenario.project.model_copy(update={"display_units": units})
    return replace(loaded, scenario=loaded.scenario.model_copy(update={"project": project}))


def in_units(appraisal: Appraisal, units: System) -> Appraisal:
    """The same results shown in one unit system; nothing is computed anew."""
    if appraisal.loaded.scenario.project.display_units == units:
        return appraisal
    return said_anew(appraisal, loaded_in_units(appraisal.loaded, units))
