"""The starter file that is made from the declarations: it loads, and every field stands in it with its meaning."""

from __future__ import annotations

import re
import tomllib
from typing import Any

import pytest

from appraisal.errors import ScenarioError
from appraisal.scenario.beside import Range
from appraisal.scenario.load import loads
from appraisal.scenario.model import Source, declared, sections
from appraisal.scenario.quantity import Declaration, declarations
from appraisal.scenario.starter import starter
from appraisal.scenario.starter_examples import ASIDES, EXAMPLES, RANGED
from tests.starters import STARTER, STARTERS


@pytest.mark.parametrize(("currency", "units"), STARTERS)
def test_the_starter_loads_as_it_stands(currency: str, units: str) -> None:
    project = loads(STARTERS[currency, units]).scenario.project
    assert (project.currency, project.display_units) == (currency, units)


def test_the_starter_writes_values_in_the_units_of_its_reader() -> None:
    american, metric = STARTERS["USD", "us"], STARTERS["EUR", "metric"]
    assert 'tonnes_per_year = "3300 short_ton/year"' in american
    assert 'tonnes_per_year = "3000 t/year"' in metric
    written = re.findall(r'^\w+ = "[\d.]+ (.*)"', metric, flags=re.MULTILINE)
    assert written and not [unit for unit in written if re.search("lb|ton|gal", unit)]


@pytest.mark.parametrize("currency", ["usd", "", "US", "EURO", "=A1"])
def test_a_starter_in_no_currency_is_refused(currency: str) -> None:
    with pytest.raises(ScenarioError, match="three capital letters"):
        starter(currency=currency)


def test_the_first_line_names_the_schema() -> None:
    assert STARTER.startswith("#:schema ./appraisal.schema.json\n")


def _table(text: str, header: str) -> str:
    return re.split(r"^\[", text.split(f"\n{header}\n", 1)[1], maxsplit=1, flags=re.MULTILINE)[0]


def _fields() -> list[Any]:
    items = tomllib.loads(STARTER)
    fields = []
    for place in sections():
        header = f"{place.name}.{next(iter(items[place.name]))}" if place.named else place.name
        fields += [
            pytest.param(f"[{header}]", item, id=f"{header}.{item.name}") for item in declarations(place.section)
        ]
    for name, section in (("range", Range), ("source", Source)):
        fields += [
            pytest.param(f'[{name}."{RANGED}"]', item, id=f"{name}.{item.name}") for item in declarations(section)
        ]
    return fields


@pytest.mark.parametrize(("header", "item"), _fields())
def test_every_field_stands_in_the_starter_with_its_meaning(header: str, item: Declaration) -> None:
    table = _table(STARTER, header)
    before, _, _ = table.partition(f"{item.name} = ")
    assert before != table, "the field is not there"
    paragraph = before.rstrip("# ").split("\n\n")[-1]
    comment = " ".join(line.removeprefix("# ") for line in paragraph.splitlines())
    assert item.label in comment and " ".join(item.help.split()) in comment
    assert item.kind == "text" or item.allowed() in comment
    assert item.required or "Left out: " in comment
    assert not item.source or item.source in comment


def test_what_stands_behind_the_comment_sign_is_what_is_used() -> None:
    uncommented = re.sub(r"^# (\w+ = )", r"\1", STARTER, flags=re.MULTILINE)
    assert uncommented.count("\n# ") < STARTER.count("\n# ") - 100
    used, written = loads(STARTER).assumptions, loads(uncommented).assumptions
    assert {found.origin for found in written.values()} == {"scenario"}
    for path, found in used.items():
        numeric = not isinstance(found.value, str)
        assert written[path].value == (pytest.approx(found.value, rel=1e-9) if numeric else found.value), path


def test_every_example_is_a_declared_field() -> None:
    patterns = {path if path in declared() else re.sub(r"\.\w+\.", ".*.", path) for path in EXAMPLES}
    assert patterns <= set(declared())
    assert set(ASIDES["range"]) <= {item.name for item in declarations(Range)}
    assert set(ASIDES["source"]) <= {item.name for item in declarations(Source)}
