"""The spine: a checked scenario in, an appraisal out. Read `appraise` first; everything else hangs on it."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass, replace

import numpy as np
import numpy.typing as npt

from appraisal import model
from appraisal.errors import Finding
from appraisal.lines.evaluate import evaluate
from appraisal.lines.plan import Plan
from appraisal.measures.far_prices import findings as far_prices
from appraisal.measures.funding_findings import findings as funding_findings
from appraisal.measures.headline import Headline, headline
from appraisal.measures.money_findings import findings as money_findings
from appraisal.measures.money_view import MoneyView, money_view
from appraisal.measures.odd_money import findings as odd_money_findings
from appraisal.measures.partners import PartnerSide, partners
from appraisal.measures.running_findings import findings as running_findings
from appraisal.measures.screening_findings import findings as screening_findings
from appraisal.scenario.load import Loaded
from appraisal.scenario.model import Scenario
from appraisal.scenario.values import Structure, structure, values
from appraisal.technical_yield import emission_findings, land_findings, limits, reconcile
from appraisal.technical_yield.plant_year import PlantYear, plant_year
from appraisal.timeline import Timeline

Array = npt.NDArray[np.float64]
SEVERITY_ORDER = ("stop and ask", "warning", "note")


@dataclass(frozen=True, eq=False)
class Cautious:
    """The same plant with less gas, worked out when an operating limit says stop and ask.

    because: what the findings stand at. gas_cut_share [share], reason: as the scenario declares them. headline: measures.
    """

    because: tuple[str, ...]
    gas_cut_share: float
    reason: str
    headline: Headline


@dataclass(frozen=True, eq=False)
class Appraisal:
    """Everything one scenario gives.

    loaded: the checked scenario with where each value comes from. structure: what fixes the shape of the model.
    plan: the lines in order. inputs, values: full name -> array, first axis 1. plant: the first full project year.
    headline: measures. findings: most serious first. cautious: the second look, None when no operating limit asks for it.
    money: measures from every side, a lender's and the whole farm's, and the checks of the sum.
    partners: a shared plant by partner, in file order; empty where there are none.
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
    cautious: Cautious | None
    money: MoneyView
    partners: tuple[PartnerSide, ...] = ()


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
    measured, seen = headline(lines), money_view(lines, year=plant.year)
    operating = limits.findings(loaded.scenario, lines, plant)
    found = findings_of(loaded.scenario, lines, plant, measured=measured, view=seen, timeline=timeline)
    second = with_less_gas(loaded.scenario, shape, plan, inputs=inputs, findings=operating)
    shared = partners(loaded.scenario, lines, year=plant.year)
    return Appraisal(loaded, shape, timeline, plan, inputs, lines, plant, measured, found, second, seen, shared)


def findings_of(
    scenario: Scenario, lines: Mapping[str, Array], plant: PlantYear, *, measured: Headline, view: MoneyView, timeline: Timeline
) -> tuple[Finding, ...]:
    """All findings of one case, most serious first, said in the units that the scenario shows."""
    found = (
        *limits.findings(scenario, lines, plant),
        *reconcile.findings(scenario, plant),
        *emission_findings.findings(scenario, lines, plant),
        *land_findings.findings(scenario, lines, plant),
        *money_findings(scenario, lines, measured, timeline=timeline),
        *funding_findings(scenario, lines, view, timeline=timeline),
        *odd_money_findings(scenario, lines),
        *screening_findings(scenario),
        *far_prices(scenario),
        *running_findings(scenario, lines, year=plant.year),
    )
    return tuple(sorted(found, key=lambda finding: SEVERITY_ORDER.index(finding.severity)))


def said_anew(appraisal: Appraisal, loaded: Loaded) -> Appraisal:
    """The same results for the same scenario shown in other units: what findings say follows, and nothing is computed anew."""
    told = findings_of(
        loaded.scenario, appraisal.values, appraisal.plant,
        measured=appraisal.headline, view=appraisal.money, timeline=appraisal.timeline,
    )  # fmt: skip
    return replace(appraisal, loaded=loaded, findings=told)


def with_less_gas(
    scenario: Scenario, shape: Structure, plan: Plan, *, inputs: Mapping[str, Array], findings: tuple[Finding, ...]
) -> Cautious | None:
    """The same plan once more with the declared gas cut; None when no finding says stop and ask.

    inputs: dotted path -> array. findings: on operating limits. A cut that the scenario carries already comes first.
    """
    because = tuple(dict.fromkeys(finding.where for finding in findings if finding.severity == "stop and ask"))
    if not because:
        return None
    cut = 1 - (1 - inputs["digester.gas_cut_share"]) * (1 - inputs["judging.gas_cut_share"])
    lines = evaluate(plan, model.inputs(shape, {**inputs, "digester.gas_cut_share": cut}))
    return Cautious(because, scenario.judging.gas_cut_share, scenario.judging.gas_cut_reason, headline(lines))


def first_full_year(lines: Mapping[str, Array], timeline: Timeline) -> int:
    """The first project year after building and ramp, or the last year of the model when there is none."""
    return min(int(lines["first_full_year"][0, 0]), timeline.years)
