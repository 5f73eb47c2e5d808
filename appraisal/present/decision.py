"""Shall we build? Plain sentences that follow from the numbers and the family's own rules, never past a stop-and-ask finding."""

from __future__ import annotations

from dataclasses import dataclass
from typing import Literal

import numpy as np

from appraisal.appraise import Appraisal
from appraisal.present import money_words, month_words, words
from appraisal.present.house_rules import Rule, rules
from appraisal.present.naming import name_of, spoken, spot, swing_value
from appraisal.present.numbers import counted, listed, percent
from appraisal.present.risk_words import units_of
from appraisal.present.stress_words import move_text
from appraisal.present.words import Passage
from appraisal.risk.reverse import Break
from appraisal.risk.simulate import Simulation
from appraisal.risk.swings import Swings

WHOSE = {True: "your", False: "the family's"}  # house rules, by whether the family is spoken to
Answer = Literal["no", "not yet", "against the rules", "not known", "yes"]
HURTING, HOLDING = 3, 6  # at most so many causes and conditions are told


@dataclass(frozen=True)
class Decision:
    """The answer and what it stands on.

    answer: which branch. said: the answer in sentences. rules: held against the plan. must_hold, hurts, work, if_stopped:
    sentences under their headings. cautions: what to heed before acting.
    """

    answer: Answer
    said: Passage
    rules: tuple[Rule, ...]
    must_hold: Passage
    hurts: Passage
    work: Passage
    if_stopped: Passage
    cautions: Passage


def decide(
    appraisal: Appraisal,
    *,
    simulation: Simulation | None = None,
    breaks: tuple[Break, ...] = (),
    swings: Swings | None = None,
    to_family: bool = True,
) -> Decision:
    """Answer from one appraisal and, where they were asked, its futures, break points and swings.

    simulation, swings: of the same scenario; None where they were not asked or nothing carries a range. breaks: how far each
    driver may move, empty where not asked. to_family: whether the family itself is spoken to.
    """
    held = rules(appraisal, simulation)
    answer, careful = answer_of(appraisal, held), words.cautions("screen")
    return Decision(
        answer=answer,
        said=Passage("Shall we build?", (*_said(appraisal, held, answer, WHOSE[to_family]), *_on_what(appraisal))),
        rules=held,
        must_hold=_must_hold(appraisal, breaks),
        hurts=_hurts(appraisal, swings),
        work=Passage("The work", _work(appraisal)),
        if_stopped=Passage("If it stops", (money_words.owed(appraisal), money_words.stop_rule(appraisal))),
        cautions=Passage(careful.title, (*careful.sentences, words.whom_to_call(appraisal.loaded))),
    )


def answer_of(appraisal: Appraisal, held: tuple[Rule, ...]) -> Answer:
    """Which answer the numbers give; the gravest reason against building decides."""
    if float(appraisal.headline.npv[0]) < 0:
        return "no"
    if stopping(appraisal):
        return "not yet"
    if any(rule.kept is False for rule in held):
        return "against the rules"
    return "not known" if any(rule.kept is None for rule in held) else "yes"


def stopping(appraisal: Appraisal) -> tuple[str, ...]:
    """What the findings that say stop and ask stand at, as readers call it."""
    return tuple(dict.fromkeys(spot(appraisal, f.where) for f in appraisal.findings if f.severity == "stop and ask"))


def _said(appraisal: Appraisal, held: tuple[Rule, ...], answer: Answer, whose: str) -> tuple[str, ...]:
    worth = units_of(appraisal.loaded).money(abs(float(appraisal.headline.npv[0])))
    at = f"at {percent(appraisal.loaded.scenario.judging.discount_rate)} a year over {counted(appraisal.timeline.years, 'year')}"
    asked, broken = stopping(appraisal), [rule for rule in held if rule.kept is False]
    stop = (
        f"{counted(len(asked), 'place')} in the plan must be cleared with somebody who knows first: {', '.join(asked)}."
    )
    breaking = tuple(f"House rule broken: {rule.short}: {rule.found}; wanted: {rule.wanted}." for rule in broken)
    if answer == "no":
        first = f"Not as it stands. Counted {at}, the plan is worth {worth} less than nothing in today's money."
        return (
            first,
            *breaking,
            *((stop,) if asked else ()),
            *words.worth_with_less_gas(appraisal),
        )
    if answer == "not yet":
        first = f"Not yet. {stop} Until then the {worth} that the plan is worth on paper are no ground to build on."
        return (first, *words.worth_with_less_gas(appraisal), *breaking)
    if answer == "against the rules":
        some = f"{len(broken)} of {whose} {counted(len(held), 'house rule')}"
        return (
            f"Not by {whose} own rules. Counted {at}, the plan is worth {worth} in today's money, but it breaks {some}.",
            *breaking,
        )
    if answer == "not known":
        return (
            f"Not known yet. Counted {at}, the plan is worth {worth} in today's money and keeps the rules that could be checked.",
            _not_asked(appraisal),
        )
    return (
        f"Yes by {whose} own rules, if what you assumed comes true. Counted {at}, the plan is worth {worth} in today's money.",
        f"It keeps all of {whose} {counted(len(held), 'house rule')}.",
    )


