"""An explanation as titled tables and as text."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import asdict
from textwrap import fill, shorten
from typing import Any

from appraisal.present.explanation import Explanation, Part
from appraisal.present.numbers import rounded
from appraisal.present.tables import Table
from appraisal.timeline import said_month

ABREAST = 6  # series beside each other in one table
NEAREST = 30  # inputs shown on the terminal unless all are asked for
NAME_WIDTH, SOURCE_WIDTH, PAGE_WIDTH = 44, 60, 110
LONGEST_SOURCE = 120  # characters of a source on the terminal; the JSON object and the screen hold all of it
TINY = 1e-4  # below it a number is written with its power of ten


def sentences(told: Explanation) -> tuple[str, ...]:
    """What the figure is, its value, its equation and where the relation comes from."""
    figure = told.figure
    value = f"{_number(figure.value)} {figure.value_unit}".removesuffix(" 1")
    when = f"in project year {told.year} ({said_month(told.months[0])} to {said_month(told.months[-1])}), {figure.summary}"
    first = f"{figure.label} is {value} {when}."
    if figure.origin is not None:
        return (first, told.meaning, f"Source: {figure.origin.source}. How it is known: {figure.origin.known}.")
    return (first, told.meaning, f"{figure.name} = {told.equation}", f"Source of the relation: {told.source}.")


def parts_table(told: Explanation) -> Table:
    """What the equation reads: one row a value, with its number for the year and where it comes from."""
    rows = tuple(
        (each.name, _label(each), _number(each.value), each.value_unit, each.summary, _from(each))
        for each in told.parts
    )
    head = ("name", "what", "number", "unit", "for the year", "from")
    return Table(f"What went into {told.figure.label.lower()}, project year {told.year}", head, rows)


def months_tables(told: Explanation) -> Iterator[Table]:
    """The same month by month: the series that go in and the figure itself; single values stand in the other table."""
    series = [each for each in told.parts if len(each.months) > 1]
    for start in range(0, max(len(series), 1), ABREAST):
        shown = (*series[start : start + ABREAST], told.figure)
        if len(told.figure.months) == 1 and not series:
            return
        head = ("month", *(f"{_short(each)}\n{each.unit}" for each in shown))
        rows = tuple(
            (name, *(_number(each.months[place % len(each.months)]) for each in shown))
            for place, name in enumerate(told.months)
        )
        yield Table(f"{told.figure.label}, month by month", head, rows)


def inputs_table(told: Explanation, *, most: int | None = None) -> Table:
    """Every input below the figure with its source, the nearest first; most: how many rows, None for all."""
    shown = told.inputs[:most]
    rows = tuple((each.name, each.label, _number(each.value), each.value_unit, *_source(each)) for each in shown)
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
    """All of it as one plain mapping."""
    return {"schema": 1, **asdict(told)}


def _number(value: float) -> str:
    return f"{value:.3g}" if 0 < abs(value) < TINY else rounded(value)


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
