"""Other plans beside this one: drafts of this computer and invented farms, and a copy to try another way on."""

from __future__ import annotations

from collections.abc import Mapping
from datetime import datetime

import streamlit as st

from appraisal.dashboard import blocks, drafts, state
from appraisal.dashboard.cached import appraised, other_way, reading, ways_there
from appraisal.dashboard.seen import Seen, in_units
from appraisal.dashboard.typed import put
from appraisal.demos import demos
from appraisal.present.beside_plan import plans_table
from appraisal.scenario.edit_text import with_edits
from appraisal.scenario.load import Loaded

MOST = 3
ANOTHER = "another way"


def show(seen: Seen) -> dict[str, Loaded]:
    """Draw the choices of other plans and the table of all of them, and hand back the plans that were chosen, by name."""
    st.subheader("Other ways to do it, side by side")
    chosen = {**_ready_made(seen), **_known(seen)}
    if chosen:
        plans = {name: in_units(appraised(loaded), seen.units) for name, loaded in chosen.items()}
        blocks.table(plans_table({"this plan": seen.appraisal, **plans}))
    st.button(
        "Try another way on a copy of this plan",
        on_click=_copy,
        help="The copy opens here; this plan stays as it is, and both can be held against each other.",
    )
    return chosen


def _ready_made(seen: Seen) -> dict[str, Loaded]:
    """The ready-made ways that are chosen, with what was taken for each; what cannot be made says what is missing."""
    plain = (seen.plain or seen.appraisal).loaded
    known = ways_there(plain)
    hint = "for example without a feed, with another engine, without any grant"
    chosen = _picked("Ready-made other ways of this plan", known, key="_ways", kept="_chosen_ways", hint=hint)
    found = [other_way(plain, each) for each in chosen]
    told = [f"{way.label}: {f'not for this farm: {way.missing}.' if way.plan is None else way.note}" for way in found]
    if told:
        blocks.sentences(told)
    return {way.label: way.plan for way in found if way.plan is not None}


def _known(seen: Seen) -> dict[str, Loaded]:
    """The drafts and invented farms that are chosen."""
    others = offered(seen)
    names = {each: name for each, (name, _) in others.items()}
    hint = "choose other plans on this computer, or invented farms"
    chosen = _picked("Hold this plan against other plans", names, key="_alternatives", kept="_chosen_plans", hint=hint)
    return dict(others[each] for each in chosen)


def _picked(label: str, names: Mapping[str, str], *, key: str, kept: str, hint: str) -> list[str]:
    """A choice of several by name, kept while other screens are open; what is no longer there falls away."""
    put(key, [each for each in st.session_state.get(kept, []) if each in names])
    chosen = st.multiselect(
        label, list(names), key=key, max_selections=MOST, format_func=lambda each: names[each], placeholder=hint
    )
    st.session_state[kept] = chosen
    return chosen


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
    mine = (seen.plain or seen.appraisal).loaded
    if not isinstance(loaded, Loaded) or (not name and loaded.fingerprint == mine.fingerprint):
        return
    if loaded.scenario.project.currency == mine.scenario.project.currency:
        found[key] = (name or loaded.scenario.project.name, loaded)


def _copy() -> None:
    kept = state.opened()
    if kept is None:
        return
    name = f"{kept.head.name}, {ANOTHER}"
    before = kept.id
    state.open_draft(drafts.create(with_edits(kept.text, {("project", "name"): name}), name=name))
    st.session_state["_chosen_plans"] = [before]
    state.tell("This is the copy. Change what you like under \"What the farm puts in\"; the first plan is as it was.")
