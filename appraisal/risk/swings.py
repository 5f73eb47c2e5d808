"""One input at a time: what the result does when each moves to its P10 and its P90, or by so many per cent."""

from __future__ import annotations

from collections.abc import Callable, Mapping
from dataclasses import dataclass

import numpy as np
import numpy.typing as npt

from appraisal.risk.changes import ANY, numbers
from appraisal.risk.draws import curves_of, happens_once
from appraisal.risk.futures import Outcomes, rows
from appraisal.risk.points import NOTHING_DRAWN, RiskError
from appraisal.risk.shapes import Z90, Curve
from appraisal.risk.walks import Walk, held_away, planned, walks_of
from appraisal.scenario import values as of_scenario
from appraisal.scenario.load import Loaded
from appraisal.scenario.quantity import SERIES

Array = npt.NDArray[np.float64]
Ends = tuple[float, float, bool]  # low, high [unit of the value], and whether a limit of the field stopped the move
EVENLY = (np.arange(10_000) + 0.5) / 10_000
WANDERING = "Prices that wander, over the plan's"
LOW, HIGH = 0.1, 0.9
NOT_A_CAUSE = ("judging.", "claims.")  # yardsticks and hearsay: they change what is asked, not what happens
NO_RATIO = ("degC", "year", "month")  # ten per cent more of these means nothing


@dataclass(frozen=True)
class Swing:
    """One input moved by itself, all others as planned.

    low, high: its values [unit]. npv_low, npv_high [money], cover_low, cover_high [1] (None where no debt is due): the
    result there. cut: True where a limit of the field stopped the move. zero_is_never: True of the month of an event.
    """

    path: str
    label: str
    unit: str
    value: float
    low: float
    high: float
    npv_low: float
    npv_high: float
    cover_low: float | None
    cover_high: float | None
    cut: bool
    zero_is_never: bool = False

    @property
    def npv_width(self) -> float:
        """How much the worth moves [money], by its sign with or against the input."""
        return self.npv_high - self.npv_low


@dataclass(frozen=True)
class Swings:
    """All inputs, the widest swing first. by: what each was moved to. npv, cover: of the plan."""

    by: str
    npv: float
    cover: float | None
    swings: tuple[Swing, ...]


def swings_to_quantiles(loaded: Loaded) -> Swings:
    """Every value with a range at its own P10 and P90, every movement of prices with its mean over the years there.

    An event that may never come goes from never to the middle month of those in which it comes. Raises RiskError when
    nothing is drawn.
    """
    curves, walks = curves_of(loaded), walks_of(loaded)
    if not curves and not walks:
        raise RiskError(NOTHING_DRAWN)
    ends = {path: _ends(loaded, path, each) for path, each in curves.items()}
    return _swings(loaded, ends, walks, by="its own P10 and P90")


def _ends(loaded: Loaded, path: str, drawn: Curve) -> Ends:
    if not happens_once(loaded, path):
        return float(drawn.at(LOW)), float(drawn.at(HIGH)), False
    never = float((drawn.at(EVENLY) == 0).mean())
    return 0.0, float(drawn.at((1 + never) / 2)), False


def swings_by_share(loaded: Loaded, share: float) -> Swings:
    """Every number of the scenario that has a size, less and more by a share [1] of it."""
    if not 0 < share < 1:
        raise RiskError("the share must lie between 0 and 1")
    ends = {}
    for path, value in numbers(loaded).items():
        field = loaded.assumptions[path].declaration
        if value == 0 or path.startswith(NOT_A_CAUSE) or field.unit in NO_RATIO:
            continue
        wanted = sorted((value * (1 - share), value * (1 + share)))
        held = [float(np.clip(each, field.low, field.high)) for each in wanted]
        ends[path] = (held[0], held[1], held != wanted)
    return _swings(loaded, ends, (), by=f"{share:.0%} less and more")


