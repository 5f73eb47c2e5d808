"""The starter scenario with something changed in it, and the faults that a changed text gives."""

from __future__ import annotations

import tomllib
from collections.abc import Iterator, Mapping
from typing import Any

import pytest

from appraisal.errors import Fault, ScenarioError
from appraisal.scenario.load import loads
from appraisal.scenario.model import declared
from appraisal.scenario.starter import starter

STARTER = starter()
TABLES = tomllib.loads(STARTER)


def changed(*swaps: tuple[str, str]) -> str:
    text = STARTER
    for old, new in swaps:
        assert text.count(old) == 1, old
        text = text.replace(old, new)
    return text


def faults(text: str) -> list[Fault]:
    with pytest.raises(ScenarioError) as caught:
        loads(text, file="farm.toml")
    lines = str(caught.value).split("\n")
    assert len(lines) == len(caught.value.faults)
    assert all(line.startswith("farm.toml") and line.isprintable() for line in lines)
    return caught.value.faults


def only_fault(text: str) -> Fault:
    found = faults(text)
    assert len(found) == 1, [fault.text("farm.toml") for fault in found]
    return found[0]


def place_of(pattern: str) -> tuple[str, ...]:
    """The parts of a declared pattern, with the starter's own item in the place of the star."""
    table, *rest = pattern.split(".")
    return (table, next(iter(TABLES[table])), rest[-1]) if "*" in pattern else (table, *rest)


def literal(value: Any) -> str:
    if isinstance(value, list):
        return f"[{', '.join(literal(entry) for entry in value)}]"
    return f'"{value}"' if isinstance(value, str) else str(value).lower() if isinstance(value, bool) else str(value)


def toml(tables: Mapping[str, Any], prefix: tuple[str, ...] = ()) -> Iterator[str]:
    for name, value in tables.items():
        if not isinstance(value, dict):
            yield f"{name} = {literal(value)}"
    for name, value in tables.items():
        if isinstance(value, dict):
            path = (*prefix, f'"{name}"')
            yield f"[{'.'.join(path)}]"
            yield from toml(value, path)


def edited(parts: tuple[str, ...], value: Any, *, rename: str = "") -> str:
    """The starter's tables with one value replaced, renamed, or taken out when it is None."""
    tables = tomllib.loads(STARTER)
    holder = tables
    for part in parts[:-1]:
        holder = holder.setdefault(part, {})
    kept = holder.pop(parts[-1], None)
    if rename:
        holder[rename] = kept if kept is not None else value
    elif value is not None:
        holder[parts[-1]] = value
    return "\n".join(toml(tables))


def by_kind(*kinds: str) -> list[Any]:
    return [pytest.param(pattern, item, id=pattern) for pattern, item in declared().items() if item.kind in kinds]
