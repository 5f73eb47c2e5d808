"""How far each driver may move before the plan breaks: cover meets its limit, worth is nothing, the family pays in again.

A move is a number m with 0 for the plan: a factor of 1 + m, an addition of m, or a cut of m. The nearest crossing on
either side of the plan is bracketed on a grid, narrowed in the model itself, and run once more as a scenario at the
break, which must meet the limit. Months and hours come in steps, so a measure may jump past its limit; then the jump is told.
"""

from __future__ import annotations

from collections.abc import Callable, Mapping, Sequence
from dataclasses import dataclass, replace
from typing import Literal

import numpy as np
import numpy.typing as npt

from appraisal.risk.changes import ANY, changed_scenario, changed_values, numbers, outcomes_of_cases
from appraisal.risk.drivers import Driver, changes_of, driver_of
from appraisal.risk.futures import Model, Outcomes, outcomes, part, prepared_model
from appraisal.risk.points import RiskError
from appraisal.scenario.load import Loaded
from appraisal.scenario.named_asides import matching

Array = npt.NDArray[np.float64]
Measure = Literal["least_cover", "npv", "cash_once_running"]
MEASURES: tuple[Measure, ...] = ("least_cover", "npv")
BREAKS: tuple[Measure, ...] = (*MEASURES, "cash_once_running")
MET = 1e-6  # relative to the limit, or to the worth's scale: how near the run at the break must come
GRID = 24
HALVINGS = 60


@dataclass(frozen=True)
class Break:
    """Where one driver meets the limit of one measure.

    status: "meets" the limit; "jumps" past it, from `before` to `after`; "holds" as far as was tried; "cannot tell" where
    the measure does not exist; "not valid": no scenario can have that move, because other values forbid it.
    move: of the driver, None where it holds. value: of the first of its paths at the break, in the field's unit.
    reached: the measure in the scenario run at the break. tried: the furthest moves looked at. now: the measure in the plan.
    """

    driver: Driver
    measure: Measure
    limit: float
    status: Literal["meets", "jumps", "holds", "cannot tell", "not valid"]
    move: float | None
    value: float | None
    reached: float | None
    before: float | None
    after: float | None
    tried: tuple[float, float]
    now: float | None = None


def breaks(loaded: Loaded, drivers: Sequence[Driver], *, measures: Sequence[Measure] = BREAKS) -> tuple[Break, ...]:
    """Where each driver meets the limit of each measure: cover its target, worth zero, nothing to pay in once it runs."""
    limits: dict[Measure, float] = {"least_cover": loaded.scenario.judging.least_cover, "npv": 0.0, "cash_once_running": 0.0}
    asked = [(driver, measure, limits[measure]) for driver in drivers for measure in measures]
    return tuple(_breaks(_Lines(loaded, drivers), asked))


def breaks_of_worth(loaded: Loaded, drivers: Sequence[Driver]) -> tuple[Break, ...]:
    """How far each driver may move before the worth is zero; as `breaks`, without the cover."""
    return tuple(_breaks(_Lines(loaded, drivers), [(driver, "npv", 0.0) for driver in drivers])) if drivers else ()


def break_even(loaded: Loaded, path: str, *, measure: Measure = "npv", limit: float = 0.0) -> Break:
    """The value of any single number at which a measure meets a limit, the nearest one to the plan."""
    driver = driver_of(loaded, path)
    return _breaks(_Lines(loaded, [driver]), [(driver, measure, limit)])[0]


Asked = tuple[Driver, Measure, float]


def _breaks(lines: _Lines, asked: Sequence[Asked]) -> list[Break]:
    grids = {driver: _grid(driver) for driver, _, _ in asked}
    seen = lines.at([(driver, float(move)) for driver, grid in grids.items() for move in grid])
    starts = dict(zip(grids, np.cumsum([0, *(grid.size for grid in grids.values())])[:-1].tolist(), strict=True))
    found: dict[int, tuple[float, float]] = {}
    for place, (driver, measure, limit) in enumerate(asked):
        grid = grids[driver]
        over = getattr(seen, measure)[starts[driver] : starts[driver] + grid.size] - limit
        crossing = np.flatnonzero(np.isfinite(over[:-1]) & np.isfinite(over[1:]) & (over[:-1] * over[1:] <= 0))
        if crossing.size:
            nearest = np.minimum(np.abs(grid[crossing]), np.abs(grid[crossing + 1]))
            start = int(crossing[np.argmin(nearest)])
            found[place] = (float(grid[start]), float(grid[start + 1]))
    asked_there = [asked[place] for place in found]

    def over_limit(chosen: npt.NDArray[np.int64], moves: Array) -> Array:
        made = lines.at([(asked_there[k][0], float(move)) for k, move in zip(chosen, moves, strict=True)])
        return np.array([getattr(made, asked_there[k][1])[row] - asked_there[k][2] for row, k in enumerate(chosen)])

    sizes = np.array([lines.size(measure, limit) for _, measure, limit in asked_there])
    ends = narrowed(over_limit, np.array(list(found.values())).reshape(-1, 2), close=sizes * MET / 1000)
    told = dict(zip(found, ends.tolist(), strict=True))
    known = [np.isfinite(getattr(seen, measure)).any() for _, measure, _ in asked]
    now = {measure: _now(grids, starts, getattr(seen, measure)) for _, measure, _ in asked}
    runs = run_at(lines.loaded, [(asked[place][0], end) for place, pair in told.items() for end in pair])
    made = [
        _told(lines, each, told[place], runs) if place in told else _nothing(each, known=bool(known[place]))
        for place, each in enumerate(asked)
    ]
    return [replace(each, now=now[each.measure]) for each in made]


