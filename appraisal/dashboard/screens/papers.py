"""Papers to take away: everything another person may need, made from the case of the file when it is asked for."""

from __future__ import annotations

from functools import partial

import streamlit as st

from appraisal.dashboard import blocks, changed
from appraisal.dashboard.jobs import long_work
from appraisal.dashboard.saving import file_name
from appraisal.dashboard.seen import Seen
from appraisal.dashboard.take_away import Form, Take, everything, takes

BUTTON = 92  # pixels: three stand beside each other on a phone


def show(seen: Seen) -> None:
    """Draw the screen."""
    st.markdown(
        "All papers are made from the case of your file, with no lever moved, at the moment you ask for them; a report "
        "takes a few seconds. Nothing leaves this computer."
    )
    for take in sorted(takes(), key=lambda take: take.reader != seen.reader):
        _take(take, seen)
    _everything(seen)
    changed.show(seen)
    st.markdown(
        blocks.plain(
            f"Fingerprint of this case: {seen.loaded.fingerprint}. Papers that carry the same one rest on the same numbers."
        )
    )


def _take(take: Take, seen: Seen) -> None:
    with st.container(border=True):
        words, forms = st.columns([4, 3], vertical_alignment="center")
        words.markdown(f"**{blocks.plain(take.title)}.** {blocks.plain(take.meant_for)}")
        with forms.container(horizontal=True):
            for form in take.forms:
                _button(take, form, seen)


def _button(take: Take, form: Form, seen: Seen) -> None:
    name = file_name(f"{seen.loaded.scenario.project.name} {take.title}", form.ending)
    st.download_button(
        form.called,
        data=partial(form.made, seen.loaded),
        file_name=name,
        mime=form.mime,
        on_click="ignore",
        key=f"take_{take.key}_{form.ending}",
        width=BUTTON,
        help=blocks.plain(f"{take.title}, {form.called}"),
    )


def _everything(seen: Seen) -> None:
    """All papers at once: long work, with progress and a way to cancel."""
    with st.container(border=True):
        st.markdown("**Everything in one ZIP file.** All papers in all forms, and every table as CSV.")
        content = long_work(
            f"everything_{seen.loaded.fingerprint}_{seen.units}", "Make everything", partial(everything, seen.loaded)
        )
        if content is not None:
            name = file_name(f"{seen.loaded.scenario.project.name} papers", "zip")
            st.download_button(
                "Take the ZIP file",
                content,
                file_name=name,
                mime="application/zip",
                key="take_everything",
                on_click="ignore",
            )
