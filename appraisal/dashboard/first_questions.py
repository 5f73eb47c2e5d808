"""A farm of one's own from a few questions: what decides most, asked on one form; all else begins as in the starter file."""

from __future__ import annotations

from collections.abc import Mapping

import streamlit as st
from streamlit.delta_generator import DeltaGenerator

from appraisal.dashboard import blocks, library
from appraisal.dashboard.cached import reading
from appraisal.errors import Fault
from appraisal.present.numbers import Units
from appraisal.present.written import allowed, for_file, for_form, reader_unit
from appraisal.scenario.assumptions import Assumption
from appraisal.scenario.edit_text import parts_of, with_edits, without_item
from appraisal.scenario.load import Loaded
from appraisal.scenario.starter_short import starter_short

NAME, CLIMATE, OUTSIDE = "project.name", "site.climate", "feed.whey.tonnes_per_year"
CLIMATES, NOTHING, COLUMNS = "climates", "0", 2
# Path in the short starter -> the question; the order is that of the form.
QUESTIONS: Mapping[str, str] = {
    NAME: "What is the farm called?",
    CLIMATE: "Which of these places is most like yours?",
    "herd.cows.head": "How many milking cows?",
    OUTSIDE: "How much whey from outside? 0 for none",
    "engine.main.rated_kw": "How big an engine?",
    "power.contract_price_per_kwh": "What would be paid for the power?",
    "capital.plant.amount": "What would it cost to build?",
    "loan.bank.amount": "How much would the bank lend?",
}
EXPLAINED = (
    "Leave what you do not know as it is: it shows the figure of an invented farm. You get a first answer at once, and can then "
    "change every other number under \"What the farm puts in\"."
)


def first_questions(units: Units) -> str | tuple[Fault, ...] | None:
    """Draw the form; once it is sent the text of the new farm, or what is wrong with what was typed; None before."""
    text = starter_short(currency=units.currency, display_units=units.system)
    found = reading(text)
    if not isinstance(found, Loaded):
        return found
    known = found.assumptions
    with st.form("first_questions"):
        typed = {}
        for path, column in zip(QUESTIONS, _places(), strict=True):
            with column:
                typed[path] = _ask(path, known[path], units)
        st.markdown(blocks.plain(EXPLAINED))
        if not st.form_submit_button("Work out a first answer", key="begin", type="primary"):
            return None
    return answered(text, typed, known, units)


def answered(
    text: str, typed: Mapping[str, str], known: Mapping[str, Assumption], units: Units
) -> str | tuple[Fault, ...]:
    """The starter file with what was typed in place of its invented values, or every fault in that."""
    told = {path: for_file(value, known[path].declaration, units) for path, value in typed.items() if value.strip()}
    if typed[OUTSIDE].strip() == NOTHING:
        told.pop(OUTSIDE)
        text = without_item(text, *OUTSIDE.split(".")[:2])
    kept = {path for path, value in typed.items() if value == for_form(known[path], units)}
    made = with_edits(text, {parts_of(path): raw for path, raw in told.items() if path not in kept})
    found = reading(made)
    return made if isinstance(found, Loaded) else found


def _places() -> list[DeltaGenerator]:
    """Where the questions stand: two a row, in the order of the farm; on a phone one beneath the other."""
    return [column for _ in range(0, len(QUESTIONS), COLUMNS) for column in st.columns(COLUMNS)]


def _ask(path: str, known: Assumption, units: Units) -> str:
    item, question, key = known.declaration, QUESTIONS[path], f"first_{path}_{units.system}"
    if path == CLIMATE:
        titles = library.titles(CLIMATES)
        places = list(titles)
        start = places.index(str(known.value))
        return str(st.selectbox(question, places, index=start, format_func=lambda id: _place(id, titles), key=key))
    if path == NAME:
        return st.text_input(question, placeholder="such as Hill Farm", key=key)
    unit = reader_unit(item.unit, units)
    label = question if unit in ("", "head") else f"{question} ({unit})"
    help = f"{item.help} Allowed: {allowed(item, units)}."
    return st.text_input(blocks.plain(label), value=for_form(known, units), key=key, help=blocks.plain(help))


def _place(id: str, titles: Mapping[str, str]) -> str:
    return titles[id].removesuffix(f" ({id})")
