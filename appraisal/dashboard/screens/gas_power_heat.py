"""Gas, power and heat of the first full year, and month by month."""

from __future__ import annotations

from appraisal.dashboard import blocks
from appraisal.dashboard.seen import Seen
from appraisal.dashboard.showing import picture
from appraisal.present import design_sheet, grant_tables_plant, tables
from appraisal.present.charts.gas_by_feed import gas_by_feed
from appraisal.present.charts.gas_energy import gas_energy
from appraisal.present.charts.heat import heat_by_month
from appraisal.risk.material import Planned


def show(seen: Seen) -> None:
    """Draw the screen: the family asks whose gas it is first, the others where its energy goes."""
    found = seen.appraisal
    makers = {"feeds": gas_by_feed, "energy": gas_energy, "heat": heat_by_month}
    first = ("feeds", "energy", "heat") if seen.reader != "grant" else ("energy", "heat", "feeds")
    for name in first:
        picture(makers[name](found), key=name, stretch=name != "energy", roomy=name == "feeds")
    if seen.reader == "grant":
        for make in (grant_tables_plant.energy, grant_tables_plant.energy_history):
            blocks.table(make(Planned(found)))
    blocks.table(tables.feeds_table(found))
    blocks.table(tables.plant_table(found))
    behind = "Month by month, for whoever plans the plant" if seen.reader == "family" else ""
    blocks.tables(design_sheet.design_tables(found), behind=behind)
