"""The gas: which herds and feeds give it, and who can stop them."""

from __future__ import annotations

from dataclasses import dataclass

import altair as alt

from appraisal.appraise import Appraisal
from appraisal.present.charts.picture import (
    BLUE,
    VERMILION,
    Chart,
    Picture,
    Rows,
    amounts_beside,
    data,
    outlined,
    sized,
)
from appraisal.present.numbers import listed, percent
from appraisal.present.tables import Table, units_of
from appraisal.present.years import in_full_year

HUES = {"the farm's own": BLUE, "under a contract that may end": VERMILION}
OWN, MAY_END = HUES
ROOM = 1.3  # of the longest bar, so that the words beside it fit
BAR, LEAST_HEIGHT = 46, 90  # heights: of a row, and of the picture at least


@dataclass(frozen=True)
class Giver:
    """A herd or feed: what a reader calls it, its gas in the first full year [Nm3 methane], its share of all [1], who decides."""

    label: str
    methane: float
    share: float
    kind: str


def gas_by_feed(appraisal: Appraisal) -> Picture:
    """Share of the gas of every herd and feed; feeds that somebody else may stop are set apart by hue and by word."""
    givers = _givers(appraisal)
    rows, title = _rows(givers), _finding(givers)
    return Picture(
        title,
        f"Bars of the share of gas by feed. {title}. The largest: {rows[0]['feed']}, {percent(rows[0]['share'])}.",
        sized(alt.layer(*_layers(rows)), height=max(BAR * len(rows), LEAST_HEIGHT)),
        _table(appraisal, givers),
    )


def _givers(appraisal: Appraisal) -> list[Giver]:
    """All herds and feeds, the one that gives most first."""
    items, feeds = appraisal.structure.items, appraisal.loaded.scenario.feed
    made = {name: in_full_year(appraisal, f"substrate.{name}.methane") for name in (*items["herd"], *items["feed"])}
    whole = sum(made.values()) or 1.0
    ending = {name for name, feed in feeds.items() if feed.supply_by == "contract"}
    return [
        Giver(_label(appraisal, name), made[name], made[name] / whole, MAY_END if name in ending else OWN)
        for name in sorted(made, key=lambda each: -made[each])
    ]


def _label(appraisal: Appraisal, name: str) -> str:
    """What a reader calls a herd or feed."""
    scenario = appraisal.loaded.scenario
    item = scenario.herd.get(name) or scenario.feed.get(name)
    return str(getattr(item, "label", "") or name).replace("_", " ")


def _rows(givers: list[Giver]) -> Rows:
    return [
        {
            "feed": each.label,
            "share": each.share,
            "kind": each.kind,
            "text": percent(each.share) + (" may end" if each.kind == MAY_END else ""),
        }
        for each in givers
    ]


def _layers(rows: Rows) -> tuple[Chart, Chart]:
    feed = alt.Y("feed:N", sort=[row["feed"] for row in rows], title=None, axis=alt.Axis(labelLimit=200))
    share = alt.X(
        "share:Q",
        title="share of the gas, %",
        axis=alt.Axis(format="%", values=[tenth / 10 for tenth in range(11)]),
        scale=alt.Scale(domain=[0, ROOM * max((row["share"] for row in rows), default=1.0)], nice=False),
    )
    seen = {kind: hue for kind, hue in HUES.items() if any(row["kind"] == kind for row in rows)}
    tips = ["feed:N", "kind:N", alt.Tooltip("share:Q", format=".1%")]
    bars = alt.Chart(data(rows)).mark_bar()
    return (
        bars.encode(y=feed, x=share, tooltip=tips, **outlined("kind", seen, title=None)),
        amounts_beside(rows, y=feed, x=share),
    )


def _finding(givers: list[Giver]) -> str:
    ending = [each for each in givers if each.kind == MAY_END]
    if not ending:
        return "All of the gas comes from the farm's own manure and crops"
    lost, who = sum(each.share for each in ending), listed(each.label for each in ending)
    return f"{percent(lost)} of the gas hangs on {who}, which somebody else may stop"


def _table(appraisal: Appraisal, givers: list[Giver]) -> Table:
    units = units_of(appraisal)
    return Table(
        f"Gas by feed in project year {appraisal.plant.year}",
        ("feed", f"methane, {units.cells(0.0, 'Nm3')[1]} a year", "share of gas", "who decides"),
        tuple((each.label, units.cells(each.methane, "Nm3")[0], percent(each.share), each.kind) for each in givers),
    )
