"""What changed since another file: an older file of the same farm held against the case in this window."""

from __future__ import annotations

import streamlit as st

from appraisal.dashboard import blocks
from appraisal.dashboard.cached import reading
from appraisal.dashboard.saving import file_name
from appraisal.dashboard.seen import Seen
from appraisal.dashboard.take_away import WORD, today
from appraisal.present.changes_page import TITLE, changes_paper, sentences, tables
from appraisal.reports.word import word
from appraisal.risk.differences import Differences, differences
from appraisal.risk.points import RiskError
from appraisal.scenario.load import Loaded

KEPT, KEY = 4, "older"


def show(seen: Seen) -> None:
    """Draw the switch, and behind it the choice of a file and what differs."""
    if not st.toggle("What changed since another file?", key="_changed"):
        return
    file = st.file_uploader("The older file of this farm, as it was saved here", type=["toml"], key=KEY)
    if file is None:
        return
    try:
        old = reading(file.getvalue().decode("utf-8-sig"))
    except UnicodeDecodeError:
        st.error("This file is not a text in UTF-8. Nothing was compared.")
        return
    if isinstance(old, tuple):
        blocks.refused("This file cannot be compared.", old)
        return
    try:
        _told(_found(old.fingerprint, seen.loaded.fingerprint, seen.units, old, seen.loaded), seen)
    except RiskError as error:
        st.error(blocks.plain(f"These files cannot be compared: {error}."))


@st.cache_resource(max_entries=KEPT, show_spinner="Trying each change by itself")
def _found(old: str, new: str, units: str, _old: Loaded, _new: Loaded) -> Differences:
    return differences(_old, _new)


def _told(found: Differences, seen: Seen) -> None:
    blocks.sentences(sentences(found))
    if not (found.inputs or found.items or found.grounds):
        return
    for each in tables(found):
        blocks.table(each)
    st.download_button(
        "Take it as Word",
        data=lambda: word(changes_paper(found, date=today())),
        file_name=file_name(f"{seen.loaded.scenario.project.name} {TITLE}", "docx"),
        mime=WORD,
        on_click="ignore",
        key="take_changed",
    )
