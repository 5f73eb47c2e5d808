"""Greenhouse gases with and without the plant."""

from __future__ import annotations

import altair as alt

from appraisal.appraise import Appraisal
from appraisal.present.charts.picture import BLUE, PALE, Picture, Rows, data, rule_at, sized
from appraisal.present.emission_tables import SOURCES, basis, emissions_table, yearly

UNIT = "t CO2e"
LEAST = 0.005  # of the larger total: a smaller source stands in the table only
SIDES = ("without the plant", "with the plant")


def with_and_without(appraisal: Appraisal) -> Picture:
    """Emissions by source in the first full year, the farm as it is beside the farm with the plant."""
    year = appraisal.plant.year - 1
    pairs = {
        source.label: (
            float(yearly(appraisal, source.without)[year]),
            float(yearly(appraisal, source.with_plant)[year]),
        )
        for source in SOURCES
    }
    totals = (sum(pair[0] for pair in pairs.values()), sum(pair[1] for pair in pairs.values()))
    tiny = LEAST * max(*(abs(total) for total in totals), 1e-9)
    shown = {label: pair for label, pair in pairs.items() if max(abs(pair[0]), abs(pair[1])) > tiny}
    shown = {**dict(sorted(shown.items(), key=lambda item: -max(map(abs, item[1])))), "All": totals}
    rows: Rows = [
        {"source": label, "side": side, "tonnes": amount, "text": f"{round(amount) or 0:,}"}
        for label, pair in shown.items()
        for side, amount in zip(SIDES, pair, strict=True)
    ]
    largest = max(abs(float(row["tonnes"])) for row in rows)
    lowest = min(0.0, *(float(row["tonnes"]) for row in rows))
    scale = alt.Scale(domain=[lowest - (0.15 * largest if lowest < 0 else 0), 1.15 * largest], nice=False)
    source = alt.Y("source:N", sort=list(shown), title=None, axis=alt.Axis(labelLimit=280))
    offset = alt.YOffset("side:N", sort=list(SIDES))
    hue = alt.Color("side:N", title=None, scale=alt.Scale(domain=list(SIDES), range=[PALE, BLUE]))
    tonnes = alt.X("tonnes:Q", title=f"{UNIT} in project year {year + 1}", axis=alt.Axis(format=",.0f"), scale=scale)
    tips = ["source:N", "side:N", alt.Tooltip("tonnes:Q", format=",.1f", title=UNIT)]
    bars = alt.Chart(data(rows)).mark_bar(stroke="#6b6b6b", strokeWidth=0.5)
    words = alt.Chart(data(rows)).mark_text(align="left", dx=4, fontSize=11)
    avoided = totals[0] - totals[1]
    title = (
        f"With the plant {avoided:,.0f} {UNIT} a year stay out of the air: {totals[1]:,.0f} against {totals[0]:,.0f}"
        if avoided >= 0
        else f"With the plant {-avoided:,.0f} {UNIT} a year more go into the air: {totals[1]:,.0f} against {totals[0]:,.0f}"
    )
    return Picture(
        title,
        f"Pairs of bars by source of greenhouse gas. {title}. Counted by {basis(appraisal)}.",
        sized(
            alt.layer(
                bars.encode(y=source, yOffset=offset, x=tonnes, color=hue, tooltip=tips),
                rule_at(0.0, axis="x"),
                words.encode(y=source, yOffset=offset, x=tonnes, text="text:N"),
            ),
            height=44 * len(shown),
        ),
        emissions_table(appraisal),
    )
