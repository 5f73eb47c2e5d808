"""Why: which assumption moves the worth most."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import replace
from typing import Any

import altair as alt

from appraisal.present.charts.picture import (
    BLUE,
    HALO,
    VERMILION,
    Chart,
    Picture,
    Rows,
    data,
    layered,
    money_axis,
    outlined,
    rule_at,
    sized,
    whole,
    words_on_lines,
)
from appraisal.present.naming import name_of, swing_value
from appraisal.present.numbers import Units
from appraisal.present.risk_tables import swing_table
from appraisal.present.risk_words import units_of
from appraisal.present.tables import Table
from appraisal.risk.swings import Swing, Swings
from appraisal.scenario.load import Loaded

MOST = 10
NAME_LETTERS = 30  # of a line of a name
LOW_END, HIGH_END = "at its low end", "at its high end"
HUES = {LOW_END: VERMILION, HIGH_END: BLUE}
ROOM = 0.5  # of the span of the bars, left on both sides for the values
LOOKS: dict[bool, dict[str, Any]] = {True: {"align": "right", "dx": -4}, False: {"align": "left", "dx": 4}}  # by `down`
NAMES = alt.Axis(labelExpr=words_on_lines(NAME_LETTERS), labelLimit=220, labelLineHeight=13, labelPadding=4)
BAR = 44  # height of both bars of an assumption


def ranked_swings(loaded: Loaded, found: Swings) -> Picture:
    """Assumptions in the order of how much each by itself moves the worth, from its low to its high end."""
    currency, names = units_of(loaded).currency, [name_of(loaded, each.path) for each in found.swings[:MOST]]
    rows, title = _rows(loaded, found, names), _finding(found, names, currency)
    span = _span(rows, found.npv)
    plan = rule_at(found.npv, label="the plan", axis="x", dash="long")
    zero = [rule_at(0.0, axis="x")] if span[0] <= 0 <= span[1] else []
    return Picture(
        title,
        f"Bars of how far the worth moves when one assumption alone moves to {found.by}, the widest first. {title}.",
        sized(layered(*zero, *_layers(rows, names, span=span, currency=currency), plan), height=BAR * len(names)),
        _table(loaded, found),
    )


def _table(loaded: Loaded, found: Swings) -> Table:
    """The swings under the names that readers know."""
    table = swing_table(loaded, found)
    rows = tuple((name_of(loaded, row[0]), *row[1:]) for row in table.rows)
    return replace(table, rows=rows)


def _rows(loaded: Loaded, found: Swings, names: list[str]) -> Rows:
    units = units_of(loaded)
    return [
        {"name": name, "end": end, "from": found.npv, "to": worth, "at": text, "down": worth < found.npv}
        for name, each in zip(names, found.swings[:MOST], strict=True)
        for end, worth, text in _ends(each, units)
    ]


def _ends(each: Swing, units: Units) -> tuple[tuple[str, float, str], tuple[str, float, str]]:
    """Both ends of a swing: which, the worth there [money], and the value there as text."""
    low, high = (swing_value(each, value, units) for value in (each.low, each.high))
    return (LOW_END, each.npv_low, low), (HIGH_END, each.npv_high, high)


def _span(rows: Rows, npv: float) -> list[float]:
    """The lowest and the highest worth with room for words [money]."""
    reached = [npv, *(float(row["to"]) for row in rows)]
    low, high = min(reached), max(reached)
    room = ROOM * ((high - low) or 1.0)
    return [low - room, high + room]


def _layers(rows: Rows, names: list[str], *, span: list[float], currency: str) -> Iterator[Chart]:
    """The bars, then the values at their ends: those that lower the worth at the left, the others at the right."""
    at = {
        "y": alt.Y("name:N", sort=names, title=None, axis=NAMES),
        "yOffset": alt.YOffset("end:N", sort=[LOW_END, HIGH_END]),
    }
    scale = alt.Scale(domain=span, nice=False)
    worth = alt.X("from:Q", axis=money_axis(f"worth in today's money, {currency}"), scale=scale)
    tips = ["name:N", "end:N", "at:N", whole("to", title="worth")]
    bars = alt.Chart(data(rows)).mark_bar()
    yield bars.encode(x=worth, x2="to:Q", tooltip=tips, **outlined("end", HUES, title=None), **at)
    for down, look in LOOKS.items():
        for behind in (HALO, {}):
            words = alt.Chart(data(row for row in rows if row["down"] is down)).mark_text(fontSize=11, **look, **behind)
            yield words.encode(x=alt.X("to:Q", scale=scale), text="at:N", **at)


def _finding(found: Swings, names: list[str], currency: str) -> str:
    if not found.swings:
        return "Nothing carries a range, so nothing can be ranked"
    first = found.swings[0]
    low, high = sorted((first.npv_low, first.npv_high))
    turns = "between losing and gaining" if low < 0 <= high else "at both ends a loss" if high < 0 else "at both ends a gain"
    name = f"{names[0][:1].lower()}{names[0][1:]}"
    return f"Nothing moves the worth more than {name}: from {low:,.0f} to {high:,.0f} {currency}, {turns}"
