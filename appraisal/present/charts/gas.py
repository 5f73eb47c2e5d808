"""The gas: where its energy goes, and which feeds give it."""

from __future__ import annotations

from dataclasses import dataclass

import altair as alt

from appraisal.appraise import Appraisal
from appraisal.lines.evaluate import year_sum
from appraisal.present.charts.picture import BLUE, GREEN, GREY, INK, PALE, VERMILION, Picture, Rows, data, listed, sized
from appraisal.present.numbers import percent
from appraisal.present.tables import Table, units_of
from appraisal.technical_yield.plant_year import METHANE_KWH_PER_NM3

STAGES = ("all gas made", "after engine and boiler", "what it is used for")
UNIT = 1e-3  # kWh -> thousand kWh
LABELLED_FROM = 0.07  # of all gas: a narrower part has no room for its name in the picture and stands in the table only
HUES = {"power": BLUE, "heat": VERMILION, "gas": GREEN, "lost": PALE}


@dataclass(frozen=True)
class Part:
    """A part of the gas energy of a year at one stage [thousand kWh]; kind decides its hue, used: it serves somebody."""

    stage: str
    name: str
    amount: float
    kind: str
    used: bool


def energy_parts(appraisal: Appraisal) -> tuple[Part, ...]:
    """All parts of the gas energy of the first full year; at every stage they add up to the energy of the gas made."""

    def of(line: str, factor: float = 1.0) -> float:
        return float(year_sum(appraisal.values[line][:1])[0, appraisal.plant.year - 1]) * factor * UNIT

    gas = METHANE_KWH_PER_NM3
    engines, boiler, flared = (of(line, gas) for line in ("methane_burned", "methane_to_boiler", "methane_flared"))
    sold_gas = of("methane_sold", gas)
    escaped = of("methane_leaked", gas) + of("methane_to_upgrading", gas) - sold_gas
    power, heat = of("power_gross"), of("heat_recoverable") + of("heat_from_boiler")
    lost = engines + boiler - power - heat
    digester = of("heat_digester_met") + of("heat_from_boiler")
    buildings = of("heat_to_house") + of("heat_to_barn") + of("heat_to_dryer")
    first, second, third = STAGES
    parts = (
        Part(first, "engines", engines, "power", used=True),
        Part(first, "boiler", boiler, "heat", used=True),
        Part(first, "sold as gas", sold_gas, "gas", used=True),
        Part(first, "flared", flared, "lost", used=False),
        Part(first, "escaped", escaped, "lost", used=False),
        Part(second, "power", power, "power", used=True),
        Part(second, "heat", heat, "heat", used=True),
        Part(second, "sold as gas", sold_gas, "gas", used=True),
        Part(second, "lost in engine and boiler", lost, "lost", used=False),
        Part(second, "flared or escaped", flared + escaped, "lost", used=False),
        Part(third, "power sold", of("power_sold"), "power", used=True),
        Part(third, "power for the farm", of("power_to_farm"), "power", used=True),
        Part(third, "power for the plant", of("power_own_use"), "power", used=True),
        Part(third, "heat for the digester", digester, "heat", used=True),
        Part(third, "heat for buildings", buildings, "heat", used=True),
        Part(third, "heat for buyers", of("heat_into_main"), "heat", used=True),
        Part(third, "sold as gas", sold_gas, "gas", used=True),
        Part(third, "heat left unused", of("heat_dumped"), "lost", used=False),
        Part(third, "lost, flared or escaped", lost + flared + escaped, "lost", used=False),
    )
    return tuple(part for part in parts if abs(part.amount) > 1e-9)


def gas_energy(appraisal: Appraisal) -> Picture:
    """Where the energy of the gas goes: three rows of one length."""
    parts = energy_parts(appraisal)
    made = sum(part.amount for part in parts if part.stage == STAGES[0]) or 1.0
    rows: Rows = []
    start = dict.fromkeys(STAGES, 0.0)
    for part in parts:
        begin = start[part.stage]
        start[part.stage] = begin + part.amount
        label = f"{part.name}|{part.amount / made:.0%}".split("|")
        rows.append(
            {
                "stage": part.stage,
                "name": part.name,
                "kind": part.kind,
                "from": begin,
                "to": begin + part.amount,
                "middle": begin + part.amount / 2,
                "amount": part.amount,
                "share": part.amount / made,
                "label": _broken(label[0], part.amount / made) if part.amount / made >= LABELLED_FROM else "",
                "percent": label[1] if part.amount / made >= LABELLED_FROM else "",
            }
        )
    stage = alt.Y("stage:N", sort=list(STAGES), title=None, axis=alt.Axis(labelLimit=170, domain=False, ticks=False))
    scale = alt.Scale(domain=[0, made], nice=False)
    bars = (
        alt.Chart(data(rows))
        .mark_bar(stroke="white", strokeWidth=2, height=70)
        .encode(
            y=stage,
            x=alt.X(
                "from:Q", title="energy of the gas, thousand kWh a year", scale=scale, axis=alt.Axis(format=",.0f")
            ),
            x2="to:Q",
            color=alt.Color("kind:N", scale=alt.Scale(domain=list(HUES), range=list(HUES.values())), legend=None),
            tooltip=[
                "stage:N",
                "name:N",
                alt.Tooltip("amount:Q", format=",.1f", title="thousand kWh"),
                alt.Tooltip("share:Q", format=".1%"),
            ],
        )
    )
    ink = alt.condition("datum.kind == 'lost'", alt.value(INK), alt.value("white"))
    names = (
        alt.Chart(data(rows))
        .mark_text(fontSize=11, dy=-14, lineHeight=12, lineBreak="\n")
        .encode(y=stage, x="middle:Q", text="label:N", color=ink)
    )
    shares = (
        alt.Chart(data(rows))
        .mark_text(fontWeight="bold", dy=22)
        .encode(y=stage, x="middle:Q", text="percent:N", color=ink)
    )
    used = sum(part.amount for part in parts if part.stage == STAGES[2] and part.used)
    power = sum(part.amount for part in parts if part.stage == STAGES[1] and part.kind == "power")
    title = f"{used / made:.0%} of the energy of the gas is put to use, {power / made:.0%} as power"
    if not any(part.amount for part in parts):
        title = "No gas is made in this year"
    lost = max(
        (part for part in parts if part.stage == STAGES[2] and not part.used),
        key=lambda part: part.amount,
        default=None,
    )
    more = f" The largest part that serves nobody: {lost.name}, {lost.amount / made:.0%}." if lost else ""
    return Picture(
        title,
        f"Three bars of one length show the energy of the gas as it is made, after the engine, and in use. {title}.{more}",
        sized(alt.layer(bars, names, shares), height=280),
        Table(
            f"Where the energy of the gas goes in project year {appraisal.plant.year}, thousand kWh (lower heating value)",
            ("stage", "part", "thousand kWh", "share"),
            tuple((part.stage, part.name, f"{part.amount:,.1f}", percent(part.amount / made)) for part in parts),
        ),
    )


