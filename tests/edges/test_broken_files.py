"""Broken scenario files: every fault in one line each, with place, value, what is allowed and what was likely meant."""

from __future__ import annotations

import math
import re
import tomllib
from collections.abc import Iterator, Mapping
from pathlib import Path
from typing import Any

import pytest
from hypothesis import HealthCheck, given, settings
from hypothesis import strategies as st

from appraisal.errors import Fault, ScenarioError
from appraisal.scenario.checks import CHECKS, ORIGIN_CHECKS
from appraisal.scenario.load import load, loads
from appraisal.scenario.model import declared, sections
from appraisal.scenario.quantity import Declaration
from appraisal.scenario.read_text import SIZE_LIMIT_BYTES
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


def test_the_writer_of_these_tests_writes_the_starter_back() -> None:
    assert tomllib.loads("\n".join(toml(TABLES))) == TABLES


EIGHT = (
    ("years = 21", "years = 200", "project.years: above the allowed range (got 200, allowed 2 to 60 year)"),
    ("head = 200", "head = true", "herd.cows.head: not a number (got true, allowed 0 to 200000 head; "
     "write a number: true and false are none)"),
    ("tonnes_per_year =", "tonnes_per_yeer =",
     "feed.whey.tonnes_per_yeer: unknown name (did you mean `tonnes_per_year`?)"),
    ('kind = "stirred_tank"', 'kind = "stired_tank"', "digester.kind: not one of the choices "
     '(got "stired_tank", allowed stirred_tank or plug_flow; did you mean `stirred_tank`?)'),
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


@pytest.mark.parametrize("side", ["low", "high"])
@pytest.mark.parametrize(("pattern", "item"), by_kind("number", "count", "profile"))
def test_a_number_beyond_its_limit_is_refused_with_its_unit(pattern: str, item: Declaration, side: str) -> None:
    bound = getattr(item, side)
    assert bound is not None, f"{pattern} has no {side} limit"
    step = 1 + abs(bound) if item.kind == "count" else 0.001 * (1 + abs(bound))
    value = bound - step if side == "low" else bound + step
    fault = only_fault(edited(place_of(pattern), value))
    assert fault.path == ".".join(place_of(pattern))
    assert ("below" if side == "low" else "above") in fault.what
    assert fault.allowed is not None and item.unit in fault.allowed and f"{bound:.12g}" in fault.allowed


@pytest.mark.parametrize("value", [math.nan, math.inf, -math.inf, True, "sixty", [1.0], "", 10**400])
@pytest.mark.parametrize(("pattern", "item"), by_kind("number", "profile", "count"))
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


@pytest.mark.parametrize("value", [5, True, 1.5, ["a"], "bell\\u0007", "x" * 6000])
@pytest.mark.parametrize(("pattern", "item"), by_kind("text"))
def test_what_is_no_plain_text_is_refused(pattern: str, item: Declaration, value: Any) -> None:
    assert only_fault(edited(place_of(pattern), value)).path == ".".join(place_of(pattern))


@pytest.mark.parametrize(("pattern", "item"), by_kind("number", "count", "profile", "choice", "text"))
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


# For every check: what to change in the starter, and the path and words of the one fault that follows.
CASES: Mapping[str, tuple[tuple[tuple[str, str], ...], str, str]] = {
    "currency_code": ((('currency = "USD"', 'currency = "usd"'),), "project.currency", "write USD"),
    "calendar_month": ((('"2027-04"', '"2027-13"'),), "project.first_month", "2027-04"),
    "time_to_run": ((("# build_months = 12", "build_months = 59"), ("years = 21", "years = 5"), (
        "# ramp_months = 6", "ramp_months = 1"), ("\nyears = 12", "\nyears = 4")), "project.build_months", "60 month"),
    "something_to_digest": ((("[herd.cows]", "[x]"), ("[feed.whey]", "[y]")), "", "nothing goes into"),
    "one_name_each": ((("[herd.cows]", "[herd.whey]"),), "feed.whey", "already has this name"),
    "achieved_yield": ((('like = "sweet_whey"', 'like = "sweet_whey"\npotential_kind = "achieved"'),),
                       "feed.whey.achieved_nm3_per_t", "0 Nm3/t"),
    "some_season": ((("# monthly_weight = 1", "monthly_weight = 0"),), "feed.whey.monthly_weight", "all twelve"),
    "measured_gas": ((('# gas_method = "model"', 'gas_method = "measured"'),),
                     "digester.measured_gas_nm3_per_day", "0 Nm3/day"),
    "hot_enough": ((('treats = "nothing"', 'treats = "everything"\ntemperature_degc = 55'), (
        'kind = "stirred_tank"', 'kind = "stirred_tank"\ntemperature_degc = 57')),
        "pasteuriser.temperature_degc", "57 degC"),
    "energy_balance_of_engines": ((("rated_kw = 75", "rated_kw = 75\nefficiency_full = 0.5\nheat_efficiency_full = 0.6"),),
                                  "engine.main", "below 1 share"),
    "order_of_overhauls": ((("# major_interval_hours = 30000", "major_interval_hours = 12000"),),
                           "engine.main.major_interval_hours", "12000 hour"),
    "overhauls_paid_once": ((('# maintenance = "routine"', 'maintenance = "full_service"'), (
        "top_end_cost = 6000", "top_end_cost = 0")), "engine.main.major_cost", "28000 money"),
    "power_bill": ((('power_kwh = "9000 kWh/month"', "power_kwh = 0"),), "farm_now.power_bill", "16200 money/year"),
    "heating_fuel_bill": ((("# heating_fuel_kwh = 0", "heating_fuel_kwh = 100"),),
                          "farm_now.heating_fuel_kwh", "1200 kWh/year"),
    "payments_within_project": ((("# first_month = 0", "first_month = 241"),), "capital.plant.first_month", "month 252"),
    "grants_within_project": ((("# arrives_in_month = 18", "arrives_in_month = 252"),),
                              "grant.public.arrives_in_month", "below month 252"),
    "loan_terms": ((("# interest_only_months = 12", "interest_only_months = 120"), ("\nyears = 12", "\nyears = 10")),
                   "loan.bank.interest_only_months", "below 120 month"),
    "no_more_loan_than_cost": ((("amount = 380000", "amount = 682001"),), "loan", "at most 682000 USD"),
    "declared_retention": ((('# retention = "from_volume"', 'retention = "declared"'),),
                           "digester.declared_retention_days", "1 to 400 day"),
    "reference_potential": ((('like = "sweet_whey"', 'like = "sweet_whey"\npotential_kind = "ultimate"'),),
                            "feed.whey.potential_nm3_per_t_vs", "Nm3/t VS"),
    "end_of_contract": ((("contract_years = 10", ""),), "feed.whey.contract_years", "0 to 60 year"),
    "fee_after_contract": ((("gate_fee_per_t = 4", "gate_fee_per_t = -4"),), "feed.whey.gate_fee_after_per_t", "money/t"),
}


def test_every_check_has_a_case() -> None:
    assert set(CASES) == {check.run.__name__ for check in (*CHECKS, *ORIGIN_CHECKS)}


@pytest.mark.parametrize("name", [name for name in CASES if name != "something_to_digest"])
def test_values_that_do_not_go_together_are_refused(name: str) -> None:
    swaps, path, words = CASES[name]
    fault = only_fault(changed(*swaps))
    assert fault.path == path
    assert words in fault.text("farm.toml")


def test_a_digester_without_any_feed_is_refused() -> None:
    tables = {name: table for name, table in TABLES.items() if name not in ("herd", "feed", "range", "source")}
    assert CASES["something_to_digest"][2] in only_fault("\n".join(toml(tables))).what


@pytest.mark.parametrize(("swaps", "path", "words"), [
    (("rated_kw = 75", "rated_kw = 75\nefficiency_full = 0.3\nefficiency_half = 0.31"),
     "engine.main.efficiency_half", "exchanged"),
    (("rated_kw = 75", "rated_kw = 75\nefficiency_half = 0.35\nheat_efficiency_half = 0.65"), "engine.main", "half load"),
    (("\nyears = 12", "\nyears = 22"), "loan.bank.years", "at most 21 year"),
    (("power_bill = 1350", "power_bill = 0"), "farm_now.power_kwh", "108000 kWh/year"),
], ids=lambda each: each if isinstance(each, str) else "")
def test_the_other_side_of_a_check(swaps: tuple[str, str], path: str, words: str) -> None:
    fault = only_fault(changed(swaps))
    assert fault.path == path
    assert words in fault.text("farm.toml")


RANGE, SOURCE = '[range."feed.whey.tonnes_per_year"]', '[source."feed.whey.tonnes_per_year"]'


@pytest.mark.parametrize(("old", "new", "path", "words"), [
    (RANGE, '[range."feed.wey.tonnes_per_year"]', 'range."feed.wey.tonnes_per_year"', "did you mean `feed.whey.tonnes"),
    (RANGE, "[range.feed.whey.tonnes_per_year]", "range.feed", 'write [range."feed.whey.tonnes_per_year"]'),
    (RANGE, '[range."project.years"]', 'range."project.years"', "make a second scenario instead"),
    (RANGE, '[range."digester.kind"]', 'range."digester.kind"', "make a second scenario instead"),
    (RANGE, '[range."project.name"]', 'range."project.name"', "a text has no range"),
    (RANGE, '[range."heat.barn_kwh"]', 'range."heat.barn_kwh"', "twelve monthly values"),
    ('low = "1650 short_ton/year"', "low = -1", 'range."feed.whey.tonnes_per_year".low', "0 to 1000000 t/year"),
    ('low = "1650 short_ton/year"', 'low = "9 kW"', 'range."feed.whey.tonnes_per_year".low', "the field counts t/year"),
    ('low = "1650 short_ton/year"', "low = nan", 'range."feed.whey.tonnes_per_year".low', "not a finite number"),
    ('low = "1650 short_ton/year"', "", 'range."feed.whey.tonnes_per_year".low', "needed"),
    ('low = "1650 short_ton/year"', "low = 5000", 'range."feed.whey.tonnes_per_year"', "low must lie under high"),
    ('high = "4000 short_ton/year"', "high = 2000", 'range."feed.whey.tonnes_per_year"', "2993.71 t/year"),
    ('shape = "triangular"', 'shape = "round"', 'range."feed.whey.tonnes_per_year".shape', "triangular or pert"),
    ("reason =", "reasn =", 'range."feed.whey.tonnes_per_year".reasn', "did you mean `reason`?"),
    (SOURCE, '[source."feed.whey.tonnes"]', 'source."feed.whey.tonnes"', "did you mean `feed.whey.tonnes_per_year`?"),
    (SOURCE, '[source."feed.whey.ts_share"]', 'source."feed.whey.ts_share"', "leaves out"),
    ('known = "invented"', 'known = "gues"', 'source."feed.whey.tonnes_per_year".known', "did you mean `guess`?"),
])
def test_a_range_or_source_that_cannot_be_used_is_refused(old: str, new: str, path: str, words: str) -> None:
    fault = only_fault(changed((old, new)))
    assert fault.path == path
    assert words in fault.text("farm.toml")
    assert fault.line is not None


def test_a_refused_value_does_not_make_its_range_a_second_fault() -> None:
    assert only_fault(changed(('= "3300 short_ton/year"', "= -1"))).path == "feed.whey.tonnes_per_year"


@pytest.mark.parametrize(("old", "new", "path", "words"), [
    ('like = "sweet_whey"', 'like = "sweet_wey"', "feed.whey.like", "did you mean `sweet_whey`?"),
    ('like = "sweet_whey"\n', "", "feed.whey.like", "ts_share, vs_share_of_ts"),
    ('animal = "dairy_lactating"', "", "herd.cows.animal", "manure_t_per_head_year, b0_m3_per_kg_vs"),
    ('climate = "us_new_york_syracuse"', 'climate = "syracuse"', "site.climate", "us_new_york_syracuse"),
    ('first_month = "2027-04"', "first_month = 2027-04-01", "project.first_month", 'write it in quotes: "2027-04-01"'),
    ('# regulated = "no"', "regulated = true", "feed.whey.regulated", 'write "yes", in quotes'),
    ("gate_fee_per_t = 4", 'gate_fee_per_t = "4 EUR/t"', "feed.whey.gate_fee_per_t", "the scenario counts in USD"),
    ("power_bill = 1350", "power_bill = [1, 2, 3]", "farm_now.power_bill", "January first"),
    ("power_bill = 1350", "power_bill = [1,2,3,4,5,true,7,-8,9,10,11,12]", "farm_now.power_bill",
     "entry 6 (June), and 1 more: not a number"),
    ("power_bill = 1350", "power_bill = [1,2,3,4,5,6,7,-8,9,10,11,12]", "farm_now.power_bill",
     "entry 8 (August): below the allowed range"),
    ('= "90 %"', "= [1,1,1,1,1,1,1,90,1,1,1,1]", "herd.cows.collected_share", "write 0.9 for 90 %"),
    ("schema_version = 1", "schema_version = 2", "schema_version", "newer release"),
    ("schema_version = 1", "schema_version = 0", "schema_version", "too old"),
    ("schema_version = 1", 'schema_version = "1"', "schema_version", "not a whole number"),
    ("schema_version = 1", "", "schema_version", "write schema_version = 1"),
], ids=lambda each: each[:30])
def test_a_slip_of_the_pen_names_what_was_meant(old: str, new: str, path: str, words: str) -> None:
    fault = only_fault(changed((old, new)))
    assert fault.path == path
    assert words in fault.text("farm.toml")


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
    ("a = 1\namount = 1,800 # yearly\n", 2, "write 1.800 or 1800"),
    ("rate = 20 %", 1, 'stands in quotes: "20 %"'),
    ("flow = 5200 t/year", 1, 'stands in quotes: "5200 t/year"'),
    ("name = Green farm", 1, "cannot be read"),
    ("a = 1\n\n[tax]\nrate = 1\nrate = 2\n", 5, "stands twice"),
    ("[tax]\nrate = 1\n[tax]\n", 3, "stands twice"),
    ('name = "open', 1, "cannot be read"),
    ("a = \0", 1, "cannot be read"),
    ("a = " + "[" * 5000, None, "nested too deeply"),
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
