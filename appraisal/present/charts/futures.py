"""How bad and how often: the account over the years, the worth over all futures, and one year in three futures."""

from __future__ import annotations

from itertools import pairwise

import altair as alt
import numpy as np
import numpy.typing as npt

from appraisal.present.charts.heat import NAMES
from appraisal.present.charts.picture import (
    BLUE,
    DASH,
    GREEN,
    INK,
    VERMILION,
    Chart,
    Picture,
    Rows,
    data,
    money_axis,
    rule_at,
    sized,
)
from appraisal.present.risk_words import of_hundred
from appraisal.present.tables import Table
from appraisal.risk.simulate import FAN_SHARES, Simulation
from appraisal.risk.three_years import ThreeYears
from appraisal.timeline import Timeline

Array = npt.NDArray[np.float64]
BINS = 40
TAIL = 0.005  # of the futures on either side that are gathered in the outermost bars
LOOKS = {
    "good": (GREEN, "solid", "circle"),
    "middle": (BLUE, "long", "square"),
    "bad": (VERMILION, "short", "triangle-up"),
}
ONE_OF = {
    "good": "one year in ten is better",
    "middle": "half of the years are better",
    "bad": "one year in ten is worse",
}


def account_fan(found: Simulation) -> Picture:
    """The family's account at year ends: a band that holds eight futures of ten, the middle, and the plan."""
    currency, cash = found.loaded.scenario.project.currency, found.fan.cash
    plan = found.central.cash_by_year[0].astype(np.float64)
    rows: Rows = [
        {"year": year + 1, "low": float(cash[0, year]), "middle": float(cash[1, year]), "high": float(cash[2, year]),
         "plan": float(plan[year]), "band": "eight futures of ten", "of_middle": "middle future", "of_plan": "the plan"}
        for year in range(cash.shape[1])
    ]  # fmt: skip
    at = alt.X(
        "year:Q",
        title="project year",
        axis=alt.Axis(format="d", tickMinStep=1),
        scale=alt.Scale(domain=[1, len(rows)], nice=False),
    )
    band = alt.Chart(data(rows)).mark_area(color=BLUE, opacity=0.25).encode(
        x=at, y=alt.Y("low:Q", axis=money_axis(f"family's cash so far, {currency}")), y2="high:Q",
        tooltip=["year:Q", *(alt.Tooltip(f"{name}:Q", format=",.0f") for name in ("low", "middle", "high", "plan"))],
    )  # fmt: skip
    middle = alt.Chart(data(rows)).mark_line(color=BLUE, strokeWidth=3).encode(x=at, y="middle:Q")
    planned = (
        alt.Chart(data(rows)).mark_line(color=INK, strokeWidth=2, strokeDash=DASH["long"]).encode(x=at, y="plan:Q")
    )
    ends = [
        {"at": float(cash[2, -1]), "text": "one in ten above"}, {"at": float(cash[1, -1]), "text": "middle"},
        {"at": float(plan[-1]), "text": "the plan"}, {"at": float(cash[0, -1]), "text": "one in ten below"},
    ]  # fmt: skip
    words = (
        alt.Chart(data(_apart(ends, float(max(np.nanmax(cash), 0.0) - min(np.nanmin(cash), 0.0)))))
        .mark_text(x="width", align="left", dx=6)
        .encode(y="at:Q", text="text:N")
    )
    low, high = float(cash[0, -1]), float(cash[2, -1])
    title = f"After {cash.shape[1]} years eight futures of ten leave the family between {low:,.0f} and {high:,.0f} {currency}"
    deep = float(np.nanmin(cash[0]))
    table = tuple(
        (str(row["year"]), *(f"{row[name]:,.0f}" for name in ("low", "middle", "high", "plan"))) for row in rows
    )
    return Picture(
        title,
        f"A band of the family's cash so far over {cash.shape[1]} years from {found.fan.draws:,} futures. {title}. "
        f"In the worse tenth it goes below {deep:,.0f} {currency}. Each edge is counted year by year and is no single future.",
        sized(alt.layer(band, rule_at(0.0), middle, planned, words)),
        Table(
            f"Family's cash so far at year end, {currency} ({found.fan.draws:,} futures; each column is counted year by year)",
            ("year", *(f"{share:.0%} of futures\nbelow" for share in FAN_SHARES), "the plan"),
            table,
        ),
    )  # fmt: skip


def _apart(ends: Rows, span: float) -> Rows:
    """Labels at the end of lines moved so far apart that they can be read [same unit]; order by height stays."""
    gap, told = 0.055 * (span or 1.0), sorted(ends, key=lambda each: -float(each["at"]))
    for above, below in pairwise(told):
        below["at"] = min(float(below["at"]), float(above["at"]) - gap)
    return told


