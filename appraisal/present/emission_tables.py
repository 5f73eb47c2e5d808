"""Greenhouse gases with and without the plant: tables and the JSON object, by source and project year."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from dataclasses import dataclass
from typing import Any

import numpy as np
import numpy.typing as npt

from appraisal.appraise import Appraisal
from appraisal.present.footing import Whole, crossed, whole
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
    Source("fertilizer", "Making of fertilizer", "fertilizer", ("without_fertilizer",), ("with_fertilizer",)),
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


@dataclass(frozen=True, eq=False)
class Footed:
    """Whole tonnes by source and project year that add up along and down; without, with_plant (sources, years) [t CO2e]."""

    without: Whole
    with_plant: Whole

    @property
    def avoided(self) -> Whole:
        """By project year over all sources (years,); what the plant adds is negative."""
        less: Whole = (self.without - self.with_plant).sum(axis=0)
        return less


def footed(appraisal: Appraisal) -> Footed:
    """Both sides in whole tonnes: all tables of greenhouse gases read these, so that they tie."""
    return Footed(
        _side(appraisal, [source.without for source in SOURCES]),
        _side(appraisal, [source.with_plant for source in SOURCES]),
    )


def _side(appraisal: Appraisal, lines: Sequence[tuple[str, ...]]) -> Whole:
    """One side; the first full year, which every text names, is rounded by itself, the others take what is left."""
    exact, year = np.array([by_year(appraisal, *names) for names in lines]), appraisal.plant.year - 1
    named, others = whole(exact[:, year]), np.delete(exact, year, axis=1)
    left = whole(exact.sum(axis=1)) - named
    years = whole(others.sum(axis=0), total=int(left.sum()))
    return np.insert(crossed(others.T, rows=years, columns=left).T, year, named, axis=1)


def emissions_table(appraisal: Appraisal) -> Table:
    """By source: without the plant, with it and the difference, in the first full year and over all years."""
    year, found = appraisal.plant.year - 1, footed(appraisal)
    one = np.column_stack([found.without[:, year], found.with_plant[:, year]])
    all_years = np.column_stack([found.without.sum(axis=1), found.with_plant.sum(axis=1)])
    cells = np.column_stack([one, one[:, 0] - one[:, 1], all_years, all_years[:, 0] - all_years[:, 1]])
    rows = [(source.label, *_text(line)) for source, line in zip(SOURCES, cells, strict=True) if line.any()]
    rows.append(("All", *_text(cells.sum(axis=0))))
    return Table(
        f"Greenhouse gases, t CO2e ({basis(appraisal)})",
        ("source", *(f"{when}\n{side}" for when in (f"year {year + 1}", "all years") for side in ("without", "with", "avoided"))),
        tuple(rows),
    )


def emissions_by_year_table(appraisal: Appraisal) -> Table:
    """By project year: without, with, avoided, and what each source adds to the avoided; negative where the plant adds."""
    found = footed(appraisal)
    parts = found.without - found.with_plant
    shown = [place for place in range(len(SOURCES)) if found.without[place].any() or found.with_plant[place].any()]
    columns = (found.without.sum(axis=0), found.with_plant.sum(axis=0), found.avoided, *parts[shown])
    heads = ("year", "without", "with", "avoided", *(SOURCES[place].head for place in shown))
    return Table(f"Avoided by source and project year, t CO2e ({basis(appraisal)})", heads, _years(columns))


def _years(columns: Sequence[Whole]) -> tuple[tuple[str, ...], ...]:
    """A row for each project year, and one for all of them."""
    cells = np.column_stack(columns)
    rows = tuple((str(year), *_text(line)) for year, line in enumerate(cells, start=1))
    return (*rows, ("all", *_text(cells.sum(axis=0))))


TONNES = (
    ("made", "made", "tonnes_made"),
    ("beyond", "sold, claimed\nbeyond that", "tonnes_beyond"),
    ("sold", "sold", "tonnes_sold"),
    ("withheld", "withheld by\nprogramme", "tonnes_withheld"),
    ("claimed_elsewhere", "claimed\nelsewhere", "tonnes_claimed_elsewhere"),
    ("claimable", "claimable", "tonnes_claimable"),
)


def tonnes_to_claim(appraisal: Appraisal) -> bool:
    """Is there a tonne in any year that somebody could claim? Where not, the table of claims is all zeros."""
    return any(bool(np.any(by_year(appraisal, line))) for _, _, line in TONNES)


def tonnes_table(appraisal: Appraisal) -> Table:
    """By project year: tonnes made, and those sold or claimed beyond that; sold, withheld, claimed elsewhere, and left to claim.

    The first two columns together are the other four together. Where the plant adds emissions in some months, two columns
    stand before them: avoided, as in the tables by source, and what those months add; their sum is made.
    """
    exact = {name: by_year(appraisal, line) for name, _, line in TONNES}
    avoided, heads = footed(appraisal).avoided, tuple(head for _, head, _ in TONNES)
    added = _added(appraisal, avoided, exact["made"])
    made, beyond = avoided + added, whole(exact["beyond"])
    where = np.column_stack([exact[name] for name, _, _ in TONNES[2:]])
    taken = crossed(where, rows=made + beyond, columns=whole(where.sum(axis=0), total=int((made + beyond).sum())))
    columns = [made, beyond, *taken.T]
    if added.any():
        columns, heads = [avoided, added, *columns], ("avoided", "in months\nthat add", *heads)
    title = f"Who may claim the tonnes, t CO2e ({basis(appraisal)})"
    return Table(title, ("year", *heads), _years(columns))


def _added(appraisal: Appraisal, avoided: Whole, made: Array) -> Whole:
    """What the months add in which the plant gives off more than is avoided; whole tonnes by project year [t CO2e]."""
    added = whole(made - by_year(appraisal, "emissions_avoided"))
    return np.where(made == 0, -avoided, added)


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


def _text(cells: Whole) -> tuple[str, ...]:
    return tuple(f"{cell:,d}" for cell in cells.tolist())
