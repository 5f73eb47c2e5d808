"""Greenhouse gases with and without the plant: tables and the JSON object, by source and project year."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass
from typing import Any

import numpy as np
import numpy.typing as npt

from appraisal.appraise import Appraisal
from appraisal.present.tables import Table
from appraisal.present.years import by_year

Array = npt.NDArray[np.float64]


@dataclass(frozen=True)
class Source:
    """One source of greenhouse gases: name in JSON, label, short head, and its lines without and with the plant."""

    name: str
    label: str
    head: str
    without: tuple[str, ...] = ()
    with_plant: tuple[str, ...] = ()


SOURCES = (
    Source(
        "manure_store",
        "Manure store today, stores with the plant",
        "stores",
        ("without_manure_methane", "without_manure_nitrous_oxide"),
        ("with_store_methane", "with_store_nitrous_oxide"),
    ),
    Source("plant_losses", "Leaks, engine slip, flare", "leaks,\nslip", (), ("with_plant_methane",)),
    Source("landfill", "Landfill, evidenced share", "landfill", ("without_landfill",)),
    Source("power", "Power from the grid", "power", ("without_power",), ("with_power",)),
    Source("fuel", "Heating fuel", "fuel", ("without_fuel",), ("with_fuel",)),
    Source("gas", "Natural gas replaced", "gas", ("without_gas",)),
    Source("fertilizer", "Making of fertilizer", "ferti-\nlizer", ("without_fertilizer",), ("with_fertilizer",)),
    Source("fields", "Nitrous oxide of fields", "fields", ("without_fields",), ("with_fields",)),
    Source("trucks", "Trucks", "trucks", (), ("with_trucks",)),
    Source("other_feed", "Feed instead of leftovers", "other\nfeed", (), ("with_other_feed",)),
)
METHODS = {
    "stated_share": "stated conversion share",
    "ipcc_2006": "IPCC 2006 by temperature",
    "ipcc_2019": "IPCC 2019 by climate zone",
    "store_model": "monthly store model",
}


def basis(appraisal: Appraisal) -> str:
    """The set of warming factors and the method, as printed beside every result."""
    given = appraisal.loaded.scenario.emissions
    method = METHODS[given.manure_method] + (f" {given.store_set}" if given.manure_method == "store_model" else "")
    return (
        f"set {given.gwp_set}: methane {given.gwp_methane:g}, nitrous oxide {given.gwp_nitrous_oxide:g} times CO2; "
        f"manure by {method}"
    )


def emissions_table(appraisal: Appraisal) -> Table:
    """By source: without the plant, with it and the difference, in the first full year and over all years."""
    year, rows = appraisal.plant.year - 1, []
    totals = np.zeros(6)
    for source in SOURCES:
        without, with_plant = by_year(appraisal, *source.without), by_year(appraisal, *source.with_plant)
        cells = np.array(
            [
                without[year],
                with_plant[year],
                without[year] - with_plant[year],
                without.sum(),
                with_plant.sum(),
                (without - with_plant).sum(),
            ]
        )
        totals = totals + cells
        if cells.any():
            rows.append((source.label, *_text(cells)))
    rows.append(("All", *_text(totals)))
    return Table(
        f"Greenhouse gases, t CO2e ({basis(appraisal)})",
        ("source", f"year {year + 1}\nwithout", "with", "avoided", "all years\nwithout", "with", "avoided"),
        tuple(rows),
    )


def emissions_by_year_table(appraisal: Appraisal) -> Table:
    """By project year: without, with, avoided, and what each source adds to the avoided; negative where the plant adds."""
    parts = {s: by_year(appraisal, *s.without) - by_year(appraisal, *s.with_plant) for s in SOURCES}
    shown = {source: row for source, row in parts.items() if row.any()}
    sums = [by_year(appraisal, name) for name in ("emissions_without", "emissions_with", "emissions_avoided")]
    rows = tuple(
        (str(year + 1), *_text(np.array([column[year] for column in (*sums, *shown.values())])))
        for year in range(appraisal.timeline.years)
    )
    heads = ("year", "without", "with", "avoided", *(source.head for source in shown))
    return Table(f"Avoided by source and project year, t CO2e ({basis(appraisal)})", heads, rows)


TONNES = (
    ("made", "made", "tonnes_made"),
    ("beyond", "given away\nbeyond that", "tonnes_beyond"),
    ("sold", "sold", "tonnes_sold"),
    ("withheld", "withheld by\nprogramme", "tonnes_withheld"),
    ("claimed_elsewhere", "claimed\nelsewhere", "tonnes_claimed_elsewhere"),
    ("claimable", "claimable", "tonnes_claimable"),
)


def tonnes_to_claim(appraisal: Appraisal) -> bool:
    """Is there a tonne in any year that somebody could claim? Where not, the table of claims is all zeros."""
    return any(bool(np.any(by_year(appraisal, line))) for _, _, line in TONNES)


def tonnes_table(appraisal: Appraisal) -> Table:
    """By project year: tonnes made and given away beyond that; sold, withheld, claimed elsewhere, and left to claim.

    The first two columns together are the other four together.
    """
    columns = [by_year(appraisal, line) for _, _, line in TONNES]
    rows = tuple(
        (str(year + 1), *_text(np.array([column[year] for column in columns])))
        for year in range(appraisal.timeline.years)
    )
    rows += (("all", *_text(np.array([column.sum() for column in columns]))),)
    title = f"Who may claim the tonnes, t CO2e ({basis(appraisal)})"
    return Table(title, ("year", *(head for _, head, _ in TONNES)), rows)


def emissions_object(appraisal: Appraisal) -> Mapping[str, Any]:
    """Everything of the two tables in t CO2e by project year, for `--json`."""
    given = appraisal.loaded.scenario.emissions
    return {
        "unit": "t CO2e",
        "gwp": {"set": given.gwp_set, "methane": given.gwp_methane, "nitrous_oxide": given.gwp_nitrous_oxide},
        "manure_method": given.manure_method,
        "sources": [
            {
                "name": source.name,
                "label": source.label,
                "without": by_year(appraisal, *source.without).tolist(),
                "with": by_year(appraisal, *source.with_plant).tolist(),
            }
            for source in SOURCES
        ],
        **{name: by_year(appraisal, f"emissions_{name}").tolist() for name in ("without", "with", "avoided")},
        "tonnes": {name: by_year(appraisal, line).tolist() for name, _, line in TONNES},
        "credits": {
            "gwp_methane": appraisal.loaded.scenario.credits.gwp_methane,
            "sold": by_year(appraisal, "credit_tonnes_sold").tolist(),
        },
    }


def _text(cells: Array) -> tuple[str, ...]:
    return tuple(f"{round(cell) or 0:,.0f}" for cell in cells.tolist())
