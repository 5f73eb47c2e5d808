"""Broken scenario files: every fault in one line each, with place, value, what is allowed and what was likely meant."""

from __future__ import annotations

import math
import re
import tomllib
from collections.abc import Sequence
from pathlib import Path
from typing import Any

import pytest
from hypothesis import HealthCheck, given, settings
from hypothesis import strategies as st

from appraisal.errors import ScenarioError
from appraisal.scenario.load import load, loads
from appraisal.scenario.model import declared, sections
from appraisal.scenario.quantity import Declaration
from appraisal.scenario.read_text import SIZE_LIMIT_BYTES
from tests.edges.scenario_text import STARTER, TABLES, by_kind, changed, edited, faults, only_fault, place_of, toml


def test_the_writer_of_these_tests_writes_the_starter_back() -> None:
    assert tomllib.loads("\n".join(toml(TABLES))) == TABLES


EIGHT = (
    ("years = 21", "years = 200", "project.years: above the allowed range (got 200, allowed 2 to 60 year)"),
    ("head = 200", "head = true", "herd.cows.head: not a number (got true, allowed 0 to 200000 head; "
     "write a number: true and false are none)"),
    ('tonnes_per_year = "3300', 'tonnes_per_yeer = "3300',
     "feed.whey.tonnes_per_yeer: unknown name (did you mean `tonnes_per_year`?)"),
    ('kind = "stirred_tank"', 'kind = "stired_tank"', "digester.kind: not one of the choices "
     '(got "stired_tank", allowed stirred_tank or tanks_in_series or plug_flow or '
     'covered_lagoon; did you mean `stirred_tank`?)'),
    ("rated_kw = 75", 'rated_kw = "75 kWh"', "engine.main.rated_kw: an amount of energy, not a rate: over which time? "
     'e.g. 75 kWh/hour = 75 kW (the field counts kW) (got "75 kWh", allowed 5 to 20000 kW)'),
    ("amount = 380000", "amount = nan",
     "loan.bank.amount: not a finite number (got nan, allowed 0 to 1000000000 money)"),
    ('rate = "20 %"', "rate = 20",
     "tax.rate: above the allowed range (got 20, allowed 0 to 0.7 share; write 0.2 for 20 %)"),
    ("rate_year = 2026", 'rate_year = "2026"', 'tax.rate_year: not a whole number (got "2026", allowed 1990 to 2100 year; '
     "write whole digits, without quotes or a decimal point)"),
)


def test_eight_faults_give_eight_lines() -> None:
    text = changed(*((old, new) for old, new, _ in EIGHT))
    lines = [1 + text[:text.index(new)].count("\n") for _, new, _ in EIGHT]
    expected = [f"farm.toml:{line}: {message}" for line, (_, _, message) in zip(lines, EIGHT, strict=True)]
    assert [fault.text("farm.toml") for fault in faults(text)] == expected


def turn_about(values: Sequence[Any], *kinds: str) -> list[Any]:
    """Every field of some kinds with two of the values, so that each value meets fields of every part of a scenario."""
    return [
        pytest.param(*case.values, values[(place * 2 + step) % len(values)], id=f"{case.id}-{(place * 2 + step) % len(values)}")
        for place, case in enumerate(by_kind(*kinds))
        for step in (0, 1)
    ]


@pytest.mark.parametrize("side", ["low", "high"])
@pytest.mark.parametrize(("pattern", "item"), by_kind("number", "count", "profile", "path"))
def test_a_number_beyond_its_limit_is_refused_with_its_unit(pattern: str, item: Declaration, side: str) -> None:
    bound = getattr(item, side)
    assert bound is not None, f"{pattern} has no {side} limit"
    step = 1 + abs(bound) if item.kind == "count" else 0.001 * (1 + abs(bound))
    value = bound - step if side == "low" else bound + step
    fault = only_fault(edited(place_of(pattern), value))
    assert fault.path == ".".join(place_of(pattern))
    assert ("below" if side == "low" else "above") in fault.what
    assert fault.allowed is not None and item.unit in fault.allowed and f"{bound:.12g}" in fault.allowed


@pytest.mark.parametrize(("pattern", "item", "value"), turn_about(
    [math.nan, math.inf, -math.inf, True, "sixty", [[1.0]], "", 10**400], "number", "profile", "path", "count"))
