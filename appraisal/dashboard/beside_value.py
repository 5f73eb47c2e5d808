"""What stands beside one value: where it comes from, how it is known, and how far it may lie from what is written."""

from __future__ import annotations

from typing import Any, get_args

import streamlit as st

from appraisal.dashboard import blocks, edits
from appraisal.dashboard.typed import put
from appraisal.errors import Fault
from appraisal.present.numbers import Units
from appraisal.present.tables import Table
from appraisal.present.written import allowed, digits, for_file, for_form, reader_unit, reader_value, several
from appraisal.scenario.assumptions import Assumption
from appraisal.scenario.beside import PARAMETERS, Range, Shape
from appraisal.scenario.edit_text import with_edits, without_table
from appraisal.scenario.load import Loaded
from appraisal.scenario.model import Known
from appraisal.scenario.quantity import Declaration, declarations


def beside_value(loaded: Loaded, units: Units) -> None:
    """Draw the choice of a value and the two forms for what stands beside it."""
    paths = list(loaded.assumptions)
    if st.session_state.get("_beside") not in paths:
        put("_beside", next((path for path in paths if path in loaded.scenario.range), paths[0]))
    path = str(
        st.selectbox(
            "Which value? Type a few letters of its name",
            paths,
            key="_beside",
            format_func=lambda each: f"{loaded.assumptions[each].declaration.label} ({each})",
        )
    )
    assumption = loaded.assumptions[path]
    blocks.table(facts(assumption, units))
    if assumption.origin == "scenario":
        _source(loaded, path)
    else:
        st.markdown("Your file leaves this value out. Give it on the form first; then its source can be noted here.")
    if assumption.declaration.kind == "number":
        _range(loaded, assumption, units)


def facts(assumption: Assumption, units: Units) -> Table:
    """Everything that is known of one value."""
    item, unit = assumption.declaration, reader_unit(assumption.declaration.unit, units)
    in_use = for_form(assumption, units)
    rows = [
        ("In use", f"{in_use} {several(in_use, unit)}".strip()),
        ("Allowed", allowed(item, units)),
        ("In the file as", assumption.given_as),
        ("What it means", item.help),
        ("Where from", assumption.source),
        ("How it is known", assumption.known),
        ("Name in the file", assumption.path),
    ]
    if assumption.low is not None and assumption.high is not None:
        ends = (digits(reader_value(end, item.unit, units)) for end in (assumption.low, assumption.high))
        rows.append(("Range in the library", f"{' to '.join(ends)} {unit}"))
    return Table(item.label, ("", ""), tuple(row for row in rows if row[1]))


def _source(loaded: Loaded, path: str) -> None:
    found = loaded.scenario.source.get(path)
    known = get_args(Known)
    with st.form(f"source_{path}"):
        st.markdown("**Where this value comes from**")
        origin = st.text_input("Source", value=found.origin if found else "", help="Quote, bill, report, person.")
        how = st.selectbox("How it is known", known, index=known.index(found.known if found else "guess"))
        date = st.text_input("Date, such as 2026-11", value=found.date if found else "")
        if st.form_submit_button("Keep this source"):
            values: dict[tuple[str, ...], Any] = {
                ("source", path, "origin"): origin,
                ("source", path, "known"): how,
                ("source", path, "date"): date or None,
            }
            _finish(edits.attempt(lambda text: with_edits(text, values)))
        if found and st.form_submit_button("Take the source out"):
            _finish(edits.attempt(lambda text: without_table(text, ("source", path))))


def _range(loaded: Loaded, assumption: Assumption, units: Units) -> None:
    path, item = assumption.path, assumption.declaration
    found = loaded.scenario.range.get(path)
    shapes = get_args(Shape)
    st.markdown("**How far it may lie from that value**")
    if f"shape_{path}" not in st.session_state:
        put(f"shape_{path}", found.shape if found else "triangular")
    shape = str(
        st.selectbox("Shape of the range", shapes, key=f"shape_{path}", format_func=lambda each: each.replace("_", " "))
    )
    needed, besides = PARAMETERS[shape]
    with st.form(f"range_{path}"):
        typed = {
            each.name: st.text_input(
                _label(each, item, units), value=_there(found, each.name, item, units), help=blocks.plain(each.help)
            )
            for each in declarations(Range)
            if each.name in (*needed, *besides)
        }
        reason = st.text_input("Reason", value=found.reason if found else "", help="Why this range.")
        if st.form_submit_button("Keep this range"):
            _finish(_keep_range(path, {"shape": shape, "reason": reason, **_raw(typed, item, units)}))
        if found and st.form_submit_button("Take the range out"):
            _finish(edits.attempt(lambda text: without_table(text, ("range", path))))


def _own_unit(parameter: str) -> bool:
    return parameter not in ("weights", "per_year")


def _label(each: Declaration, item: Declaration, units: Units) -> str:
    unit = reader_unit(item.unit if _own_unit(each.name) else each.unit, units) if each.name != "weights" else ""
    return blocks.plain(f"{each.label}, {unit}" if unit else each.label)


def _there(found: Range | None, name: str, item: Declaration, units: Units) -> str:
    value: Any = getattr(found, name) if found else None
    if value is None:
        return ""
    unit = item.unit if _own_unit(name) else "share/year" if name == "per_year" else ""
    several = value if isinstance(value, list) else [value]
    if name == "sd_before_cut":
        return f"{digits(value)} {item.unit}"
    return " ".join(digits(reader_value(each, unit, units)) for each in several)


def _raw(typed: dict[str, str], item: Declaration, units: Units) -> dict[str, Any]:
    """Parameters as the file should hold them; a list stays a list, what is left empty is left out."""
    made: dict[str, Any] = {}
    for each in declarations(Range):
        if each.name in typed and typed[each.name].strip():
            unit = item.unit if _own_unit(each.name) else "share/year" if each.name == "per_year" else ""
            several = each.kind == "list"
            form = Declaration(each.name, "path" if several else "number", each.label, each.help, unit=unit)
            raw = for_file(typed[each.name], form, units)
            made[each.name] = [raw] if several and not isinstance(raw, list) else raw
    return made


def _keep_range(path: str, values: dict[str, Any]) -> tuple[Fault, ...]:
    """Put the range in place of the one that stands; nothing changes when it is refused."""
    return edits.attempt(
        lambda text: with_edits(
            without_table(text, ("range", path)), {("range", path, name): value for name, value in values.items()}
        )
    )


def _finish(faults: tuple[Fault, ...]) -> None:
    if faults:
        blocks.refused("Not kept.", faults)
    else:
        st.rerun()
