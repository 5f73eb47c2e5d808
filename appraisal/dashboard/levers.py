"""A few levers above the results: what if the price, the gas, the costs were otherwise? Beside them the unchanged case."""

from __future__ import annotations

from appraisal.scenario.load import Loaded


def show(loaded: Loaded) -> None:
    """Draw the levers."""


def moved(loaded: Loaded) -> Loaded | None:
    """The scenario with the levers as they stand; None when all are at rest."""
    return None
