"""Gas, power and heat of the first full year, and month by month."""

from __future__ import annotations

from appraisal.dashboard import blocks
from appraisal.dashboard.seen import Seen
from appraisal.present import design_sheet, tables


def show(seen: Seen) -> None:
    """Draw the screen."""
    blocks.table(tables.feeds_table(seen.appraisal))
    blocks.table(tables.plant_table(seen.appraisal))
    for each in design_sheet.design_tables(seen.appraisal):
        blocks.table(each)
