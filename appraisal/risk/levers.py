"""A few things a reader may move by hand and see what comes of it: the ready-made drivers, within a small reach."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass

from appraisal.appraise import Appraisal
from appraisal.lines.evaluate import year_sum
from appraisal.risk.cases import Case, lost_contracts
from appraisal.risk.changes import Change, changed_values
from appraisal.risk.drivers import Driver, changes_of, standard_drivers
from appraisal.risk.ranges_moved import with_ranges
from appraisal.scenario.load import Loaded


@dataclass(frozen=True)
class Lever:
    """One thing to move: a driver by its label, how far it may go on either side of the plan and in which steps.

    low, high, step: of the move, 0 being the plan, in the driver's unit. label: for people.
    """

    name: str
    label: str
    driver: str
    low: float
    high: float
    step: float


LEVERS = (
    Lever("price", "Price of energy sold", "Price of energy sold", -0.4, 0.4, 0.05),
    Lever("fees", "Tipping fees", "Tipping fees", -1.0, 0.5, 0.1),
    Lever("gas", "Less gas than planned", "Gas", 0.0, 0.4, 0.05),
    Lever("capital", "Cost of building", "Building costs", -0.3, 0.6, 0.05),
    Lever("interest", "Interest, points more or less", "Interest on the loans", -0.02, 0.05, 0.005),
)
LOST = "lost"  # name under which a lost contract stands among the moves of a reader


def levers_of(loaded: Loaded) -> tuple[Lever, ...]:
    """The levers that this scenario has."""
    there = {driver.label for driver in standard_drivers(loaded)}
    return tuple(lever for lever in LEVERS if lever.driver in there)


def contracts_by_gas(appraisal: Appraisal) -> tuple[Case, ...]:
    """The cases of a lost contract, the one with most gas in the first full year first."""
    year = appraisal.plant.year - 1

    def gas(case: Case) -> float:
        name = case.name.removeprefix("lost_")
        return float(year_sum(appraisal.values[f"substrate.{name}.methane"])[0, year])

    return tuple(sorted(lost_contracts(appraisal.loaded), key=gas, reverse=True))


def with_levers(loaded: Loaded, moves: Mapping[str, float], *, lost: str | None = None) -> Loaded:
    """The scenario with levers moved, read anew, its ranges moved along.

    moves: lever name -> move. lost: name of the case of a lost contract. Raises RiskError where it cannot be.
    """
    drivers = {driver.label: driver for driver in standard_drivers(loaded)}
    changes = [
        change for lever in levers_of(loaded) for change in _changes(drivers[lever.driver], moves.get(lever.name, 0))
    ]
    changes += [change for case in lost_contracts(loaded) if case.name == lost for change in case.changes]
    return with_ranges(loaded, changed_values(loaded, changes), changes)


def _changes(driver: Driver, move: float) -> tuple[Change, ...]:
    return changes_of(driver, min(max(move, driver.low), driver.high)) if move else ()
