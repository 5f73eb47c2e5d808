"""One input at a time: what the result does when each moves to its P10 and its P90, or by so many per cent."""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import dataclass

import numpy as np
import numpy.typing as npt

from appraisal.risk.changes import ANY, numbers
from appraisal.risk.draws import curves_of
from appraisal.risk.futures import Outcomes, rows
from appraisal.risk.points import NOTHING_DRAWN, RiskError
from appraisal.scenario.load import Loaded

Array = npt.NDArray[np.float64]
LOW, HIGH = 0.1, 0.9
NOT_A_CAUSE = ("judging.", "claims.")  # yardsticks and hearsay: they change what is asked, not what happens
NO_RATIO = ("degC", "year", "month")  # ten per cent more of these means nothing


@dataclass(frozen=True)
class Swing:
    """One input moved by itself, all others as planned.

    low, high: its values [unit]. npv_low, npv_high [money], cover_low, cover_high [1] (None where no debt is due): the
    result there. cut: True where a limit of the field stopped the move.
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
    """Every value with a range, at its own P10 and P90; raises RiskError when nothing carries a range."""
    curves = curves_of(loaded)
    if not curves:
        raise RiskError(NOTHING_DRAWN)
    ends = {path: (float(each.at(LOW)), float(each.at(HIGH)), False) for path, each in curves.items()}
    return _swings(loaded, ends, by="its own P10 and P90")


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
    return _swings(loaded, ends, by=f"{share:.0%} less and more")


def _swings(loaded: Loaded, ends: dict[str, tuple[float, float, bool]], *, by: str) -> Swings:
    known, paths = numbers(loaded), list(ends)
    size = 2 * len(paths) + 1
    columns = {ANY: np.full((size, 1), known[ANY])}
    for place, path in enumerate(paths):
        column = np.full((size, 1), known[path])
        column[2 * place + 1], column[2 * place + 2] = ends[path][:2]
        columns[path] = column
    made = rows(loaded, columns)
    told = [_swing(loaded, path, ends[path], made, 2 * place + 1) for place, path in enumerate(paths)]
    told.sort(key=lambda each: (-abs(each.npv_width), each.path))
    return Swings(by, float(made.npv[0]), _finite(made.least_cover[0]), tuple(told))


def _swing(loaded: Loaded, path: str, end: tuple[float, float, bool], made: Outcomes, row: int) -> Swing:
    found = loaded.assumptions[path]
    return Swing(
        path,
        found.declaration.label,
        found.declaration.unit,
        float(str(found.value)),
        end[0],
        end[1],
        float(made.npv[row]),
        float(made.npv[row + 1]),
        _finite(made.least_cover[row]),
        _finite(made.least_cover[row + 1]),
        end[2],
    )


def _finite(value: float) -> float | None:
    return float(value) if np.isfinite(value) else None


def swing_shares(function: Callable[[Array], Array], *, dimensions: int) -> Array:
    """Result at the P90 of each input less the result at its P10, the others at their medians (dimensions,)."""
    cube = np.full((2 * dimensions, dimensions), 0.5)
    for place in range(dimensions):
        cube[place, place], cube[dimensions + place, place] = LOW, HIGH
    made = function(cube)
    return made[dimensions:] - made[:dimensions]
