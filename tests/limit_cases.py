"""A plain plant on which every operating limit is tried, and the cases: one input moved across each edge of each band."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import replace
from functools import cache
from typing import NamedTuple

import numpy as np

from appraisal import model
from appraisal.errors import Finding
from appraisal.lines.evaluate import Values, evaluate
from appraisal.lines.plan import Plan
from appraisal.scenario.load import Loaded, loads
from appraisal.scenario.model import Scenario
from appraisal.scenario.reference import row
from appraisal.scenario.values import structure, values
from appraisal.technical_yield import limits
from appraisal.technical_yield.plant_year import plant_year

COWS = """
[herd.cows]
animal = "dairy_lactating"
like = "dairy_slurry"
head = 400
"""
FOOD = """
[feed.food]
like = "food_waste_commercial"
tonnes_per_year = 3000
supply_by = "contract"
contract_years = 5
"""
MAIZE = """
[feed.maize]
like = "maize_silage"
tonnes_per_year = 9000
handling = "solid_feeder"
supply_by = "own"
"""
PLANT = """
schema_version = 1

[project]
name = "Limits"
currency = "EUR"
first_month = "2027-01"
years = 3
build_months = 0

[site]
climate = "gb_england_shawbury"

[digester]
kind = "stirred_tank"
active_volume_m3 = 1000
ramp_months = 0
heat_loss_w_per_k = 400

[pasteuriser]

[engine.main]
rated_kw = 150
minimum_load = 0.2
maintenance_per_kwh = 0
top_end_cost = 0
major_cost = 0

[power]
contract_price_per_kwh = 0
market_price_per_kwh = 0
bought_price_per_kwh = 0

[labour]
hired_wage_per_hour = 0

[tax]
rate = 0
rate_year = 2027

