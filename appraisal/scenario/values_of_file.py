"""Which numbers of a scenario stand in its file in money of its first month."""

from __future__ import annotations

from collections.abc import Iterator

from appraisal.scenario.load import Loaded

FIXED = ("grant.", "whole_farm.")  # ceilings of programmes and accounts of the past do not rise by waiting


def given_money(loaded: Loaded) -> Iterator[str]:
    """Paths of the money that the file gives, apart from ceilings of grants and accounts of the whole farm."""
    for path, found in loaded.assumptions.items():
        in_money = found.declaration.unit.startswith("money") and not path.startswith(FIXED)
        if in_money and found.origin == "scenario" and found.declaration.kind in ("number", "profile", "path"):
            yield path
