"""Grant tables on the land: nutrients, and the land they need."""

from __future__ import annotations

import numpy as np

from appraisal.appraise import Appraisal
from appraisal.present.footing import whole
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
AT_PHOSPHORUS, AT_NEEDED = 1, 2  # rows of the land needed by the rule of phosphorus, and in all


def nutrients(found: Planned) -> Table:
    """Nutrients that come with manure and with what is brought in, what is lost and held, and what they press on the land."""
    appraisal, units = found.appraisal, units_of(found.appraisal)
    own = float(appraisal.values["own_land"][0, 0])
    rows = []
    for label, name in NUTRIENTS:
        herds, brought, lost, replaced = _flows(appraisal, name)
        whole_parts = whole(np.array([units.number(part, "kg")[0] for part in (herds, brought, -lost)]))
        cells = (*whole_parts[:2], -whole_parts[2], whole_parts.sum(), round(units.number(replaced, "kg")[0]))
        pressure = units.cells(brought / own, "kg/ha")[0] if own else BLANK
        more = percent(brought / herds) if herds else ""
        unit = units.number(0.0, "kg")[1]
        rows.append((label, *(f"{int(cell):,d}" for cell in cells), unit, more, pressure))
    head = ("nutrient", "from the\nherds", "brought in\nwith feeds", "lost as\ngas", "in the\ndigestate",
            "fertilizer\nreplaced", "unit a year", "brought in,\nover herds",
            f"brought in per own\nland, {units.cells(0.0, 'kg/ha')[1]} a year")  # fmt: skip
    return Table(f"Nutrients in project year {appraisal.plant.year}, elements", head, tuple(rows))


def _flows(appraisal: Appraisal, name: str) -> tuple[float, float, float, float]:
    """One nutrient in the first full year: from the herds, brought in, lost in the plant, fertilizer replaced [kg/year]."""
    herds, brought = (
        sum(of_year(appraisal, f"substrate.{each}.{name}") for each in appraisal.structure.items[kind])
        for kind in ("herd", "feed")
    )
    return herds, brought, of_year(appraisal, f"{name}_lost"), of_year(appraisal, f"{name}_replaced")


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
    )
    areas = [
        (label, np.broadcast_to(appraisal.values[name][0], (appraisal.timeline.years,))[year]) for label, name in lines
    ]
    shown = [round(units.number(float(area), "ha")[0], 1) for _, area in areas]
    shown.append(max(shown[AT_NEEDED] - shown[-1], 0.0))
    unit = units.number(0.0, "ha")[1]
    names = (*(label for label, _ in areas), "Missing")
    rows = [(label, f"{area:,.1f}", unit) for label, area in zip(names, shown, strict=True)]
    if not np.any(appraisal.values["land_for_phosphorus"]):
        rows[AT_PHOSPHORUS] = (names[AT_PHOSPHORUS], "no rule stated", "")
    return Table(title, head, (*rows, *_digestate(appraisal)))


def _digestate(appraisal: Appraisal) -> tuple[tuple[str, str, str], ...]:
    """Where the digestate of the first full year goes, whole and footing."""
    units = units_of(appraisal)
    parts = {label: of_year(appraisal, name) for label, name in (
        ("Separated solids sold", "solids_sold"),
        ("Digestate to land of others", "digestate_to_others"),
        ("Digestate that finds no land", "digestate_exported"),
    )}  # fmt: skip
    every = of_year(appraisal, "digestate_mass")
    parts = {"Digestate on the farm's own land": every - sum(parts.values()), **parts}
    made = whole(np.array([units.number(part, "t")[0] for part in parts.values()]))
    unit = units.number(0.0, "t")[1]
    rows = (("Digestate", int(made.sum())), *zip(parts, made.tolist(), strict=True))
    return tuple((label, f"{mass:,d}", unit) for label, mass in rows if mass or label != "Separated solids sold")
