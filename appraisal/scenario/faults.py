"""What a wrong value looks like to the person who wrote it: its text, what is accepted, and what is likely meant."""

from __future__ import annotations

import re
from collections.abc import Iterable, Mapping
from dataclasses import replace
from difflib import get_close_matches
from typing import Any

from pydantic_core import ErrorDetails

from appraisal.errors import Fault
from appraisal.scenario.beside import Correlation, Range, StressCase, Wander
from appraisal.scenario.locate import dotted, printable
from appraisal.scenario.model import ASIDE, Source, declared, sections
from appraisal.scenario.quantity import Declaration, declarations

SHOWN_CHARACTERS = 60
CENTS = 100  # of a unit of currency
PLAUSIBLE = 1000  # as a price in cents or a warmth in degrees Fahrenheit
_WHAT = {
    "missing": "needed, but not given",
    "finite_number": "not a finite number",
    "greater_than_equal": "below the allowed range",
    "less_than_equal": "above the allowed range",
    "float_type": "not a number",
    "int_type": "not a whole number",
    "int_from_float": "not a whole number",
    "string_type": "not a text",
    "literal_error": "not one of the choices",
}
_BESIDE: Mapping[str, Mapping[str, Declaration]] = {
    aside: {item.name: item for item in declarations(section)}
    for aside, section in (("range", Range), ("correlation", Correlation), ("stress", StressCase), ("wander", Wander),
                           ("source", Source))
}
_DECLARED = declared()
_NAMED = {place.name for place in sections() if place.named}


def shown(value: Any) -> str:
    """A value as its writer would recognise it, on one line and not longer than a line."""
    if isinstance(value, bool):
        return str(value).lower()
    if isinstance(value, dict):
        return "a table"
    if isinstance(value, list):
        return f"a list of {len(value)}"
    if isinstance(value, int) and abs(value) >= 10**SHOWN_CHARACTERS:
        return "a whole number of very many digits"
    text = f"{value:.12g}" if isinstance(value, float) else printable(str(value))
    text = text if len(text) <= SHOWN_CHARACTERS else text[:SHOWN_CHARACTERS] + "..."
    return f'"{text}"' if isinstance(value, str) else text


def one_line(text: str) -> str:
    """A message without line breaks, cut after four shown values' length."""
    text = printable(text)
    return text if len(text) <= 4 * SHOWN_CHARACTERS else text[:4 * SHOWN_CHARACTERS] + "..."


def likely(name: str, known: Iterable[str]) -> str | None:
    """The known name that is spelled most like a given one, or None."""
    folded = {each.lower(): each for each in known}
    close = get_close_matches(name.lower(), folded, n=1, cutoff=0.6)
    return folded[close[0]] if close else None


def did_you_mean(name: str, known: Iterable[str]) -> str | None:
    """The question to put behind an unknown name, or None when nothing is near."""
    close = likely(name, known)
    return f"did you mean `{close}`?" if close else None


def declaration_at(parts: tuple[str, ...]) -> Declaration | None:
    """The declaration of the field at a path, or None when the path is no field."""
    if len(parts) == 3 and parts[0] in ASIDE:
        return _BESIDE[parts[0]].get(parts[2])
    if len(parts) == 3 and parts[0] in _NAMED:
        return _DECLARED.get(f"{parts[0]}.*.{parts[2]}")
    return _DECLARED.get(".".join(parts)) if len(parts) == 2 else None


def hint(item: Declaration, value: Any) -> str | None:
    """What a refused value most likely means, or None when nothing is likely."""
    if item.kind == "choice":
        return _choice_hint(item, value)
    if item.kind == "text":
        return f'write it in quotes: "{shown(value)}"' if not isinstance(value, (dict, list, str)) else None
    if item.kind == "count" and isinstance(value, (str, float)):
        return "write whole digits, without quotes or a decimal point"
    if isinstance(value, bool):
        return "write a number: true and false are none"
    return _percent_hint(item, value) or _unit_hint(item, value)


def _choice_hint(item: Declaration, value: Any) -> str | None:
    if isinstance(value, bool) and "yes" in item.options:
        return f'write "{"yes" if value else "no"}", in quotes'
    return did_you_mean(value, item.options) if isinstance(value, str) else None


def _percent_hint(item: Declaration, value: Any) -> str | None:
    """0.32 was meant where 32 stands."""
    if not isinstance(value, (int, float)) or not item.unit.startswith("share") or not 1 < abs(value) <= 100:
        return None
    low, high = item.low, item.high
    if high is None or low is None or not low <= value / 100 <= high:
        return None
    return f"write {value / 100:.10g} for {value:.10g} %"


def _unit_hint(item: Declaration, value: Any) -> str | None:
    """A plain number that would lie in the range if it were cents or degrees Fahrenheit, as people write them."""
    if not isinstance(value, (int, float)) or not 0 < abs(value) <= PLAUSIBLE or item.low is None or item.high is None:
        return None
    if out_of_range(item, value) is None:
        return None
    if item.unit == "money/kWh" and value > 0 and item.low <= value / CENTS <= item.high:
        return f'write "{value:.10g} ct/kWh" or {value / CENTS:.10g} if cents are meant'
    if item.unit == "degC" and item.low <= (value - 32) / 1.8 <= item.high:
        return f'write "{value:.10g} degF" if Fahrenheit is meant'
    return None


def out_of_range(item: Declaration, value: float) -> str | None:
    """Say on which side of the allowed range a number [the field's unit] lies, or None when inside."""
    if item.low is not None and value < item.low:
        return _WHAT["greater_than_equal"]
    return _WHAT["less_than_equal"] if item.high is not None and value > item.high else None


def fault_of(error: ErrorDetails, written: Mapping[str, str]) -> Fault:
    """One fault for one refusal of the scenario's classes.

    error: what pydantic reports, its path in `loc`.
    written: texts as the file has them, by path, where they are not the value itself.
    """
    parts = tuple(str(part) for part in error["loc"])
    path, kind, value = dotted(parts), error["type"], error.get("input")
    item = declaration_at(parts)
    if item is None:
        return Fault(path, one_line(error["msg"]))
    fault = Fault(path, _WHAT.get(kind, one_line(error["msg"])), allowed=item.allowed())
    if kind == "missing":
        return fault
    if written.get(path):
        return replace(fault, got=shown(written[path]))
    return replace(fault, got=shown(value), hint=hint(item, value))


_DECIMAL_COMMA = re.compile(r"=\s*(-?\d+),(\d+)\s*(?:#.*)?$")
_PERCENT = re.compile(r"=\s*(-?[\d.]+\s*%)")
_WITH_UNIT = re.compile(r"=\s*(-?[\d._]+\s*[A-Za-z€$][^#\"]*?)\s*(?:#.*)?$")


def syntax_hint(line: str) -> str | None:
    """What is likely meant by a line that TOML cannot read, or None."""
    if found := _DECIMAL_COMMA.search(line):
        whole, rest = found.groups()
        thousands = f"{whole}{rest} or " if len(rest) == 3 and whole.strip("-0") else ""
        return f"a comma cannot stand in a number: write {thousands}{float(f'{whole}.{rest}'):.15g}"
    if found := _PERCENT.search(line):
        return f'a value with its unit stands in quotes: "{found.group(1)}"'
    if found := _WITH_UNIT.search(line):
        return f'a text or a value with its unit stands in quotes: "{printable(found.group(1))}"'
    return None
