"""What single bad cases and all of them together do to worth, cover and cash."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass

import numpy as np

from appraisal.risk.cases import Case, lost_contracts, own_cases, standard_cases
from appraisal.risk.changes import changed_scenario, changed_values, outcomes_of_cases
from appraisal.risk.futures import Outcomes
from appraisal.risk.points import RiskError
from appraisal.scenario.load import Loaded

SIDES = (("more_inflation", "less_inflation"),)


@dataclass(frozen=True)
class Stressed:
    """What one case gives; figures are None where the case is impossible, `impossible` says why.

    npv [money], npv_change [money] against the plan, least_cover [1] (None too where no debt is due), lowest_cash [money],
    lowest_month [month]. moved: path -> value before and after, in the unit of the field.
    """

    case: Case
    moved: Mapping[str, tuple[float, float]]
    npv: float | None
    npv_change: float | None
    least_cover: float | None
    lowest_cash: float | None
    lowest_month: int | None


@dataclass(frozen=True)
class StressTest:
    """All cases of one scenario. plan: the scenario as it stands, first of all. target: least cover wanted [1]."""

    loaded: Loaded
    plan: Stressed
    cases: tuple[Stressed, ...]
    target: float


def stress_test(loaded: Loaded) -> StressTest:
    """Run the ready-made cases, the contract whose loss hurts most, the user's own, and all ready-made ones together."""
    tried = _run(loaded, [*standard_cases(loaded), *lost_contracts(loaded), *own_cases(loaded)])
    lost = [each for each in tried.values() if each.case.name.startswith("lost_") and each.npv is not None]
    worst = min(lost, key=lambda each: each.npv or 0.0) if lost else None
    ready = [tried[case.name] for case in standard_cases(loaded)]
    if worst is not None:
        ready.append(worst)
    mild = {_milder(tried, pair) for pair in SIDES}
    together = tuple(
        c for each in ready if each.npv is not None and each.case.name not in mild for c in each.case.changes
    )
    joint = Case("all_together", "All of these together", together)
    combined = _run(loaded, [joint]) if together else {}
    own = [tried[case.name] for case in own_cases(loaded)]
    return StressTest(
        loaded, tried[PLAN.name], (*ready, *combined_only(combined, joint), *own), loaded.scenario.judging.least_cover
    )


PLAN = Case("plan", "The plan as it stands", ())


def combined_only(run: Mapping[str, Stressed], joint: Case) -> tuple[Stressed, ...]:
    """The joint case out of a run, nothing where there was none."""
    return (run[joint.name],) if joint.name in run else ()


def _milder(tried: Mapping[str, Stressed], pair: tuple[str, str]) -> str:
    """The side of a pair that leaves more worth, which is left out of all together."""
    first, second = (tried[name].npv for name in pair)
    return pair[0] if (first or 0.0) >= (second or 0.0) else pair[1]


def _run(loaded: Loaded, cases: list[Case]) -> dict[str, Stressed]:
    """Run cases beside the plan; an impossible one keeps its reason."""
    known = {path: found.value for path, found in loaded.assumptions.items()}
    readings, moved, refused = [loaded], {}, {}
    placed = {}
    for case in cases:
        try:
            if case.impossible:
                raise RiskError(case.impossible)
            new = changed_values(loaded, case.changes)
            readings.append(changed_scenario(loaded, new))
        except RiskError as error:
            refused[case.name] = _impossible(case, str(error))
            continue
        placed[case.name] = len(readings) - 1
        moved[case.name] = {path: (float(str(known[path])), value) for path, value in new.items()}
    made = outcomes_of_cases(loaded, readings)
    done = {PLAN.name: _row(PLAN, {}, made, 0)}
    done |= {case.name: _row(case, moved[case.name], made, placed[case.name]) for case in cases if case.name in placed}
    return done | refused


def _impossible(case: Case, why: str) -> Stressed:
    refused = Case(case.name, case.label, case.changes, case.reason, case.adverse, why)
    return Stressed(refused, {}, None, None, None, None, None)


def _row(case: Case, moved: Mapping[str, tuple[float, float]], made: Outcomes, place: int) -> Stressed:
    cover = float(made.least_cover[place])
    return Stressed(
        case,
        moved,
        float(made.npv[place]),
        float(made.npv[place] - made.npv[0]),
        cover if np.isfinite(cover) else None,
        float(made.lowest_cash[place]),
        int(made.lowest_month[place]),
    )
