"""What happens in some futures and not in others: a contract lost, an engine that fails, a late start; how often it hit.

Events are inputs with a range like others, so they run through all physics and money, and a single run can have each.
This only reads off the drawn values in which futures the event fell into the time in which the plant runs.
"""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass
from typing import Literal

import numpy as np
import numpy.typing as npt

from appraisal.constants import CONSTANTS
from appraisal.scenario.load import Loaded
from appraisal.scenario.quantity import MONTHS_PER_YEAR, Event

Array = npt.NDArray[np.float64]
TOLERANCE = next(each.value for each in CONSTANTS if each.name == "rounding_tolerance")
BUILDING, CLOSING = "project.build_months", "project.closes_after_years"


@dataclass(frozen=True)
class Happening:
    """One event of a scenario whose time is drawn.

    path: of the input that tells its time. words: what happens. when: as `Event`. plan: the planned time in the input's
    unit. in_months: of one such unit [month]. after: paths whose months stand before it. months: of the project.
    fixed: path -> planned value of every other input that is needed.
    """

    path: str
    words: str
    when: Literal["early", "once", "late"]
    plan: float
    in_months: float
    after: tuple[str, ...]
    months: int
    fixed: Mapping[str, float]


def happenings(loaded: Loaded, drawn: tuple[str, ...]) -> tuple[Happening, ...]:
    """The events among drawn values, in order; what nothing can tell the time of is none."""
    found = ((path, loaded.assumptions[path].declaration) for path in drawn if path in loaded.assumptions)
    return tuple(_happening(loaded, path, item.event, item.unit) for path, item in found if item.event is not None)


def _happening(loaded: Loaded, path: str, event: Event, unit: str) -> Happening:
    table, _, _ = path.rpartition(".")
    after = tuple(each if "." in each else f"{table}.{each}" for each in event.after)
    fixed = {each: float(str(loaded.assumptions[each].value)) for each in {*after, path, BUILDING, CLOSING}}
    words = event.words.format(item=table.partition(".")[2].replace("_", " "))
    in_months = float(MONTHS_PER_YEAR) if unit == "year" else 1.0
    months = loaded.scenario.project.years * MONTHS_PER_YEAR
    return Happening(path, words, event.when, fixed[path], in_months, after, months, fixed)


def hit(event: Happening, columns: Mapping[str, Array]) -> npt.NDArray[np.bool_]:
    """Futures (draws,) that an event hit while the plant runs; columns: drawn values by path (draws, 1)."""

    def at(path: str) -> Array:
        return columns[path][:, 0] if path in columns else np.full(1, event.fixed[path])

    drawn = columns[event.path][:, 0]
    if event.when == "late":
        return np.asarray(drawn > event.plan + TOLERANCE)
    month = sum((at(path) for path in event.after), np.zeros(1)) + drawn * event.in_months - (event.when == "once")
    shut = at(BUILDING) + at(CLOSING) * MONTHS_PER_YEAR
    last = event.months if event.path == CLOSING else np.minimum(shut, event.months)
    if event.when == "once":
        month, sets_in = np.ceil(month - TOLERANCE), drawn > 0
    else:
        sets_in = drawn < event.plan
    return np.broadcast_to(sets_in & (month < last - TOLERANCE), drawn.shape)
