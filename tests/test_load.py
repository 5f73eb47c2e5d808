"""A good scenario file: what is read from it, where each value comes from, and what it is flattened to."""

from __future__ import annotations

import re
import subprocess
import sys
from collections.abc import Mapping
from pathlib import Path

import numpy as np
import pytest

from appraisal.errors import ScenarioError
from appraisal.scenario.load import Loaded, load, loads
from appraisal.scenario.model import Scenario, declared
from appraisal.scenario.reference import NoFigureError, figure, interpolated, rows
from appraisal.scenario.starter import starter
from appraisal.scenario.values import structure, values

SHORT_TON = 0.90718474  # t, by definition: 2000 lb of 0.45359237 kg
STARTER = starter()


@pytest.fixture(scope="module")
def loaded() -> Loaded:
    return loads(STARTER)


def changed(*swaps: tuple[str, str], text: str = STARTER) -> str:
    for old, new in swaps:
        assert text.count(old) == 1, old
        text = text.replace(old, new)
    return text


def test_every_declared_field_is_an_assumption_in_file_order(loaded: Loaded) -> None:
    items = structure(loaded).items
    expected = []
    for pattern in declared():
        table, *_, field = pattern.split(".")
        expected += [f"{table}.{name}.{field}" for name in items[table]] if "*" in pattern else [pattern]
    assert sorted(loaded.assumptions) == sorted(expected)
    order = [path for path in loaded.assumptions if path.startswith("feed.whey.")]
    assert order == [f"feed.whey.{pattern.split('.')[-1]}" for pattern in declared() if pattern.startswith("feed.")]


def test_a_written_value_keeps_its_text_and_its_source(loaded: Loaded) -> None:
    tonnes = loaded.assumptions["feed.whey.tonnes_per_year"]
    assert tonnes.origin == "scenario"
    assert tonnes.value == pytest.approx(3300 * SHORT_TON, rel=1e-12)
    assert tonnes.given_as == "3300 short_ton/year"
    assert (tonnes.source, tonnes.known) == ("Invented for this example", "invented")
    assert loaded.assumptions["feed.whey.gate_fee_per_t"].given_as == ""


def test_a_default_carries_the_source_of_its_declaration(loaded: Loaded) -> None:
    home = loaded.assumptions["judging.home_kwh_per_year"]
    assert (home.origin, home.value) == ("default", 10500.0)
    assert home.source == declared()["judging.home_kwh_per_year"].source != ""
    assert home.known == "from memory"
    assert loaded.assumptions["heat.house_kwh"].value == (0.0,) * 12


def test_a_reference_value_carries_its_row_and_its_range(loaded: Loaded) -> None:
    found, row = loaded.assumptions["feed.whey.potential_nm3_per_t_vs"], figure("feedstocks", "sweet_whey", "bmp_mid")
    assert (found.origin, found.value, found.low, found.high) == ("reference", row.value, row.low, row.high)
    assert row.source in found.source and "feedstocks" in found.source and "sweet_whey" in found.source
    assert found.known == row.basis


def test_a_reference_value_is_brought_to_the_unit_of_the_field(loaded: Loaded) -> None:
    share = loaded.assumptions["feed.whey.ts_share"]
    assert share.value == pytest.approx(figure("feedstocks", "sweet_whey", "ts_pct").value / 100)
    manure = loaded.assumptions["herd.cows.manure_t_per_head_year"]
    kg_a_day = figure("animals", "dairy_lactating", "manure_kg_per_head_d").value
    assert manure.value == pytest.approx(kg_a_day * 365 / 1000)


def test_an_engine_is_read_between_the_rows_at_its_size(loaded: Loaded) -> None:
    text = changed(("rated_kw = 75", "rated_kw = 140"))
    found = loads(text).assumptions["engine.main.efficiency_full"]
    expected = interpolated("engines", "efficiency_full", at=140)
    assert (found.value, found.low, found.high) == (expected.value, expected.low, expected.high)
    assert found.value != loaded.assumptions["engine.main.efficiency_full"].value


