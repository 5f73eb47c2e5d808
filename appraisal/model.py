"""The whole model: the catalogue of all lines, checked at import, and how one scenario becomes plan and inputs."""

from __future__ import annotations

from collections.abc import Mapping

import numpy as np
import numpy.typing as npt

from appraisal import timeline as time
from appraisal.cash_flow import (
    capital,
    credits,
    fertilizer,
    heat_value,
    loan,
    overhauls,
    power_sales,
    running_costs,
    statements,
    tax,
    tipping_fees,
)
from appraisal.constants import CONSTANTS
from appraisal.lines.catalogue import Catalogue, catalogue
from appraisal.lines.define import lines_of
from appraisal.lines.plan import Items, Plan, plan
from appraisal.scenario.model import declared
from appraisal.scenario.quantity import SERIES
from appraisal.scenario.values import Structure
from appraisal.technical_yield import digestate, digestion, emissions, engine, feedstock, heat, power

PHYSICS = (time, feedstock, digestion, engine, heat, power, digestate, emissions)
SHEETS = (power_sales, tipping_fees, fertilizer, credits, heat_value, running_costs, overhauls, capital, loan, tax)
FAMILIES: Mapping[str, tuple[str, ...]] = {
    "substrate": ("herd", "feed"),
    "engine": ("engine",),
    "running_cost": ("running_cost",),
    "capital": ("capital",),
    "grant": ("grant",),
    "loan": ("loan",),
}
DERIVED_CHOICES = ("origin", "supply_by", "regulated")
Arrays = Mapping[str, npt.NDArray[np.float64]]


def _input_names() -> dict[str, str]:
    names = {path.replace(".*", "").replace(".", "_"): path for path in declared()}
    names |= {constant.name: f"constant.{constant.name}" for constant in CONSTANTS}
    names |= {name: f"timeline.{name}" for name in time.SERIES}
    return names | {f"herd_{name}": f"herd.*.{name}" for name in DERIVED_CHOICES} | {"feed_origin": "feed.*.origin"}


CATALOGUE: Catalogue = catalogue(lines_of((*PHYSICS, *SHEETS, statements)), inputs=_input_names(), families=FAMILIES)


def items(structure: Structure) -> Items:
    """Items of each family as (table, name) pairs, in file order."""
    return {
        family: tuple((table, name) for table in tables for name in structure.items[table])
        for family, tables in FAMILIES.items()
    }


def choices(structure: Structure) -> Mapping[str, str]:
    """Choices of the scenario by path, and what follows from which table a substrate stands in."""
    derived = {f"{table}.{name}.origin": table for table, name in items(structure)["substrate"]}
    for name in structure.items["herd"]:
        derived |= {f"herd.{name}.supply_by": "own", f"herd.{name}.regulated": "no"}
    return {**structure.choices, **derived}


def timeline(structure: Structure) -> time.Timeline:
    """The months of the scenario."""
    return time.Timeline(*structure.first_month, structure.years)


def paths(structure: Structure, pattern: str) -> tuple[str, ...]:
    """Dotted paths of one declared input in a scenario: `feed.*.ts_share` once for every feed."""
    table, star, field = pattern.partition(".*.")
    return tuple(f"{table}.{name}.{field}" for name in structure.items[table]) if star else (pattern,)


def plan_of(structure: Structure) -> Plan:
    """The plan of all lines under the choices of one scenario."""
    varying = {path for pattern, item in declared().items() if item.kind in SERIES for path in paths(structure, pattern)}
    given = {f"timeline.{name}" for name in time.SERIES}
    return plan(CATALOGUE, items=items(structure), choices=choices(structure), monthly_inputs=varying | given)


def inputs(structure: Structure, values: Arrays) -> dict[str, npt.NDArray[np.float64]]:
    """All inputs of the lines: values by path, profiles and paths spread over the months, constants and time.

    values: dotted path -> (1 or draws, 1), profiles (1, 12), paths (1, 60). Returns series as (1, months).
    """
    months = timeline(structure)
    place = {SERIES["profile"]: months.calendar_month(), SERIES["path"]: np.arange(months.months) // time.MONTHS}
    spread = {path: array[:, place[array.shape[1]]] if array.shape[1] in place else array for path, array in values.items()}
    fixed = {f"constant.{constant.name}": np.array([[float(constant.value)]]) for constant in CONSTANTS}
    return {**spread, **fixed, **time.series(months)}
