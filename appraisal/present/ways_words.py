"""Ready-made other ways for the same farm, in plain sentences."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from math import isfinite

from appraisal.appraise import Appraisal
from appraisal.present.risk_figures import money, optional, times
from appraisal.present.tables import Table
from appraisal.present.words import Passage
from appraisal.risk.alternatives import Alternative

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
    head = ("way", "worth today", "least cover", "lowest account", "years until the\nmoney is back", "worth against\nthe plan")
    return Table(f"The ways with their figures, {currency}; each in its own file's dates", head, tuple(rows))


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
        "no debt" if told["least_cover"] is None else times(told["least_cover"]),
        optional(told["lowest_cash"], money),
        appraisal.headline.payback_years.words[0] if told["payback_years"] is None else f"{told['payback_years']:.1f}",
    )
