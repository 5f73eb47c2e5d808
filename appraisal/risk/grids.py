"""Tables of any two inputs, and the size of an engine against the worth of the plant."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass

import numpy as np
import numpy.typing as npt

from appraisal.risk.changes import changed_scenario, no_number, numbers, outcomes_of_cases
from appraisal.risk.draws import curves_of, happens_once
from appraisal.risk.futures import rows
from appraisal.risk.points import RiskError
from appraisal.scenario.load import Loaded
from appraisal.scenario.quantity import MONTHS_PER_YEAR

Array = npt.NDArray[np.float64]
SHARES = (0.05, 0.275, 0.5, 0.725, 0.95)
WITHOUT_RANGE = (0.8, 0.9, 1.0, 1.1, 1.2)
OF_THE_PROJECT = (0.1, 0.25, 0.5, 0.75)  # where the month of an event stands in a table, beside never
SIZES = (0.5, 0.67, 0.8, 0.9, 1.0, 1.1, 1.25, 1.5, 2.0)
SIZE_EXPONENT = 0.7  # cost against size of equipment, common practice, no source: 0.6 to 0.8


@dataclass(frozen=True, eq=False)
class Grid:
    """A table of two inputs.

    first, second: paths; at_first (rows,), at_second (columns,) their values in their units; npv [money], cover [1]
    (rows, columns), NaN where no debt is due.
    """

    first: str
    second: str
    at_first: Array
    at_second: Array
    npv: Array
    cover: Array


def grid(loaded: Loaded, first: str, second: str) -> Grid:
    """Worth and cover over a table of two inputs.

    Each is laid out from the P5 to the P95 of its range in even steps of value, or from four fifths to six fifths of the
    value where it has no range; the month of an event from never over the project. Raises RiskError where a path is no single
    number, or 0 without a range, or both are the same.
    """
    if first == second:
        raise RiskError("a table needs two different inputs")
    at_first, at_second = (steps(loaded, path) for path in (first, second))
    made = rows(
        loaded,
        {
            first: np.repeat(at_first, at_second.size)[:, None],
            second: np.tile(at_second, at_first.size)[:, None],
        },
    )
    shape = (at_first.size, at_second.size)
    return Grid(first, second, at_first, at_second, made.npv.reshape(shape), made.least_cover.reshape(shape))


def steps(loaded: Loaded, path: str) -> Array:
    """The values at which an input stands in a table, in its unit, rising."""
    known = numbers(loaded)
    if path not in known:
        raise no_number(loaded, path)
    if happens_once(loaded, path):
        months = loaded.scenario.project.years * MONTHS_PER_YEAR
        return np.array([0.0, *(np.ceil(months * part) for part in OF_THE_PROJECT)])
    if path in loaded.scenario.range:
        curve = curves_of(loaded)[path]
        low, high = (float(curve.at(share)) for share in (SHARES[0], SHARES[-1]))
        return np.linspace(low, high, len(SHARES)) if low < high else np.array([low])
    if known[path] == 0:
        raise RiskError(f"{path}: it is 0 and carries no range, so nothing says how far to go: give it a range")
    field = loaded.assumptions[path].declaration
    made = np.array([known[path] * factor for factor in WITHOUT_RANGE])
    return np.unique(np.clip(made, field.low, field.high))


@dataclass(frozen=True)
class Size:
    """One engine size: rated power [kW], capital that grew with it [money], worth [money], cover [1], or why not."""

    rated_kw: float
    capital: float
    npv: float | None
    cover: float | None
    impossible: str


@dataclass(frozen=True)
class Sizes:
    """An engine in several sizes. engine: its name. priced_by: capital items that grow with it, by power to `exponent`."""

    engine: str
    priced_by: tuple[str, ...]
    exponent: float
    sizes: tuple[Size, ...]


def engine_sizes(
    loaded: Loaded,
    engine: str,
    *,
    priced_by: Sequence[str] = (),
    factors: Sequence[float] = SIZES,
    exponent: float = SIZE_EXPONENT,
) -> Sizes:
    """Worth and cover of the plant with an engine of other sizes, the scenario read anew for each.

    Efficiencies that the file leaves out follow the size, as they do at reading; those it gives stay. priced_by: names of
    capital items whose amount grows with rated power ** exponent; loans and grants stay as they are.
    """
    known = numbers(loaded)
    path = f"engine.{engine}.rated_kw"
    unknown = [name for name in priced_by if f"capital.{name}.amount" not in known]
    if path not in known:
        raise RiskError(f"no engine is called {engine}; there are: {', '.join(loaded.scenario.engine)}")
    if unknown:
        raise RiskError(f"no capital item is called {unknown[0]}; there are: {', '.join(loaded.scenario.capital)}")
    readings: list[Loaded | str] = []
    capitals = []
    for factor in factors:
        amounts = {f"capital.{name}.amount": known[f"capital.{name}.amount"] * factor**exponent for name in priced_by}
        capitals.append(sum(amounts.values()))
        try:
            readings.append(changed_scenario(loaded, {path: known[path] * factor, **amounts}))
        except RiskError as error:
            readings.append(str(error))
    return Sizes(
        engine, tuple(priced_by), exponent, _sizes(loaded, readings, capitals, [known[path] * f for f in factors])
    )


def _sizes(
    loaded: Loaded, readings: list[Loaded | str], capitals: list[float], powers: list[float]
) -> tuple[Size, ...]:
    good = [each for each in readings if not isinstance(each, str)]
    made = outcomes_of_cases(loaded, [loaded, *good])
    told, row = [], 0
    for reading, capital, power in zip(readings, capitals, powers, strict=True):
        if isinstance(reading, str):
            told.append(Size(power, capital, None, None, reading))
            continue
        row += 1
        cover = float(made.least_cover[row])
        told.append(Size(power, capital, float(made.npv[row]), cover if np.isfinite(cover) else None, ""))
    return tuple(told)
