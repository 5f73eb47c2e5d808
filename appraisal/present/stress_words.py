"""What bad cases say, and how far a driver may move before the plan breaks, in words."""

from __future__ import annotations

from appraisal.present.numbers import Units
from appraisal.present.risk_words import units_of
from appraisal.present.words import Passage
from appraisal.present.written import several
from appraisal.risk.reverse import Break
from appraisal.risk.stress import Stressed, StressTest
from appraisal.risk.worsening import Worsening
from appraisal.scenario.load import Loaded
from appraisal.scenario.units import shown

NO_DEBT = "no debt is due"
MILD = ("more_inflation", "less_inflation")  # two sides of one case, one of which helps as a rule


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
        leave = "leaves" if losing == 1 else "leave"
        sentences.append(f"{losing} of the {len(single)} cases, one at a time, {leave} it worth less than nothing.")
    sentences += _helping(single, units)
    if joint is not None and joint.npv is not None:
        sentences.append(f"With all ready-made cases at once it is worth {units.money(joint.npv)}.")
    sentences.append(
        "The worth is counted as if there were no loan, so dearer loans show in cover and account only. Dearer building "
        "can raise the cover: the loans stay as they are, the family pays the rest, and a larger write-off saves tax."
    )
    return Passage("Bad cases", tuple(sentences))


def _covers(cover: float | None, target: float) -> str:
    return "." if cover is None else f", and its least cover is {cover:.2f} ({target:.2f} is wanted)."


def _helping(single: list[Stressed], units: Units) -> list[str]:
    """Bad cases that leave more worth than the plan, so that nobody is left to wonder."""
    helping = [each for each in single if (each.npv_change or 0.0) > 0 and each.case.name not in MILD]
    if not helping:
        return []
    named = "; ".join(f"{each.case.label}, {units.money(each.npv_change or 0.0)} more" for each in helping)
    return [
        f"What sounds bad helps here: {named}. An overhaul then falls due later or after the end, or the gas is burned in other "
        "hours: do not count on it."
    ]


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
    sentences.append(
        "Events that come once (a tank turned sour, an engine failed, a herd sold) and prices that wander have no way from the "
        "plan to a bad end: in this search they stay as planned. A contract or a programme that may end does move with the rest."
    )
    return Passage("When everything turns bad together", tuple(sentences))


def move_text(each: Break, loaded: Loaded) -> str:
    """How far a driver may move, in the words of its kind; where no move reaches the limit, between which ends it was tried."""
    if each.status == "holds":
        low, high = each.tried
        ends = [_moved(each, end, loaded) for end in (low, high) if end]
        reach = f"between {ends[0]} and {ends[1]}" if len(ends) > 1 else f"up to {ends[0]}" if ends else "tried"
        return f"not {reach}"
    if each.status == "cannot tell":
        return NO_DEBT if each.measure == "least_cover" else "no full year comes"
    if each.move is None:
        return ""
    if each.status == "not valid":
        return "the plan's other values forbid it"
    return _moved(each, each.move, loaded) + ("" if each.status == "meets" else " (jumps past)")


def _moved(each: Break, move: float, loaded: Loaded) -> str:
    """A move of a driver in the words of its kind: points, a sum in its unit, or per cent."""
    if each.driver.kind == "plus" and each.driver.unit.startswith("share"):
        points = move * 100
        return f"{points:+.{1 if abs(points) >= 1 else 2}f} points"
    if each.driver.kind == "plus":
        unit = "K" if each.driver.unit == "degC" else each.driver.unit
        units = units_of(loaded)
        amount, label = shown(abs(move), unit, system=units.system, currency=units.currency)
        number = f"{amount:,.1f}".removesuffix(".0")
        return f"{'-' if move < 0 else '+'}{number} {several(number, label)}"
    return f"{move if each.driver.kind == 'times' else -move:+.1%}"
