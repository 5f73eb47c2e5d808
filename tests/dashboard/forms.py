"""Windows on the forms of one draft, and what stands in its file."""

from __future__ import annotations

import tomllib

from streamlit.testing.v1 import AppTest

from appraisal.dashboard import drafts
from tests.dashboard.windows import screen, window

FEE = "in_feed.whey.gate_fee_per_t"
TONNES = "in_feed.whey.tonnes_per_year"


def form(draft: str, group: str, **address: str) -> AppTest:
    """A window on one part of the form."""
    at = screen(window(draft, **address), "farm_puts_in")
    at.session_state["_group"] = group
    return at.run()


def whey(draft: str) -> dict[str, object]:
    """The feed as the draft on disk has it."""
    table: dict[str, object] = tomllib.loads(drafts.read(draft).text)["feed"]["whey"]
    return table


def button(at: AppTest, label: str) -> object:
    """A button by its label."""
    return next(each for each in at.button if each.label == label)
