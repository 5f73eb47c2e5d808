"""One input on a form: what it is, its unit and range, where its value comes from, and what is wrong with a new one."""

from __future__ import annotations

from functools import partial
from typing import Any

import streamlit as st

from appraisal.dashboard import edits, library, state
from appraisal.dashboard.blocks import plain
from appraisal.dashboard.edits import Waiting
from appraisal.dashboard.typed import put
from appraisal.errors import Fault
from appraisal.present import written
from appraisal.present.numbers import Units
from appraisal.present.written import allowed, for_file, for_form, reader_unit, several
from appraisal.scenario.assumptions import Assumption
from appraisal.scenario.model import SectionPlace

ORIGINS = {
    "scenario": "Your own value",
    "default": "Nothing given: a usual value",
    "reference": "Nothing given: from the library",
    "computed": "Nothing given: worked out from other values",
}


def field(place: SectionPlace, assumption: Assumption, units: Units) -> None:
    """Draw one input; what is typed is tried at once."""
    item, path = assumption.declaration, assumption.path
    waits = state.waiting().get(path)
    key = f"in_{path}"
    put(key, waits.typed if waits else for_form(assumption, units))
    table = library.table_named_by(place.section, item.name)
    settings: dict[str, Any] = {
        "key": key,
        "help": _help(assumption, units),
        "on_change": partial(_typed, assumption, units, key),
    }
    label = plain(written.label(item, units))
    if item.kind == "choice":
        st.selectbox(label, item.options, format_func=_said, **settings)
    elif table is not None:
        _row_choice(label, table, key, settings)
    elif item.kind == "text":
        st.text_input(label, **settings)
    else:
        st.text_input(label, placeholder="leave empty for the usual value", **settings)
    if waits:
        _refused(waits, assumption, units)
    else:
        st.caption(plain(_beneath(assumption, units)))


def _row_choice(label: str, table: str, key: str, settings: dict[str, Any]) -> None:
    """A choice among the rows of a reference table; a name that stands in no table is kept as it is."""
    titles = {"": "none", **library.titles(table)}
    if st.session_state[key] not in titles:
        titles = {**titles, st.session_state[key]: st.session_state[key]}
    st.selectbox(label, list(titles), format_func=lambda id: titles[id], **settings)


def _said(option: str) -> str:
    return option.replace("_", " ")


def _typed(assumption: Assumption, units: Units, key: str) -> None:
    typed = str(st.session_state[key])
    edits.change(assumption.path, typed, for_file(typed, assumption.declaration, units))


def _help(assumption: Assumption, units: Units) -> str:
    item = assumption.declaration
    span = allowed(item, units)
    parts = [item.help, f"Allowed: {span}." if span and item.kind != "choice" else ""]
    parts += [f"In your file: {assumption.given_as}." if assumption.given_as else ""]
    parts += [f"Where from: {assumption.source}." if assumption.source else ""]
    parts += [
        f"How it is known: {assumption.known}." if assumption.known else "",
        f"Name in the file: {assumption.path}",
    ]
    return plain(" ".join(part for part in parts if part))


def _beneath(assumption: Assumption, units: Units) -> str:
    """The line under a field: range, where the value comes from and how it is known."""
    item = assumption.declaration
    span = allowed(item, units) if item.kind not in ("choice", "text") else ""
    known = f", {assumption.known}" if assumption.known else ""
    return f"{span + '. ' if span else ''}{ORIGINS[assumption.origin]}{known}."


def _refused(waits: Waiting, assumption: Assumption, units: Units) -> None:
    """What is wrong, in words, beside the field; the saved value stays in force."""
    said = [_sentence(fault, assumption, units) for fault in waits.faults]
    kept = for_form(assumption, units)
    saved = f" Not saved; still in force: {kept} {several(kept, reader_unit(assumption.declaration.unit, units))}".rstrip()
    st.error(plain(" ".join(said) + saved + "."))


def _sentence(fault: Fault, assumption: Assumption, units: Units) -> str:
    hint = f" ({fault.hint})" if fault.hint else ""
    if fault.path != assumption.path:
        where = f"This does not go together with {fault.path}: " if fault.path else ""
        mend = " Change that range first, under \"Sources and ranges\"." if fault.path.startswith("range.") else ""
        return f"{where}{fault.what}{hint}.{mend}"
    span = f"; allowed is {allowed(assumption.declaration, units)}" if fault.allowed else ""
    what = fault.what
    begun = what[:1].upper() + what[1:] if what.split(" ")[0].islower() else what  # kWh stays kWh
    return f"{begun}{span}{hint}."
