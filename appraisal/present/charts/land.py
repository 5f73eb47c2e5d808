"""Nutrients against land: what the digestate needs to be spread on, and what there is."""

from __future__ import annotations

import altair as alt

from appraisal.appraise import Appraisal
from appraisal.lines.evaluate import year_sum
from appraisal.present.charts.picture import BLUE, GREEN, VERMILION, Picture, Rows, data, rule_at, sized
from appraisal.present.numbers import rounded
from appraisal.present.tables import Table, units_of
from appraisal.scenario.units import shown

NUTRIENTS = (
    ("nitrogen", "digestate_nitrogen"),
    ("phosphorus (P)", "digestate_phosphorus"),
    ("potassium (K)", "digestate_potassium"),
)


def nutrients_against_land(appraisal: Appraisal) -> Picture:
    """Land that the nitrogen and the phosphorus of the digestate need against the land there is, in the first full year.

    Where no land is declared, the nutrients alone are shown.
    """
    if appraisal.loaded.scenario.land.count != "counted":
        return _nutrients(appraisal)
    units, year = units_of(appraisal), appraisal.plant.year - 1

    def hectares(line: str) -> tuple[float, str]:
        series = appraisal.values[line][0]
        value = float(series[min(year, series.size - 1)])
        return shown(value, "ha", system=units.system, currency=units.currency)

    needs = {
        "for its nitrogen": hectares("land_for_nitrogen")[0],
        "for its phosphorus": hectares("land_for_phosphorus")[0],
    }
    there, unit = hectares("land_in_all")
    own = hectares("own_land")[0]
    rows: Rows = [
        {"what": f"land needed {what}", "amount": amount, "kind": "too little" if amount > there else "enough"}
        for what, amount in needs.items()
    ]
    rows.append({"what": "land there is", "amount": there, "kind": "there"})
    rows = [{**row, "text": rounded(round(row["amount"]))} for row in rows]
    order = [str(row["what"]) for row in rows]
    kinds = {"there": GREEN, "enough": BLUE, "too little": VERMILION}
    top = max(*(float(row["amount"]) for row in rows), 1e-9)
    amount = alt.X(
        "amount:Q",
        title=f"land, {unit}",
        axis=alt.Axis(format=",.0f"),
        scale=alt.Scale(domain=[0, 1.15 * top], nice=False),
    )
    what = alt.Y("what:N", sort=order, title=None, axis=alt.Axis(labelLimit=240))
    hue = alt.Color("kind:N", legend=None, scale=alt.Scale(domain=list(kinds), range=list(kinds.values())))
    bars = alt.Chart(data(rows)).mark_bar(stroke="#222222", strokeWidth=0.5).encode(y=what, x=amount, color=hue)
    words = alt.Chart(data(rows)).mark_text(align="left", dx=5).encode(y=what, x=amount, text="text:N")
    limit = rule_at(there, label="all the land there is", axis="x", dash="long")
    title = _finding(needs, there=there, unit=unit)
    cells = [
        *((str(row["what"]), rounded(float(row["amount"])), unit) for row in rows),
        ("of it the farm's own", rounded(own), unit),
    ]
    cells += _amounts(appraisal)
    return Picture(
        title,
        f"Bars of the land that the digestate needs beside the land there is. {title}.",
        sized(alt.layer(bars, words, rule_at(0.0, axis="x"), limit), height=190),
        Table(f"Nutrients against land in project year {year + 1}", ("", "amount", "unit"), tuple(cells)),
    )


def _finding(needs: dict[str, float], *, there: float, unit: str) -> str:
    hardest = max(needs, key=lambda each: needs[each])
    most = needs[hardest]
    if most > there:
        lacking = f"{most - there:,.0f} {unit} are missing"
        return f"The digestate needs {most:,.0f} {unit} {hardest}, and there are {there:,.0f}: {lacking}"
    if not most:
        return "No land is needed for the digestate"
    return f"There is land enough: the digestate needs {most:,.0f} {unit} {hardest}, and there are {there:,.0f}"


def _amounts(appraisal: Appraisal) -> list[tuple[str, str, str]]:
    units, year = units_of(appraisal), appraisal.plant.year - 1
    return [
        (f"{name} in the digestate", *units.cells(float(year_sum(appraisal.values[line][:1])[0, year]), "kg"))
        for name, line in NUTRIENTS
    ]


def _nutrients(appraisal: Appraisal) -> Picture:
    """The nutrients in the digestate where no land is declared to hold them against."""
    units, year = units_of(appraisal), appraisal.plant.year - 1
    held = {name: float(year_sum(appraisal.values[line][:1])[0, year]) for name, line in NUTRIENTS}
    shown_in = {
        name: shown(amount, "kg", system=units.system, currency=units.currency) for name, amount in held.items()
    }
    unit = next(iter(shown_in.values()))[1]
    rows: Rows = [{"what": name, "amount": pair[0], "text": rounded(round(pair[0]))} for name, pair in shown_in.items()]
    top = max(*(float(row["amount"]) for row in rows), 1e-9)
    amount = alt.X(
        "amount:Q",
        title=f"in the digestate, {unit} a year",
        axis=alt.Axis(format=",.0f"),
        scale=alt.Scale(domain=[0, 1.15 * top], nice=False),
    )
    what = alt.Y("what:N", sort=list(held), title=None)
    bars = alt.Chart(data(rows)).mark_bar(color=BLUE).encode(y=what, x=amount)
    words = alt.Chart(data(rows)).mark_text(align="left", dx=5).encode(y=what, x=amount, text="text:N")
    first = rows[0]
    title = f"The digestate carries {first['text']} {unit} of nitrogen a year; no land is stated to hold it against"
    return Picture(
        title,
        f"Bars of the nutrients in the digestate. {title}.",
        sized(alt.layer(bars, words, rule_at(0.0, axis="x")), height=150),
        Table(
            f"Nutrients in the digestate in project year {year + 1}", ("", "amount", "unit"), tuple(_amounts(appraisal))
        ),
    )
