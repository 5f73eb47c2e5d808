"""What bad cases say, and how far a driver may move before the plan breaks, in words."""

from __future__ import annotations

from appraisal.present.risk_words import units_of
from appraisal.present.words import Passage
from appraisal.risk.reverse import Break
from appraisal.risk.stress import StressTest
from appraisal.risk.worsening import Worsening
from appraisal.scenario.load import Loaded


def stressed(found: StressTest) -> Passage:
    """The plan, the worst single case, and all together."""
    units, plan = units_of(found.loaded), found.plan
    single = [each for each in found.cases if each.npv_change is not None and each.case.name != "all_together"]
    joint = next((each for each in found.cases if each.case.name == "all_together"), None)
    assert plan.npv is not None
    sentences = [f"The plan is worth {units.money(plan.npv)}" + _covers(plan.least_cover, found.target)]
    if single:
        worst = min(single, key=lambda each: each.npv_change or 0.0)
        sentences.append(
            f"The worst single case: {worst.case.label[:1].lower()}{worst.case.label[1:]}. The plant is then worth "
            f"{units.money(worst.npv or 0.0)}" + _covers(worst.least_cover, found.target)
        )
        losing = sum((each.npv or 0.0) < 0 for each in single)
        sentences.append(f"{losing} of {len(single)} single cases leave it worth less than nothing.")
    if joint is not None and joint.npv is not None:
        sentences.append(f"With all ready-made cases at once it is worth {units.money(joint.npv)}.")
    sentences.append(
        "Worth is counted without loans, so dearer loans show in cover and cash only. Dearer building can raise the cover: "
        "the loans stay as they are, the family pays the rest, and the write-off saves tax."
    )
    return Passage("Bad cases", tuple(sentences))


def _covers(cover: float | None, target: float) -> str:
    return "." if cover is None else f", and its least cover is {cover:.2f} ({target:.2f} is wanted)."


def worsened(found: tuple[Worsening, ...]) -> Passage:
    """How far everything may turn bad together."""
    names = {"least_cover": "cover falls under its target", "npv": "the worth is gone"}
    sentences = []
    for each in found:
        name = names[each.measure]
        if each.broken:
            sentences.append(f"{name[:1].upper()}{name[1:]} in the plan itself already.")
        elif each.part is None:
            sentences.append(f"Even twice the way to every bad end, {name} nowhere.")
        else:
            sentences.append(
                f"When every ranged value has gone {each.part:.0%} of the way from the plan to its bad P10 or P90, {name}."
            )
    return Passage("When everything turns bad together", tuple(sentences))


def move_text(each: Break, loaded: Loaded) -> str:
    """How far a driver may move, in the words of its kind."""
    if each.status == "holds":
        return "holds as far as was tried"
    if each.status == "cannot tell":
        return "no debt is due"
    if each.move is None:
        return ""
    if each.status == "not valid":
        return "only in a plan that is not valid"
    jump = "" if each.status == "meets" else " (jumps past)"
    if each.driver.kind == "plus":
        if each.driver.unit.startswith("share"):
            return f"{each.move * 100:+.2f} points{jump}"
        number, label = units_of(loaded).cells(abs(each.move), "K" if each.driver.unit == "degC" else each.driver.unit)
        return f"{'-' if each.move < 0 else '+'}{number} {label}{jump}"
    return f"{each.move if each.driver.kind == 'times' else -each.move:+.1%}{jump}"
