"""Digestate and land, and what is kept out of the air."""

from __future__ import annotations

from appraisal.dashboard import blocks
from appraisal.dashboard.seen import Seen
from appraisal.dashboard.showing import picture
from appraisal.present import emission_tables, grant_tables_land, grant_tables_plant
from appraisal.present.charts.air import with_and_without
from appraisal.present.charts.land import nutrients_against_land
from appraisal.risk.material import Planned


def show(seen: Seen) -> None:
    """Draw the screen: the grant office sees the air first, the others the land."""
    found = seen.appraisal
    drawn = {"land": nutrients_against_land, "air": with_and_without}
    for name in ("air", "land") if seen.reader == "grant" else ("land", "air"):
        picture(drawn[name](found), key=name, roomy=True)
    if seen.reader == "grant":
        for make in (grant_tables_land.nutrients, grant_tables_land.land, grant_tables_plant.waste):
            blocks.table(make(Planned(found)))
    behind = "Year by year, and who may claim what is kept out of the air" if seen.reader == "family" else ""
    counted = (emission_tables.emissions_by_year_table(found), emission_tables.tonnes_table(found))
    blocks.tables(counted, behind=behind)
