"""The design sheet: the first full year month by month, for every reader, the worst month of each figure marked."""

from __future__ import annotations

from collections.abc import Callable, Iterator
from dataclasses import dataclass
from typing import Any, Literal

import numpy as np
import numpy.typing as npt

from appraisal.appraise import Appraisal
from appraisal.lines.evaluate import MONTHS
from appraisal.present.numbers import alike
from appraisal.present.tables import Table, units_of
from appraisal.scenario.units import shown
from appraisal.technical_yield.plant_year import months_of

Months = npt.NDArray[np.float64]
MARK, NO_MARK = " *", "  "
SAME = 1e-9  # of the largest figure: months that lie closer are alike, and none is the worst


@dataclass(frozen=True)
class Column:
    """One figure of the sheet.

    key: its name in JSON, the unit at its end. head: over the column. unit: of the values, for display.
    months: twelve values, None where this plant has no such figure. worst: which end is the worse one, None when neither is.
    flow: True for what adds up over a month; its worst month is judged per day, so that February is not always the one.
    """

    key: str
    head: str
    unit: str
    months: Callable[[Appraisal], Months | None]
    worst: Literal["high", "low"] | None
    flow: bool = False


def line(name: str, scale: float = 1.0) -> Callable[[Appraisal], Months | None]:
    """Twelve months of one line of the model, None where it does not exist for this plant."""

    def read(appraisal: Appraisal) -> Months | None:
        known = name in appraisal.values
        return scale * months_of(appraisal.values, name, year=appraisal.plant.year) if known else None

    return read


def over(top: str, bottom: str, scale: float = 1.0) -> Callable[[Appraisal], Months | None]:
    """One line over another by month, 0 where the lower one is 0."""

    def read(appraisal: Appraisal) -> Months | None:
        upper, lower = (months_of(appraisal.values, name, year=appraisal.plant.year) for name in (top, bottom))
        return np.asarray(scale * upper / np.where(lower > 0, lower, np.inf))

    return read


def load(appraisal: Appraisal) -> Months:
    """Mean load of the engines while they run, by rated power and hours [share]."""
    year, engines = appraisal.plant.year, appraisal.loaded.scenario.engine
    power = months_of(appraisal.values, "power_gross", year=year)
    full = sum(
        months_of(appraisal.values, f"engine.{name}.hours", year=year) * engine.rated_kw
        for name, engine in engines.items()
    )
    return np.asarray(power / np.where(np.asarray(full) > 0, full, np.inf))


def heat_left(appraisal: Appraisal) -> Months:
    """Heat from the gas less what the digester needs, house and barn not yet served; below zero heat is bought [kWh/month]."""
    names = ("heat_recoverable", "heat_from_boiler", "heat_to_digester")
    engine, boiler, need = (months_of(appraisal.values, name, year=appraisal.plant.year) for name in names)
    return np.asarray(engine + boiler - need)


TANK = (
    Column("fed_t", "fed", "t", line("tonnes_fed"), None),
    Column("dry_matter_fed_share", "dry matter\nfed", "%", over("dry_matter_fed", "tonnes_fed", 100), "high"),
    Column("tank_dry_matter_share", "dry matter\nin the tank", "%", line("tank_dry_matter", 100), "high"),
    Column("retention_days", "retention", "day", line("retention"), "low"),
    Column("first_tank_retention_days", "in the\nfirst tank", "day", line("first_retention"), "low"),
    Column("second_tank_retention_days", "in the\nsecond tank", "day", line("second_retention"), "low"),
    Column("loading_kg_vs_per_m3_day", "loading", "kg VS/m3/day", line("loading_rate"), "high"),
    Column("ammonium_n_kg_per_m3", "ammonium\nN, g/L", "", line("ammonium_level"), "high"),
    Column("free_ammonia_low_kg_per_m3", "free ammonia\nN low, g/L", "", line("free_ammonia_low"), "high"),
    Column("free_ammonia_high_kg_per_m3", "free ammonia\nN high, g/L", "", line("free_ammonia_high"), "high"),
)
GAS = (
    Column("biogas_nm3", "gas", "Nm3", line("biogas_made"), "low", flow=True),
    Column("methane_nm3", "methane", "Nm3", line("methane_made"), "low", flow=True),
    Column("methane_flared_nm3", "flared", "Nm3", line("methane_flared"), "high", flow=True),
    Column("power_gross_kwh", "gross\npower", "kWh", line("power_gross"), "low", flow=True),
    Column("engine_load_share", "engine\nload", "%", lambda appraisal: 100 * load(appraisal), "low"),
    Column("heat_needed_kwh", "digester\nheat", "kWh", line("heat_to_digester"), "high", flow=True),
    Column("heat_from_gas_left_kwh", "heat after\ndigester", "kWh", heat_left, "low", flow=True),
    Column("heat_bought_kwh", "heat\nbought", "kWh", line("heat_shortfall"), "high", flow=True),
    Column("digestate_t", "digestate", "t", line("digestate_mass"), None),
    Column("store_level_m3", "store\nlevel", "m3", line("store_filled"), "high"),
)
SHARES = {column.key for column in (*TANK, *GAS) if column.key.endswith("_share")}


