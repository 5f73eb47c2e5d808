"""What the farm puts in: every input of the scenario, to read and to change, with its range, source and how it is known."""

from __future__ import annotations

import streamlit as st

from appraisal.dashboard import adding, blocks, edits, state
from appraisal.dashboard.beside_value import beside_value
from appraisal.dashboard.fields import field
from appraisal.dashboard.groups import FIRST, TABLES, Part, groups
from appraisal.dashboard.item_table import item_table
from appraisal.dashboard.library_panel import at_hand, library_panel
from appraisal.dashboard.seen import Seen
from appraisal.dashboard.typed import remembered
from appraisal.dashboard.whole_file import whole_file
from appraisal.present.numbers import Units
from appraisal.scenario.assumptions import Assumption
from appraisal.scenario.load import Loaded
from appraisal.scenario.quantity import declarations

VIEWS = ("Values", "Sources and ranges", "Library", "The file itself")
COLUMNS = 2


def show(seen: Seen) -> None:
    """Draw the screen."""
    units = Units(seen.units, seen.loaded.scenario.project.currency)
    view = st.segmented_control(
        "Show", VIEWS, default=VIEWS[0], required=True, key="_view", label_visibility="collapsed"
    )
    if state.waiting():
        _waiting(seen.loaded)
    if view == VIEWS[1]:
        beside_value(seen.loaded, units)
    elif view == VIEWS[2]:
        library_panel()
    elif view == VIEWS[3]:
        whole_file()
    else:
        _values(seen.loaded, units)


def _waiting(loaded: Loaded) -> None:
    known = loaded.assumptions
    names = ", ".join(known[path].declaration.label if path in known else path for path in state.waiting())
    st.warning(blocks.plain(f"Not saved yet, see beside the field: {names}. Results use the last good values."))
    st.button("Put the saved values back", on_click=edits.drop)


def _values(loaded: Loaded, units: Units) -> None:
    known = groups()
    group = remembered(
        "_group", list(known), lambda: st.pills("Part of the plan", list(known), required=True, key="_group")
    )
    for part in known[group]:
        st.subheader(part.title)
        if part.place.named:
            _items(part, loaded, units)
        else:
            _fields(part, loaded, units, table=part.place.name)


def _items(part: Part, loaded: Loaded, units: Units) -> None:
    """The items of a section: a table to type in where there is one, one item in full, and the way to add another."""
    names = list(getattr(loaded.scenario, part.place.name))
    if not names:
        st.markdown("None in this plan.")
    elif part.place.name in TABLES:
        item_table(part, loaded, TABLES[part.place.name], units)
    if names:
        key = f"chosen_{part.place.name}"
        added = st.session_state.pop(f"_just_added_{part.place.name}", None)
        if added in names or st.session_state.get(key) not in names:
            st.session_state[key] = added if added in names else names[0]
        name = str(st.selectbox("One of them with all its values", names, key=key)) if len(names) > 1 else names[0]
        if len(names) == 1:
            st.markdown(f"With all its values: **{blocks.plain(name)}**")
        _fields(part, loaded, units, table=f"{part.place.name}.{name}")
        adding.remove(part, loaded, name)
    adding.add(part, units)
    at_hand(part.place.name)


def _fields(part: Part, loaded: Loaded, units: Units, *, table: str) -> None:
    """The values of one table: the main ones and those the file gives, the others on request."""
    every = [loaded.assumptions[f"{table}.{item.name}"] for item in declarations(part.place.section)]
    main = [each for each in every if _is_main(part, each)]
    others = [each for each in every if each not in main]
    _grid(part, main, units)
    if not others:
        return
    if st.toggle(f"Show {len(others)} more values, each with its usual value", key=f"more_{table}"):
        _grid(part, others, units)


def _is_main(part: Part, each: Assumption) -> bool:
    item = each.declaration
    named = item.name in FIRST.get(part.place.name, ())
    return named or each.origin == "scenario" or item.required or each.path in state.waiting()


def _grid(part: Part, shown: list[Assumption], units: Units) -> None:
    for start in range(0, len(shown), COLUMNS):
        for column, each in zip(st.columns(COLUMNS), shown[start : start + COLUMNS], strict=False):
            with column:
                field(part.place, each, units)
