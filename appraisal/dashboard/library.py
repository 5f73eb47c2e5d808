"""The reference library at hand: which table a field names a row of, and the rows by name with their figures and sources."""

from __future__ import annotations

from collections.abc import Mapping
from functools import cache

from appraisal.present.tables import Table
from appraisal.scenario.model import sections
from appraisal.scenario.quantity import Declaration, Lookup, Section, declarations
from appraisal.scenario.reference import UnknownName, about, row, rows

NAMES = ("name", "item", "label", "place", "climate", "animal", "crop", "programme", "what")
PER_CENT = 0.01
SHORT = {"bmp": "methane potential", "ts": "dry matter", "vs": "volatile solids", "pct": "%"}  # in names of columns
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


@cache
def heads(table: str) -> Mapping[str, str]:
    """The columns of a table in words: the label of the input that reads it, with the unit as it stands in the table."""
    found = {name: " ".join(SHORT.get(word, word) for word in name.split("_")) for name in rows(table)[0]}
    for place in sections():
        for item in declarations(place.section):
            lookup = item.lookup
            if lookup and lookup.table == table and lookup.column in found and not lookup.key.startswith("="):
                found[lookup.column] = _head(item, lookup) or found[lookup.column]
    return found


def _head(item: Declaration, lookup: Lookup) -> str:
    """Label and unit of an input; empty where the table is in a unit of its own, which then stands in the column's name."""
    if lookup.scale == 1:
        return f"{item.label}, {item.unit}" if item.unit not in ("", "1") else item.label
    per_cent = lookup.scale == PER_CENT and item.unit.startswith("share")
    return f"{item.label}, {item.unit.replace('share', '%')}" if per_cent else ""


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
        tuple((heads(table)[name], line[name]) for name in order if line.get(name)),
    )