def test_what_is_no_number_is_refused(pattern: str, item: Declaration, value: Any) -> None:
    fault = only_fault(edited(place_of(pattern), value))
    assert fault.path == ".".join(place_of(pattern))
    assert fault.allowed is not None and item.unit in fault.allowed


@pytest.mark.parametrize("value", ["nonsense", 1, True, ["a"]])
@pytest.mark.parametrize(("pattern", "item"), by_kind("choice"))
def test_what_is_no_option_is_refused(pattern: str, item: Declaration, value: Any) -> None:
    fault = only_fault(edited(place_of(pattern), value))
    assert (fault.path, fault.what) == (".".join(place_of(pattern)), "not one of the choices")
    assert fault.allowed == " or ".join(item.options)


@pytest.mark.parametrize(("pattern", "item", "value"), turn_about([5, True, 1.5, ["a"], "bell\\u0007", "x" * 6000], "text"))
def test_what_is_no_plain_text_is_refused(pattern: str, item: Declaration, value: Any) -> None:
    assert only_fault(edited(place_of(pattern), value)).path == ".".join(place_of(pattern))


@pytest.mark.parametrize(("pattern", "item"), by_kind("number", "count", "profile", "path", "choice", "text"))
def test_a_misspelt_field_is_one_fault_with_the_likely_spelling(pattern: str, item: Declaration) -> None:
    parts = place_of(pattern)
    wrong = f"{parts[-1]}x"
    fault = only_fault(edited(parts, 1, rename=wrong))
    assert (fault.path, fault.what) == (".".join((*parts[:-1], wrong)), "unknown name")
    assert fault.hint == f"did you mean `{parts[-1]}`?"


@pytest.mark.parametrize("pattern", [pattern for pattern, item in declared().items() if item.required])
def test_a_required_field_that_is_missing_is_one_fault(pattern: str) -> None:
    fault = only_fault(edited(place_of(pattern), None))
    assert fault.path == ".".join(place_of(pattern)) and fault.what == "needed, but not given"
    assert fault.line is not None


@pytest.mark.parametrize("name", [place.name for place in sections()])
def test_a_misspelt_section_is_one_fault_with_the_likely_spelling(name: str) -> None:
    tables = {f"{key}s" if key == name else key: value for key, value in TABLES.items()}
    for aside in ("range", "source"):
        tables[aside] = {}
    tables.setdefault(f"{name}s", {})
    fault = only_fault("\n".join(toml(tables)))
    assert (fault.path, fault.what, fault.hint) == (f"{name}s", "unknown section", f"did you mean `{name}`?")


@pytest.mark.parametrize("name", ["project", "site", "digester", "power", "labour", "tax", "judging", "engine"])
def test_a_missing_section_is_one_fault(name: str) -> None:
    found = only_fault("\n".join(toml({key: value for key, value in TABLES.items() if key != name})))
    assert found.path.split(".")[0] == name


@pytest.mark.parametrize(("written", "fine"), [('"20 %"', True), ("0.2", True), ('"0.2"', True), ("20", False),
                                               ('"20"', False), ('"0,2"', False), ('"20 % off"', False)])
def test_a_share_in_per_cent_needs_its_sign(written: str, fine: bool) -> None:
    text = changed(('rate = "20 %"', f"rate = {written}"))
    if fine:
        assert loads(text).scenario.tax.rate == pytest.approx(0.2)
    else:
        assert only_fault(text).path == "tax.rate"


@pytest.mark.parametrize(("name", "shown"), [
    ('"=cmd"', "=cmd"), ("Whey", "Whey"), ('"sour whey"', "sour whey"), ("w" * 32, "w" * 32), ('"a\\nb"', "a\\nb"),
    ('""', ""), ("1st", "1st"), ('"wh.ey"', "wh.ey"),
])
def test_an_item_with_an_unusable_name_is_refused(name: str, shown: str) -> None:
    tables = {key: value for key, value in TABLES.items() if key not in ("range", "source")}
    text = "\n".join(toml(tables)) + f"\n[feed.{name}]\ntonnes_per_year = -5\n"
    fault = only_fault(text)
    assert (fault.what, fault.got) == ("not a usable name", f'"{shown}"')


