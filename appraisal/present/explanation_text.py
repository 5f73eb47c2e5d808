"""An explanation as titled tables and as text."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import asdict
from textwrap import fill, shorten
from typing import Any

from appraisal.present.citing import without
from appraisal.present.explanation import Explanation, Part
from appraisal.present.numbers import Units, rounded
from appraisal.present.tables import Table
from appraisal.timeline import said_month

ABREAST = 6  # series beside each other in one table
NEAREST = 30  # inputs shown on the terminal unless all are asked for
NAME_WIDTH, SOURCE_WIDTH, PAGE_WIDTH = 44, 60, 110
LONGEST_SOURCE = 120  # characters of a source on the terminal; the JSON object and the screen hold all of it
AS_READ = "as the equation\nreads it"
TINY = 1e-4  # below it a number is written with its power of ten


def sentences(told: Explanation) -> tuple[str, ...]:
    """What the figure is, its value, its equation and where the relation comes from."""
    figure = told.figure
    value = _said(figure.value, figure.value_unit, told.units)
    when = f"in project year {told.year} ({said_month(told.months[0])} to {said_month(told.months[-1])}), {figure.summary}"
    first = f"{figure.label} is {value} {when}."
    if figure.origin is not None:
        return (first, told.meaning, f"Source: {figure.origin.source}. How it is known: {figure.origin.known}.")
    return (first, told.meaning, f"{figure.name} = {told.equation}", f"Source of the relation: {told.source}.")


def parts_table(told: Explanation) -> Table:
    """What the equation reads: one row a value, with its number for the year and where it comes from.

    Where the reader's units are not those of the equation, a column more holds what the equation reads.
    """
    rows = tuple(
        (each.name, _label(each), *_cells(each.value, each.value_unit, told.units), each.summary, _from(each), _read(each, told))
        for each in told.parts
    )
    title = f"What went into {told.figure.label[:1].lower()}{told.figure.label[1:]}, project year {told.year}"
    table = Table(title, ("name", "what", "number", "unit", "for the year", "from", AS_READ), rows)
    return table if any(row[-1] for row in rows) else without(table, AS_READ)


def months_tables(told: Explanation) -> Iterator[Table]:
    """The same month by month: the series that go in and the figure itself; single values stand in the other table."""
    series = [each for each in told.parts if len(each.months) > 1]
    for start in range(0, max(len(series), 1), ABREAST):
        shown = (*series[start : start + ABREAST], told.figure)
        if len(told.figure.months) == 1 and not series:
            return
        head = ("month", *(f"{_short(each)}\n{_cells(0.0, each.unit, told.units)[1]}" for each in shown))
        rows = tuple(
            (name, *(_cells(each.months[place % len(each.months)], each.unit, told.units)[0] for each in shown))
            for place, name in enumerate(told.months)
        )
        yield Table(f"{told.figure.label}, month by month", head, rows)


def inputs_table(told: Explanation, *, most: int | None = None) -> Table:
    """Every input below the figure with its source, the nearest first; most: how many rows, None for all."""
    shown = told.inputs[:most]
    rows = tuple((each.name, each.label, *_cells(each.value, each.value_unit, told.units), *_source(each)) for each in shown)
    more = f"; the nearest {len(shown)}" if len(shown) < len(told.inputs) else ""
    head = ("name", "what", "value", "unit", "source", "how it is known")
    return Table(f"It rests on {len(told.inputs)} inputs and constants{more}", head, rows)


def explanation_tables(told: Explanation) -> tuple[Table, ...]:
    """All of it for a screen: parts, months, inputs."""
    return (parts_table(told), *months_tables(told), inputs_table(told))


def explanation_page(told: Explanation, *, every: bool = False) -> str:
    """All of it for the terminal; every: list each input, however far below."""
    from appraisal.present.page import table

    told_tables = (parts_table(told), *months_tables(told), inputs_table(told, most=None if every else NEAREST))
    texts = [fill(each, PAGE_WIDTH, subsequent_indent="    ") for each in sentences(told) if each]
    tables = [table(_narrow(each)) for each in told_tables if each.rows]
    return "\n\n".join(("\n".join(texts), *tables)) + "\n"


def explanation_object(told: Explanation) -> dict[str, Any]:
    """All of it as one plain mapping, in the units that the equations read."""
    return {"schema": 1, **{name: value for name, value in asdict(told).items() if name != "units"}}


def _number(value: float) -> str:
    return f"{value:.3g}" if 0 < abs(value) < TINY else rounded(value)


def _cells(value: float, unit: str, units: Units) -> tuple[str, str]:
    """Number and unit as their reader knows them."""
    number, label = units.number(value, unit) if unit else (value, "")
    return _number(number), label


def _said(value: float, unit: str, units: Units) -> str:
    """A value in the reader's unit, and in the equation's where that is another."""
    number, label = _cells(value, unit, units)
    own = f" ({_number(value)} {unit})" if label != unit else ""
    return f"{number} {label}".removesuffix(" 1") + own


def _read(part: Part, told: Explanation) -> str:
    unit = part.value_unit
    return f"{_number(part.value)} {unit}" if _cells(0.0, unit, told.units)[1] != unit else ""


def _label(part: Part) -> str:
    return f"{part.label} ({part.reading})" if part.reading else part.label


def _from(part: Part) -> str:
    return "a line of its own" if part.origin is None else part.origin.source


def _source(part: Part) -> tuple[str, str]:
    return (part.origin.source, part.origin.known) if part.origin else ("", "")


def _short(part: Part) -> str:
    name = part.name.replace(".", "\n").replace("_", " ")
    return fill(name, 14) if "\n" not in name else name


def _narrow(each: Table) -> Table:
    """Long texts cut to what a terminal holds."""
    if each.head[0] == "month":
        return each
    widths = {"what": NAME_WIDTH, "from": SOURCE_WIDTH, "source": SOURCE_WIDTH, "how it is known": NAME_WIDTH}
    rows = tuple(
        tuple(
            fill(shorten(cell, LONGEST_SOURCE, placeholder=" ..."), widths[head]) if head in widths else cell
            for head, cell in zip(each.head, row, strict=True)
        )
        for row in each.rows
    )
    return Table(each.title, each.head, rows)
