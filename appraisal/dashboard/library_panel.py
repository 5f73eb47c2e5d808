"""The reference library to look things up in: every table, every row, with its source and how the figure is known."""

from __future__ import annotations

import streamlit as st

from appraisal.dashboard import blocks, library
from appraisal.present.tables import Table
from appraisal.scenario.reference import about, rows, tables

FIRST_TABLE = "feedstocks"
COLUMNS = 9


def library_panel() -> None:
    """Draw the choice of a table and of a row in it, and what both hold."""
    known = tables()
    table = str(st.selectbox("Table", known, index=known.index(FIRST_TABLE), format_func=_table_title, key="_library"))
    st.markdown(blocks.plain(about(table)))
    titles = library.titles(table)
    word = st.text_input("Only rows that hold this word", key="_library_word").strip().lower()
    found = [line for line in rows(table) if not word or any(word in value.lower() for value in line.values())]
    row = st.selectbox(
        "One row in full",
        [line["id"] for line in found],
        format_func=lambda id: titles[id],
        key="_library_row",
    )
    shown = library.row_table(table, row) if row else None
    if shown is not None:
        blocks.table(shown)
    columns = [name for name in rows(table)[0] if name not in library.SAID_APART][:COLUMNS]
    body = tuple((line["id"], *(line[name] for name in columns)) for line in found)
    blocks.table(Table(f"{len(found)} rows", ("row", *columns), body))


def _table_title(name: str) -> str:
    return name.replace("_", " ")
