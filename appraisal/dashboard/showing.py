"""A picture on a page, with its finding above it, its alternative in words, and its numbers beneath."""

from __future__ import annotations

import altair as alt
import streamlit as st

from appraisal.dashboard import blocks
from appraisal.present.charts.picture import Picture

JOINED = (alt.HConcatChart, alt.VConcatChart)
AS_DRAWN = {"type": "pad", "contains": "padding"}  # what stands around the plot comes on top of its size
AS_WIDE = {"type": "fit-x", "contains": "padding"}  # or is taken off its width, its height apart
CLEAR = "transparent"  # so that the shade at the edge of what scrolls is seen


def picture(shown: Picture, *, key: str, stretch: bool = True, roomy: bool = False) -> None:
    """Draw one picture; key: of this place on the screen. Tests check its form, so that no time is spent on that here.

    stretch: as wide as its place; else, and where charts are joined, it keeps its width and scrolls on narrow screens.
    roomy: stretched, but on a phone it keeps the width that its words need, and scrolls.
    """
    st.subheader(blocks.plain(shown.title))
    kept = isinstance(shown.chart, JOINED) or not stretch
    with st.container(key=f"scroll_{'roomy_' if roomy else ''}{key}"):
        st.vega_lite_chart(
            spec={
                **shown.chart.to_dict(validate=False),
                "autosize": AS_DRAWN if kept else AS_WIDE,
                "background": CLEAR,
            },
            theme=None,
            width="content" if kept else "stretch",
            alt=shown.alt,
            key=f"picture_{key}",
        )
    with st.expander("The numbers of this picture"):
        blocks.table(shown.table)
