"""Heat by month: what the engines give, what the digester and the buildings take, what is bought."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass

import altair as alt
import numpy as np

from appraisal.appraise import Appraisal
from appraisal.lines.evaluate import MONTHS
from appraisal.present.charts.picture import (
    BLUE,
    DASH,
    INK,
    LIGHT_GREEN,
    PALEST,
    VERMILION,
    Chart,
    Picture,
    Rows,
    data,
    hues_of,
    month_names,
    sized,
)
from appraisal.present.tables import Table, units_of
from appraisal.technical_yield.plant_year import months_of

Months = np.ndarray[tuple[int], np.dtype[np.float64]]
NEED = (
    ("the digester", ("heat_to_digester",), INK),
    ("house, barn and dryer", ("heat_to_house", "heat_to_barn", "heat_to_dryer"), BLUE),
    ("buyers, with the losses of the pipe", ("heat_into_main",), LIGHT_GREEN),
)
WISHES = ("heat.house_kwh", "heat.barn_kwh", "heat.drying_kwh", "heat.sold_kwh")
SERVED = ("heat_to_house", "heat_to_barn", "heat_to_dryer", "heat_sold")
TAKEN, WISHED, GIVEN = "taken by {}", "wanted by farm and buyers, but there is none", "heat from the gas (dashed line)"
LEAST = 1e-6  # thousand kWh: less is rounding
SMALLEST = 0.005  # of the heat, which a whole per cent shows as nothing
UNIT = 1e-3  # kWh -> thousand kWh, to be read with ease


@dataclass(frozen=True, eq=False)
class Heat:
    """Heat of twelve months (12,) [thousand kWh]: taken by use, lacking, given by the gas, bought, to spare."""

    taken: Mapping[str, Months]
    lacking: Months
    given: Months
    bought: Months
    spare: Months


def heat_by_month(appraisal: Appraisal) -> Picture:
    """Heat that is taken against heat from the gas, in the twelve months of the first full year."""
    names, heat = month_names(appraisal.timeline), _heat(appraisal)
    title, month = (
        _finding(names, heat),
        alt.X("month:N", sort=names, title=f"month of project year {appraisal.plant.year}"),
    )
    return Picture(
        title,
        f"Stacked bars of the heat taken and wanted in twelve months, with a dashed line of the heat the gas gives. {title}",
        sized(alt.layer(*_layers(names, heat, month))),
        _table(appraisal, names, heat),
    )


def _heat(appraisal: Appraisal) -> Heat:
    """The heat of the first full year; a use that takes none all year is left out, the digester never."""
    sums = {use: _sum(appraisal, lines) for use, lines, _ in NEED}
    lacking = _sum(appraisal, WISHES) - _sum(appraisal, SERVED)
    return Heat(
        taken={use: months for use, months in sums.items() if use == NEED[0][0] or months.any()},
        lacking=np.where(lacking > LEAST, lacking, 0.0),
        given=_sum(appraisal, ("heat_recoverable", "heat_from_boiler")),
        bought=_sum(appraisal, ("heat_shortfall",)),
        spare=_sum(appraisal, ("heat_dumped",)),
    )


def _sum(appraisal: Appraisal, lines: tuple[str, ...]) -> Months:
    held = [months_of(appraisal.values, line, year=appraisal.plant.year) for line in lines]
    total = np.zeros(MONTHS)
    for months in held:
        total = total + months
    return total * UNIT


def _parts(heat: Heat) -> dict[str, Months]:
    """What is stacked, by its name in the legend."""
    taken = {TAKEN.format(use): months for use, months in heat.taken.items()}
    return {**taken, WISHED: heat.lacking} if heat.lacking.any() else taken


def _layers(names: list[str], heat: Heat, month: alt.X) -> tuple[Chart, Chart]:
    """The stacked bars, and the heat the gas gives as a dashed line; one legend names both."""
    parts, hues = _parts(heat), {**{TAKEN.format(use): hue for use, _, hue in NEED}, WISHED: PALEST, GIVEN: VERMILION}
    rows: Rows = [
        {"month": name, "place": place, "use": use, "amount": float(amounts[place]), "order": number}
        for number, (use, amounts) in enumerate(parts.items())
        for place, name in enumerate(names)
    ]
    line: Rows = [
        {"month": name, "given": float(given), "use": GIVEN} for name, given in zip(names, heat.given, strict=True)
    ]
    legend = alt.Legend(columns=1, symbolType="square")
    color = hues_of("use", {name: hues[name] for name in (*parts, GIVEN)}, title=None, legend=legend)
    tips = ["month:N", "use:N", alt.Tooltip("amount:Q", format=",.1f", title="thousand kWh")]
    bars = alt.Chart(data(rows)).mark_bar(stroke="white", strokeWidth=1).encode(
        x=month, y=alt.Y("amount:Q", title="heat, thousand kWh a month", stack="zero"), color=color, order="order:Q", tooltip=tips
    )  # fmt: skip
    points = alt.OverlayMarkDef(color=VERMILION, size=40)
    drawn = alt.Chart(data(line)).mark_line(strokeWidth=3, strokeDash=DASH["long"], point=points)
    return bars, drawn.encode(x=month, y="given:Q", color=color)


def _finding(names: list[str], heat: Heat) -> str:
    given, bought, spare = heat.given, heat.bought, heat.spare
    if not given.any():
        return f"The gas gives no heat; {bought.sum():,.0f} thousand kWh are bought in the year"
    share = spare.sum() / given.sum()
    part = f"{share:.0%}" if share >= SMALLEST else "hardly any" if share > 0 else "none"
    unused = f"{part} of the heat from the gas goes unused over the year"
    short = [names[month] for month in np.flatnonzero(bought > 0)]
    if short:
        span = f"in {short[0]}" if len(short) == 1 else f"in {len(short)} months"
        return f"Heat runs short {span}: {bought.sum():,.1f} thousand kWh must be bought; {unused}"
    if heat.lacking.any():
        return (
            f"The gas heats the digester in every month; farm and buyers want {heat.lacking.sum():,.0f} thousand kWh a year more "
            f"than there is; {unused}"
        )
    tightest = names[int(np.argmin(spare / np.where(given > 0, given, np.inf)))]
    return f"The gas gives enough heat in every month, with least to spare in {tightest}; {unused}"


def _table(appraisal: Appraisal, names: list[str], heat: Heat) -> Table:
    columns = (*_parts(heat).values(), heat.given, heat.bought, heat.spare)
    rows = [(name, *(f"{column[month]:,.1f}" for column in columns)) for month, name in enumerate(names)]
    rows.append(("year", *(f"{column.sum():,.1f}" for column in columns)))
    heads = (*_parts(heat), "from the gas", "bought", "left unused")
    unit = units_of(appraisal).cells(0.0, "kWh")[1]
    return Table(
        f"Heat by month of project year {appraisal.plant.year}, thousand {unit}", ("month", *heads), tuple(rows)
    )
