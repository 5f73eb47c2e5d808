"""Shall we build? The answer in sentences, what it rests on, what to ask about; arranged for who reads it."""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import dataclass, replace

import streamlit as st

from appraisal.dashboard import alternatives, blocks, levers
from appraisal.dashboard.asked import Asked, asked, settings
from appraisal.dashboard.jobs import long_work
from appraisal.dashboard.screens.what_could_go_wrong import how_far_each, year_in_three
from appraisal.dashboard.seen import Reader, Seen
from appraisal.dashboard.showing import picture
from appraisal.present import (
    compare_words,
    grant_tables_land,
    grant_tables_money,
    grant_tables_plant,
    grant_tables_worth,
    money_tables,
    money_words,
    risk_tables,
    tables,
    words,
)
from appraisal.present.charts.air import with_and_without
from appraisal.present.charts.cover import cover_by_year
from appraisal.present.charts.gas_by_feed import gas_by_feed
from appraisal.present.charts.money_by_year import money_by_year
from appraisal.present.decision import Decision, decide, owed_after
from appraisal.present.house_rules import rules_table
from appraisal.risk.compare import compare
from appraisal.risk.material import Planned


@dataclass(frozen=True, eq=False)
class View:
    """What the parts of this screen draw from."""

    seen: Seen
    answers: Asked | None
    decision: Decision


def show(seen: Seen) -> None:
    """Draw the screen: the answer first for everybody, then the parts in the order of the reader."""
    place = st.container()
    levers.of(seen)
    answers = asked(seen.loaded) if seen.plain is None else None
    if seen.plain is not None:
        st.info(
            "With a lever moved, the futures are not asked: they are those of your file. Put the levers back to see them."
        )
    decision = decide(
        seen.appraisal,
        simulation=answers.simulation if answers else None,
        breaks=answers.breaks if answers else (),
        swings=answers.swings if answers else None,
        to_family=seen.reader == "family",
    )
    view = View(seen, answers, decision)
    with place:
        _answer(view)
    for part in ORDER[seen.reader]:
        part(view)


def _answer(view: View) -> None:
    first, *rest = view.decision.said.sentences
    with st.container(border=True):
        st.markdown(f"**{blocks.plain(first)}**")
        blocks.sentences(rest)


def _rules(view: View) -> None:
    reader = view.seen.reader
    whose = "Your" if reader == "family" else "The family's"
    with st.expander(f"{whose} house rules and what came out", expanded=reader == "bank"):
        blocks.table(replace(rules_table(view.decision.rules), title="Rule by rule"))
        st.markdown("They are set under *What the farm puts in*, *What you ask of it*, *Your own limits*.")


def _must_hold(view: View) -> None:
    blocks.passage(view.decision.must_hold)


def _hurts(view: View) -> None:
    if view.answers is not None:
        blocks.passage(view.decision.hurts)


def _three_years(view: View) -> None:
    if view.answers is not None and view.answers.simulation is not None:
        year_in_three(view.answers.simulation, view.seen)


def _money(view: View) -> None:
    picture(money_by_year(view.seen.appraisal), key="by_year", roomy=True)


def _feeds(view: View) -> None:
    picture(gas_by_feed(view.seen.appraisal), key="feeds", roomy=True)


def _cover(view: View) -> None:
    combined = None if view.answers is None else view.answers.combined
    picture(cover_by_year(view.seen.appraisal, combined=combined), key="cover")


def _air(view: View) -> None:
    picture(with_and_without(view.seen.appraisal), key="air", roomy=True)


def _lender(view: View) -> None:
    blocks.passage(words.bank(view.seen.appraisal))
    blocks.passage(money_words.bank_money(view.seen.appraisal))


def _sources(view: View) -> None:
    blocks.table(tables.funding_table(view.seen.appraisal))


def _breaks(view: View) -> None:
    """How far each driver may move before the cover or the worth is gone, and how large a loan the plan carries."""
    if view.answers is not None:
        how_far_each(view.answers, view.seen)


def _office(view: View) -> None:
    blocks.passage(words.grant_office(view.seen.appraisal))
    blocks.passage(money_words.grant_money(view.seen.appraisal))


def _asked_for(view: View) -> None:
    """Budget and eligible cost, the match, and the smallest grant that would do."""
    found = Planned(view.seen.appraisal)
    for make in (grant_tables_money.budget, grant_tables_money.funding_match):
        blocks.table(make(found))
    if view.answers is not None:
        blocks.table(grant_tables_worth.smallest_grant(view.answers.grant))


def _replaced(view: View) -> None:
    """Energy replaced, nutrients brought back, jobs."""
    found = Planned(view.seen.appraisal)
    for make in (grant_tables_plant.energy_history, grant_tables_land.nutrients, grant_tables_plant.jobs):
        blocks.table(make(found))


def _work(view: View) -> None:
    blocks.passage(view.decision.work)


def _if_stopped(view: View) -> None:
    found = view.seen.appraisal
    blocks.passage(view.decision.if_stopped)
    year = st.slider(
        "If it stops at the end of project year", 1, found.timeline.years, found.plant.year, key="_year_it_stops"
    )
    st.markdown(f"**{blocks.plain(owed_after(found, year))}**")
    with st.expander("Year by year"):
        blocks.table(money_tables.stop_table(found))


def _others(view: View) -> None:
    """Other plans beside this one, and on request line by line and over common futures."""
    plans = [view.seen.loaded, *alternatives.show(view.seen).values()]
    if len(plans) < 2 or view.seen.plain is not None:
        return
    how = settings()
    key = "_".join(["compared", *(plan.fingerprint for plan in plans), str(how.draws), str(how.seed)])
    found = long_work(key, "Compare them over the same futures", lambda tell: compare(plans, how, progress=tell))
    if found is not None:
        blocks.passage(compare_words.compared(found))
        blocks.table(risk_tables.difference_table(found))


def _findings(view: View) -> None:
    blocks.findings(view.seen.appraisal.findings)


def _farm_now(view: View) -> None:
    blocks.table(tables.farm_now_table(view.seen.appraisal))


def _cautions(view: View) -> None:
    blocks.passage(view.decision.cautions)


Part = Callable[[View], None]
ORDER: dict[Reader, tuple[Part, ...]] = {
    "family": (
        _rules, _must_hold, _hurts, _three_years, _others, _money, _feeds, _work, _if_stopped, _findings, _farm_now, _cautions,
    ),
    "bank": (
        _cover, _lender, _sources, _breaks, _rules, _hurts, _must_hold, _three_years, _money, _if_stopped, _findings, _others,
        _work, _farm_now, _cautions,
    ),
    "grant": (
        _office, _asked_for, _air, _replaced, _money, _rules, _must_hold, _hurts, _cover, _findings, _work, _if_stopped, _others,
        _farm_now, _cautions,
    ),
}  # fmt: skip
