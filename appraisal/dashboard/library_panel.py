"""The reference library to look things up in: every table, every row, with its source and how the figure is known."""

from __future__ import annotations

import streamlit as st

from appraisal.dashboard import blocks, library
from appraisal.present.tables import Table
from appraisal.scenario.reference import about, rows, tables

FIRST_TABLE = "feedstocks"
COLUMNS = 9
AT_HAND = {
    "feed": FIRST_TABLE,
    "herd": "animals",
    "capital": "capital_costs",
    "running_cost": "running_costs",
    "crop": "crops",
}


def library_panel() -> None:
    """Draw the choice of a table and what it holds."""
    known = tables()
    table = str(st.selectbox("Table", known, index=known.index(FIRST_TABLE), format_func=_table_title, key="_library"))
    one_table(table, key="_library")


def at_hand(section: str) -> None:
    """Draw a switch, and behind it the table of the library that belongs to a section."""
    table = AT_HAND.get(section)
    if table and st.toggle(f"Look into the library: {_table_title(table)}", key=f"_library_{section}"):
        one_table(table, key=f"_library_{section}")


def one_table(table: str, *, key: str) -> None:
    """Draw what a table is about, a search, one row in full and all rows that hold the word."""
    st.markdown(blocks.plain(about(table)))
    titles = library.titles(table)
    word = st.text_input("Only rows that hold this word", key=f"{key}_word").strip().lower()
    found = [line for line in rows(table) if not word or any(word in value.lower() for value in line.values())]
    row = st.selectbox(
        "One row in full",
        [line["id"] for line in found],
        index=None,
        format_func=lambda id: titles[id],
        key=f"{key}_row",
        placeholder="choose a row to see its source",
    )
    shown = library.row_table(table, row) if row else None
    if shown is not None:
        blocks.table(shown)
    columns = [name for name in rows(table)[0] if name not in library.SAID_APART][:COLUMNS]
    body = tuple((line["id"], *(line[name] for name in columns)) for line in found)
    heads = ("row", *(library.heads(table)[name] for name in columns))
    blocks.table(Table(f"{len(found)} rows of {_table_title(table)}", heads, body))


def _table_title(name: str) -> str:
    return name.replace("_", " ")
