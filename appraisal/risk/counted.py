"""Which named bad cases some future of a scenario can hold, and which none does, so that chances are not read for more."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass

from appraisal.risk.cases import Case, lost_contracts, own_cases, standard_cases
from appraisal.risk.changes import changed_values
from appraisal.risk.draws import curves_of
from appraisal.risk.points import RiskError
from appraisal.risk.shapes import Curve
from appraisal.scenario.load import Loaded


@dataclass(frozen=True)
class CountedCase:
    """One bad case beside the ranges of its scenario.

    reached: paths that some future moves as far as the case does. planned: paths of the case that carry no range, so that
    every future has the plan's value. short: paths with a range that ends before the case.
    """

    case: Case
    reached: tuple[str, ...]
    planned: tuple[str, ...]
    short: tuple[str, ...]

    @property
    def whole(self) -> bool:
        """Whether futures reach all of the case."""
        return not self.planned and not self.short


def counted_cases(loaded: Loaded) -> tuple[CountedCase, ...]:
    """Every bad case that this scenario can have: the ready-made ones, each contract lost, the user's own."""
    curves = curves_of(loaded)
    found = []
    for case in (*standard_cases(loaded), *lost_contracts(loaded), *own_cases(loaded)):
        try:
            new = {} if case.impossible else changed_values(loaded, case.changes)
        except RiskError:
            continue
        if new:
            found.append(_counted(case, new, curves))
    return tuple(found)


def _counted(case: Case, new: Mapping[str, float], curves: Mapping[str, Curve]) -> CountedCase:
    drawn = {path: curves[path].low <= value <= curves[path].high for path, value in new.items() if path in curves}
    return CountedCase(
        case,
        tuple(path for path, reaches in drawn.items() if reaches),
        tuple(path for path in new if path not in drawn),
        tuple(path for path, reaches in drawn.items() if not reaches),
    )
