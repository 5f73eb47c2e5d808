"""The file itself: its text to read and to change by hand, for what no form covers."""

from __future__ import annotations

import streamlit as st

from appraisal.dashboard import blocks, state
from appraisal.dashboard.typed import put


def whole_file() -> None:
    """Draw the text of the draft; a changed text is taken over only when nothing is wrong with it."""
    kept = state.opened()
    if kept is None:
        return
    st.markdown(
        "This is the whole scenario as a file. Here also stand values that move together, bad cases of your own, and your "
        "comments. Change what you like; it is taken over only when every value in it is accepted."
    )
    put("_whole_file", kept.text)
    typed = st.text_area("The scenario file", key="_whole_file", height=560)
    if st.button("Take this text over", type="primary", disabled=typed == kept.text):
        faults = state.accept(typed)
        if faults:
            blocks.faults(faults)
        else:
            st.rerun()
