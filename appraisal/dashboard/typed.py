"""Widgets that show what is saved without taking away what is being typed."""

from __future__ import annotations

from typing import Any

import streamlit as st

DRAWN = "_drawn"


def put(key: str, wanted: Any) -> None:
    """Give a widget its value before it is drawn: when it is new, or when what it should show has changed.

    A widget that already shows what is wanted is left alone: setting it in every run would take away what somebody types
    in it while another change is worked out.
    """
    drawn = st.session_state.setdefault(DRAWN, {})
    if key not in st.session_state or (drawn.get(key) != wanted and st.session_state[key] != wanted):
        st.session_state[key] = wanted
    drawn[key] = wanted
