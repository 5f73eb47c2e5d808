"""What readers call an input and its value."""

from __future__ import annotations

from appraisal.appraise import Appraisal
from appraisal.present.numbers import Units, rounded
from appraisal.present.written import reader_unit, reader_value
from appraisal.scenario.load import Loaded

NAMED = 2  # parts of a path that belongs to no named item


def name_of(loaded: Loaded, path: str) -> str:
    """What a reader calls an input: its label, with the item it belongs to."""
    parts = path.split(".")
    label = loaded.assumptions[path].declaration.label
    return f"{label} ({parts[1].replace('_', ' ')})" if len(parts) > NAMED else label


def spot(appraisal: Appraisal, where: str) -> str:
    """What a reader calls the place of a finding: the label of its line or input, in small letters; else the place itself."""
    node = appraisal.plan.nodes.get(where)
    known = where in appraisal.loaded.assumptions
    label = node.line.label if node else name_of(appraisal.loaded, where) if known else where
    return f"{label[:1].lower()}{label[1:]}"


def value_text(value: float, unit: str, units: Units) -> str:
    """A value [`unit`] with its unit as a reader writes it."""
    return f"{rounded(reader_value(value, unit, units))} {reader_unit(unit, units)}".rstrip()
