"""Ready-made other ways for the same farm, in plain sentences."""

from __future__ import annotations

import re
from collections.abc import Mapping, Sequence
from math import isfinite

from appraisal.appraise import Appraisal
from appraisal.present.naming import item, name_of
from appraisal.present.risk_figures import cover, difference, money, optional
from appraisal.present.tables import Table
from appraisal.present.words import Passage
from appraisal.risk.alternatives import Alternative
from appraisal.risk.material import Material
from appraisal.scenario.load import Loaded

BARE = "as_it_is"  # every figure of a plan is a difference to this way, so it has none of its own
_PATH = re.compile(r"[a-z_0-9]+(?:\.[a-z_0-9]+)+")
HOW = "To hold one or more of them against the plan, name each: `appraisal compare FILE --with NAME --with NAME`."


def taken_for(others: Sequence[Alternative]) -> Passage:
    """What the ready-made ways assume."""
    return Passage("What was taken", tuple(f"{each.label}: {each.note}" for each in others))


def ways(found: Sequence[Alternative]) -> Passage:
    """Names of the ready-made ways, and what is missing where one cannot be compared."""
    sentences = (
        f"{each.name}: {each.label}. {f'Cannot be compared: {each.missing}.' if each.plan is None else each.note}"
        for each in found
    )
    return Passage("Other ways for this farm", (*sentences, HOW))


def ways_table(plan: Appraisal, found: Sequence[Alternative], appraised: Mapping[str, Appraisal]) -> Table:
    """The plan and every way that can be compared, with its headline figures, by name."""
    worth = float(plan.headline.npv[0])
    rows = [("(the plan)", *_figures(plan), "")]
    for each in found:
        if each.name in appraised:
            other = appraised[each.name]
            rows.append((each.name, *_figures(other), money(float(other.headline.npv[0]) - worth)))
    currency = plan.loaded.scenario.project.currency
    head = (
        "way",
        "worth today",
        "least cover",
        "lowest account",
        "years until the\nmoney is back",
        "worth against\nthe plan",
    )
    return Table(f"The ways with their figures, {currency}; each in its own file's dates", head, tuple(rows))


def others_table(found: Material) -> Table:
    """The plan and every other way that can be compared, by its label, with its headline figures."""
    plan = found.appraisal
    worth = float(plan.headline.npv[0])
    rows = [("This plan", *_figures(plan), "")]
    for each in found.other_ways:
        if each.appraisal is not None and each.way.name != BARE:
            more = float(each.appraisal.headline.npv[0]) - worth
            rows.append((_label(each.way), *_figures(each.appraisal), difference(more)))
    currency = plan.loaded.scenario.project.currency
    head = (
        "",
        "worth in\ntoday's money",
        "least\ncover",
        "lowest\naccount",
        "years until the\nmoney is back",
        "worth against\nthis plan",
    )
    return Table(f"Other ways to do it, {currency}", head, tuple(rows))


def others_said(found: Material) -> tuple[str, ...]:
    """What was taken for the other ways, those with the same note together, and why some are not compared."""
    taken: dict[str, list[str]] = {}
    for each in found.other_ways:
        if each.appraisal is not None and each.way.name != BARE:
            taken.setdefault(each.way.note, []).append(_label(each.way))
    left = [each.way for each in found.other_ways if each.appraisal is None]
    return (
        *(f"{', '.join(labels)}: {note}" for note, labels in taken.items()),
        *(f"{_label(way)}: not compared; {_named(found.loaded, way.missing)}." for way in left),
    )


def _label(way: Alternative) -> str:
    """The label of a way with the names of items as readers write them."""
    return item(way.label)


def _named(loaded: Loaded, text: str) -> str:
    """A reason with the labels of inputs instead of their paths, and without what to write into the file."""
    text = text.partition(": write [")[0]
    return _PATH.sub(lambda path: name_of(loaded, path[0]).lower() if path[0] in loaded.assumptions else path[0], text)


def figures_of(appraisal: Appraisal) -> dict[str, float | None]:
    """Headline figures of a way: npv and lowest_cash [money], least_cover [1], payback_years [year]; None where there is none."""
    least, back = appraisal.headline.dscr_min, float(appraisal.headline.payback_years.value[0])
    return {
        "npv": float(appraisal.headline.npv[0]),
        "least_cover": None if least.words[0] == "no debt due" else float(least.value[0]),
        "lowest_cash": float(appraisal.values["bank_balance"][0].min()),
        "payback_years": back if isfinite(back) else None,
    }


def _figures(appraisal: Appraisal) -> tuple[str, str, str, str]:
    told = figures_of(appraisal)
    return (
        optional(told["npv"], money),
        "no debt"
        if told["least_cover"] is None
        else cover(appraisal.loaded.scenario.judging.least_cover)(told["least_cover"]),
        optional(told["lowest_cash"], money),
        appraisal.headline.payback_years.words[0] if told["payback_years"] is None else f"{told['payback_years']:.1f}",
    )
