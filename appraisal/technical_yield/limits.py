"""Operating limits as findings: a figure held against comfortable, warning and stop-and-ask bands of the reference table."""

from __future__ import annotations

from collections.abc import Callable, Iterator

import numpy as np

from appraisal.errors import Finding, Severity
from appraisal.scenario.model import Scenario
from appraisal.scenario.reference import row
from appraisal.technical_yield.plant_year import PlantYear, Values, months_of

BANDS: tuple[tuple[str, Severity], ...] = (
    ("stop_and_ask", "stop and ask"),
    ("warn", "warning"),
    ("comfortable", "note"),
)
Check = Callable[[Scenario, Values, PlantYear], Iterator[Finding | None]]
MEASURED_WITHIN = 0.2
ROUNDING = 1e-9  # of the limit: a figure that meets a limit is not beyond it
THERMOPHILIC_FROM = 46.0  # degC; between the two bands of table digester_limits


def band(limit: str, value: float, *, where: str, figure: str) -> Finding | None:
    """Hold one figure against a row of table digester_limits; None inside the comfortable band.

    value: in the unit of the row. where: path or line. figure: the figure in words, with unit.
    """
    facts = row("digester_limits", limit)
    for name, severity in BANDS:
        for side, sign in (("low", -1), ("high", 1)):
            edge = facts[f"{name}_{side}"]
            if edge and sign * (value - float(edge)) > ROUNDING * abs(float(edge)):
                word = "under" if side == "low" else "over"
                what = f"{figure}, {word} the {_words(name)} limit of {edge} {facts['unit']}. {facts['plain_meaning']}"
                return Finding(
                    where, what, severity, value, float(edge), facts["unit"], _source(facts["source"], facts["basis"])
                )
    return None


def _words(name: str) -> str:
    return {"stop_and_ask": "stop-and-ask", "warn": "warning", "comfortable": "comfortable"}[name]


def _source(source: str, basis: str) -> str:
    return f"{source} ({basis})" if basis and basis != source else source


def feed_kind(scenario: Scenario, values: Values, plant: PlantYear) -> str:
    """What the digester mainly eats, for the choice of limits: manure, manure_food, food or crops."""
    solids = {"manure": 0.0, "crop": 0.0, "other": 0.0}
    for name in scenario.herd:
        solids["manure"] += months_of(values, f"substrate.{name}.volatile_solids", year=plant.year).sum()
    for name, feed in scenario.feed.items():
        category = row("feedstocks", feed.like)["category"] if feed.like else "other"
        kind = category if category in ("manure", "crop") else "other"
        solids[kind] += months_of(values, f"substrate.{name}.volatile_solids", year=plant.year).sum()
    whole = sum(solids.values()) or 1.0
    if solids["manure"] / whole > 0.9:
        return "manure"
    if solids["crop"] > solids["other"]:
        return "crops"
    return "manure_food" if solids["manure"] / whole > 0.1 else "food"


def retention(scenario: Scenario, values: Values, plant: PlantYear) -> Iterator[Finding | None]:
    """Retention time against its band, and a declared or said one against volume and flow."""
    used = float(months_of(values, "retention", year=plant.year).min())
    limit = "plug_flow" if scenario.digester.kind == "plug_flow" else feed_kind(scenario, values, plant)
    yield band(f"hrt_{limit}", used, where="retention", figure=f"The feed stays {used:.1f} days in the worst month")
    by_volume = float(months_of(values, "retention_by_volume", year=plant.year).mean())
    said = {"claims.retention_days": scenario.claims.retention_days}
    if scenario.digester.retention == "declared":
        said["digester.declared_retention_days"] = scenario.digester.declared_retention_days
    for where, days in said.items():
        if days > 0 and abs(days / by_volume - 1) > 0.1:
            yield Finding(
                where,
                f"{days:.1f} days of retention are stated, but {scenario.digester.active_volume_m3:,.0f} m3 over the "
                f"daily flow gives {by_volume:.1f} days. One of volume, flow and retention is not right.",
                "warning",
                days,
                by_volume,
                "day",
                "volume over flow, arithmetic",
            )


def loading(scenario: Scenario, values: Values, plant: PlantYear) -> Iterator[Finding | None]:
    """Organic loading rate of the worst month."""
    rate = float(months_of(values, "loading_rate", year=plant.year).max())
    limit = "olr_" + feed_kind(scenario, values, plant)
    yield band(
        limit,
        rate,
        where="loading_rate",
        figure=f"The tank is loaded with {rate:.2f} kg of volatile solids per m3 and day",
    )


