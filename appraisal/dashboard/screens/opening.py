"""Open a farm: go on with a draft, look at an invented farm, bring a file or begin anew; and save the one that is open."""

from __future__ import annotations

import contextlib
from datetime import datetime
from pathlib import Path

import streamlit as st

from appraisal.dashboard import blocks, drafts, saving, state
from appraisal.dashboard.cached import reading
from appraisal.dashboard.drafts import Kept
from appraisal.dashboard.places import PLACES, place
from appraisal.dashboard.seen import Seen
from appraisal.demos import demos
from appraisal.scenario.load import Loaded
from appraisal.scenario.starter_short import starter_short

SHOWN = 6
CURRENCIES = ("EUR", "USD", "GBP", "CAD", "AUD", "CHF", "DKK", "SEK", "NOK", "PLN", "CZK", "NZD")
LONGEST_NAME = 60


def show(seen: Seen | None) -> None:
    """Draw the screen."""
    st.markdown(
        "Would a biogas plant pay on this farm? Open a farm, look at the answer, and change the numbers to your own. "
        "Everything stays on this computer and every change is saved as you make it."
    )
    if seen is not None:
        _save(seen)
    _go_on()
    _invented()
    _own()


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
        words, button, away = st.columns([4, 1, 1], vertical_alignment="center")
        words.markdown(blocks.plain(f"{kept.head.name}, last changed {_when(kept)}"))
        if button.button("Open", key=f"draft_{kept.id}", width="stretch", help=blocks.plain(kept.head.name)):
            _open(kept)
        with away.popover("Remove", width="stretch"):
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
    st.subheader("Your own farm")
    brought, begun = st.columns(2)
    with brought:
        file = st.file_uploader("Bring a scenario file", type=["toml"], key="upload")
        if file is not None and st.session_state.get("_taken") != file.file_id:
            _bring(file.name, file.getvalue(), file.file_id)
    with begun:
        currency = str(st.selectbox("Currency", CURRENCIES, key="new_currency"))
        system = st.radio("Units", ["metric", "us"], format_func=_system, key="new_units", horizontal=True)
        if st.button("Begin with an example to overwrite", key="begin"):
            text = starter_short(currency=currency, display_units="us" if system == "us" else "metric")
            _open(drafts.create(text, name=_name(text)))


def _system(name: str) -> str:
    return {"metric": "metric", "us": "US"}[name]


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
