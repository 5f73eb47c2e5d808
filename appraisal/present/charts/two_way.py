"""The worth, or the cover of the loan, over two assumptions at once."""

from __future__ import annotations

from collections.abc import Callable, Iterator
from dataclasses import dataclass, replace
from typing import Any

import altair as alt
import numpy as np
import numpy.typing as npt

from appraisal.present.charts.picture import BLUE, INK, MIDDLE_VERMILION, Chart, Picture, Rows, data, sized
from appraisal.present.naming import drawn_value, name_of
from appraisal.present.numbers import times
from appraisal.present.risk_tables import grid_table
from appraisal.present.risk_words import units_of
from appraisal.risk.grids import Grid
from appraisal.scenario.load import Loaded

DARK = 0.85  # of the widest shade: on blue the number stands in white from here on; on the other side ink is read well
CELL = 44  # height of a cell
LOOKS: dict[bool, dict[str, Any]] = {
    True: {"fontStyle": "italic"},
    False: {"fontWeight": "bold"},
}  # by whether it fails
NO_DEBT = "no loan due"
BORDER = "#999999"


@dataclass(frozen=True, eq=False)
class Shown:
    """What stands in the cells: values (rows, columns), and from which on they are good. said: of a value as text."""

    values: npt.NDArray[np.float64]
    limit: float
    what: str
    said: Callable[[float], str]
    failing: str


def two_way(loaded: Loaded, found: Grid, *, cover: bool = False) -> Picture:
    """The worth over two assumptions, or the least cover of the loan: a number and a shade in every cell.

    Where no loan falls due there is no cover, and the cell says so.
    """
    shown = _cover(loaded, found) if cover else _worth(loaded, found)
    title, known = _finding(loaded, found, shown), shown.values[np.isfinite(shown.values)]
    reach = f" From {shown.said(float(known.min()))} to {shown.said(float(known.max()))}." if known.size else ""
    return Picture(
        title,
        f"A table of {shown.what}: bold where it is good enough, slanted where it is not. {title}.{reach}",
        sized(alt.layer(*_layers(loaded, found, shown)), height=CELL * len(found.at_first)),
        replace(
            grid_table(loaded, found),
            title=f"Worth, {units_of(loaded).currency} (least cover): {_which(loaded, found)}",
        ),
    )


def _worth(loaded: Loaded, found: Grid) -> Shown:
    return Shown(
        found.npv, 0.0, f"the worth in {units_of(loaded).currency}", lambda worth: f"{worth:,.0f}", "It loses money"
    )


def _cover(loaded: Loaded, found: Grid) -> Shown:
    wanted = loaded.scenario.judging.least_cover
    failing = f"The least cover is under the wanted {wanted:.2f}"
    return Shown(found.cover, wanted, "the least cover of the loan, times", lambda cover: times(cover, wanted), failing)


def _widest(shown: Shown) -> float:
    """The farthest that a cell lies from the limit."""
    known = shown.values[np.isfinite(shown.values)]
    return float(np.abs(known - shown.limit).max(initial=0.0)) or 1.0


def _heads(loaded: Loaded, found: Grid) -> tuple[list[str], list[str]]:
    """The values down and across, as text."""
    down, across = (
        [drawn_value(loaded, path, float(value)) for value in values]
        for path, values in ((found.first, found.at_first), (found.second, found.at_second))
    )
    return down, across


def _rows(shown: Shown, down: list[str], across: list[str]) -> Rows:
    white = shown.limit + DARK * _widest(shown)
    return [
        {"down": row, "across": column, "amount": float(value) if np.isfinite(value) else shown.limit,
         "text": shown.said(float(value)) if np.isfinite(value) else NO_DEBT,
         "white": bool(value >= white), "fails": bool(value < shown.limit)}
        for row, line in zip(down, shown.values, strict=True)
        for column, value in zip(across, line, strict=True)
    ]  # fmt: skip


def _layers(loaded: Loaded, found: Grid, shown: Shown) -> Iterator[Chart]:
    """The shaded cells, then their numbers: slanted where the limit is not met, bold elsewhere."""
    down, across = _heads(loaded, found)
    rows, widest = _rows(shown, down, across), _widest(shown)
    ends = [shown.limit - widest, shown.limit, shown.limit + widest]
    at = {
        "x": alt.X("across:N", sort=across, title=name_of(loaded, found.second)),
        "y": alt.Y("down:N", sort=down, title=name_of(loaded, found.first), axis=alt.Axis(grid=False)),
    }
    shade = alt.Scale(domain=ends, range=[MIDDLE_VERMILION, "#ffffff", BLUE], interpolate="rgb")
    tips = ["down:N", "across:N", alt.Tooltip("text:N", title=shown.what)]
    cells = alt.Chart(data(rows)).mark_rect(stroke=BORDER)
    yield cells.encode(**at, color=alt.Color("amount:Q", scale=shade, legend=None), tooltip=tips)
    ink = alt.condition("datum.white", alt.value("white"), alt.value(INK))
    for fails, look in LOOKS.items():
        words = alt.Chart(data(row for row in rows if row["fails"] is fails)).mark_text(**look)
        yield words.encode(**at, text="text:N", color=ink)


def _finding(loaded: Loaded, found: Grid, shown: Shown) -> str:
    failing, size = int((shown.values < shown.limit).sum()), shown.values.size
    cells = f"all {size}" if failing == size else f"{failing} of {size}"
    return f"{shown.failing} in {cells} cells: {_which(loaded, found)}"


def _which(loaded: Loaded, found: Grid) -> str:
    """Which assumption runs down and which across."""
    return f"{name_of(loaded, found.first)} down, {name_of(loaded, found.second)} across"
