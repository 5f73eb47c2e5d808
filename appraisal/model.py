"""The whole model: the catalogue of all lines, checked at import, and how one scenario becomes plan and inputs."""

from __future__ import annotations

from collections.abc import Mapping
from functools import lru_cache
from typing import Any

import numpy as np
import numpy.typing as npt

from appraisal import timeline as time
from appraisal.cash_flow import (
    balance_sheet,
    capital,
    cleaning_costs,
    contracted,
    credits,
    dates,
    depreciation,
    digester_care,
    fertilizer,
    gained,
    gas_sales,
    grants,
    heat_value,
    income_statement,
    labour,
    loan,
    loan_prepaid,
    loan_schedule,
    loan_sum,
    lock_up,
    other_income,
    overhauls,
    power_sales,
    power_saved,
    replacement_feed,
    reserves,
    running_costs,
    sales_tax,
    sources_uses,
    statements,
    stopping,
    sweep,
    tax,
    tax_basis,
    tax_credit,
    tax_year,
    tipping_fees,
    totals,
    working_capital,
)
from appraisal.cash_flow import bedding as bedding_sheet
from appraisal.constants import CONSTANTS
from appraisal.lines.catalogue import Catalogue, catalogue
from appraisal.lines.define import lines_of
from appraisal.lines.plan import Items, Plan, plan
from appraisal.scenario.model import declared
from appraisal.scenario.quantity import SERIES
from appraisal.scenario.values import Structure
from appraisal.technical_yield import (
    ammonia,
    bedding,
    cleaning,
    conversion,
    credit_tonnes,
    crop_nutrients,
    deliveries,
    digestate,
    digestate_parts,
    emissions,
    emissions_energy,
    emissions_landfill,
    emissions_manure,
    emissions_store_model,
    engine,
    engine_failure,
    events,
    feed,
    feed_balance,
    gas,
    gas_use,
    heat_coldest_day,
    heat_filling,
    heat_need,
    heat_shell,
    heat_use,
    herd,
    herd_water,
    kinetics,
    land,
    mix,
    nutrient_gain,
    overhaul_hours,
    own_use,
    part_load,
    potential,
    power,
    retention,
    start_up,
    upgrading,
    volume,
)

PHYSICS = (
    *(time, events, start_up, herd, bedding, herd_water, feed, mix, deliveries, potential),
    *(volume, retention, kinetics, conversion, gas),
    *(cleaning, upgrading, engine_failure, overhaul_hours, part_load, engine, gas_use),
    *(heat_shell, heat_need, heat_filling, heat_coldest_day, heat_use, own_use, power),
    *(
        digestate,
        digestate_parts,
        crop_nutrients,
        land,
        nutrient_gain,
        feed_balance,
        ammonia,
        emissions_manure,
        emissions_store_model,
        emissions_landfill,
        emissions_energy,
        emissions,
        credit_tonnes,
    ),
)
SHEETS = (
    *(
        dates,
        power_sales,
        power_saved,
        gas_sales,
        tipping_fees,
        fertilizer,
        bedding_sheet,
        credits,
        heat_value,
        other_income,
    ),
    *(labour, running_costs, cleaning_costs, digester_care, replacement_feed, overhauls),
    *(capital, sales_tax, grants, loan_schedule, loan_sum, loan, loan_prepaid, reserves, lock_up, sweep, working_capital),
    *(tax_year, tax_basis, depreciation, tax, tax_credit, sources_uses),
)
STATEMENTS = (totals, statements, gained, contracted, income_statement, balance_sheet, stopping)
FAMILIES: Mapping[str, tuple[str, ...]] = {
    "substrate": ("herd", "feed"),
    "engine": ("engine",),
    "other_income": ("other_income",),
    "task": ("task",),
    "running_cost": ("running_cost",),
    "capital": ("capital",),
    "carbon_claim": ("carbon_claim",),
    "crop": ("crop",),
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


CATALOGUE: Catalogue = catalogue(lines_of((*PHYSICS, *SHEETS, *STATEMENTS)), inputs=_input_names(), families=FAMILIES)


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
    """The plan of all lines under the choices of one scenario; the last few are kept, for a change of number alters none."""
    return _plan(tuple(items(structure).items()), tuple(choices(structure).items()), _varying(structure))


def _varying(structure: Structure) -> frozenset[str]:
    """Full names of all inputs that are series of months."""
    series = (pattern for pattern, item in declared().items() if item.kind in SERIES)
    return frozenset(path for pattern in series for path in paths(structure, pattern))


@lru_cache(maxsize=8)
def _plan(named: tuple[Any, ...], chosen: tuple[tuple[str, str], ...], varying: frozenset[str]) -> Plan:
    given = {f"timeline.{name}" for name in time.SERIES}
    return plan(CATALOGUE, items=dict(named), choices=dict(chosen), monthly_inputs=varying | given)


def inputs(structure: Structure, values: Arrays) -> dict[str, npt.NDArray[np.float64]]:
    """All inputs of the lines: values by path, profiles and paths spread over the months, constants and time.

    values: dotted path -> (1 or draws, 1), profiles (1, 12), paths (1, 60). Returns series as (1, months).
    """
    months = timeline(structure)
    spread = by_month(months, values)
    fixed = {f"constant.{constant.name}": np.array([[float(constant.value)]]) for constant in CONSTANTS}
    return {**spread, **fixed, **time.series(months)}


def by_month(months: time.Timeline, values: Arrays) -> dict[str, npt.NDArray[np.float64]]:
    """Profiles (.., 12) and paths (.., 60) spread over the months of the model; single values (.., 1) as they are."""
    place = {SERIES["profile"]: months.calendar_month(), SERIES["path"]: np.arange(months.months) // time.MONTHS}
    return {path: array[:, place[array.shape[1]]] if array.shape[1] in place else array for path, array in values.items()}
