"""Digestate and land, and what is kept out of the air."""

from __future__ import annotations

from appraisal.dashboard import blocks
from appraisal.dashboard.seen import Seen
from appraisal.present import emission_tables


def show(seen: Seen) -> None:
    """Draw the screen."""
    blocks.table(emission_tables.emissions_table(seen.appraisal))
    blocks.table(emission_tables.emissions_by_year_table(seen.appraisal))
    blocks.table(emission_tables.tonnes_table(seen.appraisal))
