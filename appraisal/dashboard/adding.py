"""One more item, with the library at hand, or one less."""

from __future__ import annotations

import re

import streamlit as st

from appraisal.dashboard import blocks, edits, library, state
from appraisal.dashboard.groups import Part
from appraisal.dashboard.typed import put
from appraisal.present import written
from appraisal.present.numbers import Units
from appraisal.present.written import allowed, for_file, reader_unit
from appraisal.scenario.edit_text import with_item, without_item
from appraisal.scenario.load import Loaded
from appraisal.scenario.quantity import Declaration, declarations

NAME = re.compile(r"[^a-z0-9_]+")


def short_name(text: str) -> str:
    """A name a scenario file can hold, made of what a person types: small letters, digits and _."""
    made = NAME.sub("_", text.strip().lower()).strip("_")
    return (made if made[:1].isalpha() else f"item_{made}")[:31].rstrip("_")


def add(part: Part, units: Units) -> None:
    """Draw the form for one more item: a name, what it is like in the library, and what must be given."""
    section = part.place.name
    with st.expander(f"Add to: {part.title}"):
        asked = [item for item in declarations(part.place.section) if item.required or item.name in ("like", "label")]
        typed = {"": st.text_input("Short name", key=f"add_{section}", help="Letters, digits and _, such as silage.")}
        for item in asked:
            typed[item.name] = _ask(part, item, units)
        if st.button("Add it", key=f"add_{section}_now", disabled=not typed[""].strip()):
            _add(section, short_name(typed[""]), asked, typed, units)


def _ask(part: Part, item: Declaration, units: Units) -> str:
    key = f"add_{part.place.name}_{item.name}"
    unit, table = reader_unit(item.unit, units), library.table_named_by(part.place.section, item.name)
    label = blocks.plain(written.label(item, units))
    help = blocks.plain(f"{item.help} {f'Allowed: {allowed(item, units)}.' if unit else ''}")
    if item.kind == "choice":
        return str(st.selectbox(label, item.options, key=key, help=help))
    if table is None:
        return st.text_input(label, key=key, help=help)
    titles = {"": "none", **library.titles(table)}
    put(key, st.session_state.get(key, ""))
    chosen = str(st.selectbox(label, list(titles), format_func=lambda id: titles[id], key=key, help=help))
    shown = library.row_table(table, chosen)
    if shown is not None:
        blocks.table(shown)
    return chosen


def _add(section: str, name: str, asked: list[Declaration], typed: dict[str, str], units: Units) -> None:
    values = {item.name: for_file(typed[item.name], item, units) for item in asked}
    given = {key: value for key, value in values.items() if value not in (None, "")}
    faults = edits.attempt(lambda text: with_item(text, section, name, given))
    if faults:
        blocks.refused("Not added.", faults)
        return
    st.session_state[f"_just_added_{section}"] = name
    for key in [key for key in st.session_state if str(key).startswith(f"add_{section}")]:
        del st.session_state[key]
    st.rerun()


def remove(part: Part, loaded: Loaded, name: str) -> None:
    """Draw the way to take an item out; undo brings it back."""
    section = part.place.name
    if st.button(f"Take {name} out of the plan", key=f"remove_{section}_{name}"):
        faults = edits.attempt(lambda text: without_item(text, section, name))
        if faults:
            blocks.refused("Not taken out.", faults)
            return
        state.tell(f"{name} is taken out of the plan, with its ranges and sources. Undo brings it back.")
        st.rerun()
