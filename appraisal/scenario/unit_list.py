"""The units of the trade, each fact once, and how a written unit is parted into them.

A year is 365 days (8760 h) and a month a twelfth of that, so that twelve months of a rate make its year. `Nm3` is dry
gas at 0 degC and 101.325 kPa, a kind of its own: a cubic metre or foot of gas at no stated temperature is refused.
"""

from __future__ import annotations

import difflib
import re
from collections.abc import Iterable, Mapping
from typing import NamedTuple

from appraisal.errors import UnitError

_SP = "NIST SP 811 (2008), appendix B, digits from memory"
_DEF = "definition"


class Unit(NamedTuple):
    """`name` equals `factor` times `base`; `aliases` are other spellings, parted by commas."""

    name: str
    factor: float
    base: str
    meaning: str
    source: str
    aliases: str = ""

    def spellings(self) -> tuple[str, ...]:
        """The name, then all other spellings."""
        return (self.name, *filter(None, self.aliases.split(",")))


_BTU = 1055.05585262 / 3.6e6  # kWh in one international-table Btu
_DEGF = 5 / 9  # kelvin in one degree Fahrenheit
_FT = 0.3048  # m in one international foot
_FT3 = _FT**3  # m3 in one cubic foot
_LB = 0.45359237  # kg in one pound
_LBF = _LB * 9.80665 / 1000  # kN in one pound-force
UNITS = tuple(Unit(*row) for row in (
    ("kg", 1.0, "kg", "kilogram", _DEF), ("g", 0.001, "kg", "gram", _DEF),
    ("t", 1000.0, "kg", "metric tonne", _DEF, "tonne,metric ton,metric tonne"),
    ("lb", _LB, "kg", "pound", _SP, "lbs,pound"),
    ("short_ton", 2000 * _LB, "kg", "US ton of 2000 lb", _SP, "short ton"),
    ("long_ton", 2240 * _LB, "kg", "imperial ton of 2240 lb", _SP, "long ton"),
    ("m", 1.0, "m", "metre", _DEF), ("km", 1000.0, "m", "kilometre", _DEF), ("mm", 0.001, "m", "millimetre", _DEF),
    ("inch", _FT / 12, "m", "inch", _SP),
    ("ft", _FT, "m", "international foot", _SP, "foot,feet"), ("mile", 5280 * _FT, "m", "statute mile", _SP),
    ("m2", 1.0, "m2", "square metre", _DEF), ("ha", 1e4, "m2", "hectare", _DEF, "hectare"),
    ("ft2", _FT**2, "m2", "square foot", _SP, "sq ft"),
    ("acre", 43560 * _FT**2, "m2", "43,560 international square feet",
     "from memory; SP 811 lists the survey acre, 4 parts in a million larger"),
    ("m3", 1.0, "m3", "cubic metre, of anything but gas", _DEF), ("L", 0.001, "m3", "litre", _DEF, "l,litre,liter"),
    ("US_gal", 0.003785411784, "m3", "US gallon", _SP, "gal,gallon,US gal,US gallon"),
    ("imp_gal", 0.00454609, "m3", "imperial gallon", _SP, "imp gal,imperial gallon"),
    ("ft3", _FT3, "m3", "cubic foot, of anything but gas", _SP, "cu ft"),
    ("yd3", 27 * _FT3, "m3", "cubic yard", _SP, "cu yd"),
    ("hour", 1.0, "hour", "hour", _DEF, "h,hr"), ("min", 1 / 60, "hour", "minute", _DEF, "minute"),
    ("day", 24.0, "hour", "day", _DEF, "d"), ("week", 168.0, "hour", "7 days", _DEF, "wk"),
    ("month", 730.0, "hour", "a twelfth of a year", "convention of this package", "mo"),
    ("year", 8760.0, "hour", "365 days", "convention of this package", "yr,y,a"),
    ("kWh", 1.0, "kWh", "kilowatt-hour", _DEF), ("Wh", 0.001, "kWh", "watt-hour", _DEF),
    ("MWh", 1000.0, "kWh", "megawatt-hour", _DEF),
    ("MJ", 1 / 3.6, "kWh", "megajoule", _DEF), ("GJ", 1000 / 3.6, "kWh", "gigajoule", _DEF),
    ("Btu", _BTU, "kWh", "British thermal unit (international table)", _SP, "BTU"),
    ("kBtu", 1e3 * _BTU, "kWh", "thousand Btu", _SP), ("MMBtu", 1e6 * _BTU, "kWh", "million Btu", _SP, "MMBTU,mmBtu"),
    ("therm", 1e5 * _BTU, "kWh", "100,000 Btu; the US legal therm is 0.02 % smaller", _SP),
    ("kW", 1.0, "kWh/hour", "kilowatt", _DEF), ("W", 0.001, "kWh/hour", "watt", _DEF),
    ("MW", 1000.0, "kWh/hour", "megawatt", _DEF),
    ("hp", 550 * _FT * _LBF, "kWh/hour", "horsepower, 550 foot pounds-force a second", _SP),
    ("kPa", 1.0, "kPa", "kilopascal", _DEF), ("mbar", 0.1, "kPa", "millibar", _DEF), ("bar", 100.0, "kPa", "bar", _DEF),
    ("psi", _LBF / (_FT / 12) ** 2, "kPa", "pound-force per square inch", _SP),
    ("K", 1.0, "K", "difference of temperature", _DEF, "delta_degC,degC difference"),
    ("degF_difference", _DEGF, "K", "difference of temperature", _SP, "delta_degF,degF difference"),
    ("degC", 1.0, "K", "temperature, degree Celsius", _DEF, "°C,C"),
    ("degF", _DEGF, "K", "temperature, degree Fahrenheit", _SP, "°F,F"),
    ("Nm3", 1.0, "Nm3", "cubic metre of dry gas at 0 degC, 101.325 kPa", _DEF),
    ("Sm3", 273.15 / 288.15, "Nm3", "cubic metre of dry gas at 15 degC, 101.325 kPa", "ideal gas law"),
    ("scf", _FT3 * 273.15 / (519.67 * _DEGF), "Nm3", "cubic foot of dry gas at 60 degF, 14.696 psi", "ideal gas law"),
    ("money", 1.0, "money", "one unit of the scenario's currency", _DEF),
    ("cent", 0.01, "money", "hundredth of the scenario's currency", _DEF, "ct,c,¢"),
    ("penny", 0.01, "money", "hundredth of a pound sterling", _DEF, "p,pence"),
    ("share", 1.0, "share", "fraction of the whole", _DEF), ("percent", 0.01, "share", "hundredth", _DEF, "%"),
    ("times", 1.0, "share", "one amount over another, as cover", _DEF, "time"),
    ("thousand", 1e3, "share", "multiplier", _DEF), ("million", 1e6, "share", "multiplier", _DEF),
    ("head", 1.0, "head", "animal", _DEF), ("VS", 1.0, "VS", "counted as volatile solids", "label, not a factor"),
    ("TS", 1.0, "TS", "counted as total solids", "label, not a factor", "DM"),
    ("CO2e", 1.0, "CO2e", "counted as carbon dioxide equivalent", "label, not a factor", "CO2eq"),
))
FACTOR = {unit.name: unit.factor for unit in UNITS}
BASE = {unit.name: unit.base for unit in UNITS}
ALIASES = {word: unit.name for unit in UNITS for word in unit.spellings()}
ZERO = {"degC": 273.15, "degF": 459.67 * _DEGF}  # kelvin at the zero of the scale
_DIFFERENCE = {"degC": "K", "degF": "degF_difference"}
_KINDS = {
    "kg": "mass", "m": "length", "m2": "area", "m3": "volume", "hour": "time", "kWh": "energy", "kWh/hour": "power",
    "kPa": "pressure", "K": "temperature difference", "Nm3": "gas volume", "money": "currency",
}
TAGS = ("VS", "TS", "CO2e")
_UNCLEAR = {
    "ton": "which ton? short_ton, long_ton or t", "MBtu": "thousand or million? write kBtu or MMBtu",
    "MBTU": "thousand or million? write kBtu or MMBtu", "Mcf": "thousand or million? write 'thousand scf'",
    "mcf": "thousand or million? write 'thousand scf'", "1000": "write 'thousand'", "$": "write USD, CAD or AUD",
    **dict.fromkeys(("k", "M", "mio", "Mio"), "write the number out in digits"),
    "£": "write GBP", "CH4": "leave it out, the field says which gas is meant", "CO2": "write CO2e",
}
_CODES = (
    "USD", "CAD", "EUR", "GBP", "CHF", "AUD", "NZD", "DKK", "SEK", "NOK", "ISK", "PLN", "CZK", "HUF", "RON",
    "BGN", "RSD", "TRY", "UAH", "INR", "CNY", "JPY", "KRW", "BRL", "MXN", "ARS", "CLP", "COP", "PEN", "ZAR",
    "KES", "NGN", "EGP", "ILS", "IDR", "THB", "VND", "PHP", "MYR", "SGD", "HKD", "TWD",
)
_SIGNS = str.maketrans({"³": "3", "²": "2", "₂": "2", "^": "", "·": " ", "*": " ", "(": " ", ")": " ", "€": " EUR "})


