"""The form of a scenario file as a JSON Schema, for editors that help while typing; made from the declarations."""

from __future__ import annotations

import inspect
from collections.abc import Iterable
from typing import Any

from appraisal.scenario.beside import CHANGES, MOVES, Correlation, Range, StressCase, Wander
from appraisal.scenario.convert import LONGEST_LIST
from appraisal.scenario.fill import ITEM_NAME
from appraisal.scenario.model import SCHEMA_VERSION, Scenario, Source, sections
from appraisal.scenario.quantity import SERIES, Declaration, Section, declarations

DIALECT = "https://json-schema.org/draft/2020-12/schema"
Schema = dict[str, Any]


def json_schema() -> Schema:
    """A JSON Schema (draft 2020-12, plain keywords only) that every loadable scenario file satisfies."""
    properties: Schema = {"schema_version": {
        "type": "integer", "minimum": 1, "maximum": SCHEMA_VERSION, "description": "Form of this file."}}
    for place in sections():
        table = _table(place.section)
        properties[place.name] = _by_name(table, f"^{ITEM_NAME.pattern}$") if place.named else table
        if place.named and _is_needed(place.name, place.section, named=True):
            properties[place.name]["minProperties"] = 1
    properties["range"] = _by_name(_table(Range), ".")
    properties["correlation"] = _by_name(_table(Correlation), f"^{ITEM_NAME.pattern}$")
    properties["stress"] = _by_name(_stress_case(), f"^{ITEM_NAME.pattern}$")
    properties["wander"] = _by_name(_wander(), f"^{ITEM_NAME.pattern}$")
    properties["source"] = _by_name(_table(Source), ".")
    needed = [place.name for place in sections() if _is_needed(place.name, place.section, named=place.named)]
    return {
        "$schema": DIALECT, "title": "Scenario", "description": inspect.getdoc(Scenario), "type": "object",
        "properties": properties, "required": ["schema_version", *needed], "additionalProperties": False,
    }


def describe(item: Declaration) -> str:
    """One paragraph on a field: label, range with unit, help, and what stands in when it is left out."""
    allowed = f" ({item.allowed()})" if item.kind != "text" else ""
    sentences = (f"{item.label}{allowed}.", item.help, when_left_out(item))
    return " ".join(sentence for sentence in sentences if sentence)


def when_left_out(item: Declaration) -> str:
    """One sentence on what is used when a field is left out; empty for a field that must be given."""
    if item.lookup is not None:
        key = item.lookup.key
        named = f"row {key[1:]}" if key.startswith("=") else f"the row named in {key}"
        where = f"between the rows, at {key}" if item.lookup.interpolate else named
        without = "" if item.default is None else f"; without a row {item.default:.10g} {item.unit}"
        return f"Left out: from the reference table {item.lookup.table}, {where}{without}."
    if item.required:
        return ""
    if item.default is None:
        return "Left out: not used, or as said above."
    origin = ", ".join(text for text in (item.source, item.basis) if text)
    value = f"{item.default:.10g}" if isinstance(item.default, (int, float)) else item.default or "empty"
    unit = f" {item.unit}" if item.unit else ""
    return f"Left out: {value}{unit}{f' ({origin})' if origin else ''}."


def _is_needed(name: str, section: type[Section], *, named: bool) -> bool:
    if named:
        return bool(Scenario.model_fields[name].metadata)
    return any(item.required for item in declarations(section))


def _by_name(table: Schema, pattern: str) -> Schema:
    return {"type": "object", "patternProperties": {pattern: table}, "additionalProperties": False}


def _table(section: type[Section]) -> Schema:
    fields = list(declarations(section))
    table: Schema = {
        "type": "object", "description": inspect.getdoc(section), "additionalProperties": False,
        "properties": {item.name: {"description": describe(item), **_value(item)} for item in fields},
    }
    required = _names(item for item in fields if item.required)
    return {**table, "required": required} if required else table


def _stress_case() -> Schema:
    table = _table(StressCase)
    amount = {"anyOf": [{"type": "number"}, {"type": "string"}]}
    for name, meaning in CHANGES.items():
        table["properties"][name] = {"type": "object", "description": meaning, "additionalProperties": amount}
    return table


def _wander() -> Schema:
    table = _table(Wander)
    strength = {"type": "number"}
    table["properties"]["moves"] = {"type": "object", "description": MOVES, "additionalProperties": strength}
    return table


def _names(items: Iterable[Declaration]) -> list[str]:
    return [item.name for item in items]


def _value(item: Declaration) -> Schema:
    """What may stand as the value of a field; a text holds a number with its unit."""
    default = {"default": item.default} if item.default is not None else {}
    if item.kind == "choice":
        return {"enum": list(item.options), **default}
    if item.kind == "text":
        return {"type": "string", **default}
    bounds = {"minimum": item.low, "maximum": item.high}
    number = {"type": "number", **{name: bound for name, bound in bounds.items() if bound is not None}}
    if item.kind == "count":
        return {**number, "type": "integer", **default}
    one = [number, {"type": "string"}]
    if item.kind == "number":
        return {"anyOf": one, **default}
    if item.kind == "list":
        return {"type": "array", "items": {"anyOf": one}, "minItems": 1, "maxItems": LONGEST_LIST}
    longest = SERIES[item.kind]
    least = 1 if item.kind == "path" else longest
    several = {"type": "array", "items": {"anyOf": one}, "minItems": least, "maxItems": longest}
    return {"anyOf": [*one, several], **default}