def _not_asked(appraisal: Appraisal) -> str:
    if appraisal.loaded.scenario.range:
        return "How often it would lose money was not asked yet: work out the futures."
    return (
        "How often it would lose money cannot be told, for no value carries a range: say of the values you are least sure of "
        "how low and how high they may be."
    )


def _on_what(appraisal: Appraisal) -> tuple[str, ...]:
    return (words.payback(appraisal), words.own_money(appraisal))


def _must_hold(appraisal: Appraisal, breaks: tuple[Break, ...]) -> Passage:
    """Conditions one at a time: how far each driver may move before the plan is worth nothing, or must move until it is not."""
    loaded, pays = appraisal.loaded, float(appraisal.headline.npv[0]) >= 0
    met = sorted(
        (each for each in breaks if each.measure == "npv" and each.status in ("meets", "jumps") and each.move),
        key=lambda each: abs(float(each.move or 0.0)) / max(abs(each.driver.low), abs(each.driver.high)),
    )
    sentences = [_condition(each.driver.label, move_text(each, loaded), pays=pays) for each in met[:HOLDING]]
    if breaks and not met:
        sentences.append("None of the things tried decides by itself whether it pays.")
    ending = [name.replace("_", " ") for name, feed in loaded.scenario.feed.items() if feed.supply_by == "contract"]
    share = appraisal.plant.contract_gas_share
    if ending and share > 0:
        several = len(ending) > 1
        sentences.append(
            f"The contract{'s' * several} for {listed(ending)} must be kept: {percent(share)} of the gas hangs on "
            f"{'them' if several else 'it'}."
        )
    asked = stopping(appraisal)
    if asked:
        says = "it says" if len(asked) == 1 else "each of them says"
        sentences.append(f"First of all, {listed(asked)} must be cleared: {says} stop and ask.")
    if not breaks:
        sentences.append("How far prices, costs and gas may move was not asked yet.")
    title = (
        "What must hold for it to pay, each by itself"
        if pays
        else "What would have to change for it to pay, each by itself"
    )
    return Passage(title, tuple(sentences))


def _condition(label: str, move: str, *, pays: bool) -> str:
    way = f"{move[1:]} {'less' if move.startswith('-') else 'more'} than planned"
    return f"{label}: at most {way}." if pays else f"{label}: it would take {way}."


def _hurts(appraisal: Appraisal, swings: Swings | None) -> Passage:
    """The assumptions that pull the worth down most when they turn out badly."""
    title, units = "What hurts most", units_of(appraisal.loaded)
    if swings is None or not swings.swings:
        return Passage(title, ("No value carries a range, so nothing can be said of what hurts most.",))
    ranked = sorted(swings.swings, key=lambda each: min(each.npv_low, each.npv_high))[:HURTING]
    sentences = []
    for each in ranked:
        at, worth = (each.low, each.npv_low) if each.npv_low <= each.npv_high else (each.high, each.npv_high)
        bad, planned = (spoken(swing_value(each, value, units)) for value in (at, each.value))
        sentences.append(
            f"{name_of(appraisal.loaded, each.path)} at {bad}, planned {planned}: the plan is then worth {units.money(worth)}, "
            f"against {units.money(swings.npv)}."
        )
    return Passage(f"{title}, each at the bad end of its own range", tuple(sentences))


def _work(appraisal: Appraisal) -> tuple[str, ...]:
    calls = (
        ()
        if appraisal.loaded.scenario.labour.night_calls_per_year
        else ("No calls at night are counted: ask who gets up.",)
    )
    return (words.hours_of_work(appraisal), money_words.hours(appraisal), *calls, month_words.worst_month(appraisal))


def owed_after(appraisal: Appraisal, year: int) -> str:
    """What is still owed if the plant stops at the end of a project year, from 1."""
    series = np.broadcast_to(appraisal.values["owed_if_stopped"][0], (appraisal.timeline.years,))
    owed, money = float(series[year - 1]), units_of(appraisal.loaded).money
    if owed <= 0:
        left = f"; {money(-owed)} are left from selling it" if owed <= -1 else ""
        return f"If it stops at the end of project year {year}, nothing is owed{left}."
    return f"If it stops at the end of project year {year}, {money(owed)} are still owed after all is sold and settled."
