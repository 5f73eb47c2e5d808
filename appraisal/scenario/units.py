"""Read a quantity written with its unit, and show one in the reader's own units.

Reading hands the factors of `unit_list` to a units library, imported only then; showing multiplies by the same factors.
"""

from __future__ import annotations

import math
import re
from typing import Literal

from appraisal.errors import UnitError
from appraisal.scenario.unit_factors import converted
from appraisal.scenario.unit_list import BASE, FACTOR, UNITS, ZERO, kind, parted
from appraisal.scenario.wrong_unit import WrongKind, told

_US = {"t": ("short_ton", "short ton"), "m3": ("US_gal", "US gal"), "L": ("US_gal", "US gal"), "Nm3": ("scf", "scf"),
       "km": ("mile", "mile"), "mm": ("inch", "inch"), "ha": ("acre", "acre"), "m2": ("ft2", "ft2"), "kg": ("lb", "lb"),
       "K": ("degF_difference", "degF"), "W": ("Btu", "Btu/hour")}
_NUMBER = re.compile(r"([+-]?(?:\d+(?:_\d+)*(?:\.\d*)?|\.\d+)(?:[eE][+-]?\d+)?)(.*)", re.DOTALL)


def read_quantity(text: str, unit: str, *, currency: str | None = None) -> float:
    """Read a number written with its unit, as a number in the field's own unit.

    All that follows a `/` or `per` stands below the line; a blank or `*` multiplies; `thousand` and `million` may stand
    before a unit. A year is 365 days (8760 h), a month a twelfth of it. Power is one kind with energy per hour, and
    another than energy per day, month or year.

    Parameters
    ----------
    text : a number, then its unit, as "5200 short_ton/year" or "12 ct/kWh"; a share of at most 1 needs no unit.
    unit : the field's own unit, names of `unit_table()` with `/` between, as "money/t CO2e".
    currency : three-letter code that `money` in `unit` stands for; None when the scenario names none.

    Returns
    -------
    The quantity [unit].

    Raises
    ------
    UnitError
        No finite number, a comma in it, no unit, an unknown or unclear one, another currency, another kind of quantity.
    """
    number, written = _number_and_unit(text)
    wanted = parted(unit, None)
    if written.count("%") > 1:
        raise UnitError(f"'%' stands twice in '{text}'; write it once")
    if not written:
        return _bare(number, unit.replace("money", currency or "money"))
    got = parted(written, currency)
    if kind(got) != kind(wanted):
        message = told(WrongKind(float(number), number, got, wanted, unit))
        raise UnitError(re.sub(r"\bmoney\b", currency or "money", message))
    value = converted(float(number), got, wanted)
    if not math.isfinite(value):
        raise UnitError(f"'{text}' is too large a number in {unit}")
    return value


def shown(value: float, unit: str, *, system: Literal["metric", "us"], currency: str = "") -> tuple[float, str]:
    """Convert a value from the field's unit to the reader's units, with the label to print beside it.

    Masses in units of CO2e stay metric, as credits are traded (common practice, no source); kWh and kW stay.

    Parameters
    ----------
    value : the quantity [unit].
    unit : the field's own unit, as for `read_quantity`.
    system : "metric" changes nothing but the name of the money.
    currency : three-letter code put for `money`.

    Returns
    -------
    The value [label] and the label, which `read_quantity` can read again.
    """
    if unit == "degC" and system == "us":
        return (value + ZERO["degC"] - ZERO["degF"]) / FACTOR["degF"], "degF"
    local = _local(unit) if system == "us" else {}
    over, *under = [line.split() for line in unit.split("/")]
    ratio = {name: FACTOR[name] / FACTOR[new] for name, (new, _) in local.items()}
    value *= math.prod(ratio.get(name, 1.0) for name in over)
    value /= math.prod(ratio.get(name, 1.0) for line in under for name in line)
    label = "/".join(" ".join(local.get(name, ("", name))[1] for name in line) for line in (over, *under))
    return value, re.sub(r"\bmoney\b", currency or "money", label)


def _local(unit: str) -> dict[str, tuple[str, str]]:
    """US units for the names in a unit."""
    local = dict(_US)
    if "CO2e" in unit:
        local = {name: pair for name, pair in local.items() if BASE[name] != "kg"}
    if "VS" in unit:  # gas at a laboratory's own state, never counted in gallons
        local["m3"] = ("ft3", "ft3")
    if unit == "K":
        local["K"] = ("degF_difference", "degF difference")
    return local


def unit_table() -> list[tuple[str, str, str, str]]:
    """Rows for the documentation: every spelling, the meaning, what one of it equals, and where that comes from."""
    zero = {name: f", counted from {kelvin:.2f} K" for name, kelvin in ZERO.items()}
    return [
        (", ".join(row.spellings()), row.meaning, f"{row.factor:.10g} {row.base}{zero.get(row.name, '')}", row.source)
        for row in UNITS
    ]


def _number_and_unit(text: str) -> tuple[str, str]:
    """Part "5_200 t/year" into "5_200" and "t/year"."""
    tidy = text.strip().replace("\N{MINUS SIGN}", "-")
    run = re.match(r"[+-]?\d[\d_.,]*", tidy)
    if run and "," in run[0]:
        raise UnitError(f"a comma in '{text}' may part thousands or decimals; write {_without_comma(run[0])}")
    match = _NUMBER.fullmatch(tidy)
    if not match or not math.isfinite(float(match[1])):
        raise UnitError(f"'{text}' does not begin with a finite number; write the number first, then its unit")
    number, written = match[1], match[2].strip()
    if re.match(r"\d(?!/)", written):
        raise UnitError(f"two numbers, or a gap inside one, in '{text}'; five thousand is 5000 or 5_000")
    return number, written


def _without_comma(run: str) -> str:
    """What a number with commas may mean: "5,200" is "5200 or 5.2"."""
    if "." in run:
        mark = max(",.", key=run.rfind)
        options = [run.replace("," if mark == "." else ".", "").replace(",", ".")]
    else:
        thousands = [run.replace(",", "")] * bool(re.fullmatch(r"[+-]?[1-9]\d{0,2}(,\d{3})+", run) or run.count(",") > 1)
        options = thousands + [run.replace(",", ".")] * (run.count(",") == 1)
    return " or ".join(f"{float(option):.15g}" for option in options)


def _bare(number: str, unit: str) -> float:
    """The value of a number without a unit: a fault, but for a share between -1 and 1."""
    if not unit.startswith("share"):
        likely = " or ".join(f"'{number} {name}'" for name in ((unit, "degF") if unit == "degC" else (unit,)))
        raise UnitError(f"'{number}' has no unit; the field counts {unit}: write {likely} if that is meant")
    if abs(float(number)) > 1:
        percent = unit.replace("share", "%")
        raise UnitError(f"'{number}' may be per cent; write {float(number) / 100:.15g} or '{number} {percent}'")
    return float(number)
