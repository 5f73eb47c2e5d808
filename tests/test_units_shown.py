"""Quantities shown in the units of the reader, and read back."""

from __future__ import annotations

import subprocess
import sys
from pathlib import Path

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from appraisal.scenario.unit_list import UNITS
from appraisal.scenario.units import read_quantity, shown, unit_table
from tests.test_units_read import SCF_PER_NM3

FIELD_UNITS = [
    "t/year",
    "t/day",
    "t/month",
    "t",
    "kg",
    "kg/t",
    "kg/year",
    "m3",
    "m3/day",
    "m3/year",
    "Nm3",
    "Nm3/day",
    "Nm3/year",
    "Nm3/t",
    "kW",
    "kWh",
    "kWh/month",
    "kWh/year",
    "kWh/t",
    "MW",
    "degC",
    "K",
    "day",
    "month",
    "year",
    "hour",
    "hour/year",
    "hour/week",
    "km",
    "ha",
    "share",
    "share/year",
    "1/day",
    "W/K",
    "W/m2/K",
    "W/m",
    "head",
    "money",
    "money/year",
    "money/month",
    "money/t",
    "money/kWh",
    "money/kg",
    "money/m3",
    "money/hour",
    "money/t/km",
    "money/kW",
    "money/head",
    "money/MWh",
    "L/day",
    "L/head/day",
    "m3/head/day",
    "t/head/year",
    "kg/head/day",
    "Nm3/t VS",
    "m3/kg VS",
    "t CO2e",
    "money/t CO2e",
    "t CO2e/t",
]

SHOWN_US = [  # field's unit, value, value and label in US units
    ("t/year", 4717.360648, 5200.0, "short ton/year"),
    ("m3/day", 83.279059, 22000.0, "US gal/day"),
    ("Nm3", 1.0, SCF_PER_NM3, "scf"),
    ("degC", 40.0, 104.0, "degF"),
    ("K", 5.0, 9.0, "degF difference"),
    ("km", 1.609344, 1.0, "mile"),
    ("ha", 0.40468564, 1.0, "acre"),
    ("kg/t", 4.5, 9.0, "lb/short ton"),
    ("Nm3/t VS", 100.0, 100 * SCF_PER_NM3 * 0.90718474, "scf/short ton VS"),
    ("m3/kg VS", 1.0, 35.314667 * 0.45359237, "ft3/lb VS"),
    ("W/m2/K", 5.678263, 1.0, "Btu/hour/ft2/degF"),
    ("money/t", 35.0, 35 * 0.90718474, "USD/short ton"),
    ("money/t/km", 1.0, 0.90718474 * 1.609344, "USD/short ton/mile"),
    ("money/kWh", 0.12, 0.12, "USD/kWh"),
    ("kW", 650.0, 650.0, "kW"),
    ("t CO2e", 10.0, 10.0, "t CO2e"),
    ("money/t CO2e", 25.0, 25.0, "USD/t CO2e"),
    ("t CO2e/t", 28.0, 28.0, "t CO2e/t"),
]


@pytest.mark.parametrize(("unit", "value", "expected", "label"), SHOWN_US)
def test_shown_in_us_units(unit: str, value: float, expected: float, label: str) -> None:
    got, got_label = shown(value, unit, system="us", currency="USD")
    assert got == pytest.approx(expected, rel=1e-7)
    assert got_label == label


@pytest.mark.parametrize("unit", FIELD_UNITS)
def test_shown_in_metric_changes_nothing_but_the_name_of_the_money(unit: str) -> None:
    assert shown(12.5, unit, system="metric", currency="EUR") == (12.5, unit.replace("money", "EUR"))
    assert shown(12.5, unit, system="metric") == (12.5, unit)


@settings(deadline=None)
@given(
    value=st.floats(-1e9, 1e9).filter(lambda x: x == 0 or abs(x) > 1e-9),
    unit=st.sampled_from(FIELD_UNITS),
    system=st.sampled_from(["metric", "us"]),
)
def test_what_is_shown_reads_back(value: float, unit: str, system: str) -> None:
    there, label = shown(value, unit, system="us" if system == "us" else "metric", currency="USD")
    assert read_quantity(f"{there!r} {label}", unit, currency="USD") == pytest.approx(value, rel=1e-12, abs=1e-9)


def test_unit_table_says_meaning_factor_and_source_of_every_unit() -> None:
    rows = unit_table()
    assert len(rows) == len(UNITS)
    assert all(all(cell for cell in row) for row in rows)
    assert ("short_ton, short ton", "US ton of 2000 lb", "907.18474 kg") in [row[:3] for row in rows]


def test_units_library_is_loaded_only_when_a_unit_is_read() -> None:
    program = (
        "import sys\n"
        "from appraisal.scenario.units import read_quantity, shown, unit_table\n"
        "unit_table(); shown(1.0, 'money/t', system='us', currency='USD'); read_quantity('0.5', 'share')\n"
        "print(sorted({'pint', 'numpy'} & set(sys.modules)))\n"
        "read_quantity('1 lb', 'kg')\n"
        "print('pint' in sys.modules)\n"
    )
    root = Path(__file__).parents[1]
    run = subprocess.run([sys.executable, "-c", program], cwd=root, capture_output=True, text=True, check=True)
    assert run.stdout.splitlines() == ["[]", "True"]
