"""A scenario flattened for calculation: numbers as arrays by dotted path, and what fixes the shape of the model."""

from __future__ import annotations

from collections.abc import Iterator, Mapping
from dataclasses import dataclass
from typing import Any

import numpy as np
from numpy.typing import NDArray

from appraisal.scenario.load import Loaded
from appraisal.scenario.model import Scenario, sections
from appraisal.scenario.quantity import SERIES, Declaration, Section, declarations

Array = NDArray[np.float64]


@dataclass(frozen=True)
class Structure:
    """What is not a number to sample: names, choices, dates and counts.

    items: names in file order, by table (herd, feed, engine, running_cost, capital, grant, loan).
    choices: chosen option by dotted path, for every choice field of every section and item.
    years: project years, building included. first_month: calendar year and month (1 to 12) of month 0.
    name: of the plant. currency: three-letter code. display_units: metric or us.
    """

    items: Mapping[str, tuple[str, ...]]
    choices: Mapping[str, str]
    years: int
    first_month: tuple[int, int]
    name: str
    currency: str
    display_units: str


def values(source: Loaded | Scenario) -> Mapping[str, Array]:
    """Every number, count and profile of a scenario as a read-only array by dotted path, in its declared unit.

    A number or count has the shape (1, 1); a profile has the shape (1, 12), January first;
    a path has (1, 60), the first project year first.
    """
    flat: dict[str, Array] = {}
    for path, item, value in _fields(_scenario(source)):
        if item.kind in ("number", "count"):
            flat[path] = _read_only(np.full((1, 1), value, dtype=np.float64))
        elif item.kind in SERIES:
            flat[path] = _read_only(np.full((1, SERIES[item.kind]), value, dtype=np.float64))
    return flat


def structure(source: Loaded | Scenario) -> Structure:
    """The part of a scenario that fixes the shape of the model and is never sampled."""
    scenario = _scenario(source)
    project = scenario.project
    year, month = project.first_month.split("-")
    return Structure(
        items={place.name: tuple(getattr(scenario, place.name)) for place in sections() if place.named},
        choices={path: value for path, item, value in _fields(scenario) if item.kind == "choice"},
        years=project.years, first_month=(int(year), int(month)), name=project.name, currency=project.currency,
        display_units=project.display_units,
    )


def _scenario(source: Loaded | Scenario) -> Scenario:
    return source.scenario if isinstance(source, Loaded) else source


def _fields(scenario: Scenario) -> Iterator[tuple[str, Declaration, Any]]:
    """Every declared field with its dotted path and value, in file order."""
    for place in sections():
        section = getattr(scenario, place.name)
        if not place.named:
            yield from _of_section(place.name, section)
            continue
        for name, item in section.items():
            yield from _of_section(f"{place.name}.{name}", item)


def _of_section(path: str, section: Section) -> Iterator[tuple[str, Declaration, Any]]:
    for item in declarations(type(section)):
        yield f"{path}.{item.name}", item, getattr(section, item.name)


def _read_only(array: Array) -> Array:
    array.setflags(write=False)
    return array
