"""Reference tables as text for the terminal."""

from __future__ import annotations

from textwrap import fill

from tabulate import tabulate

from appraisal.scenario.reference import about, row, rows, tables

WIDTH = 110
CELL = 40
MORE = "A row with its sources: appraisal reference"
LEFT_OUT = (
    "source",
    "basis",
    "note",
    "handling_note",
    "caution",
    "range_kind",
    "programme",
    "typical_use",
    "what_the_farm_has",
)
COLUMNS_SHOWN = 9


def all_tables() -> str:
    """Every table with its meaning."""
    return tabulate([(name, len(rows(name)), about(name)) for name in tables()], ("table", "rows", "what"))


def one_table(table: str) -> str:
    """The rows of one table, its first columns; one row shows everything. Raises UnknownTable."""
    found = rows(table)
    columns = [name for name in found[0] if name not in LEFT_OUT][:COLUMNS_SHOWN]
    body = [[each[name][:CELL] for name in columns] for each in found]
    return f"{about(table)}\n\n{tabulate(body, columns, disable_numparse=True)}\n\n{MORE} {table} ROW"


def one_row(table: str, name: str) -> str:
    """Everything one row holds, with source and how it is known. Raises UnknownTable or UnknownRow."""
    return "\n".join(
        fill(f"{column}: {value}", WIDTH, subsequent_indent="    ")
        for column, value in row(table, name).items()
        if value
    )
