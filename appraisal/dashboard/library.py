"""The reference library at hand: which table a field names a row of, and the rows by name with their figures and sources."""

from __future__ import annotations

from collections.abc import Mapping
from functools import cache

from appraisal.present.tables import Table
from appraisal.scenario.quantity import Section, declarations
from appraisal.scenario.reference import UnknownName, about, row, rows

NAMES = ("name", "item", "label", "place", "climate", "animal", "crop", "programme", "what")
SAID_APART = ("id", "source", "basis", "note")


@cache
def table_named_by(section: type[Section], field: str) -> str | None:
    """The reference table whose row a field of a section names, None when it names none."""
    fields = list(declarations(section))
    if next(item for item in fields if item.name == field).kind != "text":
        return None
    return next(
        (
            item.lookup.table
            for item in fields
            if item.lookup and item.lookup.key == field and not item.lookup.interpolate
        ),
        None,
    )


@cache
def titles(table: str) -> Mapping[str, str]:
    """Every row of a table under its id: its name, with the id behind it."""
    found = {}
    for line in rows(table):
        name = next((line[column] for column in NAMES if line.get(column)), "")
        found[line["id"]] = f"{name} ({line['id']})" if name and name != line["id"] else line["id"]
    return found


def row_table(table: str, id: str) -> Table | None:
    """Everything one row holds with its source, as a table of two columns; None when there is no such row."""
    try:
        line = row(table, id)
    except UnknownName:
        return None
    order = [*(name for name in line if name not in SAID_APART), "note", "source", "basis"]
    return Table(
        f"{titles(table)[id]}: {about(table)}",
        ("", "in the library"),
        tuple((name, line[name]) for name in order if line.get(name)),
    )
