"""How the worth spreads over all futures: one bar a range of worth."""

from __future__ import annotations

from itertools import pairwise

import altair as alt
import numpy as np
import numpy.typing as npt

from appraisal.present.charts.picture import (
    BLUE,
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
)
from appraisal.present.risk_words import of_futures
from appraisal.present.tables import Table
from appraisal.risk.simulate import Simulation

Array = npt.NDArray[np.float64]
BINS = 40
TAIL = 0.005  # of the futures on either side that are gathered in the outermost bars
LOSES, GAINS = "loses money", "does not lose money"
HUES = {LOSES: VERMILION, GAINS: BLUE}


def worth_spread(found: Simulation) -> Picture:
    """How the worth spreads over all futures, those that lose money set apart by hue and by a line at nothing."""
    rows, title, currency = _rows(found.outcomes.npv), _finding(found), found.loaded.scenario.project.currency
    plan = rule_at(float(found.central.npv[0]), label="the plan", axis="x", dash="long")
    return Picture(
        title,
        f"Bars of how often each worth comes out over {found.outcomes.npv.size:,} futures. {title}.{_middle(found)}",
        sized(layered(_bars(rows, currency), rule_at(0.0, axis="x"), plan)),
        _table(found, rows),
    )


def bars_of(sample: Array) -> tuple[Array, npt.NDArray[np.int64]]:
    """Edges (bars + 1,) and counts (bars,) of a sample, with an edge at 0 where it changes sign; all draws are counted."""
    low, high = (float(np.quantile(sample, share)) for share in (TAIL, 1 - TAIL))
    if low == high:
        low, high = low - 1.0, high + 1.0
    width = (high - low) / BINS
    edges = np.arange(np.floor(low / width), np.ceil(high / width) + 1) * width
    counts, _ = np.histogram(np.clip(sample, edges[0], edges[-1]), bins=edges)
    return edges, counts.astype(np.int64)


def _rows(npv: Array) -> Rows:
    edges, counts = bars_of(npv)
    return [
        {"from": low, "to": high, "share": float(count / npv.size), "zero": 0, "kind": LOSES if high <= 0 else GAINS}
        for (low, high), count in zip(pairwise(map(float, edges)), counts, strict=True)
    ]


def _bars(rows: Rows, currency: str) -> Chart:
    worth = alt.X("from:Q", axis=money_axis(f"worth in today's money, {currency}"), scale=alt.Scale(nice=False))
    share = alt.Y("share:Q", title="share of all futures, %", axis=alt.Axis(format=".0%", tickMinStep=0.01))
    bars = alt.Chart(data(rows)).mark_bar(strokeWidth=1)
    return bars.encode(
        x=worth,
        x2="to:Q",
        y=share,
        y2="zero:Q",
        **outlined("kind", HUES, title=None),
        tooltip=[whole("from"), whole("to"), alt.Tooltip("share:Q", format=".1%")],
    )


def _finding(found: Simulation) -> str:
    losing, plan = found.chances["npv_below_zero"].value, float(found.central.npv[0])
    currency = found.loaded.scenario.project.currency
    return f"In {of_futures(losing)} it loses money; the plan is worth {plan:,.0f} {currency}"


def _middle(found: Simulation) -> str:
    spread, currency = found.spreads["npv"], found.loaded.scenario.project.currency
    if not spread:
        return ""
    low, high = spread.p10.value, spread.p90.value
    return f" Middle {spread.p50.value:,.0f}, eight of ten between {low:,.0f} and {high:,.0f} {currency}."


def _table(found: Simulation, rows: Rows) -> Table:
    currency, futures = found.loaded.scenario.project.currency, found.outcomes.npv.size
    return Table(
        f"Worth in today's money, {currency}, over {futures:,} futures; the outermost rows hold all beyond",
        ("worth", "share of futures"),
        tuple((f"{row['from']:,.0f} to {row['to']:,.0f}", f"{row['share']:.2%}") for row in rows),
    )
