"""What a banker asks first, each answered in a sentence; and how the bad cases and the futures fit together."""

from __future__ import annotations

import numpy as np

from appraisal.present import money_words, risk_words, words
from appraisal.present.grant_tables_money import STAGES
from appraisal.present.numbers import counted, listed, percent
from appraisal.present.stress_words import move_text
from appraisal.present.tables import units_of
from appraisal.risk.material import Material
from appraisal.risk.stress import Stressed
from appraisal.risk.three_years import TOGETHER

LENDER = "signed_contracts_only"
LOST = "lost_"  # begins the name of a case that takes a feed under contract away
BEFORE_TAX = " Its payments follow the cash before tax; cover is told after tax and comes out lower where tax is due."
DRIVERS = 3  # named on the first page; the table of breaks has the rest


def answers(found: Material) -> tuple[str, ...]:
    """How much, on what terms, does it carry itself, what breaks it, what is owed then, what is open."""
    appraisal = found.appraisal
    grave = sum(each.severity != "note" for each in appraisal.findings)
    open_points = f"{counted(grave, 'finding')} {'is a warning' if grave == 1 else 'are warnings'} or graver"
    return (
        _request(found),
        *_terms(found),
        *_cover(found),
        *_worst_case(found),
        *_room(found),
        *(risk_words.cover_and_cash(found.futures).sentences[:1] if found.futures else ()),
        money_words.owed(appraisal),
        words.verdict(appraisal),
        words.own_money(appraisal),
        f"{open_points}; see Risks." if grave else "No finding is a warning.",
    )


def _request(found: Material) -> str:
    values, units, scenario = found.appraisal.values, units_of(found.appraisal), found.loaded.scenario
    lent = sum(float(values[f"loan.{name}.sum"][0, 0]) for name in scenario.loan)
    grants, own = float(values["grants"][0].sum()), float(values["own_money_needed"][0, 0])
    sources = (("loans of {}", lent), ("grants of {}", grants), ("{} of the family's own money", own))
    named = listed(text.format(units.money(amount)) for text, amount in sources if amount > 0)
    return f"Uses of {units.money(float(values['uses_of_funds'][0, 0]))} are paid by {named}."


def _terms(found: Material) -> tuple[str, ...]:
    """The terms of each loan in one sentence."""
    values, units = found.appraisal.values, units_of(found.appraisal)
    return tuple(
        f"{loan.label or name.replace('_', ' ')}: {units.money(float(values[f'loan.{name}.sum'][0, 0]))} at {percent(loan.rate)} "
        f"a year over {counted(loan.years, 'year')}; how sure it is: {STAGES[loan.status]}."
        + (BEFORE_TAX if loan.size == "to_cover" or loan.repayment == "sculpted" else "")
        for name, loan in found.loaded.scenario.loan.items()
    )


def _cover(found: Material) -> tuple[str, ...]:
    """Least cover as assumed, and on signed contracts only where a debt is due."""
    said, *less_gas = words.bank(found.appraisal).sentences[:-2]
    value = float(found.appraisal.money.bank.least[LENDER].value[0])
    return (f"{said} On signed contracts only it is {value:.2f}." if np.isfinite(value) else said, *less_gas)


def _worst_case(found: Material) -> tuple[str, ...]:
    """The single bad case with the least cover."""
    single = [each for each in found.stress.cases if each.least_cover is not None and each.case.name != TOGETHER]
    if not single:
        return ()
    worst = min(single, key=lambda each: each.least_cover or 0.0)
    label = worst.case.label
    return (f"The bad case that hurts cover most: {label[:1].lower()}{label[1:]}; cover is then {worst.least_cover:.2f}.",)


def _room(found: Material) -> tuple[str, ...]:
    """How little of a move brings cover to its target, the nearest first; nothing where the plan is under it already."""
    plan = found.stress.plan.least_cover
    if plan is None or plan < found.stress.target:
        return ()
    covers = [each for each in found.breaks if each.measure == "least_cover" and each.driver.kind == "times"]
    met = [each for each in covers if each.move is not None]
    near = sorted(met, key=lambda each: abs(each.move or 0.0))[:DRIVERS]
    if not near:
        return ()
    named = "; ".join(f"{each.driver.label[:1].lower()}{each.driver.label[1:]} {move_text(each, found.loaded)}" for each in near)
    return (f"Cover is down to {found.stress.target:.2f}, one thing moved at a time, at: {named}.",)


def together(found: Material) -> str:
    """What the combined downside is made of, and where it stands."""
    joint = next((each for each in found.stress.cases if each.case.name == TOGETHER and each.npv is not None), None)
    if joint is None:
        return "no bad case is possible here"
    inside = [
        each
        for each in found.stress.cases
        if each is not joint and each.npv is not None and set(each.case.changes) <= set(joint.case.changes)
    ]
    return f"{len(inside)} cases of the table of bad cases at once, of inflation the worse of both"


def case_beside_futures(found: Material) -> tuple[str, ...]:
    """Why the futures may look well while the loss of a contract ruins the plan: they go no further than their ranges."""
    lost = [each for each in found.stress.cases if each.case.name.startswith(LOST) and each.npv is not None]
    if found.futures is None or not lost:
        return ()
    return tuple(_both(found, each) for each in lost)


def _both(found: Material, lost: Stressed) -> str:
    futures, units, loaded = found.futures, units_of(found.appraisal), found.loaded
    assert futures is not None
    name = lost.case.name.removeprefix(LOST)
    path, after = f"feed.{name}.contract_years", f"feed.{name}.share_after_contract"
    feed = name.replace("_", " ")
    event = next((each for each in futures.events if each.path == path), None)
    if event is None:
        drawn = f"no range of this scenario lets the contract for {feed} end early, so that no future holds this loss"
    else:
        share = "a drawn part" if after in futures.paths else f"{loaded.scenario.feed[name].share_after_contract:.0%}"
        chance = risk_words.of_futures(event.chance.value)
        drawn = f"the contract for {feed} ends early in {chance}, and {share} of the feed still comes afterwards"
    losing = risk_words.of_futures(futures.chances["npv_below_zero"].value)
    return (
        f"How this fits the bad cases: the futures go no further than the ranges and events that the scenario declares; {drawn}. "
        f"In {losing} the plant is worth less than nothing. The bad case takes all of the feed away for good and puts nothing in "
        f"its place: the plant is then worth {units.money(lost.npv or 0.0)}. Both are true; how likely the whole loss is, the "
        "futures do not say."
    )