def _broken(name: str, share: float) -> str:
    """A name in lines that fit its part of the picture."""
    room, lines = max(int(share * 75), 8), [""]
    for word in name.split():
        if lines[-1] and len(lines[-1]) + len(word) + 1 > room:
            lines.append("")
        lines[-1] = f"{lines[-1]} {word}".strip()
    return "\n".join(lines)


def gas_by_feed(appraisal: Appraisal) -> Picture:
    """Share of the gas of every herd and feed; feeds that somebody else may stop are hatched by hue and by word."""
    units, year, scenario = units_of(appraisal), appraisal.plant.year - 1, appraisal.loaded.scenario
    made = {
        name: float(year_sum(appraisal.values[f"substrate.{name}.methane"][:1])[0, year])
        for name in (*appraisal.structure.items["herd"], *appraisal.structure.items["feed"])
    }
    whole = sum(made.values()) or 1.0
    ending = {name for name, feed in scenario.feed.items() if feed.supply_by == "contract"}
    kinds = {True: "under a contract that may end", False: "the farm's own"}
    order = sorted(made, key=lambda name: -made[name])
    labels = {name: _label(appraisal, name) for name in order}
    rows: Rows = [
        {
            "feed": labels[name],
            "share": made[name] / whole,
            "kind": kinds[name in ending],
            "text": percent(made[name] / whole) + (" may end" if name in ending else ""),
        }
        for name in order
    ]
    feed = alt.Y("feed:N", sort=[labels[name] for name in order], title=None, axis=alt.Axis(labelLimit=200))
    top = max((row["share"] for row in rows), default=1.0)
    share = alt.X(
        "share:Q",
        title="share of the gas, %",
        axis=alt.Axis(format="%", values=[tenth / 10 for tenth in range(11)]),
        scale=alt.Scale(domain=[0, top * 1.3], nice=False),
    )
    hues = {
        kinds[may]: hue for may, hue in ((False, BLUE), (True, VERMILION)) if any(r["kind"] == kinds[may] for r in rows)
    }
    hue = alt.Color("kind:N", title=None, scale=alt.Scale(domain=list(hues), range=list(hues.values())))
    bars = (
        alt.Chart(data(rows))
        .mark_bar(stroke=GREY)
        .encode(y=feed, x=share, color=hue, tooltip=["feed:N", "kind:N", alt.Tooltip("share:Q", format=".1%")])
    )
    words = alt.Chart(data(rows)).mark_text(align="left", dx=4).encode(y=feed, x=share, text="text:N")
    lost = sum(made[name] for name in ending) / whole
    title = (
        f"{percent(lost)} of the gas hangs on {listed(labels[n] for n in order if n in ending)}, which somebody else may stop"
        if ending
        else "All of the gas comes from the farm's own manure and crops"
    )
    heads = ("feed", f"methane, {units.cells(0.0, 'Nm3')[1]} a year", "share of gas", "who decides")
    table = tuple(
        (labels[n], units.cells(made[n], "Nm3")[0], percent(made[n] / whole), kinds[n in ending]) for n in order
    )
    return Picture(
        title,
        f"Bars of the share of gas by feed. {title}. The largest: {rows[0]['feed']}, {percent(rows[0]['share'])}.",
        sized(alt.layer(bars, words), height=max(46 * len(rows), 90)),
        Table(f"Gas by feed in project year {year + 1}", heads, table),
    )


def _label(appraisal: Appraisal, name: str) -> str:
    """What a reader calls a herd or feed."""
    scenario = appraisal.loaded.scenario
    item = scenario.herd.get(name) or scenario.feed.get(name)
    return str(getattr(item, "label", "") or name).replace("_", " ")