def design_tables(appraisal: Appraisal) -> tuple[Table, Table]:
    """The sheet as two tables, feed and tank, then gas, power and heat; a star marks the worst month of a column."""
    year = appraisal.plant.year
    star = "a star marks the worst month of a column, amounts taken per day"
    return (
        _table(f"Feed and tank by month of project year {year}; {star}", TANK, appraisal),
        _table(f"Gas, power and heat by month of project year {year}; {star}", GAS, appraisal),
    )


def design_months(appraisal: Appraisal) -> list[dict[str, Any]]:
    """Twelve mappings in SI: the month, every figure this plant has, and the figures for which it is the worst month."""
    held = list(_held((*TANK, *GAS), appraisal))
    days = days_of(appraisal)
    worst = {column.key: worst_month(column, months, days=days) for column, months in held}
    return [
        {
            "month": name,
            **{column.key: float(months[m]) / (100 if column.key in SHARES else 1) for column, months in held},
            "worst": [key for key, month in worst.items() if month == m],
        }
        for m, name in enumerate(month_names(appraisal))
    ]


def worst_month(column: Column, months: Months, *, days: Months) -> int | None:
    """Place of the worst month, 0 to 11, the first of several; None where neither end is worse or all months are alike.

    months: in the unit of the column. days: of each month.
    """
    if column.worst is None:
        return None
    judged = (months / days if column.flow else months) * (1 if column.worst == "high" else -1)
    slack = SAME * np.abs(judged).max()
    return None if np.ptp(judged) <= slack else int(np.argmax(judged >= judged.max() - slack))


def days_of(appraisal: Appraisal) -> Months:
    """Days of the twelve months of the first full year."""
    return months_of(appraisal.values, "timeline.days", year=appraisal.plant.year)


def month_names(appraisal: Appraisal) -> list[str]:
    """The twelve months of the first full year as year and month."""
    start = (appraisal.plant.year - 1) * MONTHS
    return [appraisal.timeline.name(start + m) for m in range(MONTHS)]


def _held(columns: tuple[Column, ...], appraisal: Appraisal) -> Iterator[tuple[Column, Months]]:
    for column in columns:
        months = column.months(appraisal)
        if months is not None:
            yield column, months


def _table(title: str, columns: tuple[Column, ...], appraisal: Appraisal) -> Table:
    units, held = units_of(appraisal), list(_held(columns, appraisal))
    cells = []
    heads = ["month"]
    for column, months in held:
        worst = worst_month(column, months, days=days_of(appraisal))
        pairs = [shown(float(value), column.unit, system=units.system, currency=units.currency) for value in months]
        numbers = alike(number for number, _ in pairs)
        cells.append([f"{number}{MARK if m == worst else NO_MARK}" for m, number in enumerate(numbers)])
        heads.append(f"{column.head}\n{pairs[0][1]}{NO_MARK}")
    names = month_names(appraisal)
    rows = tuple((name, *(column[m] for column in cells)) for m, name in enumerate(names))
    return Table(title, tuple(heads), rows)
