"""Published defaults: tables of figures, each row with its source and how the figure is known.

A default is a starting point that the user replaces. Every row carries `source` (where it comes from) and `basis`
(read in the source, read second-hand, computed, from memory, or common practice with no source); a `Figure` hands
both on, with the unit, so that none of the three is lost on the way to a reader. Rows are found by their `id`.
"""

from __future__ import annotations

import csv
from bisect import bisect_left
from collections.abc import Callable, Iterable, Mapping
from dataclasses import dataclass, replace
from functools import cache
from math import isfinite
from pathlib import Path
from types import MappingProxyType

from appraisal.errors import AppraisalError
from appraisal.scenario.reference.columns import ABOUT, AXES, UNITS, basis_of, stem
from appraisal.scenario.reference.soil import soil_columns

_FOLDER = Path(__file__).parent
_NO_CURRENCY = ("", "any", "none")
_DERIVED: Mapping[str, Callable[[Mapping[str, str]], dict[str, str]]] = {"climates": soil_columns}  # added on reading


def _nothing_more(line: Mapping[str, str]) -> dict[str, str]:
    return {}


class UnknownName(AppraisalError, KeyError):  # noqa: N818 (its kinds read as what is unknown)
    """A table, row or column is asked for that is not there; the message lists likely names."""

    def __init__(self, kind: str, name: str, known: Iterable[str]) -> None:
        likely = _likely(name, tuple(known))
        self.likely = likely
        super().__init__(f"no {kind} {name!r}" + (f"; did you mean {', '.join(likely)}?" if likely else ""))

    def __str__(self) -> str:
        return str(self.args[0])


class UnknownTable(UnknownName):
    """No shipped table has this name."""


class UnknownRow(UnknownName):
    """No row of the table has this id."""


class UnknownColumn(UnknownName):
    """No column of the table has this name."""


class NoFigureError(AppraisalError, ValueError):
    """The cell is blank or holds words, or the table has no size to interpolate over."""


@dataclass(frozen=True, kw_only=True)
class Figure:
    """One number from a reference table, with all that must be shown beside it.

    value: the number [unit].
    low, high: its range [unit], None where the table gives none; what a range means is said by the row.
    unit: unit of all three. source: where it comes from. basis: how it is known.
    table, id, column: where it stands; id is `a to b` when interpolated between two rows.
    currency, price_year: of a money figure, None for any other.
    """

    value: float
    low: float | None
    high: float | None
    unit: str
    source: str
    basis: str
    table: str
    id: str
    column: str
    currency: str | None = None
    price_year: int | None = None


def tables() -> tuple[str, ...]:
    """Names of the shipped tables, in alphabetical order."""
    return tuple(sorted(ABOUT))


def about(table: str) -> str:
    """Say in one sentence what a table holds. Raises UnknownTable."""
    if table not in ABOUT:
        raise UnknownTable("reference table", table, ABOUT)
    return ABOUT[table]


@cache
def rows(table: str) -> tuple[Mapping[str, str], ...]:
    """Read all rows of a table, in file order, as read-only mappings of column to text. Raises UnknownTable."""
    about(table)
    derive = _DERIVED.get(table, _nothing_more)
    with (_FOLDER / f"{table}.csv").open(encoding="utf-8", newline="") as handle:
        return tuple(MappingProxyType({**line, **derive(line)}) for line in csv.DictReader(handle))


def row(table: str, id: str) -> Mapping[str, str]:
    """Find one row by its id. Raises UnknownTable, or UnknownRow with the likely ids."""
    found = _index(table).get(id)
    if found is None:
        raise UnknownRow(f"row of {table}", id, _index(table))
    return found


def figure(table: str, id: str, column: str) -> Figure:
    """Read one number with its unit, range, source and basis.

    Parameters
    ----------
    table, id, column : str
        Where it stands. A column `x_mid` or `x` takes its range from `x_low` and `x_high`, the column `mid` from
        `low` and `high`; any other column has no range.

    Raises
    ------
    UnknownTable, UnknownRow, UnknownColumn
        The name is not there; the message lists likely ones.
    NoFigureError
        The cell is blank or the column holds words.
    """
    line = row(table, id)
    unit = _unit(table, line, column)
    value = _number(line, column)
    if value is None:
        raise NoFigureError(f"{table}, row {id}: {column} is blank: no default, give your own figure [{unit}]")
    low, high = (_number(line, name) for name in _range_columns(line, column))
    currency = _currency(line, unit)
    return Figure(
        value=value, low=low, high=high, unit=unit, source=line["source"], basis=basis_of(table, column, line["basis"]),
        table=table, id=id, column=column, currency=currency, price_year=_year(line) if currency else None,
    )


