"""What could go wrong: what the plan must survive."""

from __future__ import annotations

from appraisal.dashboard import blocks
from appraisal.dashboard.seen import Seen
from appraisal.present import words


def show(seen: Seen) -> None:
    """Draw the screen."""
    blocks.findings(seen.appraisal.findings)
    blocks.passage(words.cautions("screen"))
