"""The nearest break when everything turns bad together."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass

import numpy as np
import numpy.typing as npt

from appraisal.risk.changes import changed_scenario, numbers, outcomes_of_cases
from appraisal.risk.draws import curves_of
from appraisal.risk.futures import outcomes, prepared_model
from appraisal.risk.points import NOTHING_DRAWN, RiskError
from appraisal.risk.reverse import MEASURES, MET, Measure, narrowed
from appraisal.risk.swings import swings_to_quantiles
from appraisal.scenario.load import Loaded

Array = npt.NDArray[np.float64]
STEPS = 40
FURTHEST = 2.0


@dataclass(frozen=True)
class Worsening:
    """All values with a range move from the plan towards their bad P10 or P90 at once, by the same part of the way.

    measure, limit: what breaks. part: of the way at which it does, 1 being all of it and 2 twice as far, each value
    stopping at the end of its range; None where it holds. broken: True where the plan itself is already on the wrong
    side. values: path -> value there, in its unit. reached: the measure in the scenario run there.
    """

    measure: Measure
    limit: float
    part: float | None
    broken: bool
    values: Mapping[str, float]
    reached: float | None


def worsening(loaded: Loaded) -> tuple[Worsening, ...]:
    """How far all values may worsen together before cover, or worth, meets its limit; first the cover, then the worth."""
    bad = bad_ends(loaded)
    if not bad:
        return ()
    limits: dict[Measure, float] = {"least_cover": loaded.scenario.judging.least_cover, "npv": 0.0}
    return tuple(_worsening(loaded, bad, measure, limits[measure]) for measure in MEASURES)


def bad_ends(loaded: Loaded) -> dict[str, tuple[float, float, float]]:
    """For each value with a range: the plan's, its bad P10 or P90, and the end of its range on that side, in its unit.

    Bad is the side on which the worth of the plant is lower with all else as planned. Events that come once and prices that
    wander have no way to go from the plan to a bad end: they stay as planned.
    """
    curves, known = curves_of(loaded), numbers(loaded)
    if not curves:
        raise RiskError(NOTHING_DRAWN)
    made = {}
    for swing in swings_to_quantiles(loaded).swings:
        if swing.path not in curves or swing.zero_is_never:
            continue
        low_is_bad = swing.npv_low <= swing.npv_high
        curve = curves[swing.path]
        end = swing.low if low_is_bad else swing.high
        made[swing.path] = (known[swing.path], end, curve.low if low_is_bad else curve.high)
    return made


def values_at(bad: Mapping[str, tuple[float, float, float]], part: float) -> dict[str, float]:
    """Every value `part` of the way from the plan to its bad quantile, never past the end of its range."""
    made = {}
    for path, (plan, quantile, end) in bad.items():
        value = plan + part * (quantile - plan)
        made[path] = float(np.clip(value, min(plan, quantile, end), max(plan, quantile, end)))
    return made


def _worsening(
    loaded: Loaded, bad: Mapping[str, tuple[float, float, float]], measure: Measure, limit: float
) -> Worsening:
    model = prepared_model(loaded, tuple(bad))

    def over(parts: Array) -> Array:
        """How far the measure lies above its limit with each part [1] of the way to the bad ends gone."""
        rows = [values_at(bad, float(part)) for part in parts]
        columns = {path: np.array([[row[path]] for row in rows]) for path in bad}
        return np.asarray(getattr(outcomes(model, columns), measure)) - limit

    grid = np.linspace(0, FURTHEST, STEPS + 1)
    seen = over(grid)
    crossing = np.flatnonzero(np.isfinite(seen[:-1]) & np.isfinite(seen[1:]) & (seen[:-1] >= 0) & (seen[1:] < 0))
    broken = bool(np.isfinite(seen[0]) and seen[0] < 0)
    if broken or crossing.size == 0:
        return Worsening(measure, limit, None, broken, {}, None)
    start = int(crossing[0])
    size = abs(limit) if limit else max(float(np.abs(seen).max()), 1.0)
    ends = narrowed(
        lambda _, parts: over(parts), grid[[start, start + 1]].reshape(1, 2), close=np.array([size * MET / 1000])
    )
    part = float(ends[0].min())
    values = values_at(bad, part)
    made = outcomes_of_cases(loaded, [changed_scenario(loaded, values)])
    return Worsening(measure, limit, part, False, values, float(getattr(made, measure)[0]))
