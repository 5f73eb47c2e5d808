"""What many futures, ranked causes, bad cases and comparisons mean, in plain sentences."""

from __future__ import annotations

from collections.abc import Mapping

import numpy as np

from appraisal.present.naming import name_of, swing_value
from appraisal.present.numbers import Units, percent
from appraisal.present.words import Passage
from appraisal.risk.draws import Settings
from appraisal.risk.rank import Ranking
from appraisal.risk.simulate import Simulation, versions
from appraisal.risk.statistics import CONVENTION, Estimate
from appraisal.scenario.load import Loaded

NEARLY_ALL = 0.97  # of the variance; the rest lies within the error of the estimate
HOPEFUL = 0.6  # a plan better than this share of its own futures is called hopeful (our choice)
COUNTED_TWICE = (
    "A discount rate above the loan rate already holds a charge for risk. Looking at the spread of futures as well counts "
    "that risk a second time; the figure at the loan rate counts it once."
)
A_FUTURE = (
    "A future is the whole plan worked out once more, with every value that carries a range drawn anew from it: good and bad "
    "ones together, as they may come."
)
METHODS = {
    "sobol": "scrambled Sobol points",
    "latin": "Latin hypercubes",
    "plain": "plain random numbers",
}
JOININGS = {"copula": "a normal copula", "iman_conover": "reordering after Iman and Conover"}


def units_of(loaded: Loaded) -> Units:
    """Unit system and currency of a scenario."""
    return Units(loaded.scenario.project.display_units, loaded.scenario.project.currency)


def of_hundred(share: float) -> str:
    """A share as futures out of a hundred; what is neither all nor none never reads as all or none."""
    if share <= 0:
        return "none of 100"
    if share >= 1:
        return "all of 100"
    count = round(share * 100)
    return "fewer than 1 of 100" if count == 0 else "more than 99 of 100" if count == 100 else f"{count} of 100"


def of_futures(share: float) -> str:
    """The same with its noun, as a sentence needs it."""
    return {0.0: "none of the futures", 1.0: "all futures"}.get(share) or f"{of_hundred(share)} futures"


def with_error(estimate: Estimate, units: Units) -> str:
    """An amount of money with its standard error, where there is one."""
    error = "" if estimate.error is None else f" (+- {estimate.error:,.0f})"
    return f"{units.money(estimate.value)}{error}"


def futures(found: Simulation, *, plain: bool = False) -> Passage:
    """Does it pay: worth over all futures, at the discount rate and at the loan rate.

    plain: for readers who never saw futures: what one is comes first, and why there are two rates is left out.
    """
    units, scenario, npv = units_of(found.loaded), found.loaded.scenario, found.spreads["npv"]
    assert npv is not None  # a worth exists in every future
    at = percent(scenario.judging.discount_rate)
    sentences = [A_FUTURE] if plain else []
    sentences += [
        _paying(found.chances["npv_below_zero"].value, at),
        f"The middle future is worth {with_error(npv.p50, units)}; one in ten lies below {with_error(npv.p10, units)}, one in "
        f"ten above {with_error(npv.p90, units)}.",
        f"The worst twentieth of the futures is worth {with_error(npv.worst, units)} on average.",
    ]
    sentences += plan_among_futures(found, units)
    if scenario.loan:
        losing = of_futures(found.chances["npv_below_zero_at_loan_rate"].value)
        sentences.append(
            f"Counted with what the loans cost a year, instead of {at}, it loses in {losing}."
            if plain
            else f"Discounted at the rate of the loans instead, it loses in {losing}. {COUNTED_TWICE}"
        )
    if npv.p50.error is None:
        sentences.append("So few futures say little: quantiles and chances want a thousand or more.")
    return Passage(f"What {found.outcomes.draws:,} futures say", tuple(sentences))


def _paying(losing: float, at: str) -> str:
    if losing >= 1:
        return f"In all futures the plant is worth less than nothing at {at} a year."
    others = "" if losing <= 0 else "; in the others it loses"
    return f"In {of_futures(1 - losing)} the plant is worth more than nothing at {at} a year{others}."


def plan_among_futures(found: Simulation, units: Units) -> list[str]:
    """Where the plan itself stands among its futures."""
    npv = found.spreads["npv"]
    if npv is None or npv.central is None or npv.below_central is None:
        return []
    better = of_futures(1 - npv.below_central)
    hopeful = (
        " The plan is hopeful: the ranges reach further to the bad side than to the good."
        if npv.below_central > HOPEFUL
        else ""
    )
    return [
        f"The plan as written is worth {units.money(npv.central)}; {better} are as good or better.{hopeful}"
    ]


