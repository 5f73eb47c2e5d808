"""The look: one light theme in settings, and the few rules of type and tables that settings cannot say."""

from __future__ import annotations

import streamlit as st

RULES = """
<style>
.sheet {overflow-x: auto; margin: 0 0 1.4rem 0}
.sheet table {border-collapse: collapse; font-variant-numeric: tabular-nums; font-size: 0.95rem}
.sheet caption {text-align: left; font-weight: 600; padding: 0.3rem 0; color: #1b1f23}
.sheet th {text-align: left; border-bottom: 2px solid #1b1f23; padding: 0.25rem 0.9rem 0.25rem 0; vertical-align: bottom}
.sheet td {border-bottom: 1px solid #d9dcdf; padding: 0.25rem 0.9rem 0.25rem 0; vertical-align: top}
.sheet .number {text-align: right; white-space: nowrap}
.block-container {max-width: 70rem}
@media print {[data-testid="stSidebar"], [data-testid="stHeader"] {display: none}}
</style>
"""


def lay_down() -> None:
    """Put the rules on the page; they hold no text of a user."""
    st.html(RULES)