def test_a_climate_gives_twelve_temperatures(loaded: Loaded) -> None:
    air = loaded.assumptions["site.air_temperature_degc"]
    assert air.origin == "reference"
    assert isinstance(air.value, tuple) and len(air.value) == 12
    assert air.value[0] == figure("climates", "us_new_york_syracuse", "t_jan_degC").value
    assert air.value[11] == figure("climates", "us_new_york_syracuse", "t_dec_degC").value


def test_a_given_value_goes_before_the_reference_row(loaded: Loaded) -> None:
    text = changed(("# ts_share = 0.131", 'ts_share = "10 %"'))
    found = loads(text).assumptions["herd.cows.ts_share"]
    assert (found.value, found.origin, found.low) == (0.1, "scenario", None)
    assert loads(text).fingerprint != loaded.fingerprint


@pytest.mark.parametrize("swap", [
    ('tonnes_per_year = "3300 short_ton/year"', f"tonnes_per_year = {3300 * SHORT_TON!r}"),
    ('collected_share = "90 %"', "collected_share = [" + ", ".join(["0.9"] * 12) + "]"),
    ('rate = "20 %"', "rate   =   0.20   # as our accountant says"),
    ("# least_cover = 1.25", "least_cover = 1.25"),
    ("years = 21", "years = 21 # with building"),
], ids=lambda swap: swap[0])
def test_the_same_value_written_otherwise_has_the_same_fingerprint(swap: tuple[str, str], loaded: Loaded) -> None:
    assert loads(changed(swap)).fingerprint == loaded.fingerprint


def test_order_does_not_count_for_the_fingerprint(loaded: Loaded) -> None:
    tax = STARTER.index("[tax]")
    judging, claims = STARTER.index("[judging]"), STARTER.index("[claims]")
    turned = STARTER[:tax] + STARTER[judging:claims] + STARTER[tax:judging] + STARTER[claims:]
    assert turned != STARTER
    assert loads(turned).fingerprint == loaded.fingerprint


@pytest.mark.parametrize("swap", [
    ("amount = 380000", "amount = 380001"), ('kind = "stirred_tank"', 'kind = "plug_flow"'),
    ("rate_year = 2026", "rate_year = 2027"), ('low = "1650 short', 'low = "1651 short'), ("Invented for this", "From a"),
    ("[loan.bank]", "[loan.second_bank]"),
], ids=lambda swap: swap[0])
def test_another_value_has_another_fingerprint(swap: tuple[str, str], loaded: Loaded) -> None:
    assert loads(changed(swap)).fingerprint != loaded.fingerprint


def test_numbers_are_flattened_to_read_only_arrays(loaded: Loaded) -> None:
    flat = values(loaded)
    kinds = {path: item.declaration.kind for path, item in loaded.assumptions.items()}
    assert set(flat) == {path for path, kind in kinds.items() if kind in ("number", "count", "profile", "path")}
    for path, array in flat.items():
        assert array.shape == (1, {"profile": 12, "path": 60}.get(kinds[path], 1)), path
        assert array.dtype == np.float64
        assert np.array_equal(array.ravel(), np.ravel(loaded.assumptions[path].value)), path
    with pytest.raises(ValueError, match="read-only"):
        flat["tax.rate"][0, 0] = 0.5


def test_a_scenario_and_its_file_flatten_alike(loaded: Loaded) -> None:
    from_file, from_scenario = values(loaded), values(loaded.scenario)
    assert list(from_file) == list(from_scenario)
    assert all(np.array_equal(from_file[path], from_scenario[path]) for path in from_file)
    assert structure(loaded) == structure(loaded.scenario)


def test_a_scenario_built_without_a_file_flattens_its_defaults(loaded: Loaded) -> None:
    content = loaded.scenario.model_dump()
    del content["farm_now"]
    assert values(Scenario.model_validate(content))["farm_now.power_kwh"].shape == (1, 12)


