"""The family's account at year ends over all futures: a band, the middle, and the plan."""

from __future__ import annotations

from itertools import pairwise

import altair as alt
import numpy as np

from appraisal.present.charts.picture import (
    BLUE,
    DASH,
    INK,
    Chart,
    Picture,
    Rows,
    data,
    money_axis,
    rule_at,
    sized,
    whole,
)
from appraisal.present.tables import Table
from appraisal.risk.simulate import FAN_SHARES, Simulation

AMOUNTS = ("low", "middle", "high", "plan")
APART = 0.055  # of the height of the picture: labels nearer than this cannot be read


def account_fan(found: Simulation) -> Picture:
    """The family's account at year ends: a band that holds eight futures of ten, the middle, and the plan."""
    rows, title, currency = _rows(found), _finding(found), found.loaded.scenario.project.currency
    return Picture(
        title,
        f"A band of the family's cash so far over {len(rows)} years from {found.fan.draws:,} futures. {title}. "
        f"In the worse tenth it goes below {float(np.nanmin(found.fan.cash[0])):,.0f} {currency}. "
        "Each edge is counted year by year and is no single future.",
        sized(alt.layer(*_layers(rows, currency), _names(found, rows[-1]))),
        _table(found, rows),
    )


def _rows(found: Simulation) -> Rows:
    plan = found.central.cash_by_year[0].astype(np.float64)
    notes = {"band": "eight futures of ten", "of_middle": "middle future", "of_plan": "the plan"}
    return [
        {"year": year + 1, **dict(zip(AMOUNTS, map(float, (*cash, plan[year])), strict=True)), **notes}
        for year, cash in enumerate(found.fan.cash.T)
    ]


def _layers(rows: Rows, currency: str) -> tuple[Chart, ...]:
    """The band with its two edges, the zero line, the middle future and the plan: each line a dash of its own."""
    at = alt.X(
        "year:Q",
        title="project year",
        axis=alt.Axis(format="d", tickMinStep=1),
        scale=alt.Scale(domain=[1, len(rows)], nice=False),
    )
    low = alt.Y("low:Q", axis=money_axis(f"family's cash so far, {currency}"))
    tips = ["year:Q", *(whole(name) for name in AMOUNTS)]
    band = alt.Chart(data(rows)).mark_area(color=BLUE, opacity=0.25)
    middle = alt.Chart(data(rows)).mark_line(color=BLUE, strokeWidth=3)
    plan = alt.Chart(data(rows)).mark_line(color=INK, strokeWidth=2, strokeDash=DASH["long"])
    edge = alt.Chart(data(rows)).mark_line(color=BLUE, strokeWidth=1.5, strokeDash=DASH["short"])
    return (
        band.encode(x=at, y=low, y2="high:Q", tooltip=tips),
        edge.encode(x=at, y="low:Q"),
        edge.encode(x=at, y="high:Q"),
        rule_at(0.0),
        middle.encode(x=at, y="middle:Q"),
        plan.encode(x=at, y="plan:Q"),
    )


def _names(found: Simulation, last: dict[str, float]) -> Chart:
    """The name of every line beside its end."""
    said = {"high": "one in ten above", "middle": "middle", "plan": "the plan", "low": "one in ten below"}
    ends: Rows = [{"at": last[name], "text": text} for name, text in said.items()]
    cash = found.fan.cash
    span = float(max(np.nanmax(cash), 0.0) - min(np.nanmin(cash), 0.0))
    words = alt.Chart(data(_apart(ends, span))).mark_text(x="width", align="left", dx=6)
    return words.encode(y="at:Q", text="text:N")


def _apart(ends: Rows, span: float) -> Rows:
    """Labels at the end of lines moved so far apart that they can be read [same unit]; order by height stays."""
    gap, told = APART * (span or 1.0), sorted(ends, key=lambda each: -float(each["at"]))
    for above, below in pairwise(told):
        below["at"] = min(float(below["at"]), float(above["at"]) - gap)
    return told


def _finding(found: Simulation) -> str:
    cash, currency = found.fan.cash, found.loaded.scenario.project.currency
    return (
        f"After {cash.shape[1]} years eight futures of ten leave the family between {float(cash[0, -1]):,.0f} "
        f"and {float(cash[2, -1]):,.0f} {currency}"
    )


def _table(found: Simulation, rows: Rows) -> Table:
    currency = found.loaded.scenario.project.currency
    return Table(
        f"Family's cash so far at year end, {currency} ({found.fan.draws:,} futures; each column is counted year by year)",
        ("year", *(f"{share:.0%} of futures\nbelow" for share in FAN_SHARES), "the plan"),
        tuple((str(row["year"]), *(f"{row[name]:,.0f}" for name in AMOUNTS)) for row in rows),
    )
