"""Reading quantities with their units: published factors, long-hand arithmetic, every spelling.

Factors marked "SP 811" are the seven digits printed in NIST SP 811 (2008), appendix B, recalled from memory.
"""

from __future__ import annotations

import pint
import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from appraisal.scenario.unit_list import UNITS
from appraisal.scenario.units import read_quantity

SP = 5e-7  # relative; the seventh printed digit, at worst
SCF_PER_NM3 = 35.3146667 * 288.705556 / 273.15  # gas law: ft3 in a m3, 60 degF and 0 degC in kelvin

PUBLISHED = [  # written, field's unit, value in it, relative tolerance, source
    ("1 lb", "kg", 0.4535924, SP, "SP 811"),
    ("1 short_ton", "kg", 907.1847, SP, "SP 811"),
    ("1 long_ton", "kg", 1016.047, SP, "SP 811"),
    ("1 g", "kg", 0.001, 1e-12, "SI"),
    ("1 t", "kg", 1000.0, 1e-12, "SI"),
    ("1 inch", "m", 0.0254, 1e-12, "SP 811, exact"),
    ("1 inch", "mm", 25.4, 1e-12, "SP 811, exact"),
    ("1 ft", "m", 0.3048, 1e-12, "SP 811, exact"),
    ("1 mile", "km", 1.609344, 1e-12, "SP 811, exact"),
    ("1 km", "m", 1000.0, 1e-12, "SI"),
    ("1 ft2", "m2", 0.09290304, 1e-12, "SP 811, exact"),
    ("1 ha", "m2", 10000.0, 1e-12, "SP 811, exact"),
    ("1 acre", "m2", 4046.856, SP, "international acre, from memory"),
    ("1 acre", "m2", 4046.873, 5e-6, "SP 811, survey acre: 4 parts in a million apart"),
    ("1 US_gal", "L", 3.785412, SP, "SP 811"),
    ("1 imp_gal", "L", 4.54609, 1e-12, "SP 811, exact"),
    ("1 L", "m3", 0.001, 1e-12, "SI"),
    ("1 ft3", "m3", 0.02831685, SP, "SP 811"),
    ("1 yd3", "m3", 0.7645549, SP, "SP 811"),
    ("1 min", "hour", 1 / 60, 1e-12, "SP 811, exact"),
    ("1 day", "hour", 24.0, 1e-12, "SP 811, exact"),
    ("1 week", "day", 7.0, 1e-12, "common practice, no source"),
    ("1 year", "day", 365.0, 1e-12, "SP 811, year of 365 days"),
    ("12 month", "year", 1.0, 1e-12, "convention of this package"),
    ("1 kWh", "MJ", 3.6, 1e-12, "SP 811, exact"),
    ("1 Wh", "MJ", 0.0036, 1e-12, "SP 811, exact"),
    ("1 MWh", "GJ", 3.6, 1e-12, "SI"),
    ("1 GJ", "MJ", 1000.0, 1e-12, "SI"),
    ("1 MJ", "kWh", 0.2777778, SP, "SP 811"),
    ("1 Btu", "MJ", 1055.056e-6, SP, "SP 811, international table"),
    ("1 kBtu", "MJ", 1.055056, SP, "SP 811, international table"),
    ("1 MMBtu", "GJ", 1.055056, SP, "SP 811, international table"),
    ("1 therm", "MJ", 105.506, 5e-6, "SP 811, European therm"),
    ("1 therm", "MJ", 105.4804, 3e-4, "SP 811, US therm: 0.02 % apart"),
    ("1 hp", "W", 745.6999, SP, "SP 811, 550 ft lbf/s"),
    ("1 MW", "kW", 1000.0, 1e-12, "SI"),
    ("1 W", "kW", 0.001, 1e-12, "SI"),
    ("1 psi", "kPa", 6.894757, SP, "SP 811"),
    ("1 bar", "kPa", 100.0, 1e-12, "SP 811, exact"),
    ("1 mbar", "kPa", 0.1, 1e-12, "SP 811, exact"),
    ("1 degF_difference", "K", 0.5555556, SP, "SP 811, interval"),
    ("104 degF", "degC", 40.0, 1e-12, "SP 811, (F - 32)/1.8"),
    ("32 degF", "degC", 0.0, 0.0, "SP 811, (F - 32)/1.8"),
    ("1000 Nm3", "scf", 37326.0, 1e-5, "gas law between 0 degC, 101.325 kPa and 60 degF, 14.696 psia, recomputed"),
    ("37.33 scf", "Nm3", 1.0, 2e-4, "the rounded figure of the gas trade, from memory"),
    ("1 Sm3", "scf", 35.383, 1e-5, "gas law between 15 degC and 60 degF, recomputed; SP 811 ft3 x 288.706/288.15"),
    ("100 cent", "money", 1.0, 1e-12, "definition"),
    ("100 percent", "share", 1.0, 1e-12, "definition"),
    ("125 percent", "times", 1.25, 1e-12, "definition"),
    ("2 thousand head", "head", 2000.0, 1e-12, "definition"),
    ("2 million t", "thousand t", 2000.0, 1e-12, "definition"),
    ("1 t VS", "kg VS", 1000.0, 1e-12, "SI"),
    ("1 t TS", "kg TS", 1000.0, 1e-12, "SI"),
    ("1 t CO2e", "kg CO2e", 1000.0, 1e-12, "SI"),
]

