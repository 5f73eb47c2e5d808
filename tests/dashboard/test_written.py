"""What a form shows, typed back, is the same value: every input of every demo, in both unit systems."""

from __future__ import annotations

from math import isclose

import pytest

from appraisal.dashboard import library
from appraisal.dashboard.groups import NAME_WIDTH, TABLES
from appraisal.demos import demos
from appraisal.present.numbers import Units
from appraisal.present.written import allowed, digits, for_file, for_form, reader_unit
from appraisal.scenario.convert import converted
from appraisal.scenario.load import load
from appraisal.scenario.model import declared, sections
from appraisal.scenario.quantity import declarations

SIX_DIGITS = 1e-5


@pytest.mark.parametrize("system", ["metric", "us"])
@pytest.mark.parametrize("demo", demos())
def test_what_is_shown_typed_back_is_the_same_value(demo: str, system: str) -> None:
    loaded = load(demos()[demo])
    units = Units(system, loaded.scenario.project.currency)  # type: ignore[arg-type]
    for path, each in loaded.assumptions.items():
        raw = for_file(for_form(each, units), each.declaration, units)
        back = converted(each.declaration, raw, currency=units.currency)
        values = each.value if isinstance(each.value, tuple) else (each.value,)
        found = back if isinstance(back, list) else [back]
        for was, now in zip(values, found, strict=True):
            same = isclose(was, now, rel_tol=SIX_DIGITS, abs_tol=1e-9) if isinstance(was, float) else was == now
            assert same, (path, was, now)


@pytest.mark.parametrize("pattern", declared())
def test_every_input_says_in_words_what_is_allowed(pattern: str) -> None:
    item = declared()[pattern]
    for units in (Units("metric", "EUR"), Units("us", "USD")):
        words = allowed(item, units)
        assert words or item.kind == "text"
        assert "share" not in reader_unit(item.unit, units)
        assert "e+" not in words


@pytest.mark.parametrize(
    ("value", "text"),
    [(0.0, "0"), (-0.0, "0"), (1800000.0, "1800000"), (0.14, "0.14"), (1e-7, "0.0000001"), (123456789.4, "123456789")],
)
def test_digits_to_type_over(value: float, text: str) -> None:
    assert digits(value) == text


def test_what_is_typed_becomes_what_the_file_holds() -> None:
    us, metric = Units("us", "USD"), Units("metric", "EUR")
    fee, share, months = (
        declared()[name] for name in ("feed.*.gate_fee_per_t", "feed.*.reject_share", "heat.house_kwh")
    )
    assert for_file("8", fee, us) == "8 USD/short ton"
    assert for_file("8", fee, metric) == 8
    assert for_file("8.50", fee, metric) == 8.5
    assert for_file("1 800 000", fee, metric) == 1800000
    assert for_file("7 USD/t", fee, us) == "7 USD/t"
    assert for_file("3", share, metric) == "3 %"
    assert for_file("0.03 share", share, metric) == "0.03 share"
    assert for_file("", share, metric) is None
    assert for_file("1 2 3", months, metric) == [1, 2, 3]
    assert for_file("1; 2 kWh/month", months, metric) == [1, "2 kWh/month"]
    assert for_file("12,5", fee, metric) == "12,5", "the loader says what is wrong with it"


def test_a_year_of_the_calendar_is_no_length_of_time() -> None:
    assert allowed(declared()["tax.rate_year"], Units("us", "USD")) == "1990 to 2100"
    assert allowed(declared()["project.years"], Units("us", "USD")).endswith(" years")


@pytest.mark.parametrize("section", TABLES)
def test_a_table_to_type_in_is_no_wider_than_the_page(section: str) -> None:
    """820 pixels are left beside the menu in a window of 1280."""
    assert NAME_WIDTH + sum(width for _, width in TABLES[section].values()) <= 820
    place = next(each for each in sections() if each.name == section)
    assert set(TABLES[section]) <= {item.name for item in declarations(place.section)}


def test_columns_of_the_library_are_told_in_words_with_the_units_of_the_table() -> None:
    feeds = library.heads("feedstocks")
    assert feeds["ts_pct"] == "Dry matter, %"
    assert feeds["bmp_mid"] == "Methane potential, Nm3/t VS"
    assert feeds["bmp_low"] == "methane potential low"
    assert library.heads("running_costs")["mid"] == "mid"
    assert library.heads("animals")["manure_kg_per_head_d"] == "manure kg per head d"
