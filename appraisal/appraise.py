"""The spine: a checked scenario in, an appraisal out. Read `appraise` first; everything else hangs on it."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass

import numpy as np
import numpy.typing as npt

from appraisal import model
from appraisal.errors import Finding
from appraisal.lines.evaluate import evaluate
from appraisal.lines.plan import Plan
from appraisal.measures.headline import Headline, headline
from appraisal.measures.money_findings import findings as money_findings
from appraisal.scenario.load import Loaded
from appraisal.scenario.values import Structure, structure, values
from appraisal.technical_yield import limits, reconcile
from appraisal.technical_yield.plant_year import PlantYear, plant_year
from appraisal.timeline import Timeline

Array = npt.NDArray[np.float64]
SEVERITY_ORDER = ("stop and ask", "warning", "note")


@dataclass(frozen=True, eq=False)
class Appraisal:
    """Everything one scenario gives.

    loaded: the checked scenario with where each value comes from. structure: what fixes the shape of the model.
    plan: the lines in order. inputs, values: full name -> array, first axis 1. plant: the first full project year.
    headline: measures. findings: most serious first.
    """

    loaded: Loaded
    structure: Structure
    timeline: Timeline
    plan: Plan
    inputs: Mapping[str, Array]
    values: Mapping[str, Array]
    plant: PlantYear
    headline: Headline
    findings: tuple[Finding, ...]


def appraise(loaded: Loaded) -> Appraisal:
    """Appraise one scenario: physics, money, measures and findings."""
    shape = structure(loaded.scenario)
    plan = model.plan_of(shape)
    inputs = values(loaded.scenario)
    lines = evaluate(plan, model.inputs(shape, inputs))
    timeline = model.timeline(shape)
    plant = plant_year(
        lines, year=first_full_year(lines, timeline), rated_kw=sum(e.rated_kw for e in loaded.scenario.engine.values())
    )
    measured = headline(lines)
    found = (
        *limits.findings(loaded.scenario, lines, plant),
        *reconcile.findings(loaded.scenario, plant),
        *money_findings(loaded.scenario, lines, measured, timeline=timeline),
    )
    ordered = tuple(sorted(found, key=lambda finding: SEVERITY_ORDER.index(finding.severity)))
    return Appraisal(loaded, shape, timeline, plan, inputs, lines, plant, measured, ordered)


def first_full_year(lines: Mapping[str, Array], timeline: Timeline) -> int:
    """The first project year after building and ramp, or the last year of the model when there is none."""
    return min(int(lines["first_full_year"][0, 0]), timeline.years)
