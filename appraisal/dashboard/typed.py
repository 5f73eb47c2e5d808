"""Widgets that show what is saved without taking away what is being typed."""

from __future__ import annotations

from collections.abc import Callable, Sequence
from typing import Any

import streamlit as st

DRAWN, KEPT = "_drawn", "_kept"


def put(key: str, wanted: Any) -> None:
    """Give a widget its value before it is drawn: when it is new, or when what it should show has changed.

    A widget that already shows what is wanted is left alone: setting it in every run would take away what somebody types
    in it while another change is worked out.
    """
    drawn = st.session_state.setdefault(DRAWN, {})
    if key not in st.session_state or (drawn.get(key) != wanted and st.session_state[key] != wanted):
        st.session_state[key] = wanted
    drawn[key] = wanted


def remembered(key: str, options: Sequence[str], draw: Callable[[], Any]) -> str:
    """What was chosen among options, also after another screen was drawn in between; the first one when nothing was.

    draw: draws the widget with this key and hands back what is chosen in it.
    """
    kept = st.session_state.setdefault(KEPT, {})
    if key not in st.session_state:
        st.session_state[key] = kept.get(key) if kept.get(key) in options else options[0]
    chosen = str(draw() or options[0])
    kept[key] = chosen
    return chosen
