"""The published plants of `plants/`: appraised as they stand or changed, and what is read off them."""

from __future__ import annotations

from functools import cache
from pathlib import Path

from appraisal.appraise import Appraisal, appraise
from appraisal.errors import Finding
from appraisal.lines.evaluate import year_sum
from appraisal.scenario.load import load, loads

PLANTS = Path(__file__).parent / "plants"
Swaps = tuple[tuple[str, str], ...]


@cache
def published(name: str, swaps: Swaps = ()) -> Appraisal:
    """Appraise a published plant, with passages of its file exchanged; each passage must stand there exactly once."""
    if not swaps:
        return appraise(load(PLANTS / f"{name}.toml"))
    text = (PLANTS / f"{name}.toml").read_text("utf-8")
    for old, new in swaps:
        assert text.count(old) == 1, old
        text = text.replace(old, new)
    return appraise(loads(text))


def at(appraisal: Appraisal, where: str) -> list[Finding]:
    """Findings about one line or input."""
    return [finding for finding in appraisal.findings if finding.where == where]


def in_plant_year(appraisal: Appraisal, line: str) -> float:
    """Sum of a line over the first full year."""
    return float(year_sum(appraisal.values[line])[0, appraisal.plant.year - 1])
