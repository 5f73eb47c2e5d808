"""Why: which assumption moves the worth most, and a table of two of them."""

from __future__ import annotations

import altair as alt
import numpy as np

from appraisal.present.charts.picture import BLUE, INK, VERMILION, Picture, Rows, data, money_axis, rule_at, sized
from appraisal.present.naming import name_of, value_text
from appraisal.present.numbers import Units
from appraisal.present.risk_tables import grid_table, swing_table
from appraisal.present.risk_words import units_of
from appraisal.risk.grids import Grid
from appraisal.risk.swings import Swing, Swings
from appraisal.scenario.load import Loaded

MOST = 10
LOW_END, HIGH_END = "at its low end", "at its high end"
ROOM = 0.3  # of the span of the bars, left on both sides for the values
DARK = 0.62  # of the widest shade: from here on the number stands in white


def ranked_swings(loaded: Loaded, found: Swings) -> Picture:
    """Assumptions in the order of how much each by itself moves the worth, from its low to its high end."""
    units, swings = units_of(loaded), found.swings[:MOST]
    names = {each.path: name_of(loaded, each.path) for each in swings}
    rows: Rows = [
        {"name": names[each.path], "end": end, "from": found.npv, "to": worth, "at": text, "down": worth < found.npv}
        for each in swings
        for end, worth, text in _ends(each, units)
    ]
    order = [names[each.path] for each in swings]
    reached = [found.npv, *(float(row["to"]) for row in rows)]
    room = ROOM * ((max(reached) - min(reached)) or 1.0)
    scale = alt.Scale(domain=[min(reached) - room, max(reached) + room], nice=False)
    at = {
        "y": alt.Y("name:N", sort=order, title=None, axis=alt.Axis(labelLimit=330)),
        "yOffset": alt.YOffset("end:N", sort=[LOW_END, HIGH_END]),
    }
    worth_axis = alt.X("from:Q", axis=money_axis(f"worth in today's money, {units.currency}"), scale=scale)
    hue = alt.Color("end:N", title=None, scale=alt.Scale(domain=[LOW_END, HIGH_END], range=[VERMILION, BLUE]))
    tips = ["name:N", "end:N", "at:N", alt.Tooltip("to:Q", format=",.0f", title="worth")]
    bars = alt.Chart(data(rows)).mark_bar().encode(x=worth_axis, x2="to:Q", color=hue, tooltip=tips, **at)
    words = [
        alt.Chart(data(row for row in rows if row["down"] is down))
        .mark_text(align="right" if down else "left", dx=-4 if down else 4, fontSize=11)
        .encode(x=alt.X("to:Q", scale=scale), text="at:N", **at)
        for down in (True, False)
    ]
    zero = [rule_at(0.0, axis="x")] if min(reached) - room <= 0 <= max(reached) + room else []
    title = _finding(found, names, units.currency)
    return Picture(
        title,
        f"Bars of how far the worth moves when one assumption alone moves to {found.by}, the widest first. {title}.",
        sized(
            alt.layer(bars, *words, rule_at(found.npv, label="the plan", axis="x", dash="long"), *zero),
            height=40 * len(order),
        ),
        swing_table(loaded, found),
    )


def _ends(each: Swing, units: Units) -> tuple[tuple[str, float, str], tuple[str, float, str]]:
    """Both ends of a swing: which, the worth there [money], and the value there as text."""
    low, high = (value_text(value, each.unit, units) for value in (each.low, each.high))
    return (LOW_END, each.npv_low, low), (HIGH_END, each.npv_high, high)


def _finding(found: Swings, names: dict[str, str], currency: str) -> str:
    if not found.swings:
        return "Nothing carries a range, so nothing can be ranked"
    first = found.swings[0]
    low, high = sorted((first.npv_low, first.npv_high))
    turns = "between losing and gaining" if low < 0 <= high else "but never turns the sign"
    return f"{names[first.path]} moves the worth most, from {low:,.0f} to {high:,.0f} {currency}, {turns}"


def two_way(loaded: Loaded, found: Grid) -> Picture:
    """The worth over two assumptions: a number and a shade in every cell."""
    units = units_of(loaded)
    kinds = {path: loaded.assumptions[path].declaration for path in (found.first, found.second)}
    labels = {path: name_of(loaded, path) for path in kinds}
    down, across = (
        [value_text(float(value), kinds[path].unit, units) for value in values]
        for path, values in ((found.first, found.at_first), (found.second, found.at_second))
    )
    widest = float(np.abs(found.npv).max()) or 1.0
    rows: Rows = [
        {"down": down[i], "across": across[k], "worth": float(found.npv[i, k]), "text": f"{found.npv[i, k]:,.0f}",
         "white": bool(abs(found.npv[i, k]) >= DARK * widest), "loses": bool(found.npv[i, k] < 0)}
        for i in range(len(down))
        for k in range(len(across))
    ]  # fmt: skip
    at_y = alt.Y("down:N", sort=down, title=labels[found.first], axis=alt.Axis(grid=False))
    at_x = alt.X("across:N", sort=across, title=labels[found.second])
    shade = alt.Scale(domain=[-widest, 0, widest], range=[VERMILION, "#ffffff", BLUE], interpolate="rgb")
    tips = ["down:N", "across:N", alt.Tooltip("worth:Q", format=",.0f")]
    cells = alt.Chart(data(rows)).mark_rect(stroke="#999999").encode(
        x=at_x, y=at_y, color=alt.Color("worth:Q", scale=shade, legend=None), tooltip=tips
    )  # fmt: skip
    ink = alt.condition("datum.white", alt.value("white"), alt.value(INK))
    slanted = (
        alt.Chart(data(row for row in rows if row["loses"]))
        .mark_text(fontStyle="italic")
        .encode(x=at_x, y=at_y, text="text:N", color=ink)
    )
    bold = (
        alt.Chart(data(row for row in rows if not row["loses"]))
        .mark_text(fontWeight="bold")
        .encode(x=at_x, y=at_y, text="text:N", color=ink)
    )
    losing = int((found.npv < 0).sum())
    title = (
        f"It loses money in {losing} of {found.npv.size} cells: {labels[found.first]} down, "
        f"{labels[found.second]} across"
    )
    return Picture(
        title,
        f"A table of the worth in {units.currency}: bold where it does not lose money, slanted where it does. {title}. "
        f"From {found.npv.min():,.0f} to {found.npv.max():,.0f}.",
        sized(alt.layer(cells, slanted, bold), height=44 * len(down)),
        grid_table(loaded, found),
    )
