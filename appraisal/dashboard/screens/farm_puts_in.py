"""What the farm puts in."""

from __future__ import annotations

from appraisal.dashboard import blocks
from appraisal.dashboard.seen import Seen
from appraisal.present import tables


def show(seen: Seen) -> None:
    """Draw the screen."""
    blocks.table(tables.farm_now_table(seen.appraisal))