def interpolated(table: str, column: str, *, at: float) -> Figure:
    """Read a number at a size between two rows: straight line, held at the first and last row beyond the table.

    Parameters
    ----------
    table, column : str
        A table with a size column (engines, over rated power) and a column of numbers in it.
    at : float
        Size, in the unit of the size column [kW electric for engines].

    Returns
    -------
    Figure
        Range interpolated in the same way; the source says between which rows, or which row was held.

    Raises
    ------
    NoFigureError
        The table has no size column, `at` is not a finite number, or a cell is blank.
    """
    if table not in AXES:
        raise NoFigureError(f"{about(table)} The table {table} has no size to interpolate over")
    if not isfinite(at):
        raise NoFigureError(f"{table}: cannot interpolate {column} at {at}")
    points = sorted((figure(table, line["id"], AXES[table]).value, line["id"]) for line in rows(table))
    place = bisect_left(points, (at, ""))
    if place == len(points) or points[place][0] == at or place == 0:
        return _held(points[min(place, len(points) - 1)], table, column, at)
    return _between(points[place - 1], points[place], table, column, at)


def _held(point: tuple[float, str], table: str, column: str, at: float) -> Figure:
    found = figure(table, point[1], column)
    if point[0] == at:
        return found
    note = f"row {point[1]} of {table}, held because {at:g} lies outside the table; {found.source}"
    return replace(found, source=note)


def _between(lower: tuple[float, str], upper: tuple[float, str], table: str, column: str, at: float) -> Figure:
    one, two = figure(table, lower[1], column), figure(table, upper[1], column)
    weight = (at - lower[0]) / (upper[0] - lower[0])

    def mix(left: float | None, right: float | None) -> float | None:
        return None if left is None or right is None else left + weight * (right - left)

    where = f"interpolated at {at:g} between the rows {one.id} and {two.id} of {table}"
    return replace(
        one, value=one.value + weight * (two.value - one.value), low=mix(one.low, two.low),
        high=mix(one.high, two.high), id=f"{one.id} to {two.id}",
        source=f"{where}; {_joined(one, two, one.source, two.source)}",
        basis=f"computed by interpolation; {_joined(one, two, one.basis, two.basis)}",
    )


def _joined(one: Figure, two: Figure, first: str, second: str) -> str:
    return first if first == second else f"row {one.id}: {first}; row {two.id}: {second}"


@cache
def _index(table: str) -> Mapping[str, Mapping[str, str]]:
    return MappingProxyType({line["id"]: line for line in rows(table)})


def _unit(table: str, line: Mapping[str, str], column: str) -> str:
    if column not in line:
        raise UnknownColumn(f"column of {table}", column, line)
    declared = UNITS[table].get(stem(column))
    if declared is None:
        raise NoFigureError(f"{table}: the column {column} holds words, not a number")
    if not declared.startswith("@"):
        return declared.format(currency=line.get("currency", ""))
    written = line[declared.removeprefix("@")]
    bare_money = written.startswith(("per ", "each")) and line.get("currency", "") not in _NO_CURRENCY
    return f"{line['currency']} {written}" if bare_money else written


def _number(line: Mapping[str, str], column: str | None) -> float | None:
    text = "" if column is None else line[column]
    return float(text) if text else None


def _range_columns(line: Mapping[str, str], column: str) -> tuple[str | None, str | None]:
    family = column.removesuffix("_mid")
    low, high = ("low", "high") if column == "mid" else (f"{family}_low", f"{family}_high")
    return (low, high) if low in line and high in line else (None, None)


def _currency(line: Mapping[str, str], unit: str) -> str | None:
    currency = line.get("currency", "")
    money = currency not in _NO_CURRENCY and (currency in unit or unit.startswith(("ct/", "p/")))
    return currency if money else None


def _year(line: Mapping[str, str]) -> int | None:
    return int(line["price_year"]) if line["price_year"].isdigit() else None


def _likely(name: str, known: tuple[str, ...]) -> tuple[str, ...]:
    from difflib import get_close_matches  # slow to import and needed only when a name is wrong

    lowered = name.lower()
    joined = "_".join(lowered.split())
    inside = [entry for entry in known if joined and (joined in entry.lower() or entry.lower() in joined)]
    return tuple(dict.fromkeys([*get_close_matches(lowered, known, n=4, cutoff=0.55), *inside]))[:6]
