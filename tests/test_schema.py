"""The JSON Schema that is made from the declarations: it accepts the starters and refuses damaged files."""

from __future__ import annotations

import tomllib
from collections.abc import Mapping
from typing import Any

import pytest
from jsonschema import Draft202012Validator

from appraisal.scenario.model import declared
from appraisal.scenario.quantity import Declaration
from appraisal.scenario.schema import json_schema
from appraisal.scenario.starter_examples import RANGED
from tests.starters import STARTER, STARTERS

SCHEMA = json_schema()


def test_the_schema_is_a_schema_and_accepts_the_starter() -> None:
    Draft202012Validator.check_schema(SCHEMA)
    for text in STARTERS.values():
        Draft202012Validator(SCHEMA).validate(tomllib.loads(text))


def _property(pattern: str) -> Mapping[str, Any]:
    table, *rest = pattern.split(".")
    found = SCHEMA["properties"][table]
    if "*" in rest:
        found = next(iter(found["patternProperties"].values()))
    field: Mapping[str, Any] = found["properties"][rest[-1]]
    return field


@pytest.mark.parametrize(("pattern", "item"), [pytest.param(*pair, id=pair[0]) for pair in declared().items()])
def test_the_schema_says_of_a_field_what_its_declaration_says(pattern: str, item: Declaration) -> None:
    field = _property(pattern)
    assert field["description"].startswith(item.label) and item.help in field["description"]
    assert item.kind == "text" or item.allowed() in field["description"]
    assert field.get("default") == item.default
    check = Draft202012Validator(dict(field)).is_valid
    if item.kind == "choice":
        assert all(map(check, item.options)) and not check("neither") and not check(True)
    elif item.kind == "text":
        assert check("any") and not check(1)
    else:
        assert item.low is not None and item.high is not None
        assert check(item.low) and check(item.high)
        assert not check(item.low - 1) and not check(item.high + 1) and not check(True)
        assert check(f"1 {item.unit}") == (item.kind != "count")
        assert check([item.low] * 12) == (item.kind in ("profile", "path"))
        assert check([item.low] * 11) == (item.kind == "path")


@pytest.mark.parametrize(
    "damage",
    [
        lambda tables: tables.pop("schema_version"),
        lambda tables: tables.pop("power"),
        lambda tables: tables.pop("engine"),
        lambda tables: tables["engine"].clear(),
        lambda tables: tables["tax"].pop("rate"),
        lambda tables: tables.update(feeds={}),
        lambda tables: tables["tax"].update(rates=1),
        lambda tables: tables["feed"].update(Whey={}),
        lambda tables: tables["range"][RANGED].update(shape="round"),
    ],
    ids=range(9),
)
def test_the_schema_refuses_a_damaged_file(damage: Any) -> None:
    tables = tomllib.loads(STARTER)
    damage(tables)
    assert not Draft202012Validator(SCHEMA).is_valid(tables)
