"""Papers to take away: everything another person may need, made from the case of the file when it is asked for."""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import dataclass

import streamlit as st

from appraisal.dashboard import blocks
from appraisal.dashboard.saving import file_name
from appraisal.dashboard.seen import Seen

TEXT, SHEET, JSON = (
    "text/plain",
    "application/vnd.openxmlformats-officedocument.spreadsheetml.sheet",
    "application/json",
)


@dataclass(frozen=True)
class Paper:
    """One thing to take away: its key, title, what it is for, ending and kind of file, and how its bytes are made."""

    key: str
    title: str
    meant_for: str
    ending: str
    mime: str
    made: Callable[[Seen], bytes]


def _workbook(seen: Seen) -> bytes:
    from appraisal.reports.export import workbook_bytes

    return workbook_bytes(seen.appraisal)


def _page(seen: Seen) -> bytes:
    from appraisal.present.page import page

    return page(seen.appraisal, monthly=True, reader=seen.reader).encode("utf-8")


def _result(seen: Seen) -> bytes:
    import json

    from appraisal.present.result import result

    return json.dumps(result(seen.appraisal), indent=1, allow_nan=False).encode("utf-8")


def _values(seen: Seen) -> bytes:
    from appraisal.present.values_text import values_text

    return values_text(seen.loaded.assumptions.values()).encode("utf-8")


def _scenario(seen: Seen) -> bytes:
    return seen.loaded.text.encode("utf-8")


PAPERS = (
    Paper("workbook", "Workbook", "Live formulas: change an input and it works itself out anew. For bank and accountant.",
          "xlsx", SHEET, _workbook),
    Paper("page", "Plain report", "The answer, the tables and the cautions as text, for the chosen reader.", "txt", TEXT, _page),
    Paper("values", "All values and their sources", "Every value in use, where it comes from and how it is known.", "txt", TEXT,
          _values),
    Paper("result", "All results as data", "One JSON object in SI units, for another program.", "json", JSON, _result),
    Paper("scenario", "The scenario file", "Everything the appraisal assumes, with your comments. It opens here again.", "toml",
          TEXT, _scenario),
)  # fmt: skip


def show(seen: Seen) -> None:
    """Draw the screen."""
    st.markdown(
        "Everything here is made from the case of your file, with no lever moved. It is made when you ask for it and stays "
        "on this computer."
    )
    st.markdown(
        blocks.plain(f"Fingerprint {seen.loaded.fingerprint}: papers with the same one rest on the same numbers.")
    )
    for paper in PAPERS:
        _paper(paper, seen)


def _paper(paper: Paper, seen: Seen) -> None:
    name = file_name(f"{seen.appraisal.loaded.scenario.project.name} {paper.title}", paper.ending)
    with st.container(border=True):
        words, button = st.columns([3, 1], vertical_alignment="center")
        words.markdown(f"**{blocks.plain(paper.title)}.** {blocks.plain(paper.meant_for)}")
        button.download_button(
            f"Take the {paper.title[:1].lower()}{paper.title[1:]}",
            data=lambda: paper.made(seen),
            file_name=name,
            mime=paper.mime,
            key=f"paper_{paper.key}",
            on_click="ignore",
            width="stretch",
        )
