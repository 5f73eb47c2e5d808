"""The gas: where its energy goes, from what is made to what it serves."""

from __future__ import annotations

from collections.abc import Iterable, Mapping
from dataclasses import dataclass

import altair as alt

from appraisal.appraise import Appraisal
from appraisal.present.charts.picture import (
    BLUE,
    GREEN,
    INK,
    PALE,
    VERMILION,
    WHOLE,
    Chart,
    Picture,
    Rows,
    data,
    hues_of,
    sized,
)
from appraisal.present.numbers import percent
from appraisal.present.tables import Table
from appraisal.present.years import in_full_year
from appraisal.technical_yield.plant_year import METHANE_KWH_PER_NM3

UNIT = 1e-3  # kWh -> thousand kWh
LABELLED_FROM = 0.07  # of all gas: a narrower part has no room for its name in the picture and stands in the table only
NO_PART = 1e-9  # thousand kWh: less is left out
LETTERS, FEWEST = 75, 8  # that have room in the whole width, and in the narrowest part
LOST = "lost"
HUES = {"power": BLUE, "heat": VERMILION, "gas": GREEN, LOST: PALE}
STAGES = MADE, TURNED, USED = "all gas made", "after engine and boiler", "what it is used for"
OF_GAS = (
    "methane_burned",
    "methane_to_boiler",
    "methane_sold",
    "methane_flared",
    "methane_leaked",
    "methane_to_upgrading",
)
OF_ENERGY = (
    "power_gross", "heat_recoverable", "heat_from_boiler", "power_sold", "power_to_farm", "power_own_use",
    "heat_digester_met", "heat_to_house", "heat_to_barn", "heat_to_dryer", "heat_into_main", "heat_dumped",
)  # fmt: skip
PARTS: Mapping[str, tuple[tuple[str, str, tuple[str, ...]], ...]] = {  # stage -> name, kind, lines that make it
    MADE: (
        ("engines", "power", ("methane_burned",)),
        ("boiler", "heat", ("methane_to_boiler",)),
        ("sold as gas", "gas", ("methane_sold",)),
        ("flared", LOST, ("methane_flared",)),
        ("escaped", LOST, ("escaped",)),
    ),
    TURNED: (
        ("power", "power", ("power_gross",)),
        ("heat", "heat", ("heat_recoverable", "heat_from_boiler")),
        ("sold as gas", "gas", ("methane_sold",)),
        ("lost in engine and boiler", LOST, ("lost",)),
        ("flared or escaped", LOST, ("methane_flared", "escaped")),
    ),
    USED: (
        ("power sold", "power", ("power_sold",)),
        ("power for the farm", "power", ("power_to_farm",)),
        ("power for the plant", "power", ("power_own_use",)),
        ("heat for the digester", "heat", ("heat_digester_met", "heat_from_boiler")),
        ("heat for buildings", "heat", ("heat_to_house", "heat_to_barn", "heat_to_dryer")),
        ("heat for buyers", "heat", ("heat_into_main",)),
        ("sold as gas", "gas", ("methane_sold",)),
        ("heat left unused", LOST, ("heat_dumped",)),
        ("lost, flared or escaped", LOST, ("lost", "methane_flared", "escaped")),
    ),
}


@dataclass(frozen=True)
class Part:
    """A part of the gas energy of a year at one stage [thousand kWh]; kind decides its hue."""

    stage: str
    name: str
    amount: float
    kind: str


def gas_energy(appraisal: Appraisal) -> Picture:
    """Where the energy of the gas goes: three rows of one length."""
    parts = energy_parts(appraisal)
    made = _sum(part for part in parts if part.stage == MADE) or 1.0
    title = _finding(parts, made)
    return Picture(
        title,
        "Three bars of one length show the energy of the gas as it is made, after the engine, and in use. "
        f"{title}.{_most_lost(parts, made)}",
        sized(alt.layer(*_layers(_rows(parts, made), made)), height=280),
        _table(parts, made=made, year=appraisal.plant.year),
    )


def energy_parts(appraisal: Appraisal) -> tuple[Part, ...]:
    """All parts of the gas energy of the first full year; at every stage they add up to the energy of the gas made."""
    flows = _flows(appraisal)
    parts = (
        Part(stage, name, sum(flows[each] for each in made_of), kind)
        for stage, told in PARTS.items()
        for name, kind, made_of in told
    )
    return tuple(part for part in parts if abs(part.amount) > NO_PART)