ARITHMETIC = [  # written, field's unit, currency, value: long hand from the factors above
    ("4.5 MMBtu/hour", "kW", None, 4.5 * 1055055.85262 / 3600),
    ("4.5 MMBtu/hour", "MW", None, 1.3188198),
    ("4.5 million Btu per hour", "kW", None, 1318.8198),
    ("5200 short_ton/year", "t/year", None, 4717.360648),
    ("5200 short tons per year", "t/year", None, 4717.360648),
    ("350000 gal", "m3", None, 1324.8941244),
    ("22000 US_gal/day", "m3/day", None, 83.279059),
    ("22000gal/d", "m3/day", None, 83.279059),
    ("80000 scf/day", "Nm3/day", None, 80000 / SCF_PER_NM3),
    ("100 kWh/day", "kWh/year", None, 36500.0),
    ("120 t/month", "t/year", None, 1440.0),
    ("12 ct/kWh", "money/kWh", "EUR", 0.12),
    ("0.0725 USD/kWh", "money/kWh", "USD", 0.0725),
    ("5 p/kWh", "money/kWh", "GBP", 0.05),
    ("-5 USD/short_ton", "money/t", "USD", -5 / 0.90718474),
    ("\N{MINUS SIGN}5 USD/t", "money/t", "USD", -5.0),
    ("35 EUR/t", "money/t", "EUR", 35.0),
    ("35 €/t", "money/t", "EUR", 35.0),
    ("0.35 USD/short_ton/mile", "money/t/km", "USD", 0.35 / 0.90718474 / 1.609344),
    ("4 USD/thousand gal", "money/m3", "USD", 4 / 3.785411784),
    ("7.5 USD/MMBtu", "money/MWh", "USD", 7.5 / 0.29307107),
    ("25 USD/tCO2e", "money/t CO2e", "USD", 25.0),
    ("1.2 million EUR", "money", "EUR", 1.2e6),
    ("3 kWh/m3", "kWh/m3", None, 3.0),
    ("9 lb/short_ton", "kg/t", None, 4.5),
    ("5.6 ft3/lb VS", "m3/kg VS", None, 5.6 * 0.028316846592 / 0.45359237),
    ("1 Btu/hour/ft2/degF", "W/m2/K", None, 5.678263),
    ("1 Btu/(h·ft²·°F)", "W/m2/K", None, 5.678263),
    ("18 %", "share", None, 0.18),
    ("18%", "share", None, 0.18),
    ("0.6", "share", None, 0.6),
    ("2.5 %/year", "share/year", None, 0.025),
    ("0.1 1/day", "1/day", None, 0.1),
    ("0.1 per day", "1/day", None, 0.1),
    ("36.5 1/a", "1/day", None, 0.1),
    ("8000 h/year", "hour/year", None, 8000.0),
    ("1_800 t", "t", None, 1800.0),
    ("5e3 kg", "t", None, 5.0),
    (".5 acres", "ha", None, 0.5 * 0.40468564),
    ("38 C", "degC", None, 38.0),
    ("9 degF difference", "K", None, 5.0),
]


@pytest.mark.parametrize(("text", "unit", "value", "relative", "source"), PUBLISHED)
def test_published_factor(text: str, unit: str, value: float, relative: float, source: str) -> None:
    assert read_quantity(text, unit) == pytest.approx(value, rel=relative, abs=1e-10), source


def test_every_unit_stands_in_a_published_row() -> None:
    tried = {word for text, unit, *_ in PUBLISHED for word in (text + " " + unit).split()}
    own = {"penny"}  # a share of one currency only, tried below
    assert {row.name for row in UNITS} - tried - own == set()


@pytest.mark.parametrize(
    ("own", "other"),
    [
        ("lb", "pound"),
        ("short_ton", "short_ton"),
        ("long_ton", "long_ton"),
        ("mile", "mile"),
        ("ft3", "ft**3"),
        ("US_gal", "gallon"),
        ("imp_gal", "imperial_gallon"),
        ("yd3", "yard**3"),
        ("Btu", "Btu_it"),
        ("hp", "horsepower"),
        ("psi", "psi"),
        ("bar", "bar"),
        ("MJ", "MJ"),
    ],
)
def test_factor_agrees_with_the_units_librarys_own_list(own: str, other: str) -> None:
    row = next(row for row in UNITS if row.name == own)
    outside = pint.UnitRegistry().Quantity(1.0, other).m_as(row.base.replace("m3", "m**3"))
    assert row.factor == pytest.approx(outside, rel=1e-9)


@pytest.mark.parametrize(("text", "unit", "currency", "value"), ARITHMETIC)
def test_written_quantity(text: str, unit: str, currency: str | None, value: float) -> None:
    assert read_quantity(text, unit, currency=currency) == pytest.approx(value, rel=1e-7)


@settings(deadline=None)
@given(
    value=st.floats(0.01, 1e6),
    over=st.sampled_from(["lb", "short_ton", "kg"]),
    under=st.sampled_from(["acre", "ha", "ft2"]),
)
def test_a_fraction_is_read_as_its_parts(value: float, over: str, under: str) -> None:
    parts = value * read_quantity(f"1 {over}", "t") / read_quantity(f"1 {under}", "ha")
    assert read_quantity(f"{value!r} {over}/{under}", "t/ha") == pytest.approx(parts, rel=1e-12)


@pytest.mark.parametrize("name", [row.name for row in UNITS])
def test_every_spelling_reads_as_its_unit(name: str) -> None:
    field = "cent" if name == "penny" else name  # pennies are never a field's own unit
    row = next(row for row in UNITS if row.name == name)
    for spelling in row.spellings():
        assert read_quantity(f"2 {spelling}", field, currency="GBP") == pytest.approx(2.0)


def test_no_spelling_stands_for_two_units() -> None:
    spellings = [spelling for row in UNITS for spelling in row.spellings()]
    assert len(spellings) == len(set(spellings))
