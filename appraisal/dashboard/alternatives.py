"""Other plans beside this one: drafts of this computer and invented farms, and a copy to try another way on."""

from __future__ import annotations

from collections.abc import Mapping
from datetime import datetime

import streamlit as st

from appraisal.dashboard import blocks, drafts, state
from appraisal.dashboard.cached import appraised, reading
from appraisal.dashboard.seen import Seen, in_units
from appraisal.dashboard.typed import put
from appraisal.demos import demos
from appraisal.present.beside_plan import plans_table
from appraisal.scenario.edit_text import with_edits
from appraisal.scenario.load import Loaded

MOST = 3
ANOTHER = "another way"


def show(seen: Seen) -> None:
    """Draw the choice of other plans and the table of all of them."""
    st.subheader("Other ways to do it, side by side")
    others = offered(seen)
    key = "_alternatives"
    put(key, [each for each in st.session_state.get("_chosen_plans", []) if each in others])
    chosen = st.multiselect(
        "Hold this plan against",
        list(others),
        key=key,
        max_selections=MOST,
        format_func=lambda each: others[each][0],
        placeholder="choose other plans on this computer, or invented farms",
    )
    st.session_state["_chosen_plans"] = chosen
    if chosen:
        plans = {"this plan": seen.appraisal}
        for each in chosen:
            name, loaded = others[each]
            plans[name] = in_units(appraised(loaded), seen.units)
        blocks.table(plans_table(plans))
    st.button(
        "Try another way on a copy of this plan",
        on_click=_copy,
        help="The copy opens here; this plan stays as it is, and both can be held against each other.",
    )


def offered(seen: Seen) -> Mapping[str, tuple[str, Loaded]]:
    """Plans in the same money by key: recent drafts but this one, then the invented farms."""
    found: dict[str, tuple[str, Loaded]] = {}
    for kept in drafts.recent():
        when = datetime.fromisoformat(kept.head.saved).astimezone().strftime("%d %b, %H:%M")
        if kept.id != seen.draft:
            _offer(found, kept.id, f"{kept.head.name} ({when})", kept.text, seen)
    for name, path in demos().items():
        _offer(found, name, "", path.read_text(encoding="utf-8"), seen)
    return found


def _offer(found: dict[str, tuple[str, Loaded]], key: str, name: str, text: str, seen: Seen) -> None:
    loaded = reading(text)
    if isinstance(loaded, Loaded) and loaded.scenario.project.currency == seen.loaded.scenario.project.currency:
        found[key] = (name or loaded.scenario.project.name, loaded)


def _copy() -> None:
    kept = state.opened()
    if kept is None:
        return
    name = f"{kept.head.name}, {ANOTHER}"
    before = kept.id
    state.open_draft(drafts.create(with_edits(kept.text, {("project", "name"): name}), name=name))
    st.session_state["_chosen_plans"] = [before]
    state.tell("This is the copy. Change what you like under `What the farm puts in`; the first plan is as it was.")
