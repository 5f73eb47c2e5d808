"""A quantity inside a sentence, in the units that the scenario shows: what findings are written with."""

from __future__ import annotations

from math import floor, log10

from appraisal.scenario.model import Scenario
from appraisal.scenario.units import shown

IN_SENTENCES = {
    "d": "days", "h": "hours", "acre": "acres", "short ton": "short tons", "day": "days", "hour": "hours",
}  # fmt: skip
DEGREES = "deg"
DIGITS = 3  # of a converted figure below a hundred: its decimals in the file's unit say nothing of the other one
AS_TESTED = "/L"  # laboratories give grams per litre everywhere (common practice, no source)


def said(scenario: Scenario, value: float, unit: str, form: str = ",.0f") -> str:
    """A value [`unit`] with its unit, as the readers of the scenario write it.

    form: how the number is written in the unit itself; a converted number keeps three digits, whole from a hundred up.
    """
    number, label = converted(scenario, value, unit)
    written = format(number, form) if number == value else _digits(number)
    gap = "" if label.startswith("%") else " "
    word = IN_SENTENCES.get(label, label)
    return f"{written}{gap}{word.replace(DEGREES, '°') if word.startswith(DEGREES) else word}".rstrip(" -")


def converted(scenario: Scenario, value: float, unit: str) -> tuple[float, str]:
    """A value [`unit`] as number and unit of the readers; grams per litre stay as laboratories give them."""
    project = scenario.project
    system = "metric" if unit.endswith(AS_TESTED) else project.display_units
    return shown(value, unit, system=system, currency=project.currency)


def plain(name: str) -> str:
    """A name or choice of the file as a word of a sentence: without the joints that a file needs."""
    return name.replace("_", " ")


def _digits(number: float) -> str:
    places = max(DIGITS - 1 - floor(log10(abs(number))), 0) if number else 0
    return f"{number:,.{places}f}"