@pytest.mark.parametrize(("header", "words"), [
    ("[feed]", "write [feed.any_name]"), ("[[feed]]", "write [feed.any_name]"), ("[[feed.whey]]", "write [feed.whey]"),
])
def test_an_item_in_the_wrong_kind_of_table_is_refused(header: str, words: str) -> None:
    assert words in only_fault(changed(("[feed.whey]", header))).text("farm.toml")


@pytest.mark.parametrize(("text", "line", "words"), [
    ("", None, "holds no values"),
    ("# only a comment\n", None, "holds no values"),
    ("a = 1\nrate = 0,25\n", 2, "write 0.25"),
    ("a = 1\namount = 1,800 # yearly\n", 2, "write 1800 or 1.8"),
    ("rate = 20 %", 1, 'stands in quotes: "20 %"'),
    ("flow = 5200 t/year", 1, 'stands in quotes: "5200 t/year"'),
    ("name = Green farm", 1, "cannot be read"),
    ("a = 1\n\n[tax]\nrate = 1\nrate = 2\n", 5, "stands twice"),
    ("[tax]\nrate = 1\n[tax]\n", 3, "stands twice"),
    ('name = "open', 1, "cannot be read"),
    ("a = \0", 1, "cannot be read"),
    ("a = " + "[" * 5000, None, "nested too deeply"),
    ("[project]\n" + "a." * 40_000 + "b = 1", 2, "too long"),
    ("[project]\n" + "a." * 9_000 + "b = 1", 2, "dozens of parts"),
    ("[project]\n" + '"a" . ' * 900 + "b = 1", 2, "dozens of parts"),
    ("a = " + "9" * 5000, None, "cannot be read"),
], ids=lambda each: str(each)[:20].encode("unicode_escape").decode())
def test_a_file_that_is_no_toml_says_where(text: str, line: int | None, words: str) -> None:
    fault = only_fault(text)
    assert fault.line == line
    assert words in fault.text("farm.toml")


@pytest.mark.parametrize(("content", "words"), [
    (b"\xff\xfe[\x00t\x00a\x00x\x00]\x00", ":1: not UTF-8 text"),
    ("[tax]\n# caf\u00e9".encode("latin-1"), ":2: not UTF-8 text"),
    (b"#" * (SIZE_LIMIT_BYTES + 1), "too large"),
    (b"", "holds no values"),
])
def test_a_file_that_is_no_text_is_refused(tmp_path: Path, content: bytes, words: str) -> None:
    path = tmp_path / "farm.toml"
    path.write_bytes(content)
    with pytest.raises(ScenarioError, match=re.escape(words)) as caught:
        load(path)
    assert str(caught.value).startswith(str(path))


def test_a_missing_file_and_a_folder_are_refused(tmp_path: Path) -> None:
    with pytest.raises(ScenarioError, match="no such file"):
        load(tmp_path / "none.toml")
    with pytest.raises(ScenarioError, match="is a folder"):
        load(tmp_path)


def test_a_text_of_several_lines_stays_one_line_in_a_message() -> None:
    text = changed(('name = "Example farm: an invented plant to overwrite"', 'name = """one\ntwo\\u0000"""'))
    assert only_fault(text).got == '"one\\ntwo\\x00"'


def test_a_name_that_looks_like_a_formula_is_only_a_text() -> None:
    text = changed(('label = "Insurance"', 'label = "=1+1"'))
    assert loads(text).scenario.running_cost["insurance"].label == "=1+1"


@settings(max_examples=150, deadline=None, suppress_health_check=[HealthCheck.too_slow])
@given(st.data())
def test_no_damage_to_a_file_ends_in_anything_but_faults(data: st.DataObject) -> None:
    start = data.draw(st.integers(0, len(STARTER)))
    end = start + data.draw(st.integers(0, 400))
    piece = data.draw(st.text(max_size=20) | st.sampled_from(["[", "]", '"', "'''", "= 1e999", "\n[feed.x]\n", "#", ".", "{"]))
    text = STARTER[:start] + piece + STARTER[end:]
    try:
        loads(text)
    except ScenarioError as error:
        assert error.faults
        assert len(str(error).splitlines()) == len(error.faults)