def _now(grids: Mapping[Driver, Array], starts: Mapping[Driver, int], seen: Array) -> float | None:
    """A measure where nothing is moved; None where it does not exist."""
    driver, grid = next(iter(grids.items()))
    value = float(seen[starts[driver] + int(np.flatnonzero(grid == 0)[0])])
    return value if np.isfinite(value) else None


def _grid(driver: Driver) -> Array:
    return np.unique(np.concatenate((np.linspace(driver.low, 0, GRID + 1), np.linspace(0, driver.high, GRID + 1))))


def _nothing(asked: Asked, *, known: bool) -> Break:
    driver, measure, limit = asked
    tried = (driver.low, driver.high)
    return Break(driver, measure, limit, "holds" if known else "cannot tell", None, None, None, None, None, tried)


def _told(lines: _Lines, asked: Asked, pair: list[float], runs: Runs) -> Break:
    """Say how the scenario, run at the break, meets the limit."""
    driver, measure, limit = asked
    low, high = pair
    ends = {move: float(getattr(runs[driver, move], measure)[0]) for move in pair if (driver, move) in runs}
    if not ends:
        return replace(_nothing(asked, known=True), status="not valid", move=min(pair, key=abs))
    low, high = (move if move in ends else min(ends) for move in pair)
    move = min(ends, key=lambda each: abs(ends[each] - limit))
    meets = abs(ends[move] - limit) <= MET * lines.size(measure, limit)
    first = matching(driver.patterns[0], lines.known)[0]
    value = changed_values(lines.loaded, changes_of(driver, move)).get(first, lines.known[first])
    near, far = sorted((low, high), key=abs)
    return Break(
        driver,
        measure,
        limit,
        "meets" if meets else "jumps",
        move,
        value,
        ends[move],
        ends[near],
        ends[far],
        (driver.low, driver.high),
    )


Runs = Mapping[tuple[Driver, float], Outcomes]


def run_at(loaded: Loaded, moves: Sequence[tuple[Driver, float]]) -> Runs:
    """The scenario read anew with one driver moved, for each of some moves; those that are not valid are left out."""
    readings: dict[tuple[Driver, float], Loaded] = {}
    for driver, move in dict.fromkeys(moves):
        try:
            readings[driver, move] = changed_scenario(loaded, changed_values(loaded, changes_of(driver, move)))
        except RiskError:
            continue
    if not readings:
        return {}
    made = outcomes_of_cases(loaded, list(readings.values()))
    return {key: part(made, row) for row, key in enumerate(readings)}


class _Lines:
    """Some drivers of one scenario, ready to be run at many moves together."""

    def __init__(self, loaded: Loaded, drivers: Sequence[Driver]) -> None:
        self.loaded = loaded
        self.known = numbers(loaded)
        paths = [path for driver in drivers for pattern in driver.patterns for path in matching(pattern, self.known)]
        self.model: Model = prepared_model(loaded, tuple(dict.fromkeys((*paths, ANY))))

    def at(self, moves: Sequence[tuple[Driver, float]]) -> Outcomes:
        """Outcomes with one driver moved in each row."""
        rows = [changed_values(self.loaded, changes_of(driver, move)) for driver, move in moves]
        columns = {path: np.array([[row.get(path, self.known[path])] for row in rows]) for path in self.model.drawn}
        return outcomes(self.model, columns)

    def size(self, measure: Measure, limit: float) -> float:
        """What a miss is held against: the limit; for a worth of zero the building costs, or 1 where there are none."""
        spent = sum(self.known[path] for path in matching("capital.*.amount", self.known))
        return abs(limit) if limit else spent if measure != "least_cover" and spent > 0 else 1.0


def narrowed(function: Callable[[npt.NDArray[np.int64], Array], Array], ends: Array, *, close: Array) -> Array:
    """Narrow many brackets of a change of sign at once, by false position with every third step a halving.

    function: row numbers and points (n,) -> values (n,). ends: (rows, 2) with a change of sign between. close: (rows,) how
    near to zero a value must come; where it cannot, both sides of the jump are handed back, as near as numbers get.
    Returns (rows, 2); both ends are the same point where a value came close.
    """
    low, high = ends[:, 0].copy(), ends[:, 1].copy()
    every = np.arange(low.size)
    at_low, at_high = (function(every, end) if every.size else end for end in (low, high))
    for turn in range(4 * HALVINGS):
        for at, end in ((at_low, low), (at_high, high)):
            hit = np.abs(at) <= close
            low, high = np.where(hit, end, low), np.where(hit, end, high)
        middle = (low + high) / 2
        active = np.flatnonzero((low != high) & (middle != low) & (middle != high))
        if active.size == 0:
            break
        gap = at_high - at_low
        secant = np.where(gap == 0, middle, (low * at_high - high * at_low) / np.where(gap == 0, 1.0, gap))
        inside = (secant > np.minimum(low, high)) & (secant < np.maximum(low, high))
        point = np.where(inside & bool(turn % 3), secant, middle)[active]
        value = function(active, point)
        left = at_low[active] * value <= 0
        high[active], at_high[active] = np.where(left, point, high[active]), np.where(left, value, at_high[active])
        low[active], at_low[active] = np.where(left, low[active], point), np.where(left, at_low[active], value)
    return np.column_stack((low, high))
