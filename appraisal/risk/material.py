"""Everything that the papers of one scenario show, worked out once."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass

from appraisal.appraise import Appraisal, appraise
from appraisal.risk.alternatives import Alternative, alternatives
from appraisal.risk.changes import changed_scenario, changed_values
from appraisal.risk.draws import Settings
from appraisal.risk.drivers import standard_drivers
from appraisal.risk.least_grant import LeastGrant, least_grant, without_grants
from appraisal.risk.reverse import Break, breaks
from appraisal.risk.simulate import Simulation, simulate
from appraisal.risk.stress import StressTest, stress_test
from appraisal.risk.swings import Swings, series_by_share, swings_by_share, swings_to_quantiles
from appraisal.risk.three_years import TOGETHER, ThreeYears, three_years
from appraisal.scenario.load import Loaded

SWING = 0.1  # share by which every input moves for its rank of influence
DRAWS = 2048  # futures in the papers; `simulate` draws as many as it is asked for


@dataclass(frozen=True, eq=False)
class Planned:
    """One scenario and its plain result: what many tables need."""

    appraisal: Appraisal

    @property
    def loaded(self) -> Loaded:
        """The scenario."""
        return self.appraisal.loaded


@dataclass(frozen=True, eq=False)
class GrantAsked(Planned):
    """The same with what a grant brings.

    without_grants: the same plan with every grant at nothing, None where there is none. least_grant: the smallest grant that
    reaches the targets.
    """

    without_grants: Appraisal | None
    least_grant: LeastGrant


@dataclass(frozen=True, eq=False)
class OtherWay:
    """A ready-made other way of the same farm with its result, None where it cannot be compared."""

    way: Alternative
    appraisal: Appraisal | None


@dataclass(frozen=True, eq=False)
class Material(GrantAsked):
    """All results of one scenario that papers show.

    downside: the ready-made bad cases together, as an appraisal of its own; None where none is possible.
    breaks: how far each driver may move. by_share: every number moved by `SWING`; series: what moving every value of a series
    by as much does to the worth [money], by path; by_range: those with a range at their own P10 and P90, None where none
    carries one. futures: `DRAWS` futures, three_years: the first full year in a bad, a middle and a
    good one of them; None where nothing carries a range. other_ways: every ready-made other way, in the order shown.
    """

    stress: StressTest
    downside: Appraisal | None
    breaks: tuple[Break, ...]
    by_share: Swings
    series: Mapping[str, float]
    by_range: Swings | None
    futures: Simulation | None
    three_years: ThreeYears | None
    other_ways: tuple[OtherWay, ...]


def material(loaded: Loaded) -> Material:
    """Work out what the papers show; raises ScenarioError as loading does."""
    tested = stress_test(loaded)
    joint = next((each.case for each in tested.cases if each.case.name == TOGETHER and each.npv is not None), None)
    bad = appraise(changed_scenario(loaded, changed_values(loaded, joint.changes))) if joint else None
    plan = appraise(loaded)
    futures = simulate(loaded, Settings(draws=DRAWS)) if loaded.scenario.range or loaded.scenario.wander else None
    return Material(
        appraisal=plan,
        stress=tested,
        downside=bad,
        breaks=breaks(loaded, standard_drivers(loaded)),
        by_share=swings_by_share(loaded, SWING),
        series=series_by_share(loaded, SWING),
        by_range=swings_to_quantiles(loaded) if loaded.scenario.range or loaded.scenario.wander else None,
        without_grants=without_grants(loaded),
        least_grant=least_grant(loaded),
        futures=futures,
        three_years=three_years(futures, year=plan.plant.year) if futures else None,
        other_ways=tuple(OtherWay(way, appraise(way.plan) if way.plan else None) for way in alternatives(loaded)),
    )