def test_the_structure_holds_names_choices_and_dates(loaded: Loaded) -> None:
    shape = structure(loaded)
    assert shape.items["herd"] == ("cows",) and shape.items["feed"] == ("whey",)
    assert shape.choices["feed.whey.supply_by"] == "contract"
    assert set(shape.choices) == {p for p, each in loaded.assumptions.items() if each.declaration.kind == "choice"}
    assert (shape.years, shape.first_month) == (21, (2027, 4))
    assert (shape.currency, shape.display_units) == ("USD", "us")


def test_items_keep_the_order_of_the_file() -> None:
    second = "[engine.a_second]\nrated_kw = 50\nmaintenance_per_kwh = 0.02\ntop_end_cost = 0\nmajor_cost = 0\n"
    assert structure(loads(STARTER + second)).items["engine"] == ("main", "a_second")


@pytest.mark.parametrize("encoding", ["utf-8", "utf-8-sig"])
@pytest.mark.parametrize("line_end", ["\n", "\r\n"])
def test_a_file_from_any_editor_is_the_same_scenario(
    tmp_path: Path, encoding: str, line_end: str, loaded: Loaded,
) -> None:
    path = tmp_path / "höf.toml"
    path.write_bytes(STARTER.replace("\n", line_end).encode(encoding))
    found = load(path)
    assert found.fingerprint == loaded.fingerprint
    assert found.text == STARTER.replace("\n", line_end)


@pytest.mark.parametrize("module", ["numpy", "pint"])
def test_a_file_without_units_is_read_without_heavy_imports(module: str) -> None:
    plain = re.sub(r'= "(.*) %(/year)?"', lambda found: f"= {float(found[1]) / 100}", starter(display_units="metric"))
    plain = re.sub(r'= "([0-9.]+) [A-Za-z0-9_/]+"', r"= \1", plain)
    program = f"import sys, appraisal.scenario.load as it; it.loads(sys.stdin.read()); print({module!r} in sys.modules)"
    answer = subprocess.run([sys.executable, "-c", program], input=plain, capture_output=True, encoding="utf-8", check=True)
    assert answer.stdout.strip() == "False"


def _looked_up() -> list[tuple[str, str]]:
    return [(pattern, item.lookup.table) for pattern, item in declared().items() if item.lookup]


@pytest.mark.parametrize(("pattern", "table"), _looked_up())
def test_every_reference_row_lies_within_the_limits_of_the_field(pattern: str, table: str) -> None:
    item = declared()[pattern]
    assert item.lookup is not None and item.low is not None and item.high is not None
    fixed = item.lookup.key.startswith("=")
    names = [item.lookup.key[1:]] if fixed else [row["id"] for row in rows(table)]
    columns = [item.lookup.column.format(month=month) for month in ("jan", "jul", "dec")]
    outside: Mapping[str, float] = {
        name: value for name in names for column in columns
        if (value := _scaled(table, name, column, scale=item.lookup.scale)) is not None
        and not item.low <= value <= item.high
    }
    assert outside == {}


def _scaled(table: str, row: str, column: str, *, scale: float) -> float | None:
    try:
        return figure(table, row, column).value * scale
    except NoFigureError:
        return None


def test_a_path_by_year_goes_on_with_its_last_value_and_says_which_year_is_wrong() -> None:
    text = STARTER.replace("# head_share_by_year = 1", "head_share_by_year = [1, 1, 1.5]")
    assert text != STARTER
    found = values(loads(text))["herd.cows.head_share_by_year"]
    assert found.shape == (1, 60)
    assert found[0, :5].tolist() == [1, 1, 1.5, 1.5, 1.5]
    with pytest.raises(ScenarioError, match=r"entry 2 \(project year 2\)"):
        loads(STARTER.replace("# head_share_by_year = 1", "head_share_by_year = [1, -1]"))