def series_by_share(loaded: Loaded, share: float) -> dict[str, float]:
    """What the worth [money] differs by between every value of a series less and more by a share [1] of it, by path.

    Series are values by calendar month or by project year; each value moves no further than its field allows.
    """
    flat = {path: row for path, row in of_scenario.values(loaded.scenario).items() if _is_series(loaded, path) and row.any()}
    columns = {path: np.repeat(row, 2 * len(flat), axis=0) for path, row in flat.items()}
    for place, (path, row) in enumerate(flat.items()):
        field = loaded.assumptions[path].declaration
        for end, factor in enumerate((1 - share, 1 + share)):
            columns[path][2 * place + end] = np.clip(row[0] * factor, field.low, field.high)
    npv = rows(loaded, columns).npv if columns else np.zeros(0)
    return {path: float(high - low) for path, (low, high) in zip(flat, npv.reshape(-1, 2), strict=True)}


def _is_series(loaded: Loaded, path: str) -> bool:
    found = loaded.assumptions.get(path)
    return found is not None and found.declaration.kind in SERIES and found.declaration.unit not in NO_RATIO


def _swings(loaded: Loaded, ends: Mapping[str, Ends], walks: tuple[Walk, ...], *, by: str) -> Swings:
    """Row 0 is the plan; then two rows for every value, and two for every movement of prices."""
    known, plan = numbers(loaded), planned(loaded, walks)
    size = 2 * (len(ends) + len(walks)) + 1
    columns = {ANY: np.full((size, 1), known[ANY])}
    columns |= {path: np.full((size, 1), known[path]) for path in ends}
    columns |= {path: np.repeat(values, size, axis=0) for path, values in plan.items()}
    for place, path in enumerate(ends):
        columns[path][2 * place + 1], columns[path][2 * place + 2] = ends[path][:2]
    for place, walk in enumerate(walks, start=len(ends)):
        for row, away in ((2 * place + 1, -1.0), (2 * place + 2, 1.0)):
            for path, values in held_away(plan, walk, away * Z90).items():
                columns[path][row] = values[0]
    made = rows(loaded, columns)
    told = [_of_value(loaded, path, ends[path], made, 2 * place + 1) for place, path in enumerate(ends)]
    told += [_of_walk(walk, made, 2 * place + 1) for place, walk in enumerate(walks, start=len(ends))]
    told.sort(key=lambda each: (-abs(each.npv_width), each.path))
    return Swings(by, float(made.npv[0]), _finite(made.least_cover[0]), tuple(told))


def _of_value(loaded: Loaded, path: str, end: Ends, made: Outcomes, row: int) -> Swing:
    found = loaded.assumptions[path]
    label, unit, value = found.declaration.label, found.declaration.unit, float(str(found.value))
    never = happens_once(loaded, path)
    return Swing(path, label, unit, value, end[0], end[1], *_results(made, row), cut=end[2], zero_is_never=never)


def _of_walk(walk: Walk, made: Outcomes, row: int) -> Swing:
    away = float(np.exp(Z90 * walk.sd_of_mean))
    return Swing(walk.name, WANDERING, "share", 1.0, 1 / away, away, *_results(made, row), cut=False)


def _results(made: Outcomes, row: int) -> tuple[float, float, float | None, float | None]:
    npv, cover = made.npv, made.least_cover
    return float(npv[row]), float(npv[row + 1]), _finite(cover[row]), _finite(cover[row + 1])


def _finite(value: float) -> float | None:
    return float(value) if np.isfinite(value) else None


def swing_shares(function: Callable[[Array], Array], *, dimensions: int) -> Array:
    """Result at the P90 of each input less the result at its P10, the others at their medians (dimensions,)."""
    cube = np.full((2 * dimensions, dimensions), 0.5)
    for place in range(dimensions):
        cube[place, place], cube[dimensions + place, place] = LOW, HIGH
    made = function(cube)
    return made[dimensions:] - made[:dimensions]
