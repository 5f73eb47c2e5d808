"""What to ask about land and store: hectares that are missing, and a store too small for the closed months."""

from __future__ import annotations

from collections.abc import Iterator

import numpy as np

from appraisal.errors import Finding
from appraisal.scenario.model import Scenario
from appraisal.scenario.said import said
from appraisal.technical_yield.plant_year import PlantYear, Values, months_of

RULES = "limits for nutrients and crops as the scenario has them"
STORE = "volume of the scenario less freeboard; closed months differ by place"


def findings(scenario: Scenario, values: Values, plant: PlantYear) -> tuple[Finding, ...]:
    """All findings on land and store of one case (the first draw)."""
    return (*_land(scenario, values, plant), *_store(scenario, values))


def _land(scenario: Scenario, values: Values, plant: PlantYear) -> Iterator[Finding]:
    if scenario.land.count == "not_counted":
        return
    year = plant.year - 1
    needed = {nutrient: float(values[f"land_for_{nutrient}"][0, year]) for nutrient in ("nitrogen", "phosphorus")}
    have, missing = float(values["land_in_all"][0, 0]), float(values["land_missing"][0, year])
    if missing > 0:
        nutrient = max(needed, key=needed.__getitem__)
        exported = float(months_of(values, "digestate_exported", year=plant.year).sum())
        what = (
            f"The {nutrient} of the digestate needs {said(scenario, needed[nutrient], 'ha')} and there are "
            f"{said(scenario, have, 'ha')}: "
            f"{said(scenario, missing, 'ha')} are missing in project year {plant.year}, and {said(scenario, exported, 't')} "
            "of digestate must leave."
        )
        yield Finding("land_missing", what, "warning", needed[nutrient], have, "ha", RULES)
    parts = ("fertilizer_saved", "extra_spreading", "digestate_haul", "digestate_export")
    net = sum(float(months_of(values, part, year=plant.year).sum()) for part in parts)
    if net < 0:
        what = (
            f"Fertilizer turns into a cost: what the digestate saves, less its spreading, haul and export, is {net:,.0f} "
            f"{scenario.project.currency} in project year {plant.year}. Nutrients that find no land are a burden, not an "
            "income."
        )
        yield Finding("fertilizer_saved", what, "warning", net, 0.0, "money/year", RULES)


def _store(scenario: Scenario, values: Values) -> Iterator[Finding]:
    room, fullest = float(values["store_room"][0, 0]), float(values["store_filled"][0].max())
    if scenario.store.volume_m3 > 0 and fullest > room:
        months = int(np.sum(values["store_filled"][0] > room))
        what = (
            f"The digestate store fills to {said(scenario, fullest, 'm3')} and holds {said(scenario, room, 'm3')} with its "
            "freeboard: it is full in "
            f"{months} month{'s' if months != 1 else ''} of the plan."
        )
        yield Finding("store_filled", what, "stop and ask", fullest, room, "m3", STORE)
