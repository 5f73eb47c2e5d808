"""What stands around every screen: the farm, the reader, the units, what is saved, and the levers."""

from __future__ import annotations

import streamlit as st

from appraisal.dashboard import blocks, explained, levers, state
from appraisal.dashboard.cached import appraised
from appraisal.dashboard.places import OPENING, PLACES, Place, place
from appraisal.dashboard.seen import SYSTEMS, Seen, in_units
from appraisal.scenario.load import Loaded

READERS = {"family": "the family", "bank": "the bank", "grant": "the grant office"}
WELCOME = "Would a biogas plant pay on this farm?"


def open_screen(name: str) -> None:
    """Draw one screen: its title, then what it shows of the open farm; without a farm, the screen that opens one."""
    found = state.standing()
    chosen = place(name) if isinstance(found, Loaded) else OPENING
    view = seen(with_levers=chosen.levers)
    st.title(chosen.title if view is not None else WELCOME)
    if view is not None and chosen is not OPENING:
        blocks.whose(view.loaded.scenario.project.name, READERS[view.reader])
    for news in state.told():
        st.warning(blocks.plain(news))
    if isinstance(found, tuple):
        blocks.faults(found)
    if chosen.levers_above and view is not None:
        levers.of(view)
    chosen.module().show(view)
    if chosen.levers and view is not None:
        explained.show(view)
    if view is not None:
        _onward(chosen)


def _onward(here: Place) -> None:
    """The other screens once more at the foot of the page: on a phone the menu is folded away."""
    st.markdown("**Go on to**")
    with st.container(horizontal=True):
        for each in (*PLACES, OPENING):
            if each is not here:
                st.page_link(each.file, label=each.title)


def seen(*, with_levers: bool = True) -> Seen | None:
    """The open farm with its results, the levers as they stand or at rest; None when no farm is open."""
    found, kept = state.standing(), state.opened()
    if not isinstance(found, Loaded) or kept is None:
        return None
    moved = levers.moved(found) if with_levers else None
    units = state.units()
    shown = in_units(appraised(moved or found), units)
    plain = in_units(appraised(found), units) if moved is not None else None
    return Seen(shown.loaded, shown, plain, state.reader(), units, kept.id)


def sidebar() -> None:
    """The farm that is open, for whom and in which units it is shown, and the way back."""
    kept = state.opened()
    if kept is None:
        return
    with st.sidebar:
        st.markdown(f"**{blocks.plain(kept.head.name)}**")
        _choice("Arranged for", READERS, state.reader(), key="_reader")
        _choice("Units", SYSTEMS, state.units(), key="_units")
        undo, redo = st.columns(2)
        undo.button("Undo", on_click=state.step, args=(-1,), disabled=not kept.can_undo, width="stretch")
        redo.button("Redo", on_click=state.step, args=(1,), disabled=not kept.can_redo, width="stretch")
        st.markdown("Every change is saved on this computer as you make it.")


def _choice(label: str, options: dict[str, str], now: str, *, key: str) -> None:
    st.session_state[key] = now
    st.radio(label, list(options), format_func=lambda each: options[each], key=key)
