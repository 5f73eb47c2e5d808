"""A value as its reader writes it, in the reader's units: from a scenario to a form, and from a form to a scenario file."""

from __future__ import annotations

import re
from collections.abc import Sequence

from appraisal.present.numbers import Units, rounded
from appraisal.scenario.assumptions import Assumption
from appraisal.scenario.quantity import SERIES, Declaration
from appraisal.scenario.units import shown

DIGITS = 6
PLAIN_BELOW = 10**DIGITS
NO_UNIT = ("", "1")
COUNTED = ("year", "month", "week", "day", "hour")
_NUMBER = re.compile(r"[+-]?(\d[\d_]*\.?\d*|\.\d+)([eE][+-]?\d+)?")
_THOUSANDS = re.compile(r"[+-]?\d{1,3}([ \u00a0\u202f]\d{3})+(\.\d+)?")
_BETWEEN = re.compile(r"\s*;\s*|,\s+")
Raw = int | float | str | list[int | float | str]
LONGEST_SPAN_YEARS = 1000  # whole years beyond this are a date, not how long something lasts


def reader_unit(unit: str, units: Units) -> str:
    """The unit a reader sees and types: shares in per cent, the rest in the reader's system; empty for a bare number."""
    if unit in NO_UNIT:
        return ""
    if unit.split("/")[0] == "share":
        return "%" + unit.removeprefix("share")
    return shown(0.0, unit, system=units.system, currency=units.currency)[1]


def label(item: Declaration, units: Units) -> str:
    """The label of an input with its unit, which is left out where the label names it already."""
    unit = reader_unit(item.unit, units)
    return f"{item.label}, {several('', unit)}" if unit and unit not in item.label.lower() else item.label


def several(number: str, unit: str) -> str:
    """A unit of time behind a number, in the plural where more than one is meant."""
    return f"{unit}s" if unit in COUNTED and number != "1" else unit


def reader_value(value: float, unit: str, units: Units) -> float:
    """A value [`unit`] in the unit of `reader_unit`."""
    if unit.split("/")[0] == "share":
        return value * 100
    return shown(value, unit, system=units.system, currency=units.currency)[0]


def digits(value: float) -> str:
    """A number to type over: six significant digits, all digits of a whole amount, no separators and no exponent."""
    text = f"{value:.{DIGITS}g}"
    if "e" in text:
        text = f"{value:.0f}" if abs(value) >= PLAIN_BELOW else f"{value:.12f}".rstrip("0").rstrip(".")
    return "0" if text == "-0" else text


def allowed(item: Declaration, units: Units) -> str:
    """What is accepted, in the reader's unit."""
    if item.kind in ("choice", "text") or (item.low is None and item.high is None):
        return "" if item.kind == "text" else item.allowed()
    if item.kind == "count" and item.unit == "year" and (item.high or 0) > LONGEST_SPAN_YEARS:
        return f"{item.low:.0f} to {item.high:.0f}"
    span, many = limits(item, units), {"profile": ", one value or twelve", "path": ", one value or one for each project year"}
    unit = several(span.rpartition(" ")[2], reader_unit(item.unit, units))
    return f"{span} {unit}".rstrip() + many.get(item.kind, "")


def limits(item: Declaration, units: Units) -> str:
    """The least and greatest number that is accepted, in the reader's unit but without it; empty where there is no limit."""
    low, high = (None if end is None else rounded(reader_value(end, item.unit, units)) for end in (item.low, item.high))
    if low is None and high is None:
        return ""
    return f"{low} to {high}" if low and high else f"at least {low}" if low else f"at most {high}"


def for_form(assumption: Assumption, units: Units) -> str:
    """The value as a reader may type it; twelve months or several years are parted by blanks."""
    item, value = assumption.declaration, assumption.value
    if isinstance(value, tuple):
        series = [digits(reader_value(each, item.unit, units)) for each in value]
        return " ".join(_without_repeats(series, whole=item.kind == "profile"))
    if isinstance(value, str):
        return value
    return str(value) if item.kind == "count" else digits(reader_value(float(value), item.unit, units))


def _without_repeats(series: Sequence[str], *, whole: bool) -> Sequence[str]:
    if len(set(series)) == 1:
        return series[:1]
    last = len(series)
    while not whole and last > 1 and series[last - 2] == series[-1]:
        last -= 1
    return series[:last]


def for_file(typed: str, item: Declaration, units: Units) -> Raw | None:
    """What a scenario file should hold for something typed; None to leave the value out. Nothing is judged here.

    A bare number is in the reader's unit, and is written with that unit where it is not the file's own; what carries a
    unit stays as typed, so that the loader can say what is wrong with it.
    """
    text = typed.strip()
    if item.kind in ("choice", "text"):
        return text
    if not text:
        return None
    if item.kind == "count":
        return int(text) if re.fullmatch(r"[+-]?\d+", text) else text
    if item.kind in SERIES:
        parts = [part for part in _BETWEEN.split(text) if part]
        if len(parts) == 1 and all(_NUMBER.fullmatch(part) for part in text.split()):
            parts = text.split()
        entries = [_one(part, item.unit, units) for part in parts]
        return entries[0] if len(entries) == 1 else entries
    return _one(text, item.unit, units)


def _one(text: str, unit: str, units: Units) -> int | float | str:
    bare = re.sub(r"[ \u00a0\u202f]", "", text) if _THOUSANDS.fullmatch(text) else text
    if not _NUMBER.fullmatch(bare):
        return text
    label = reader_unit(unit, units)
    own = shown(0.0, unit, system="metric", currency=units.currency)[1] if label else ""
    if label not in ("", own):
        return f"{bare} {label}"
    return int(bare) if re.fullmatch(r"[+-]?\d+", bare) else float(bare)


def number_for_file(value: float, item: Declaration, units: Units) -> Raw | None:
    """The same for a number from a table cell [the reader's unit]."""
    return for_file(repr(int(value)) if value == int(value) else repr(value), item, units)
