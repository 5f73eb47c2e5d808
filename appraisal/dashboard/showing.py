"""A picture on a page, with its finding above it, its alternative in words, and its numbers beneath."""

from __future__ import annotations

import altair as alt
import streamlit as st

from appraisal.dashboard import blocks
from appraisal.present.charts.picture import Picture

JOINED = (alt.HConcatChart, alt.VConcatChart)


def picture(shown: Picture, *, key: str, stretch: bool = True) -> None:
    """Draw one picture; key: of this place on the screen.

    stretch: as wide as its place; else, and where charts are joined, it keeps its width and scrolls on narrow screens.
    """
    st.subheader(blocks.plain(shown.title))
    kept = isinstance(shown.chart, JOINED) or not stretch
    with st.container(key=f"scroll_{key}"):
        st.altair_chart(
            shown.chart, theme=None, width="content" if kept else "stretch", alt=shown.alt, key=f"picture_{key}"
        )
    with st.expander("The numbers of this picture"):
        blocks.table(shown.table)
