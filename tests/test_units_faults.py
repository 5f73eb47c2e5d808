"""What is told of a quantity that cannot be read: every message names the likely meaning."""

from __future__ import annotations

import pytest

from appraisal.errors import UnitError
from appraisal.scenario.units import read_quantity

FAULTS = [  # written, field's unit, currency, what the message must say
    ("250000 kW", "kWh/month", None, "kW is a rate; did you mean kWh?"),
    ("250000 kW per month", "kWh/month", None, "kW is a rate; did you mean kWh? (the field counts kWh/month)"),
    ("250000 kW per month", "kWh", None, "kW is a rate; did you mean kWh?"),
    ("250000 kW per month", "kW", None, "kW is a rate; did you mean kWh?"),
    ("650 kW", "kWh", None, "kW is a rate; did you mean kWh?"),
    ("2 MW", "kWh/year", None, "MW is a rate; did you mean MWh?"),
    ("12 ct/kW", "money/kWh", "EUR", "kW is a rate; did you mean kWh? (the field counts EUR/kWh)"),
    ("2000 EUR/kWh", "money/kW", "EUR", "kWh is an amount of energy; did you mean kW? (the field counts EUR/kW)"),
    ("4.5 MMBtu/hour", "kWh/month", None, "MMBtu/hour counts per hour; did you mean MMBtu/month?"),
    ("100 kWh/day", "kW", None, "kWh/day counts per day; did you mean kWh/hour?"),
    ("5200 t/year", "t", None, "t/year counts per year; did you mean t?"),
    ("4.5 MMBtu", "kW", None, "an amount of energy, not a rate: over which time? e.g. 4.5 MMBtu/hour = 1.319 MW"),
    ("4.5 million Btu", "kW", None, "not a rate: over which time? e.g. 4.5 million Btu/hour = 1.319 MW"),
    ("0.45 MMBtu", "kW", None, "over which time? e.g. 0.45 MMBtu/hour = 131.9 kW"),
    ("5200 short_ton", "t/year", None, "an amount; per which time? e.g. 5200 short_ton/year = 4717 t/year"),
    ("900 EUR", "money/year", "EUR", "an amount; per which time? e.g. 900 EUR/year = 900 EUR/year"),
    ("80000 ft3/day", "Nm3/day", None, "ft3 at which temperature? write Nm3 or scf"),
    ("500 m3", "Nm3", None, "m3 at which temperature? write Nm3 or scf"),
    ("50 scf", "m3", None, "scf is gas; did you mean m3?"),
    ("300 Nm3/t", "Nm3/t VS", None, "Nm3/t is counted on another basis; VS means volatile solids"),
    ("35 USD/t", "money/t CO2e", "USD", "USD/t is counted on another basis"),
    ("5 degF", "K", None, "degF measures temperature; the field counts K, which measures temperature difference"),
    ("5 K", "degC", None, "K measures temperature difference; the field counts degC"),
    ("5 kg/t", "share", None, "kg/t measures mass per mass; the field counts share, which measures a plain number"),
    ("5 %", "kg/t", None, "percent measures a plain number; the field counts kg/t"),
    ("22000 gal/day", "t/day", None, "US_gal/day measures volume per time; the field counts t/day"),
    ("5 EUR/t", "money/kWh", "EUR", "EUR/t measures currency per mass; the field counts EUR/kWh"),
    ("5 ton", "t", None, "'ton' is unclear: which ton? short_ton, long_ton or t"),
    ("5 tons/year", "t/year", None, "'ton' is unclear: which ton?"),
    ("5 MBtu", "kWh", None, "'MBtu' is unclear: thousand or million?"),
    ("5 Mcf", "Nm3", None, "'Mcf' is unclear: thousand or million?"),
    ("35 $/t", "money/t", "USD", "'$' is unclear: write USD, CAD or AUD"),
    ("300 Nm3 CH4/t", "Nm3/t", None, "'CH4' is unclear: leave it out"),
    ("35 USD/t", "money/t", "EUR", "the scenario counts in EUR; convert it and say the date"),
    ("35 USD/t", "money/t", None, "the scenario names no currency yet"),
    ("5 p/kWh", "money/kWh", "EUR", "'p' is a penny; the scenario counts in EUR"),
    ("5 kwh", "kWh", None, "unknown unit 'kwh'; did you mean kWh?"),
    ("5 galon", "m3", None, "unknown unit 'galon'; did you mean gallon?"),
    ("620 k", "money", "EUR", "'k' is unclear: write the number out in digits"),
    ("0.6 Mio", "money", "EUR", "'Mio' is unclear: write the number out in digits"),
    ("5 usd", "money", "USD", "unknown unit 'usd'; did you mean USD?"),
    ("104", "degC", None, "'104' has no unit; the field counts degC: write '104 degC' or '104 degF'"),
    ("35", "money/t", "EUR", "'35' has no unit; the field counts EUR/t: write '35 EUR/t'"),
    ("60", "share", None, "write 0.6 or '60 %'"),
    ("2", "share/year", None, "write 0.02 or '2 %/year'"),
    ("5,200 t", "t", None, "write 5200 or 5.2"),
    ("1,234,567 t", "t", None, "write 1234567"),
    ("0,14 t", "t", None, "decimals; write 0.14"),
    ("12,5 t", "t", None, "decimals; write 12.5"),
    ("1.234,5 t", "t", None, "write 1234.5"),
    ("1,234.5 t", "t", None, "write 1234.5"),
    ("5 200 t", "t", None, "two numbers, or a gap inside one"),
    ("nan t", "t", None, "does not begin with a finite number"),
    ("inf kWh", "kWh", None, "does not begin with a finite number"),
    ("1e999 t", "t", None, "does not begin with a finite number"),
    ("1e308 t", "kg", None, "is too large a number in kg"),
    ("USD 35", "money", "USD", "write the number first, then its unit"),
    ("", "t", None, "does not begin with a finite number"),
    ("3 t/", "t/year", None, "nothing follows the '/' in 't/'"),
    ("5 USD/(t/day)", "money/t", "USD", "a fraction inside brackets"),
]


@pytest.mark.parametrize(("text", "unit", "currency", "message"), FAULTS)
def test_fault_names_the_likely_meaning(text: str, unit: str, currency: str | None, message: str) -> None:
    with pytest.raises(UnitError) as fault:
        read_quantity(text, unit, currency=currency)
    assert message in str(fault.value)


def test_unknown_word_without_a_neighbour_gets_no_suggestion() -> None:
    with pytest.raises(UnitError) as fault:
        read_quantity("5 xyzzyx", "t")
    assert str(fault.value) == "unknown unit 'xyzzyx'"


def test_a_percent_sign_stands_once() -> None:
    with pytest.raises(UnitError, match="stands twice"):
        read_quantity("20 % %", "share")
