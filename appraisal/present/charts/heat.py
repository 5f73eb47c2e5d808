"""Heat by month: what the engines give, what the digester and the buildings take, what is bought."""

from __future__ import annotations

from collections.abc import Mapping

import altair as alt
import numpy as np

from appraisal.appraise import Appraisal
from appraisal.lines.evaluate import MONTHS
from appraisal.present.charts.picture import BLUE, DASH, INK, LIGHT_GREEN, VERMILION, Picture, data, month_names, sized
from appraisal.present.tables import Table, units_of
from appraisal.technical_yield.plant_year import months_of

NEED = (
    ("the digester", ("heat_to_digester",), INK),
    ("house, barn and dryer", ("heat_to_house", "heat_to_barn", "heat_to_dryer"), BLUE),
    ("buyers, with the losses of the pipe", ("heat_into_main",), LIGHT_GREEN),
)
GIVEN = ("heat_recoverable", "heat_from_boiler")
UNIT = 1e-3  # kWh -> thousand kWh, to be read with ease


def heat_by_month(appraisal: Appraisal) -> Picture:
    """Heat that is taken against heat from the gas, in the twelve months of the first full year."""
    names, taken = month_names(appraisal.timeline), _taken(appraisal)
    given, bought = _sum(appraisal, GIVEN), _sum(appraisal, ("heat_shortfall",))
    spare = _sum(appraisal, ("heat_dumped",))
    rows = [
        {"month": name, "place": place, "use": use, "amount": float(amounts[place]), "order": number}
        for number, (use, amounts) in enumerate(taken.items())
        for place, name in enumerate(names)
    ]
    hues = [hue for use, _, hue in NEED if use in taken]
    order = alt.X("month:N", sort=names, title=f"month of project year {appraisal.plant.year}")
    bars = (
        alt.Chart(data(rows))
        .mark_bar(stroke="white", strokeWidth=1)
        .encode(
            x=order,
            y=alt.Y("amount:Q", title="heat, thousand kWh a month", stack="zero"),
            color=alt.Color("use:N", title="heat taken by", scale=alt.Scale(domain=list(taken), range=hues)),
            order="order:Q",
            tooltip=["month:N", "use:N", alt.Tooltip("amount:Q", format=",.1f", title="thousand kWh")],
        )
    )
    line_rows = [
        {"month": name, "amount": float(given[m]), "kind": "heat from the gas"} for m, name in enumerate(names)
    ]
    line = (
        alt.Chart(data(line_rows))
        .mark_line(
            color=VERMILION, strokeWidth=3, strokeDash=DASH["long"], point=alt.OverlayMarkDef(color=VERMILION, size=40)
        )
        .encode(x=order, y="amount:Q")
    )
    first = alt.Chart(data(line_rows[:1])).mark_text(align="left", dy=-24, dx=-6, fontWeight="bold")
    named = first.encode(x=order, y="amount:Q", text="kind:N")
    title = _finding(names, given=given, bought=bought, spare=spare)
    return Picture(
        title,
        f"Stacked bars of the heat taken in twelve months, with a dashed line of the heat the gas gives. {title}",
        sized(alt.layer(bars, line, named)),
        _table(appraisal, names, taken=taken, given=given, bought=bought, spare=spare),
    )


def _sum(appraisal: Appraisal, lines: tuple[str, ...]) -> np.ndarray[tuple[int], np.dtype[np.float64]]:
    held = [months_of(appraisal.values, line, year=appraisal.plant.year) for line in lines]
    total = np.zeros(MONTHS)
    for months in held:
        total = total + months
    return total * UNIT


def _taken(appraisal: Appraisal) -> dict[str, np.ndarray[tuple[int], np.dtype[np.float64]]]:
    """Heat by use; a use that takes none all year is left out, the digester never."""
    sums = {use: _sum(appraisal, lines) for use, lines, _ in NEED}
    return {use: months for use, months in sums.items() if use == NEED[0][0] or months.any()}


def _finding(names: list[str], **of: np.ndarray[tuple[int], np.dtype[np.float64]]) -> str:
    given, bought, spare = of["given"], of["bought"], of["spare"]
    if not given.any():
        return f"The gas gives no heat; {bought.sum():,.0f} thousand kWh are bought in the year"
    unused = f"{spare.sum() / given.sum():.0%} of the heat from the gas goes unused over the year"
    short = [names[month] for month in np.flatnonzero(bought > 0)]
    if short:
        span = f"in {short[0]}" if len(short) == 1 else f"in {len(short)} months"
        return f"Heat runs short {span}: {bought.sum():,.1f} thousand kWh must be bought; {unused}"
    tightest = names[int(np.argmin(spare / np.where(given > 0, given, np.inf)))]
    return f"The gas gives enough heat in every month, with least to spare in {tightest}; {unused}"


def _table(
    appraisal: Appraisal,
    names: list[str],
    *,
    taken: Mapping[str, np.ndarray[tuple[int], np.dtype[np.float64]]],
    given: np.ndarray[tuple[int], np.dtype[np.float64]],
    bought: np.ndarray[tuple[int], np.dtype[np.float64]],
    spare: np.ndarray[tuple[int], np.dtype[np.float64]],
) -> Table:
    columns = (*taken.values(), given, bought, spare)
    rows = [(name, *(f"{column[month]:,.1f}" for column in columns)) for month, name in enumerate(names)]
    rows.append(("year", *(f"{column.sum():,.1f}" for column in columns)))
    heads = (*(f"taken by {use}" for use in taken), "from the gas", "bought", "left unused")
    unit = units_of(appraisal).cells(0.0, "kWh")[1]
    return Table(
        f"Heat by month of project year {appraisal.plant.year}, thousand {unit}", ("month", *heads), tuple(rows)
    )
