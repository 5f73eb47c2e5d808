"""Grant tables on the land: nutrients, and the land they need."""

from __future__ import annotations

import numpy as np

from appraisal.present.grant_tables_plant import of_year
from appraisal.present.numbers import percent
from appraisal.present.tables import Table, units_of
from appraisal.present.words import BLANK
from appraisal.risk.material import Planned

NUTRIENTS = (
    ("Nitrogen (N)", "nitrogen"),
    ("Phosphorus (P)", "phosphorus"),
    ("Potassium (K)", "potassium"),
)


def nutrients(found: Planned) -> Table:
    """Nutrients that come with manure and with what is brought in, what leaves, and what they press on the land."""
    appraisal, units = found.appraisal, units_of(found.appraisal)
    own = float(appraisal.values["own_land"][0, 0])
    rows = []
    for label, name in NUTRIENTS:
        herds = sum(of_year(appraisal, f"substrate.{herd}.{name}") for herd in appraisal.structure.items["herd"])
        brought = sum(of_year(appraisal, f"substrate.{feed}.{name}") for feed in appraisal.structure.items["feed"])
        digestate, replaced = of_year(appraisal, f"digestate_{name}"), of_year(appraisal, f"{name}_replaced")
        cells = [units.cells(value, "kg")[0] for value in (herds, brought, digestate, replaced)]
        pressure = units.amount(brought / own, "kg/ha") if own else BLANK
        more = percent(brought / herds) if herds else ""
        rows.append((label, *cells, units.cells(0.0, "kg")[1], more, pressure))
    head = ("nutrient", "from the\nherds", "brought in\nwith feeds", "in the\ndigestate", "fertilizer\nreplaced", "unit a year",
            "brought in,\nover herds", "brought in per\nown land and year")  # fmt: skip
    return Table(f"Nutrients in project year {appraisal.plant.year}, elements", head, tuple(rows))


def land(found: Planned) -> Table:
    """Land that the digestate needs and there is; empty where the scenario does not hold the land against it."""
    appraisal, units, year = found.appraisal, units_of(found.appraisal), found.appraisal.plant.year - 1
    title = f"Land for the digestate in project year {year + 1}"
    head = ("what", "amount", "unit")
    if "land_needed" not in appraisal.values:
        return Table(title, head, (("Land held against the nutrients", BLANK, ""),))
    lines = (
        ("Needed by the limit of nitrogen", "land_for_nitrogen"),
        ("Needed by the rule of phosphorus", "land_for_phosphorus"),
        ("Needed", "land_needed"),
        ("The farm's own", "own_land"),
        ("With land of others", "land_in_all"),
        ("Missing", "land_missing"),
    )
    areas = [
        (label, np.broadcast_to(appraisal.values[name][0], (appraisal.timeline.years,))[year]) for label, name in lines
    ]
    rows = [(label, *units.cells(float(area), "ha")) for label, area in areas]
    rows += [
        (label, *units.cells(of_year(appraisal, name), "t"))
        for label, name in (
            ("Digestate", "digestate_mass"),
            ("Digestate to land of others", "digestate_to_others"),
            ("Digestate that finds no land", "digestate_exported"),
        )
    ]
    return Table(title, head, tuple(rows))
