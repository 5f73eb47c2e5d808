"""Grant tables on the case: who asks, milestones, risk register, assumptions."""

from __future__ import annotations

import numpy as np

from appraisal.appraise import Appraisal
from appraisal.present.assumption_book import entries
from appraisal.present.grant_money import claims, source_labels
from appraisal.present.money_tables import money
from appraisal.present.numbers import times
from appraisal.present.tables import Table, units_of
from appraisal.present.words import BLANK
from appraisal.risk.material import Material
from appraisal.risk.stress import Stressed

LIKELY = {"not_said": BLANK, "low": "low", "medium": "medium", "high": "high"}


def applicant(found: Material) -> Table:
    """Who asks: what the scenario states; the rest is left to the applicant."""
    given = found.loaded.scenario.applicant
    labels = {name: str(field.json_schema_extra["declaration"]["label"])  # type: ignore[index, call-overload]
              for name, field in type(given).model_fields.items()}  # fmt: skip
    rows = [("Project", found.loaded.scenario.project.name)]
    rows += [(label, getattr(given, name) or BLANK) for name, label in labels.items()]
    rows.append(("Signature and date", BLANK))
    return Table("The applicant", ("what is asked", "answer"), tuple(rows))


def milestones(found: Material) -> Table:
    """Steps with their months: those of the plan, and those that the scenario adds."""
    appraisal = found.appraisal
    steps = [*_of_plan(appraisal)]
    steps += [
        (item.month, item.label or name, item.done_when or BLANK, item.who or BLANK)
        for name, item in found.loaded.scenario.milestone.items()
    ]
    rows = tuple(
        (_month(appraisal, month), str(month), what, done_when, who)
        for month, what, done_when, who in sorted(steps, key=lambda step: step[0])
    )
    return Table("Milestones", ("month", "months from\nthe start", "step", "done when", "who"), rows)


def _month(appraisal: Appraisal, month: int) -> str:
    return appraisal.timeline.name(month)


def _of_plan(appraisal: Appraisal) -> list[tuple[int, str, str, str]]:
    """Milestones that follow from the plan itself."""
    scenario, values = appraisal.loaded.scenario, appraisal.values
    steps = []
    for name, item in scenario.capital.items():
        what = item.label or name
        steps.append((item.first_month, f"First payment: {what}", "order signed", item.supplier or BLANK))
        if item.months > 1:
            done = (
                item.first_month + item.months - 1,
                f"Last payment: {what}",
                "acceptance record",
                item.supplier or BLANK,
            )
            steps.append(done)
    feeding = np.flatnonzero(values["feeding"][0])
    if feeding.size:
        steps.append((int(feeding[0]), "First feeding", "permit to operate, safety check passed", BLANK))
        steps.append(((appraisal.plant.year - 1) * 12, "First full operating year begins", "meter readings", BLANK))
    labels = source_labels(appraisal)
    for name in scenario.grant:
        paid = claims(appraisal, name)
        label = f"Grant received: {labels['grant', name]}"
        for month in np.flatnonzero(paid):
            amount = units_of(appraisal).money(float(paid[month]))
            steps.append((int(month), f"{label}, {amount}", "claim with proof of payment", BLANK))
    for name in scenario.loan:
        first = np.flatnonzero(values[f"loan.{name}.principal"][0] < 0)
        if first.size:
            steps.append((int(first[0]), f"First repayment: {labels['loan', name]}", "loan contract", BLANK))
    return steps


def risk_register(found: Material, *, findings: bool = True) -> Table:
    """Bad cases with what they do to worth and cover, findings that ask for an answer, and the applicant's own concerns.

    findings: False where they stand in a table of their own on the pages before.
    """
    scenario = found.loaded.scenario
    left = dict(scenario.concern)
    rows = []
    for each in found.stress.cases:
        own = left.pop(each.case.name, None)
        if own is None and not _hurts(each, found.stress.plan):
            continue
        cover = "" if each.least_cover is None else times(each.least_cover, found.stress.target)
        said = (LIKELY[own.chance], own.what_helps or BLANK, own.who or BLANK) if own else (BLANK, BLANK, BLANK)
        rows.append((each.case.label, money(each.npv_change or 0.0), cover, *said))
    for finding in found.appraisal.findings:
        if findings and finding.severity != "note":
            rows.append((finding.what, "", "", BLANK, BLANK, BLANK))
    rows += [
        (item.label or name, "", "", LIKELY[item.chance], item.what_helps or BLANK, item.who or BLANK)
        for name, item in left.items()
    ]
    head = (
        "what could go wrong",
        "change of\nworth",
        "least cover\nthen",
        "how likely",
        "what is done about it",
        "who",
    )
    title = f"Risk register, {units_of(found.appraisal).currency}; cover is cash over debt service"
    return Table(title, head, tuple(rows))


def _hurts(case: Stressed, plan: Stressed) -> bool:
    """Whether a bad case can happen here and takes worth or cover away."""
    if case.npv is None:
        return False
    thinner = (
        case.least_cover is not None and plan.least_cover is not None and case.least_cover < plan.least_cover - 0.005
    )
    return (case.npv_change or 0.0) < -0.5 or thinner


def assumptions(found: Material) -> Table:
    """Inputs that move the worth, the most influential first, with source and how they are known."""
    moving = sorted((each for each in entries(found) if each.rank), key=lambda entry: entry.rank or 0)
    rows = tuple((str(e.rank), e.label, e.path, e.value, e.unit, e.source or BLANK, e.known) for e in moving)
    head = ("rank", "input", "path", "value", "unit", "source", "how it is known")
    return Table("Assumptions that move the worth, the most influential first", head, rows)
