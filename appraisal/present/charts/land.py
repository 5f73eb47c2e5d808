"""Land: what the digestate needs to be spread on, and what there is."""

from __future__ import annotations

from collections.abc import Mapping

import altair as alt

from appraisal.appraise import Appraisal
from appraisal.present.charts.nutrients import nutrient_amounts, nutrients_held
from appraisal.present.charts.picture import (
    BLUE,
    GREEN,
    INK,
    VERMILION,
    Chart,
    Picture,
    Rows,
    amounts_beside,
    data,
    from_nought,
    hues_of,
    layered,
    rule_at,
    sized,
    words_on_lines,
)
from appraisal.present.numbers import rounded
from appraisal.present.tables import Table, units_of
from appraisal.scenario.units import shown

NEEDS = {"for its nitrogen": "land_for_nitrogen", "for its phosphorus": "land_for_phosphorus"}
NAMES = alt.Axis(labelExpr=words_on_lines(18), labelLimit=200, labelLineHeight=13)
SEVERAL = {"acre": "acres"}
NO_LIMIT = "no limit in the scenario"
THERE, ENOUGH, LACKING = "there", "enough", "too little"
HUES = {THERE: GREEN, ENOUGH: BLUE, LACKING: VERMILION}


def nutrients_against_land(appraisal: Appraisal) -> Picture:
    """Land that the nitrogen and the phosphorus of the digestate need against the land there is, in the first full year.

    Where no land is declared, the nutrients alone are shown.
    """
    if appraisal.loaded.scenario.land.count != "counted":
        return nutrients_held(appraisal)
    there, one = _land(appraisal, "land_in_all")
    unit = SEVERAL.get(one, one)
    needs = {what: area for what, line in NEEDS.items() if (area := _land(appraisal, line)[0])}
    rows, title = _rows(needs, there), _finding(needs, there=there, unit=unit)
    limit = rule_at(there, label="all the land there is", axis="x", dash="long")
    return Picture(
        title,
        f"Bars of the land that the digestate needs beside the land there is. {title}.",
        sized(layered(*_layers(rows, unit), rule_at(0.0, axis="x"), limit), height=190),
        _table(appraisal, needs, rows, unit),
    )


def _land(appraisal: Appraisal, line: str) -> tuple[float, str]:
    """Land of a line in the first full year in the reader's unit, with the unit."""
    units, series = units_of(appraisal), appraisal.values[line][0]
    value = float(series[min(appraisal.plant.year - 1, series.size - 1)])
    return shown(value, "ha", system=units.system, currency=units.currency)


def _rows(needs: Mapping[str, float], there: float) -> Rows:
    bars = [(f"land needed {what}", area, LACKING if area > there else ENOUGH) for what, area in needs.items()]
    return [
        {"what": what, "amount": area, "kind": kind, "text": rounded(round(area))}
        for what, area, kind in (*bars, ("land there is", there, THERE))
    ]


def _layers(rows: Rows, unit: str) -> tuple[Chart, Chart]:
    what = alt.Y("what:N", sort=[row["what"] for row in rows], title=None, axis=NAMES)
    at = {"y": what, "x": from_nought(rows, f"land, {unit}")}
    bars = alt.Chart(data(rows)).mark_bar(stroke=INK, strokeWidth=0.5)
    return bars.encode(**at, color=hues_of("kind", HUES, legend=None)), amounts_beside(rows, look={"dx": 5}, **at)


def _finding(needs: Mapping[str, float], *, there: float, unit: str) -> str:
    if not needs:
        return "No land is needed for the digestate"
    hardest = max(needs, key=lambda each: needs[each])
    most = needs[hardest]
    if most > there:
        lacking = f"{most - there:,.0f} {unit} are missing"
        return f"The digestate needs {most:,.0f} {unit} {hardest}, and there are {there:,.0f}: {lacking}"
    return f"There is land enough: the digestate needs {most:,.0f} {unit} {hardest}, and there are {there:,.0f}"


def _table(appraisal: Appraisal, needs: Mapping[str, float], rows: Rows, unit: str) -> Table:
    own = ("of it the farm's own", rounded(_land(appraisal, "own_land")[0]), unit)
    cells = (*((str(row["what"]), rounded(float(row["amount"])), unit) for row in rows), own)
    unlimited = ((f"land needed {what}", NO_LIMIT, "") for what in NEEDS if what not in needs)
    title = f"Nutrients against land in project year {appraisal.plant.year}"
    return Table(title, ("", "amount", "unit"), (*unlimited, *cells, *nutrient_amounts(appraisal)))
