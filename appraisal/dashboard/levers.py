"""A few levers above the results: what if the price, the gas, the costs were otherwise? Beside them the unchanged case."""

from __future__ import annotations

from functools import partial

import streamlit as st

from appraisal.appraise import Appraisal
from appraisal.dashboard import blocks, state
from appraisal.dashboard.cached import levers_there, with_levers_moved
from appraisal.dashboard.seen import Seen
from appraisal.dashboard.typed import put
from appraisal.present.beside_plan import beside_table
from appraisal.risk.levers import LOST, contracts_by_gas
from appraisal.risk.points import RiskError
from appraisal.scenario.load import Loaded

SLIDER = 140  # pixels: two stand beside each other on a phone
NONE = "No contract is lost"


def of(seen: Seen) -> None:
    """Draw the levers over what is seen."""
    show(seen.plain or seen.appraisal, seen.appraisal if seen.plain is not None else None)


def show(plain: Appraisal, shown: Appraisal | None) -> None:
    """Draw the levers over the results of the draft; shown: the results with the levers moved, None while all rest."""
    with st.expander("What if? Move a lever and see", expanded=state.reader() == "bank" or shown is not None):
        row = st.container(horizontal=True)
        for lever in levers_there(plain.loaded):
            key = f"_lever_{lever.name}"
            put(key, state.levers().get(lever.name, 0.0))
            row.slider(
                lever.label,
                lever.low,
                lever.high,
                step=lever.step,
                format="percent",
                key=key,
                on_change=partial(_move, lever.name, key),
                width=SLIDER,
            )
        _lost(plain)
        if shown is None:
            st.markdown("All levers rest: what you see is the case of your file.")
            return
        blocks.table(beside_table(plain, shown))
        st.markdown("The figures on this screen are those **with the levers**. Your file is not changed by them.")
        st.button("Put the levers back", on_click=state.levers().clear)


def _lost(plain: Appraisal) -> None:
    cases = {case.name: case.label for case in contracts_by_gas(plain)}
    if not cases:
        return
    lost = state.lost()
    put("_lever_lost", lost if lost in cases else NONE)
    st.selectbox(
        "Lose a contract (the one with most gas comes first)",
        [NONE, *cases],
        format_func=lambda name: cases.get(name, NONE),
        key="_lever_lost",
        on_change=_lose,
    )


def _move(name: str, key: str) -> None:
    amount = float(st.session_state[key])
    state.levers()[name] = amount
    if not amount:
        del state.levers()[name]


def _lose() -> None:
    chosen = st.session_state["_lever_lost"]
    state.levers().pop(LOST, None)
    if chosen != NONE:
        state.levers()[LOST] = chosen


def moved(loaded: Loaded) -> Loaded | None:
    """The scenario with the levers as they stand; None when all are at rest or it cannot be, which is told."""
    moves = {name: amount for name, amount in state.levers().items() if isinstance(amount, float)}
    if not moves and state.lost() is None:
        return None
    try:
        return with_levers_moved(loaded, moves, state.lost())
    except RiskError as error:
        state.tell(f"With the levers like this the farm cannot be worked out: {error}. You see the case of your file.")
        return None