def worth_spread(found: Simulation) -> Picture:
    """How the worth spreads over all futures, those that lose money set apart by hue and by a line at nothing."""
    currency, npv = found.loaded.scenario.project.currency, found.outcomes.npv
    edges, counts = bars_of(npv)
    rows: Rows = [
        {"from": float(edges[k]), "to": float(edges[k + 1]), "share": float(counts[k] / npv.size),
         "zero": 0, "kind": "loses money" if edges[k + 1] <= 0 else "does not lose money"}
        for k in range(len(counts))
    ]  # fmt: skip
    losing, plan = found.chances["npv_below_zero"].value, float(found.central.npv[0])
    hue = alt.Color(
        "kind:N", title=None, scale=alt.Scale(domain=["loses money", "does not lose money"], range=[VERMILION, BLUE])
    )
    bars = alt.Chart(data(rows)).mark_bar(stroke="white", strokeWidth=0.5).encode(
        x=alt.X("from:Q", axis=money_axis(f"worth in today's money, {currency}"), scale=alt.Scale(nice=False)), x2="to:Q",
        y=alt.Y("share:Q", title="share of all futures, %", axis=alt.Axis(format=".0%", tickMinStep=0.01)),
            y2="zero:Q", color=hue,
        tooltip=[alt.Tooltip("from:Q", format=",.0f"), alt.Tooltip("to:Q", format=",.0f"), alt.Tooltip("share:Q", format=".1%")],
    )  # fmt: skip
    title = f"In {of_hundred(losing)} futures it loses money; the plan is worth {plan:,.0f} {currency}"
    spread = found.spreads["npv"]
    middle = (
        f" Middle {spread.p50.value:,.0f}, eight of ten between {spread.p10.value:,.0f} and {spread.p90.value:,.0f} {currency}."
        if spread
        else ""
    )
    table = tuple((f"{row['from']:,.0f} to {row['to']:,.0f}", f"{row['share']:.2%}") for row in rows)
    return Picture(
        title,
        f"Bars of how often each worth comes out over {npv.size:,} futures. {title}.{middle}",
        sized(alt.layer(bars, rule_at(0.0, axis="x"), rule_at(plan, label="the plan", axis="x", dash="long"))),
        Table(
            f"Worth in today's money, {currency}, over {npv.size:,} futures; the outermost rows hold all beyond",
            ("worth", "share of futures"),
            table,
        ),
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


def three_years_side_by_side(found: ThreeYears, *, timeline: Timeline, currency: str) -> Picture:
    """The account month by month through one project year in a good, a middle and a bad future, from where the year began."""
    names = [NAMES[(timeline.first_month - 1 + month) % len(NAMES)] for month in range(len(NAMES))]
    rows: Rows = [
        {"year": f"{one.name} year", "place": month, "month": names[month], "gain": float(one.balance[month] - one.opening),
         "balance": float(one.balance[month]), "text": f"{one.gain:+,.0f}" if month == len(names) - 1 else ""}
        for one in found.years
        for month in range(len(names))
    ]  # fmt: skip
    order = [f"{one.name} year" for one in found.years]
    highest = max(abs(float(row["gain"])) for row in rows) or 1.0
    panels = [
        _panel([row for row in rows if row["year"] == name], name, names=names, top=rows, currency=currency)
        for name in order
    ]
    bad, middle, good = (next(one for one in found.years if one.name == name) for name in ("bad", "middle", "good"))
    lowest = float((bad.balance - bad.opening).min())
    title = (
        f"In project year {found.year} the account moves by {good.gain:+,.0f} in a good year, by {middle.gain:+,.0f} in a middle "
        f"one and by {bad.gain:+,.0f} {currency} in a bad one"
    )
    if lowest < -NEAR_NOTHING * highest:
        month = names[int((bad.balance - bad.opening).argmin())]
        title += f"; the bad year is at its lowest in {month}: {lowest:,.0f}"
    table = tuple(
        (
            name,
            *(
                cell
                for one in found.years
                for cell in (f"{one.balance[m] - one.opening + 0.0:,.0f}", f"{one.balance[m] + 0.0:,.0f}")
            ),
        )
        for m, name in enumerate(names)
    )
    heads = tuple(
        head
        for one in found.years
        for head in (f"{one.name}: since the\nyear began", f"{one.name}: family's\ncash so far")
    )
    return Picture(
        title,
        f"Three lines of the account through the months of project year {found.year}. {title}. {how_chosen(found)}",
        alt.hconcat(*panels, spacing=12).resolve_scale(y="shared"),
        Table(f"The account by month of project year {found.year}, {currency}", ("month", *heads), table),
    )


NEAR_NOTHING = 0.001


def _panel(rows: Rows, name: str, *, names: list[str], top: Rows, currency: str) -> Chart:
    hue, dash, shape = LOOKS[name.split()[0]]
    low, high = min(0.0, *(float(row["gain"]) for row in top)), max(0.0, *(float(row["gain"]) for row in top))
    room = 0.12 * ((high - low) or 1.0)
    at = alt.X("month:N", sort=names, title=None, axis=alt.Axis(labelAngle=-90))
    title = f"account since the year began, {currency}" if name == "good year" else None
    gain = alt.Y("gain:Q", axis=money_axis(title or ""), scale=alt.Scale(domain=[low - room, high + room], nice=False))
    line = alt.Chart(data(rows)).mark_line(color=hue, strokeDash=DASH[dash], strokeWidth=3).encode(x=at, y=gain)
    points = alt.Chart(data(rows)).mark_point(color=hue, shape=shape, size=45, filled=True, opacity=1).encode(
        x=at, y=gain,
        tooltip=["month:N", alt.Tooltip("gain:Q", format=",.0f"),
                 alt.Tooltip("balance:Q", format=",.0f", title="family's cash so far")],
    )  # fmt: skip
    words = (
        alt.Chart(data(rows[-1:]))
        .mark_text(align="right", dy=-14, fontWeight="bold")
        .encode(x=at, y=gain, text="text:N")
    )
    head = alt.TitleParams(name.capitalize(), subtitle=ONE_OF[name.split()[0]], anchor="start", fontSize=13)
    return sized(alt.layer(rule_at(0.0), line, points, words), width=200, height=230).properties(title=head)


def how_chosen(found: ThreeYears) -> str:
    """How the three years were chosen."""
    return (
        f"Of {found.futures:,} futures, ranked by what project year {found.year} adds to the account: one in ten is better than "
        "the good year, half are better than the middle one, one in ten is worse than the bad one. Each is one future as it was "
        "worked out, month by month."
    )
