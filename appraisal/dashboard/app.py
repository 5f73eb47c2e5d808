"""The script that Streamlit runs: the page, the menu, the frame, then the chosen screen."""

from __future__ import annotations

from appraisal.dashboard import ahead

ahead.wait()

import streamlit as st  # noqa: E402

from appraisal.dashboard import frame, state, style  # noqa: E402
from appraisal.dashboard.places import OPENING, PLACES  # noqa: E402

st.set_page_config(page_title="Does a biogas plant pay here?", layout="wide", initial_sidebar_state="auto")
style.lay_down()
state.begin()
first = PLACES[0] if state.is_usable() else OPENING
pages = [
    st.Page(place.file, title=place.title, url_path=place.name, default=place is first) for place in (*PLACES, OPENING)
]
chosen = st.navigation(pages, position="sidebar" if state.is_usable() else "hidden")
frame.sidebar()
chosen.run()
