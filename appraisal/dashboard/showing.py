"""A picture on a page, with its finding above it, its alternative in words, and its numbers beneath."""

from __future__ import annotations

import altair as alt
import streamlit as st

from appraisal.dashboard import blocks
from appraisal.present.charts.picture import Picture

JOINED = (alt.HConcatChart, alt.VConcatChart)


def picture(shown: Picture, *, key: str) -> None:
    """Draw one picture; key: of this place on the screen. On narrow screens it keeps a width that can be read, and scrolls."""
    st.subheader(blocks.plain(shown.title))
    joined = isinstance(shown.chart, JOINED)
    st.altair_chart(
        shown.chart, theme=None, width="content" if joined else "stretch", alt=shown.alt, key=f"picture_{key}"
    )
    with st.expander("The numbers of this picture"):
        blocks.table(shown.table)
