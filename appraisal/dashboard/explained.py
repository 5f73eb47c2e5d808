"""How a figure was made: any line of the model, its equation, what went in, and every input below it with its source."""

from __future__ import annotations

import streamlit as st

from appraisal.dashboard import blocks
from appraisal.dashboard.seen import Seen
from appraisal.dashboard.typed import remembered
from appraisal.present.explanation import Explanation, explainable, explanation
from appraisal.present.explanation_text import inputs_table, months_tables, parts_table, sentences

LINE, YEAR, FURTHER = "_explained", "_explained_year", "_explained_further"
AT_ONCE = 12  # rows of inputs that stand open; more are folded away
FIRST = "net_cash"  # what is shown before anybody has chosen: the money that is left


def show(seen: Seen) -> None:
    """Draw the switch, and behind it the choice of a line and how it was made."""
    if not st.toggle("How was a figure made?", key="_explain"):
        return
    known = explainable(seen.appraisal)
    wanted = st.session_state.pop(FURTHER, None)
    if wanted in known:
        st.session_state[LINE] = wanted
    if st.session_state.get(LINE) not in known:
        st.session_state.pop(LINE, None)
    names = sorted(known, key=lambda name: name != FIRST)
    chosen, when = st.columns([4, 1])
    with chosen:
        name = remembered(LINE, names, lambda: _line(names, seen))
    years = seen.appraisal.timeline.years
    year = int(when.number_input("Project year", 1, years, value=seen.appraisal.plant.year, key=YEAR))
    _told(explanation(seen.appraisal, name, year=year))


def _line(names: list[str], seen: Seen) -> str | None:
    known = explainable(seen.appraisal)
    return st.selectbox(
        "Which figure? Type a few letters of it", names, key=LINE, format_func=lambda name: f"{known[name]} ({name})"
    )


def _told(told: Explanation) -> None:
    blocks.sentences(sentences(told))
    blocks.table(parts_table(told))
    lines = [part.name for part in told.parts if part.origin is None]
    if lines:
        st.pills("Look further into", lines, key="_further", on_change=_further)
    for each in months_tables(told):
        blocks.table(each)
    below = inputs_table(told)
    blocks.tables([below], behind=below.title if len(below.rows) > AT_ONCE else "")


def _further() -> None:
    st.session_state[FURTHER] = st.session_state.pop("_further", None)