class Parts(NamedTuple):
    """Unit names above and below the line, all of `UNITS`."""

    over: tuple[str, ...]
    under: tuple[str, ...]

    def __str__(self) -> str:
        return "/".join((" ".join(self.over) or "1", *self.under))

    def names(self) -> tuple[str, ...]:
        """All names, those above the line first."""
        return self.over + self.under

    def per(self, more: Iterable[str]) -> Parts:
        """The same with more names below the line."""
        return Parts(self.over, (*self.under, *more))

    def swapped(self, swaps: Mapping[str, str]) -> Parts:
        """The same with names replaced; an empty replacement drops the name."""
        over, under = (tuple(new for name in line if (new := swaps.get(name, name))) for line in self)
        return Parts(over, under)

    def times(self) -> tuple[str, ...]:
        """The times that it counts by; an hour for power."""
        return tuple(name for name in self.under if BASE[name] == "hour") + ("hour",) * ("power" in kind(self).over)


def kind(parts: Parts) -> Parts:
    """What a unit measures, above and below the line, nothing cancelled: `kg/t` is not a share."""
    over, under = ([_kind_of(name) for name in line if BASE[name] != "share"] for line in parts)
    if "energy" in over and {"hour", "min"} & set(parts.under):
        over[over.index("energy")] = "power"
        under.remove("time")
    return Parts(tuple(sorted(over)), tuple(sorted(under)))


