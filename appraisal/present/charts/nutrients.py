"""Nutrients in the digestate where no land is declared to hold them against."""

from __future__ import annotations

import altair as alt

from appraisal.appraise import Appraisal
from appraisal.present.charts.picture import (
    BLUE,
    Chart,
    Picture,
    Rows,
    amounts_beside,
    data,
    from_nought,
    rule_at,
    sized,
)
from appraisal.present.numbers import rounded
from appraisal.present.tables import Table, units_of
from appraisal.present.years import in_full_year
from appraisal.scenario.units import shown

NUTRIENTS = (
    ("nitrogen", "digestate_nitrogen"),
    ("phosphorus (P)", "digestate_phosphorus"),
    ("potassium (K)", "digestate_potassium"),
)


def nutrients_held(appraisal: Appraisal) -> Picture:
    """The nutrients that the digestate carries in the first full year."""
    units = units_of(appraisal)
    _, unit = shown(0.0, "kg", system=units.system, currency=units.currency)
    rows = _rows(appraisal)
    title = f"The digestate carries {rows[0]['text']} {unit} of nitrogen a year; no land is stated to hold it against"
    return Picture(
        title,
        f"Bars of the nutrients in the digestate. {title}.",
        sized(alt.layer(*_layers(rows, unit), rule_at(0.0, axis="x")), height=150),
        Table(
            f"Nutrients in the digestate in project year {appraisal.plant.year}",
            ("", "amount", "unit"),
            nutrient_amounts(appraisal),
        ),
    )


def nutrient_amounts(appraisal: Appraisal) -> tuple[tuple[str, str, str], ...]:
    """Rows of a table: every nutrient in the digestate of the first full year, its amount and its unit."""
    cells = units_of(appraisal).cells
    return tuple((f"{name} in the digestate", *cells(in_full_year(appraisal, line), "kg")) for name, line in NUTRIENTS)


def _rows(appraisal: Appraisal) -> Rows:
    units = units_of(appraisal)
    held = {
        name: shown(in_full_year(appraisal, line), "kg", system=units.system, currency=units.currency)[0]
        for name, line in NUTRIENTS
    }
    return [{"what": name, "amount": amount, "text": rounded(round(amount))} for name, amount in held.items()]


def _layers(rows: Rows, unit: str) -> tuple[Chart, Chart]:
    what = alt.Y("what:N", sort=[row["what"] for row in rows], title=None)
    at = {"y": what, "x": from_nought(rows, f"in the digestate, {unit} a year")}
    return alt.Chart(data(rows)).mark_bar(color=BLUE).encode(**at), amounts_beside(rows, look={"dx": 5}, **at)