def dry_matter(scenario: Scenario, values: Values, plant: PlantYear) -> Iterator[Finding | None]:
    """Dry matter of what is pumped through a plug flow, or of the liquid in a stirred tank, whose feed may be solid."""
    plug = scenario.digester.kind == "plug_flow"
    solids, mass = ("dry_matter_fed", "tonnes_fed") if plug else ("digestate_dry_matter", "digestate_mass")
    top, bottom = (float(months_of(values, name, year=plant.year).sum()) for name in (solids, mass))
    share = top / bottom * 100 if bottom > 0 else 0.0
    limit, whose = ("feed_ts_plug_flow", "The mixed feed") if plug else ("reactor_ts", "The liquid in the tank")
    yield band(limit, share, where=solids, figure=f"{whose} holds {share:.1f} % dry matter")


def temperature(scenario: Scenario, values: Values, plant: PlantYear) -> Iterator[Finding | None]:
    """Digester temperature against the band of its regime."""
    value = scenario.digester.temperature_degc
    limit = "temperature_thermophilic" if value >= THERMOPHILIC_FROM else "temperature_mesophilic"
    yield band(limit, value, where="digester.temperature_degc", figure=f"The digester is held at {value:.1f} degC")


def ammonia(scenario: Scenario, values: Values, plant: PlantYear) -> Iterator[Finding | None]:
    """Total ammonium nitrogen of the worst month."""
    level = float(months_of(values, "ammonium_level", year=plant.year).max())
    limit = "tan_thermophilic" if scenario.digester.temperature_degc >= THERMOPHILIC_FROM else "tan_mesophilic"
    yield band(limit, level, where="ammonium_level", figure=f"Ammonium nitrogen reaches {level:.1f} g per litre")


def gas_and_power(scenario: Scenario, values: Values, plant: PlantYear) -> Iterator[Finding | None]:
    """Flared share, own use, share of gas under contract, and solids digested."""
    made = plant.methane_nm3
    if made <= 0 or plant.power_gross_kwh <= 0:
        yield Finding(
            "methane_made",
            "In its first full year the plant makes no gas or no power.",
            "stop and ask",
            made,
            0.0,
            "Nm3/year",
        )
        return
    flared, own = plant.methane_flared_nm3 / made, plant.power_own_use_kwh / plant.power_gross_kwh
    yield band("flare_share", flared, where="methane_flared", figure=f"{flared:.1%} of the gas is flared")
    yield band("own_use_share", own, where="power_own_use", figure=f"The plant uses {own:.1%} of its own power")
    share = plant.contract_gas_share
    yield band(
        "contract_gas_share",
        share,
        where="methane_that_may_end",
        figure=f"{share:.0%} of the gas comes from feeds under contracts that may end",
    )
    gone = float(np.max(months_of(values, "volatile_solids_gone_share", year=plant.year)))
    yield band(
        "vs_destroyed", gone, where="volatile_solids_gone_share", figure=f"{gone:.0%} of the volatile solids become gas"
    )


def engine_load(scenario: Scenario, values: Values, plant: PlantYear) -> Iterator[Finding | None]:
    """Mean load of each engine while it runs."""
    for name, engine in scenario.engine.items():
        power, hours = (
            months_of(values, f"engine.{name}.{line}", year=plant.year).sum() for line in ("power", "hours")
        )
        if hours > 0:
            load = float(power / hours / engine.rated_kw)
            yield band(
                "engine_load",
                load,
                where=f"engine.{name}.load",
                figure=f"Engine {name} runs at {load:.0%} load on average",
            )


def measured_gas(scenario: Scenario, values: Values, plant: PlantYear) -> Iterator[Finding | None]:
    """Measured gas against what the model expects of the same feed."""
    if scenario.digester.gas_method == "measured":
        ratio = float(values["measured_over_modelled"][0, 0])
        if not 1 - MEASURED_WITHIN <= ratio <= 1 + MEASURED_WITHIN:
            what = f"The measured gas is {ratio:.2f} times what the model expects of this feed: check meter, feed and retention."
            source = "common practice, no source: manure yields are known to about 20 %"
            yield Finding("digester.measured_gas_nm3_per_day", what, "warning", ratio, 1.0, "1", source)


def heat_in_winter(scenario: Scenario, values: Values, plant: PlantYear) -> Iterator[Finding | None]:
    """Engine heat over digester need in the worst month of the year."""
    need, have = (months_of(values, name, year=plant.year) for name in ("heat_to_digester", "heat_recoverable"))
    covered = float(np.min(have / np.where(need > 0, need, np.inf))) if (need > 0).all() else np.inf
    yield band(
        "heat_cover_coldest_month",
        covered,
        where="heat_to_digester",
        figure=f"In the worst month engine heat is {covered:.2f} times what the digester needs",
    )


CHECKS: tuple[Check, ...] = (
    retention,
    loading,
    dry_matter,
    temperature,
    ammonia,
    gas_and_power,
    engine_load,
    heat_in_winter,
)


def findings(scenario: Scenario, values: Values, plant: PlantYear) -> tuple[Finding, ...]:
    """All findings on how the plant would run, for one case (the first draw)."""
    return tuple(found for check in CHECKS for found in check(scenario, values, plant) if found)