def cover_and_cash(found: Simulation) -> Passage:
    """Does it carry its loan, and how deep must the family's pocket be."""
    units, target = units_of(found.loaded), found.loaded.scenario.judging.least_cover
    chances, cash, cover = found.chances, found.spreads["lowest_cash"], found.spreads["least_cover"]
    sentences = []
    if cover is None:
        sentences.append("No loan falls due in a full operating year of any future.")
    else:
        sentences.append(_short_years(chances, target))
        sentences.append(
            f"The least cover is {cover.p50.value:z.2f} in the middle future and under {cover.p10.value:z.2f} in one of ten"
            f"{_hardest_year(found)}."
        )
    if cash is not None:
        short = of_futures(chances["cash_below_own_money"].value)
        said = (
            f"The family says it can put in {units.money(found.own_money)}: that is not enough in {short}."
            if found.own_money
            else f"How much own money the family has is not stated; the account falls below zero in {short}."
        )
        sentences.append(
            f"At the end of its own worst month, with grants, loans and tax, the account stands at "
            f"{units.money(cash.p50.value)} in the middle future and under {units.money(cash.p10.value)} in one of ten. {said}"
        )
    return Passage("Loan and purse", tuple(sentences))


def _short_years(chances: Mapping[str, Estimate], target: float) -> str:
    """How often the debt service is short of the target, and of itself."""
    some, none = (chances[f"cover_below_{name}_in_some_year"].value for name in ("target", "one"))
    first = (
        f"In {of_futures(some)} there is a full year whose cash is less than {target:.2f} times what falls due on the loans"
    )
    if none == some:
        return f"{first}; in each of them it is even less than what falls due." if some else f"{first}."
    return f"{first}; in {of_hundred(none)} it is less than what falls due."


def _hardest_year(found: Simulation) -> str:
    """The full year that is the tightest in the middle of the futures; nothing where none can be told."""
    middle = found.fan.cover[1][found.full_from_year - 1 :]
    if not np.isfinite(middle).any():
        return ""
    year = found.full_from_year + int(np.nanargmin(middle))
    return f"; year by year project year {year} is the tightest, with {found.fan.cover[1][year - 1]:.2f} in its middle future"


def drawn_by(settings: Settings) -> list[str]:
    """How futures were drawn, with what repeats them: number, seed and versions; and what P10 and +- mean."""
    return [
        f"{settings.draws:,} futures by {METHODS[settings.method]} in sixteen independent samples, seed {settings.seed}; "
        f"correlations by {JOININGS[settings.joining]}; "
        f"{', '.join(f'{name} {version}' for name, version in versions().items())}.",
        f"{CONVENTION}. Behind +- stands the standard error of the drawing, not of the assumptions.",
    ]


def how_ranked(found: Ranking) -> Passage:
    """How the causes were worked out."""
    return Passage(
        "How this was worked out",
        (
            *drawn_by(found.settings),
            f"Variance shares took {found.shares.runs:,} more runs. The straight-line coefficient is that of a straight line "
            "through all inputs in units of their spread; the partial rank correlation takes the other inputs out first.",
            *wandering(found.loaded),
        ),
    )


def how_drawn(found: Simulation) -> Passage:
    """How the futures were made, what moved nothing, and which checks were held to."""
    failed = {name: count for name, count in found.checks.items() if count}
    held = (
        f"Checked in every future, {found.outcomes.draws * len(found.checks):,} times in all, and held: "
        f"{'; '.join(found.checks)}."
        if not failed
        else "NOT HELD: " + "; ".join(f"{name}, in {count:,} futures" for name, count in failed.items())
    )
    sentences = [
        *drawn_by(found.settings),
        held,
        *wandering(found.loaded),
    ]
    if found.idle:
        sentences.append(f"These ranges move nothing under the choices of this scenario: {', '.join(found.idle)}.")
    return Passage("How this was worked out", tuple(sentences))


def wandering(loaded: Loaded) -> list[str]:
    """Each movement of prices in one sentence: what moves together, how far, and how fast it comes back."""
    return [
        f"Prices wander ({name}): {', '.join(item.moves)}; {percent(item.sd_long_run)} of spread in the long run, half of a "
        f"departure gone in {item.half_life_years:g} years, always back to the plan's own path; the first year is known."
        for name, item in loaded.scenario.wander.items()
    ]


def _acting_together(first: float) -> str:
    """How much of the variance the inputs carry each by itself [1], as an estimate tells it."""
    if first > NEARLY_ALL:
        return "Nearly all of the spread comes from each input by itself; what they do together adds little."
    return f"Each by itself, the inputs carry {first:.0%} of the variance; the rest comes from inputs acting together."


def causes(found: Ranking) -> Passage:
    """Which assumption decides."""
    units, sentences = units_of(found.loaded), []
    if found.swings.swings:
        top = found.swings.swings[0]
        low, high = (swing_value(top, value, units) for value in (top.low, top.high))
        sentences.append(
            f"What moves the worth most by itself is {name_of(found.loaded, top.path)} ({top.path}): from {low} to {high} the "
            f"worth goes from {units.money(top.npv_low)} to {units.money(top.npv_high)}."
        )
    if found.shares.variance.value > 0:
        sentences.append(_acting_together(sum(each.value for each in found.shares.first)))
    if found.warning:
        sentences.append(found.warning)
    if found.idle:
        sentences.append(f"These ranges move nothing under the choices of this scenario: {', '.join(found.idle)}.")
    return Passage("What decides", tuple(sentences))
