"""Greenhouse gases with and without the plant."""

from __future__ import annotations

from collections.abc import Mapping

import altair as alt

from appraisal.appraise import Appraisal
from appraisal.present.charts.picture import (
    BLUE,
    GREY,
    PALE,
    WHOLE,
    Chart,
    Picture,
    Rows,
    amounts_beside,
    data,
    hues_of,
    rule_at,
    sized,
    words_on_lines,
)
from appraisal.present.emission_tables import SOURCES, basis, emissions_table, footed

UNIT = "t CO2e"
LEAST = 0.005  # of the larger total: a smaller source stands in the table only
NO_TONNE = 1e-9
ROOM = 0.15  # of the longest bar, left for the words
PAIR = 44  # height of a pair of bars
NAMES = alt.Axis(labelExpr=words_on_lines(22), labelLimit=200, labelLineHeight=13)
ALL = "All"
SIDES = WITHOUT, WITH = "without the plant", "with the plant"
HUES = {WITHOUT: PALE, WITH: BLUE}
Pair = tuple[float, float]


def with_and_without(appraisal: Appraisal) -> Picture:
    """Emissions by source in the first full year, the farm as it is beside the farm with the plant."""
    pairs = _pairs(appraisal)
    title, names = _finding(pairs[ALL]), list(pairs)
    bars, words = _layers(_rows(pairs), names, year=appraisal.plant.year)
    return Picture(
        title,
        f"Pairs of bars by source of greenhouse gas. {title}. Counted by {basis(appraisal)}.",
        sized(alt.layer(bars, rule_at(0.0, axis="x"), words), height=PAIR * len(names)),
        emissions_table(appraisal),
    )


def _pairs(appraisal: Appraisal) -> dict[str, Pair]:
    """Whole tonnes by source without and with the plant [t CO2e/year], as the tables show them, all together last.

    The largest come first, the tiny are left out.
    """
    whole, year = footed(appraisal), appraisal.plant.year - 1
    sides = zip(SOURCES, whole.without[:, year].tolist(), whole.with_plant[:, year].tolist(), strict=True)
    found = {each.label: (float(without), float(with_plant)) for each, without, with_plant in sides}
    totals = (sum(pair[0] for pair in found.values()), sum(pair[1] for pair in found.values()))
    tiny = LEAST * max(*map(abs, totals), NO_TONNE)
    told = {label: pair for label, pair in found.items() if _size(pair) > tiny}
    return {**dict(sorted(told.items(), key=lambda item: -_size(item[1]))), ALL: totals}


def _size(pair: Pair) -> float:
    return max(map(abs, pair))


def _rows(pairs: Mapping[str, Pair]) -> Rows:
    return [
        {"source": label, "side": side, "tonnes": amount, "text": f"{round(amount) or 0:,}"}
        for label, pair in pairs.items()
        for side, amount in zip(SIDES, pair, strict=True)
    ]


def _layers(rows: Rows, names: list[str], *, year: int) -> tuple[Chart, Chart]:
    largest = max(abs(float(row["tonnes"])) for row in rows)
    lowest = min(0.0, *(float(row["tonnes"]) for row in rows))
    span = [lowest - (ROOM * largest if lowest < 0 else 0), (1 + ROOM) * largest]
    at = {
        "y": alt.Y("source:N", sort=names, title=None, axis=NAMES),
        "yOffset": alt.YOffset("side:N", sort=list(SIDES)),
        "x": alt.X(
            "tonnes:Q",
            title=f"{UNIT} in project year {year}",
            axis=alt.Axis(format=WHOLE, tickCount=8, labelOverlap=True),
            scale=alt.Scale(domain=span, nice=False),
        ),
    }
    tips = ["source:N", "side:N", alt.Tooltip("tonnes:Q", format=",.1f", title=UNIT)]
    bars = alt.Chart(data(rows)).mark_bar(stroke=GREY, strokeWidth=0.5)
    words = amounts_beside(rows, look={"fontSize": 11}, **at)
    return bars.encode(**at, color=hues_of("side", HUES, title=None), tooltip=tips), words


def _finding(totals: Pair) -> str:
    avoided = totals[0] - totals[1]
    against = f"{totals[1]:,.0f} against {totals[0]:,.0f}"
    if avoided >= 0:
        return f"With the plant {avoided:,.0f} {UNIT} a year stay out of the air: {against}"
    return f"With the plant {-avoided:,.0f} {UNIT} a year more go into the air: {against}"
