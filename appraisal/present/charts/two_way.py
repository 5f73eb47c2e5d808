"""The worth over two assumptions at once."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import replace
from typing import Any

import altair as alt
import numpy as np

from appraisal.present.charts.picture import BLUE, INK, MIDDLE_VERMILION, Chart, Picture, Rows, data, sized, whole
from appraisal.present.naming import drawn_value, name_of
from appraisal.present.risk_tables import grid_table
from appraisal.present.risk_words import units_of
from appraisal.risk.grids import Grid
from appraisal.scenario.load import Loaded

DARK = 0.62  # of the widest shade: on blue the number stands in white from here on; on the other side ink is read well
CELL = 44  # height of a cell
LOOKS: dict[bool, dict[str, Any]] = {
    True: {"fontStyle": "italic"},
    False: {"fontWeight": "bold"},
}  # by whether it loses
BORDER = "#999999"


def two_way(loaded: Loaded, found: Grid) -> Picture:
    """The worth over two assumptions: a number and a shade in every cell."""
    title = _finding(loaded, found)
    return Picture(
        title,
        f"A table of the worth in {units_of(loaded).currency}: bold where it does not lose money, slanted where it does. "
        f"{title}. From {found.npv.min():,.0f} to {found.npv.max():,.0f}.",
        sized(alt.layer(*_layers(loaded, found)), height=CELL * len(found.at_first)),
        replace(
            grid_table(loaded, found),
            title=f"Worth, {units_of(loaded).currency} (least cover): {_which(loaded, found)}",
        ),
    )


def _widest(found: Grid) -> float:
    return float(np.abs(found.npv).max()) or 1.0


def _heads(loaded: Loaded, found: Grid) -> tuple[list[str], list[str]]:
    """The values down and across, as text."""
    down, across = (
        [drawn_value(loaded, path, float(value)) for value in values]
        for path, values in ((found.first, found.at_first), (found.second, found.at_second))
    )
    return down, across


def _rows(found: Grid, down: list[str], across: list[str]) -> Rows:
    white = DARK * _widest(found)
    return [
        {"down": row, "across": column, "worth": float(worth), "text": f"{worth:,.0f}",
         "white": bool(worth >= white), "loses": bool(worth < 0)}
        for row, line in zip(down, found.npv, strict=True)
        for column, worth in zip(across, line, strict=True)
    ]  # fmt: skip


def _layers(loaded: Loaded, found: Grid) -> Iterator[Chart]:
    """The shaded cells, then their numbers: slanted where money is lost, bold elsewhere."""
    down, across = _heads(loaded, found)
    rows, widest = _rows(found, down, across), _widest(found)
    at = {
        "x": alt.X("across:N", sort=across, title=name_of(loaded, found.second)),
        "y": alt.Y("down:N", sort=down, title=name_of(loaded, found.first), axis=alt.Axis(grid=False)),
    }
    shade = alt.Scale(domain=[-widest, 0, widest], range=[MIDDLE_VERMILION, "#ffffff", BLUE], interpolate="rgb")
    tips = ["down:N", "across:N", whole("worth")]
    cells = alt.Chart(data(rows)).mark_rect(stroke=BORDER)
    yield cells.encode(**at, color=alt.Color("worth:Q", scale=shade, legend=None), tooltip=tips)
    ink = alt.condition("datum.white", alt.value("white"), alt.value(INK))
    for loses, look in LOOKS.items():
        words = alt.Chart(data(row for row in rows if row["loses"] is loses)).mark_text(**look)
        yield words.encode(**at, text="text:N", color=ink)


def _finding(loaded: Loaded, found: Grid) -> str:
    losing = int((found.npv < 0).sum())
    cells = f"all {found.npv.size}" if losing == found.npv.size else f"{losing} of {found.npv.size}"
    return f"It loses money in {cells} cells: {_which(loaded, found)}"


def _which(loaded: Loaded, found: Grid) -> str:
    """Which assumption runs down and which across."""
    return f"{name_of(loaded, found.first)} down, {name_of(loaded, found.second)} across"