def _kind_of(name: str) -> str:
    """What one unit measures."""
    return "temperature" if name in ZERO else _KINDS.get(BASE[name], BASE[name])


def parted(written: str, currency: str | None) -> Parts:
    """Part a written unit into names of `UNITS`.

    Parameters
    ----------
    written : the unit, as "USD per short ton"; all that follows a `/` or `per` stands below the line.
    currency : three-letter code of the scenario's money; None when it names none.

    Raises
    ------
    UnitError
        An unknown or unclear name, another currency, a fraction inside brackets, or nothing below the line.
    """
    if re.search(r"\([^)]*(/|\bper\b)", written):
        raise UnitError(f"a fraction inside brackets in '{written}'; write it without brackets")
    lines = [line.split() for line in _tidy(written).split("/")]
    if not all(lines[1:]):
        raise UnitError(f"nothing follows the '/' in '{written}'")
    over = tuple(_name(word, currency) for word in lines[0] if word != "1")
    under = tuple(_name(word, currency) for line in lines[1:] for word in line)
    whole = Parts(over, under)
    return whole.swapped(_DIFFERENCE) if len(whole.names()) > 1 else whole


def _tidy(written: str) -> str:
    """One spelling for signs, for `per`, and for names of two words."""
    tidy = re.sub(r"\bper\b", "/", written.translate(_SIGNS))
    tidy = re.sub(r"\b(t|kg)CO2e", r"\1 CO2e", tidy)
    for words in sorted((alias for alias in ALIASES if " " in alias), key=len, reverse=True):
        tidy = re.sub(rf"(?<!\w){words}s?(?!\w)", ALIASES[words], tidy)
    return tidy


def _name(word: str, currency: str | None) -> str:
    """The name in `UNITS` of one written word."""
    if ALIASES.get(word) == "penny" and currency != "GBP":
        raise UnitError(f"'{word}' is a penny; {_counts_in(currency)}")
    if word in ALIASES or word == currency:
        return ALIASES.get(word, "money")
    if word in _CODES:
        raise UnitError(f"'{word}' is money; {_counts_in(currency)}; convert it and say the date")
    if word in _UNCLEAR:
        raise UnitError(f"'{word}' is unclear: {_UNCLEAR[word]}")
    if len(word) > 2 and word.islower() and word.endswith("s"):
        return _name(word[:-1], currency)
    codes = [code for code in _CODES if code.lower() == word.lower()]  # a code is meant only where all of it is written
    known = {name.lower(): name for name in (*ALIASES, *codes)}
    close = difflib.get_close_matches(word.lower(), known, 1)
    raise UnitError(f"unknown unit '{word}'" + (f"; did you mean {known[close[0]]}?" if close else ""))


def _counts_in(currency: str | None) -> str:
    """Say which currency the scenario counts in."""
    return f"the scenario counts in {currency}" if currency else "the scenario names no currency yet"