def _flows(appraisal: Appraisal) -> dict[str, float]:
    """Energy of the first full year [thousand kWh]: of gas by its lower heating value, of power and heat by their lines."""
    worth = {**dict.fromkeys(OF_GAS, METHANE_KWH_PER_NM3), **dict.fromkeys(OF_ENERGY, 1.0)}
    flows = {line: in_full_year(appraisal, line) * energy * UNIT for line, energy in worth.items()}
    burned = flows["methane_burned"] + flows["methane_to_boiler"]
    heat = flows["heat_recoverable"] + flows["heat_from_boiler"]
    lost = burned - flows["power_gross"] - heat
    return {
        **flows,
        "lost": lost,
        "escaped": flows["methane_leaked"] + flows["methane_to_upgrading"] - flows["methane_sold"],
    }


def _sum(parts: Iterable[Part]) -> float:
    return sum(part.amount for part in parts)


def _rows(parts: tuple[Part, ...], made: float) -> Rows:
    rows: Rows = []
    start = dict.fromkeys(STAGES, 0.0)
    for part in parts:
        begin, share = start[part.stage], part.amount / made
        start[part.stage] = begin + part.amount
        told = share >= LABELLED_FROM
        rows.append({
            "stage": part.stage, "name": part.name, "kind": part.kind, "from": begin, "to": begin + part.amount,
            "middle": begin + part.amount / 2, "amount": part.amount, "share": share,
            "label": _broken(part.name, share) if told else "", "percent": f"{share:.0%}" if told else "",
        })  # fmt: skip
    return rows


def _broken(name: str, share: float) -> str:
    """A name in lines that fit its part of the picture."""
    room, lines = max(int(share * LETTERS), FEWEST), [""]
    for word in name.split():
        if lines[-1] and len(lines[-1]) + len(word) + 1 > room:
            lines.append("")
        lines[-1] = f"{lines[-1]} {word}".strip()
    return "\n".join(lines)


def _layers(rows: Rows, made: float) -> tuple[Chart, Chart, Chart]:
    """The bars, the names in them, and the shares under the names."""
    stage = alt.Y("stage:N", sort=list(STAGES), title=None, axis=alt.Axis(labelLimit=170, domain=False, ticks=False))
    bars = alt.Chart(data(rows)).mark_bar(stroke="white", strokeWidth=2, height=70)
    energy = alt.X(
        "from:Q",
        title="energy of the gas, thousand kWh a year",
        axis=alt.Axis(format=WHOLE),
        scale=alt.Scale(domain=[0, made], nice=False),
    )
    amount = alt.Tooltip("amount:Q", format=",.1f", title="thousand kWh")
    tips = ["stage:N", "name:N", amount, alt.Tooltip("share:Q", format=".1%")]
    names = alt.Chart(data(rows)).mark_text(fontSize=11, dy=-14, lineHeight=12, lineBreak="\n")
    shares = alt.Chart(data(rows)).mark_text(fontWeight="bold", dy=22)
    ink = alt.condition(f"datum.kind == '{LOST}'", alt.value(INK), alt.value("white"))
    return (
        bars.encode(y=stage, x=energy, x2="to:Q", color=hues_of("kind", HUES, legend=None), tooltip=tips),
        names.encode(y=stage, x="middle:Q", text="label:N", color=ink),
        shares.encode(y=stage, x="middle:Q", text="percent:N", color=ink),
    )


def _finding(parts: tuple[Part, ...], made: float) -> str:
    if not parts:
        return "No gas is made in this year"
    used = _sum(part for part in parts if part.stage == USED and part.kind != LOST)
    power = _sum(part for part in parts if part.stage == TURNED and part.kind == "power")
    return f"{used / made:.0%} of the energy of the gas is put to use, {power / made:.0%} as power"


def _most_lost(parts: tuple[Part, ...], made: float) -> str:
    lost = [part for part in parts if part.stage == USED and part.kind == LOST]
    if not lost:
        return ""
    most = max(lost, key=lambda part: part.amount)
    return f" The largest part that serves nobody: {most.name}, {most.amount / made:.0%}."


def _table(parts: tuple[Part, ...], *, made: float, year: int) -> Table:
    return Table(
        f"Where the energy of the gas goes in project year {year}, thousand kWh (lower heating value)",
        ("stage", "part", "thousand kWh", "share"),
        tuple((part.stage, part.name, f"{part.amount:,.1f}", percent(part.amount / made)) for part in parts),
    )
