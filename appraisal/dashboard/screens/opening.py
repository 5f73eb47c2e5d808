"""Open a farm: go on with a draft, look at an invented farm, or bring a file."""

from __future__ import annotations

import streamlit as st

from appraisal.dashboard import blocks, drafts, state
from appraisal.dashboard.places import PLACES
from appraisal.dashboard.seen import Seen
from appraisal.demos import demos
from appraisal.scenario.load import load


def show(seen: Seen | None) -> None:
    """Draw the screen."""
    st.subheader("Look at an invented farm")
    for name, path in demos().items():
        project = load(path).scenario.project
        if st.button(blocks.plain(project.name), key=f"demo_{name}"):
            state.open_draft(drafts.create(path.read_text(encoding="utf-8"), name=project.name))
            st.switch_page(PLACES[0].file)
        st.markdown(blocks.plain(project.note))
