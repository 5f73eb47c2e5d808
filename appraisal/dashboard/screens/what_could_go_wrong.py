"""What could go wrong: how bad, how often and why; one year in three futures; bad cases; two assumptions against each other."""

from __future__ import annotations

from contextlib import nullcontext

import streamlit as st

from appraisal.dashboard import blocks
from appraisal.dashboard.asked import Asked, asked, choose
from appraisal.dashboard.seen import Seen
from appraisal.dashboard.showing import picture
from appraisal.dashboard.typed import put
from appraisal.dashboard.usual_ranges import usual_ranges
from appraisal.present import future_tables, risk_tables, risk_words, stress_words, words
from appraisal.present.charts.account_fan import account_fan
from appraisal.present.charts.ranked_swings import ranked_swings
from appraisal.present.charts.three_years import how_chosen, three_years_side_by_side
from appraisal.present.charts.two_way import two_way
from appraisal.present.charts.worth_spread import worth_spread
from appraisal.present.loan_words import largest_loan
from appraisal.present.naming import name_of
from appraisal.risk.changes import numbers
from appraisal.risk.grids import grid
from appraisal.risk.points import RiskError
from appraisal.risk.simulate import Simulation
from appraisal.risk.three_years import three_years

PRICE = "power.contract_price_per_kwh"  # with the costs first in the table of two assumptions where nothing carries a range
WORTH, COVER = "the worth", "the least cover of the loan"  # what the table of two assumptions may show
NO_RANGES = (
    'No value of this farm carries a range yet. Under "What the farm puts in", "Sources and ranges", say of the values you '
    "are least sure of how low and how high they may be: then thousands of futures can be worked out."
)


def show(seen: Seen) -> None:
    """Draw the screen: the answers once they were asked, then two assumptions against each other, then the findings."""
    if not seen.loaded.scenario.range and not seen.loaded.scenario.wander:
        st.info(blocks.plain(NO_RANGES))
        usual_ranges(seen.loaded)
    with st.expander("How many futures are drawn") if seen.reader == "family" else nullcontext():
        choose()
    answers = asked(seen.loaded)
    if answers is None:
        st.markdown("Nothing is worked out yet for the farm as it stands.")
    else:
        _answers(seen, answers)
    _two(seen)
    blocks.findings(seen.appraisal.findings)
    blocks.passage(words.cautions("screen"))


def _answers(seen: Seen, answers: Asked) -> None:
    bank = seen.reader == "bank"
    if bank:
        _bad_cases(seen, answers)
    if answers.simulation is not None:
        _how_bad(answers.simulation, seen)
    if answers.swings is not None:
        picture(ranked_swings(seen.loaded, answers.swings), key="swings", roomy=True)
    if answers.simulation is not None:
        year_in_three(answers.simulation, seen)
    if not bank:
        _bad_cases(seen, answers)


def _how_bad(found: Simulation, seen: Seen) -> None:
    """How bad and how often, side by side, with the words beneath; shown in the units of this window."""
    often, bad = st.columns(2)
    with often:
        picture(worth_spread(found), key="worth")
    with bad:
        picture(account_fan(found), key="fan")
    blocks.passage(risk_words.futures(found))
    blocks.passage(risk_words.cover_and_cash(found))
    if found.events:
        blocks.table(future_tables.event_table(found, paths=False))
    with st.expander("All measures, and how the futures were drawn"):
        blocks.table(future_tables.spread_table(found))
        blocks.table(future_tables.chance_table(found))
        blocks.table(future_tables.settling_table(found))
        blocks.passage(risk_words.how_drawn(found))


def year_in_three(found: Simulation, seen: Seen) -> None:
    """The account month by month in a good, a middle and a bad year; the reader picks the year."""
    timeline = seen.appraisal.timeline
    years = list(range(1, timeline.years + 1))
    first = seen.appraisal.plant.year - 1
    year = st.selectbox("The account month by month in project year", years, index=first, key="_year_of_three")
    told = three_years(found, year=year)
    currency = seen.loaded.scenario.project.currency
    picture(three_years_side_by_side(told, timeline=timeline, currency=currency), key="three")
    st.markdown(blocks.plain(how_chosen(told)))


def _bad_cases(seen: Seen, answers: Asked) -> None:
    blocks.passage(stress_words.stressed(answers.stress))
    blocks.table(risk_tables.stress_table(answers.stress))
    how_far_each(answers, seen)


def how_far_each(answers: Asked, seen: Seen) -> None:
    """How far each driver may move by itself before cover or worth is gone; to the bank also the largest loan."""
    least = seen.appraisal.headline.dscr_min
    cover = None if least.words[0] == "no debt due" else float(least.value[0])
    worth = float(seen.appraisal.headline.npv[0])
    blocks.table(risk_tables.break_table(seen.loaded, answers.breaks, plan_cover=cover, plan_npv=worth))
    loan = largest_loan(answers.breaks, seen.loaded)
    if loan is not None and seen.reader == "bank":
        blocks.passage(loan)


def _two(seen: Seen) -> None:
    """A table of any two assumptions."""
    st.subheader("Two assumptions against each other")
    costs = (f"capital.{name}.amount" for name in seen.loaded.scenario.capital)
    ranged, known = tuple(seen.loaded.scenario.range), tuple(numbers(seen.loaded))
    first_asked = ranged or tuple(path for path in (PRICE, *costs) if path in known)
    paths = [*first_asked, *(path for path in known if path not in first_asked)]
    down, across = st.columns(2)

    def name(path: str) -> str:
        return blocks.plain(name_of(seen.loaded, path))

    first = down.selectbox("Down", paths, index=0, format_func=name, key="_grid_down")
    second = across.selectbox("Across", paths, index=1, format_func=name, key="_grid_across")
    try:
        found = grid(seen.loaded, str(first), str(second))
        put("_grid_shows", st.session_state.get("_grid_chosen", COVER if seen.reader == "bank" else WORTH))
        shows = st.segmented_control("In the cells", (WORTH, COVER), required=True, key="_grid_shows")
        st.session_state["_grid_chosen"] = shows
        picture(two_way(seen.loaded, found, cover=shows == COVER), key="two", stretch=False)
    except RiskError as error:
        st.warning(blocks.plain(f"That table cannot be made: {error}."))
