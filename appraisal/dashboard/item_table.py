"""A table to type in: the items of one section by row, their main values by column.

The frame the editor starts from is built anew whenever the draft has changed by other means than the editor itself, and
the editor's key with it. Between, the editor keeps its own edits; each is held against the scenario, tried and saved.
"""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass
from math import isclose, isnan
from typing import Any

import pandas as pd
import streamlit as st

from appraisal.dashboard import blocks, edits, library, state
from appraisal.dashboard.blocks import plain
from appraisal.dashboard.groups import NAME_WIDTH, Part
from appraisal.present import written
from appraisal.present.numbers import Units
from appraisal.present.written import allowed, number_for_file, reader_unit, reader_value, several
from appraisal.scenario.edit_text import with_edits
from appraisal.scenario.load import Loaded
from appraisal.scenario.quantity import Declaration, declarations

ALIKE = 1e-9  # relative; a value written in another unit comes back this close


@dataclass(frozen=True)
class Base:
    """What an editor started from: the frame, the key, and the revision of the draft it agrees with."""

    frame: pd.DataFrame
    key: str
    revision: int
    units: str


def item_table(part: Part, loaded: Loaded, heads: Mapping[str, tuple[str, int]], units: Units) -> None:
    """Draw the table and save what is changed in it; what cannot be accepted is told beneath, and stays in its cell."""
    items = {item.name: item for item in declarations(part.place.section) if item.name in heads}
    fields = {name: items[name] for name in heads if name in items}
    now = frame_of(part, loaded, fields, units)
    base = _base(part, now, units)
    edited = st.data_editor(
        base.frame,
        key=base.key,
        num_rows="fixed",
        width="stretch",
        column_config=_columns(part, fields, heads, units),
    )
    changes = _changes(now, edited)
    if not changes:
        return
    faults = edits.attempt(lambda text: with_edits(text, _for_file(part, changes, fields, units)))
    if faults:
        blocks.refused("Not saved, the last good values stay in force.", faults)
        return
    kept = state.opened()
    st.session_state[_place(part)] = Base(base.frame, base.key, kept.head.revision if kept else 0, base.units)
    st.rerun()


def frame_of(part: Part, loaded: Loaded, fields: Mapping[str, Declaration], units: Units) -> pd.DataFrame:
    """One row an item, one column a field, numbers in the reader's unit."""
    names = list(getattr(loaded.scenario, part.place.name))
    body = {
        item.name: [
            _cell(loaded.assumptions[f"{part.place.name}.{name}.{item.name}"].value, item, units) for name in names
        ]
        for item in fields.values()
    }
    return pd.DataFrame(body, index=pd.Index(names, name="name"))


def _cell(value: Any, item: Declaration, units: Units) -> Any:
    return float(reader_value(float(value), item.unit, units)) if item.kind in ("number", "count") else str(value)


def _base(part: Part, now: pd.DataFrame, units: Units) -> Base:
    """What the editor stands on; built anew when something else changed the draft, or the page was left in between."""
    kept = state.opened()
    revision = kept.head.revision if kept else 0
    found: Base | None = st.session_state.get(_place(part))
    if found is not None and found.revision == revision and found.units == units.system and _drawn_last_run(found.key):
        return found
    made = Base(now, f"table_{part.place.name}_{revision}_{units.system}_{_turn()}", revision, units.system)
    st.session_state[_place(part)] = made
    return made


def _drawn_last_run(key: str) -> bool:
    """Whether the editor still holds what was typed in it: its state goes when another screen is drawn."""
    return key in st.session_state


def _turn() -> int:
    st.session_state["_table_turn"] = int(st.session_state.get("_table_turn", 0)) + 1
    return int(st.session_state["_table_turn"])


def _place(part: Part) -> str:
    return f"_base_{part.place.name}"


def _columns(
    part: Part, fields: Mapping[str, Declaration], heads: Mapping[str, tuple[str, int]], units: Units
) -> dict[str, Any]:
    """How each column is shown: a short head that its width holds, and the whole label with its help on hovering."""
    made: dict[str, Any] = {"name": st.column_config.TextColumn("name", pinned=True, width=NAME_WIDTH)}
    for name, item in fields.items():
        short, width = heads[name]
        unit = several("", reader_unit(item.unit, units))
        label = f"{short} {unit}".strip() if unit else short
        table = library.table_named_by(part.place.section, name)
        span = f" Allowed: {allowed(item, units)}." if item.kind not in ("text", "choice") else ""
        says = plain(f"{written.label(item, units)}. {item.help}{span}")
        if item.kind == "choice":
            made[name] = st.column_config.SelectboxColumn(
                label, width=width, options=list(item.options), required=True, help=says, format_func=_said
            )
        elif table is not None:
            made[name] = st.column_config.SelectboxColumn(label, width=width, options=["", *library.titles(table)], help=says)
        elif item.kind == "text":
            made[name] = st.column_config.TextColumn(label, width=width, help=says)
        else:
            whole = item.kind == "count"
            made[name] = st.column_config.NumberColumn(
                label, width=width, help=says, required=True, format="%d" if whole else "%.6g"
            )
    return made


def _changes(now: pd.DataFrame, edited: pd.DataFrame) -> dict[tuple[str, str], Any]:
    """Cells that say something else than the scenario does, by item and field."""
    return {
        (str(name), str(column)): edited.at[name, column]
        for name in now.index.intersection(edited.index)
        for column in now.columns
        if not _same(now.at[name, column], edited.at[name, column])
    }


def _same(one: Any, two: Any) -> bool:
    if isinstance(one, str) or isinstance(two, str):
        return str(one) == str("" if two is None else two)
    return two is not None and not isnan(two) and isclose(one, two, rel_tol=ALIKE, abs_tol=ALIKE)


def _for_file(
    part: Part, changes: Mapping[tuple[str, str], Any], fields: Mapping[str, Declaration], units: Units
) -> dict[tuple[str, ...], Any]:
    return {
        (part.place.name, name, column): _raw(value, fields[column], units) for (name, column), value in changes.items()
    }


def _raw(value: Any, item: Declaration, units: Units) -> Any:
    """What the file should hold for a cell; an emptied number is left out of the file."""
    if item.kind in ("choice", "text"):
        return "" if value is None else str(value)
    return None if value is None or isnan(value) else number_for_file(float(value), item, units)


def _said(option: object) -> str:
    return str(option).replace("_", " ")