[judging]
discount_rate = 0
"""
TANK = 'kind = "stirred_tank"'
PLUG_FLOW, POND, HOT, MEASURED = (
    (TANK, 'kind = "plug_flow"'),
    (TANK, 'kind = "covered_lagoon"'),
    (TANK, f"{TANK}\ntemperature_degc = 52"),
    (TANK, f'{TANK}\ngas_method = "measured"\nmeasured_gas_nm3_per_day = 1000'),
)
AIR = ("[pasteuriser]", '[cleaning]\nair = "yes"\n[pasteuriser]')
IRON = ("[pasteuriser]", '[cleaning]\niron = "yes"\niron_price_per_kg = 1\n[pasteuriser]')
OVEN = ("[pasteuriser]", '[pasteuriser]\ntreats = "everything"')
LARGE = ("rated_kw = 150", "rated_kw = 600")
NO_FANS = ("minimum_load = 0.2", "minimum_load = 0.2\nauxiliaries_share = 0")


class Case(NamedTuple):
    """A band, where its finding stands, the input that is moved between two ends, what is fed and what is exchanged."""

    limit: str
    where: str
    path: str
    low: float
    high: float
    fed: str = COWS
    swaps: tuple[tuple[str, str], ...] = ()


VOLUME, NITROGEN, SOLIDS = "digester.active_volume_m3", "herd.cows.n_kg_per_t", "herd.cows.ts_share"
GAS = "digester.measured_gas_nm3_per_day"
CASES = (
    Case("hrt_manure", "retention", VOLUME, 100, 9000),
    Case("hrt_thermophilic_manure", "retention", VOLUME, 50, 9000, swaps=(HOT,)),
    Case("hrt_plug_flow", "retention", VOLUME, 100, 9000, swaps=(PLUG_FLOW,)),
    Case("hrt_lagoon", "retention", VOLUME, 100, 30000, swaps=(POND,)),
    Case("hrt_manure_food", "retention", VOLUME, 100, 20000, fed=COWS + FOOD),
    Case("hrt_food", "retention", VOLUME, 50, 9000, fed=FOOD),
    Case("hrt_crops", "retention", VOLUME, 100, 20000, fed=MAIZE),
    Case("olr_manure", "loading_rate", VOLUME, 100, 20000),
    Case("olr_manure_food", "loading_rate", VOLUME, 100, 30000, fed=COWS + FOOD),
    Case("olr_food", "loading_rate", VOLUME, 100, 20000, fed=FOOD),
    Case("olr_crops", "loading_rate", VOLUME, 300, 60000, fed=MAIZE),
    Case("feed_ts_stirred", "dry_matter_fed", SOLIDS, 0.01, 0.25),
    Case("feed_ts_plug_flow", "dry_matter_fed", SOLIDS, 0.04, 0.3, swaps=(PLUG_FLOW,)),
    Case("reactor_ts", "tank_dry_matter", SOLIDS, 0.01, 0.35),
    Case("temperature_mesophilic", "digester.temperature_degc", "digester.temperature_degc", 20, 45.9),
    Case("temperature_thermophilic", "digester.temperature_degc", "digester.temperature_degc", 46, 60),
    Case("tan_mesophilic", "ammonium_level", NITROGEN, 0.1, 30),
    Case("tan_thermophilic", "ammonium_level", NITROGEN, 0.1, 30, swaps=(HOT,)),
    Case("fan", "free_ammonia_high", NITROGEN, 1, 40),
    Case("c_to_n", "carbon_to_nitrogen", "feed.food.n_kg_per_t", 0.4, 60, fed=FOOD),
    Case("fat_share", "fat_share", "herd.cows.fat_share_of_vs", 0, 1),
    Case("h2s_raw", "h2s_raw", "herd.cows.s_kg_per_t", 0, 20),
    Case("h2s_engine", "h2s_at_engine", "herd.cows.s_kg_per_t", 0, 20, swaps=(IRON,)),
    Case("air_dosing", "cleaning.air_share", "cleaning.air_share", 0, 0.2, swaps=(AIR,)),
    Case("oxygen_in_gas", "oxygen_in_gas", "cleaning.air_share", 0, 0.2, swaps=(AIR,)),
    Case("methane_share", "biogas_made", "herd.cows.methane_share", 0.3, 0.8),
    Case("gas_productivity", "biogas_made", GAS, 50, 9000, swaps=(MEASURED,)),
    Case("yield_against_potential", "methane_made", GAS, 100, 4000, swaps=(MEASURED,)),
    Case("vs_destroyed", "volatile_solids_gone_share", GAS, 50, 5000, swaps=(MEASURED,)),
    Case("flare_share", "methane_flared", "engine.main.rated_kw", 30, 150),
    Case("methane_loss", "methane_lost", "digester.leak_share", 0, 0.3),
    Case("contract_gas_share", "methane_that_may_end", "feed.food.tonnes_per_year", 0, 60000, fed=COWS + FOOD),
    Case("gas_storage", "gas_storage_hours", "gas.storage_m3", 1, 8000),
    Case("engine_load", "engine.main.load", "engine.main.rated_kw", 60, 1000),
    Case("own_use_share", "power_own_use", "power.plant_use_kwh_per_t", 0, 60, swaps=(NO_FANS,)),
    Case("kwh_per_cow_day", "power_per_cow", "herd.cows.potential_nm3_per_t_vs", 10, 1100, swaps=(LARGE,)),
    Case("heat_cover_coldest_month", "heat_to_digester", "digester.heat_loss_w_per_k", 0, 20000),
    Case("pasteurising_temperature", "pasteuriser.temperature_degc", "pasteuriser.temperature_degc", 55, 95, swaps=(OVEN,)),
)
# Edges that no scenario can pass, and why.
OUT_OF_REACH: Mapping[tuple[str, str], str] = {
    ("temperature_mesophilic", "stop_and_ask_high"): "at 46 degC the hot band takes over, at its own stop edge",
    ("temperature_thermophilic", "stop_and_ask_low"): "below 46 degC the warm band takes over, at its own stop edge",
    ("temperature_thermophilic", "stop_and_ask_high"): "above 60 degC the loader refuses the value",
    ("engine_load", "comfortable_high"): "no line gives an engine more than full load",
    ("engine_load", "warn_high"): "no line gives an engine more than full load",
    ("engine_load", "stop_and_ask_high"): "no line gives an engine more than full load",
}
PHYSICS = ("appraisal.timeline", "appraisal.technical_yield")
ORDER = ("", "note", "warning", "stop and ask")


@cache
def base(fed: str, swaps: tuple[tuple[str, str], ...]) -> tuple[Loaded, Plan, Values]:
    """The plain plant with something exchanged, its plan as far as the physics need it, and its inputs."""
    text = PLANT
    for old, new in swaps:
        assert text.count(old) == 1, old
        text = text.replace(old, new)
    loaded = loads(text + fed)
    shape = structure(loaded)
    whole = model.plan_of(shape)
    asked = [name for name, node in whole.nodes.items() if node.line.body.__module__.startswith(PHYSICS)]
    needed = read_by(whole, asked)
    short = replace(whole, steps=tuple(step for step in whole.steps if step.nodes[0].name in needed))
    return loaded, short, model.inputs(shape, values(loaded))


def read_by(plan: Plan, names: list[str]) -> set[str]:
    """Some lines and all lines they read, directly or not."""
    found: set[str] = set()
    while names:
        name = names.pop()
        if name in plan.nodes and name not in found:
            found.add(name)
            names += [ref.name for ref in plan.nodes[name].refs()]
    return found


def moved(scenario: Scenario, path: str, value: float) -> Scenario:
    """The scenario with one number exchanged."""
    section, *item, field = path.split(".")
    old = getattr(scenario, section)
    new = old[item[0]].model_copy(update={field: value}) if item else old.model_copy(update={field: value})
    return scenario.model_copy(update={section: {**old, item[0]: new} if item else new})


def judged(case: Case, value: float) -> tuple[Finding, ...]:
    """All findings on operating limits with the input of a case at a value."""
    loaded, plan, inputs = base(case.fed, case.swaps)
    scenario = moved(loaded.scenario, case.path, value)
    lines = evaluate(plan, {**inputs, case.path: np.array([[value]])})
    plant = plant_year(lines, year=1, rated_kw=sum(engine.rated_kw for engine in scenario.engine.values()))
    return limits.findings(scenario, lines, plant)


def found(case: Case, value: float) -> Finding | None:
    """The finding about this band with the input at a value, None inside the comfortable band."""
    unit = row("digester_limits", case.limit)["unit"]
    at = [each for each in judged(case, value) if each.where == case.where and each.unit == unit]
    assert len(at) <= 1
    return at[0] if at else None


def grade(case: Case, value: float, side: str) -> int:
    """How serious the finding is, 0 for none, when it lies on the side asked for."""
    finding = found(case, value)
    if finding is None or finding.value is None or finding.limit is None:
        return 0
    return ORDER.index(finding.severity) if (finding.value > finding.limit) == (side == "high") else 0
