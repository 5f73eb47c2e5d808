"""Open a farm: go on with a draft, look at an invented farm, bring a file or begin anew; and save the one that is open."""

from __future__ import annotations

import contextlib
from datetime import datetime
from pathlib import Path

import streamlit as st

from appraisal.dashboard import blocks, drafts, saving, state
from appraisal.dashboard.cached import reading
from appraisal.dashboard.drafts import Kept
from appraisal.dashboard.first_questions import first_questions
from appraisal.dashboard.places import PLACES, place
from appraisal.dashboard.seen import SYSTEMS, Seen
from appraisal.demos import demos
from appraisal.present.numbers import Units
from appraisal.scenario.load import Loaded

SHOWN = 6
CURRENCIES = ("EUR", "USD", "GBP", "CAD", "AUD", "CHF", "DKK", "SEK", "NOK", "PLN", "CZK", "NZD")
LONGEST_NAME = 60
FIRST_ANSWER = (
    "This is a first answer, made of what you said and, for all the rest, of an invented farm and usual figures. Go through "
    "\"What the farm puts in\" and make each number your own."
)


def show(seen: Seen | None) -> None:
    """Draw the screen: the way back to where one was, one's own farm from a few questions, a file, an invented farm."""
    st.markdown(
        "Answer a few questions about your farm, or look at an invented one first. You read the answer, and change the numbers "
        "to your own. Everything stays on this computer and every change is saved as you make it."
    )
    if seen is not None:
        _save(seen)
    _go_on()
    _own()
    _invented()
    _file()


def _save(seen: Seen) -> None:
    kept = state.opened()
    if kept is None:
        return
    with st.container(border=True):
        st.subheader(blocks.plain(f"Open now: {kept.head.name}"))
        st.download_button(
            "Save as a file",
            kept.text.encode("utf-8"),
            file_name=saving.file_name(kept.head.name),
            mime="application/toml",
            key="save_copy",
            on_click="ignore",
        )
        if kept.head.origin:
            st.markdown(blocks.plain(f"It came from {kept.head.origin}."))
            if st.button("Write it back to that file", key="save_back"):
                st.success(blocks.plain(saving.write_back(kept)))
        st.button("Close this farm; the draft is kept", on_click=state.close)


def _go_on() -> None:
    found = drafts.recent(SHOWN)
    if not found:
        return
    st.subheader("Go on where you left off")
    for kept in found:
        with st.container(horizontal=True, vertical_alignment="center", key=f"row_{kept.id}"):
            st.markdown(blocks.plain(f"{kept.head.name}, last changed {_when(kept)}"))
            if st.button("Open", key=f"draft_{kept.id}", help=blocks.plain(kept.head.name)):
                _open(kept)
            with st.popover("Remove"):
                st.markdown(blocks.plain(f"{kept.head.name} and all its earlier states go from this computer for good."))
                if st.button("Remove it for good", key=f"remove_{kept.id}"):
                    _remove(kept)


def _remove(kept: Kept) -> None:
    now = state.opened()
    if now is not None and now.id == kept.id:
        state.close()
    with contextlib.suppress(drafts.NoDraftError):
        drafts.remove(kept.id)
    st.rerun()


def _when(kept: Kept) -> str:
    return datetime.fromisoformat(kept.head.saved).astimezone().strftime("%d %B %Y, %H:%M")


def _invented() -> None:
    st.subheader("Look at an invented farm")
    for row in _pairs(list(demos().items())):
        for column, (name, path) in zip(st.columns(2), row, strict=False):
            _demo(column, name, path)


def _pairs(items: list[tuple[str, Path]]) -> list[list[tuple[str, Path]]]:
    return [items[start : start + 2] for start in range(0, len(items), 2)]


def _demo(column: st.delta_generator.DeltaGenerator, name: str, path: Path) -> None:
    text = path.read_text(encoding="utf-8")
    found = reading(text)
    if isinstance(found, tuple):
        return
    project = found.scenario.project
    with column.container(border=True, height="stretch"):
        st.markdown(f"**{blocks.plain(project.name)}**\n\n{blocks.plain(project.note)}")
        if st.button("Open this farm", key=f"demo_{name}", help=blocks.plain(project.name)):
            _open(drafts.create(text, name=project.name))


def _own() -> None:
    st.subheader("Begin with your own farm")
    with st.expander("Eight questions, and a first answer", expanded=state.opened() is None):
        money, system = st.columns(2)
        chosen = system.radio("Units", list(SYSTEMS), format_func=SYSTEMS.get, key="new_units", horizontal=True)
        usual = CURRENCIES.index("USD" if chosen == "us" else "EUR")  # a field for each, for what is chosen stays
        currency = str(money.selectbox("Currency", CURRENCIES, index=usual, key=f"new_currency_{chosen}"))
        made = first_questions(Units("us" if chosen == "us" else "metric", currency))
        if isinstance(made, str):
            state.tell(FIRST_ANSWER)
            _open(drafts.create(made, name=_name(made)))
        elif made is not None:
            blocks.refused("No farm was begun yet.", made)


def _file() -> None:
    st.subheader("Bring a farm file")
    file = st.file_uploader("A scenario file of this tool, saved here or by somebody else", type=["toml"], key="upload")
    if file is not None and st.session_state.get("_taken") != file.file_id:
        _bring(file.name, file.getvalue(), file.file_id)


def _bring(name: str, content: bytes, id: str) -> None:
    """Open an uploaded file, or list what is wrong with it and leave everything as it is."""
    try:
        text = content.decode("utf-8-sig")
    except UnicodeDecodeError:
        st.error("This file is not a text in UTF-8. Nothing was opened, nothing is lost.")
        return
    found = reading(text)
    if isinstance(found, tuple):
        st.markdown(blocks.plain(f"{name[:LONGEST_NAME]} was not opened. What you had open is as it was."))
        blocks.faults(found)
        return
    st.session_state["_taken"] = id
    _open(drafts.create(text, name=found.scenario.project.name))


def _name(text: str) -> str:
    found = reading(text)
    return found.scenario.project.name if isinstance(found, Loaded) else "a new farm"


def _open(kept: Kept) -> None:
    state.open_draft(kept)
    st.switch_page(place(PLACES[0].name).file)
