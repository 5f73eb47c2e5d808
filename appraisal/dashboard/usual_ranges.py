"""Usual ranges taken over at once: for a farm whose values carry none, so that its futures can be asked."""

from __future__ import annotations

from typing import Any

import streamlit as st

from appraisal.dashboard import edits, state
from appraisal.risk.offers import Offer, offers
from appraisal.scenario.edit_text import with_edits
from appraisal.scenario.load import Loaded

HELP = (
    "Low and high as the library gives them, costs by how they were estimated, and how long such plants ran elsewhere. Each "
    "stands with its reason under Sources and ranges, where it can be changed or taken out."
)


def usual_ranges(loaded: Loaded) -> None:
    """Draw the button that takes every range on offer into the plan; nothing where none is on offer."""
    found = offers(loaded)
    if found:
        st.button(f"Take the usual ranges of {len(found)} values", on_click=_take, args=(found,), help=HELP, key="usual_ranges")


def _take(found: tuple[Offer, ...]) -> None:
    faults = edits.attempt(lambda text: with_edits(text, values_of(found)))
    if faults:
        state.tell("The usual ranges were not taken: " + " ".join(f"{each.text('')}." for each in faults))
    else:
        state.tell(f"{len(found)} values now carry a usual range, each with its reason. Undo takes them back.")


def values_of(found: tuple[Offer, ...]) -> dict[tuple[str, ...], Any]:
    """What a file should hold for ranges on offer: every parameter under `range` and its path."""
    return {
        ("range", each.path, name): list(value) if isinstance(value, tuple) else value
        for each in found
        for name, value in (("shape", each.shape), *each.facts, ("reason", each.reason))
    }
