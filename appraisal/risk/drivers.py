"""What may move: the ready-made drivers of every plant, and any single number as a driver.

A move is a number m with 0 for the plan: a factor of 1 + m, an addition of m, or a cut of m.
"""

from __future__ import annotations

from dataclasses import dataclass
from typing import Literal

from appraisal.risk.cases import PRICES
from appraisal.risk.changes import Change, no_number, numbers
from appraisal.scenario.load import Loaded
from appraisal.scenario.named_asides import matching

LOANS = ("loan.*.amount", "loan.*.share_of_cost")
BY_ADDING = ("share", "share/year", "degC", "month", "year")
LEAST_FACTOR, GREATEST_FACTOR = (
    -2.0,
    3.0,
)  # furthest moves of a single number by a factor: to its negative, to four times
WIDEST = 1e9  # where a field has no limit


@dataclass(frozen=True)
class Driver:
    """Something that may move: its label, the kind of move and its patterns; unit and reach of the move.

    low, high: the furthest moves tried, on either side of 0.
    """

    label: str
    kind: Literal["times", "plus", "less"]
    patterns: tuple[str, ...]
    unit: str
    low: float
    high: float


STANDARD: tuple[Driver, ...] = (
    Driver("Building costs", "times", ("capital.*.amount",), "share", -0.9, 2.0),
    Driver("Gas", "less", ("digester.gas_cut_share",), "share", 0.0, 0.85),
    Driver("Price of energy sold", "times", PRICES, "share", -0.9, 2.0),
    Driver("Months until the first feeding", "plus", ("project.build_months",), "month", 0.0, 36.0),
    Driver("Time the engines run", "plus", ("engine.*.availability",), "share", -0.6, 0.3),
    Driver("Interest on the loans", "plus", ("loan.*.rate",), "share/year", -0.1, 0.2),
    Driver("Size of the loans", "times", LOANS, "share", -0.95, 2.0),
    Driver("Tipping fees", "times", ("feed.*.gate_fee_per_t", "feed.*.gate_fee_after_per_t"), "share", -1.0, 2.0),
    Driver("Other running costs", "times", ("running_cost.*.per_year", "running_cost.*.per_t_fed"), "share", -0.9, 3.0),
    Driver("General inflation", "plus", ("project.inflation",), "share/year", -0.04, 0.1),
)


def standard_drivers(loaded: Loaded) -> list[Driver]:
    """The ready-made drivers that this scenario has, each with the patterns that mean something in it."""
    known = numbers(loaded)
    made = []
    for driver in STANDARD:
        patterns = tuple(
            p
            for p in driver.patterns
            if any(driver.kind != "times" or known[path] != 0 for path in matching(p, known)) and matching(p, known)
        )
        if patterns:
            made.append(
                _within_limits(
                    loaded, Driver(driver.label, driver.kind, patterns, driver.unit, driver.low, driver.high)
                )
            )
    return made


def driver_of(loaded: Loaded, path: str) -> Driver:
    """Any single number as a driver: shares, rates, temperatures and months move by addition, the rest by a factor."""
    known = numbers(loaded)
    if path not in known:
        raise no_number(loaded, path)
    found = loaded.assumptions[path].declaration
    by_adding = known[path] == 0 or found.unit in BY_ADDING
    if not by_adding:
        return _within_limits(
            loaded, Driver(f"{found.label} ({path})", "times", (path,), "share", LEAST_FACTOR, GREATEST_FACTOR)
        )
    low, high = found.low if found.low is not None else -WIDEST, found.high if found.high is not None else WIDEST
    return Driver(f"{found.label} ({path})", "plus", (path,), found.unit, low - known[path], high - known[path])


def _within_limits(loaded: Loaded, driver: Driver) -> Driver:
    """The same driver with its reach drawn in to what the limits of its fields allow."""
    known, low, high = numbers(loaded), driver.low, driver.high
    for pattern in driver.patterns:
        for path in matching(pattern, known):
            field, value = loaded.assumptions[path].declaration, known[path]
            for limit in (field.low, field.high):
                if limit is None or driver.kind == "less" or (driver.kind == "times" and value == 0):
                    continue
                move = limit - value if driver.kind == "plus" else limit / value - 1
                if move <= 0:
                    low = max(low, move)
                if move >= 0:
                    high = min(high, move)
    return Driver(driver.label, driver.kind, driver.patterns, driver.unit, low, high)


def changes_of(driver: Driver, move: float) -> tuple[Change, ...]:
    """The changes that a move of a driver means."""
    amount = 1 + move if driver.kind == "times" else move
    return tuple(Change(pattern, driver.kind, amount) for pattern in driver.patterns)
