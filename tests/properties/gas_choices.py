"""The demonstration farms with the choices of this part made: limit, boiler, upgrading, cleaning, own use, stops, wear."""

from __future__ import annotations

import re
from functools import cache

import numpy as np
import numpy.typing as npt

from appraisal import model
from appraisal.appraise import Appraisal, appraise
from appraisal.demos import demos
from appraisal.lines.evaluate import evaluate
from appraisal.scenario.load import loads
from appraisal.scenario.model import declared

Array = npt.NDArray[np.float64]

CLEANING = """
[cleaning]
iron = "yes"
iron_price_per_kg = 1.4
air = "yes"
carbon = "yes"
carbon_price_per_kg = 5
upkeep_per_year = 2000
"""
GAS = """
[gas]
storage_m3 = 900
flare_nm3_per_hour = 150
"""
ENGINE = """
part_load = "data_sheet"
efficiency_drift_share = 0.01
planned_stop_weeks_per_year = 1
planned_stop_weight = [0, 0, 0, 0, 0, 12, 0, 0, 0, 0, 0, 0]
availability = 0.95
top_end_stop_hours = 72
major_stop_hours = 240
derating_from_m = 0
"""
UPGRADING = """
[upgrading]
takes = "share_of_gas"
like = "amine_250"
share_of_gas = 0.4
capacity_nm3_per_hour = 60
contract_price_per_kwh = 0.06
contract_years = 8
market_price_per_kwh = 0.03
upkeep_per_year = 40000
upkeep_per_nm3 = 0.01
"""
BOILER = '\n[boiler]\nfuel = "biogas"\nrated_kw = 60\n'


def limit(kw: float, over: str) -> str:
    """A section that limits what the grid takes [kW]."""
    return f'\n[grid]\nexport = "limited"\nexport_limit_kw = {kw}\nover_limit = "{over}"\n'


# Case -> demo, text added at the end, text added below the headings of tables.
CASES: dict[str, tuple[str, str, dict[str, str]]] = {
    "throttled": (
        "shared_plant_three_farms",
        GAS + CLEANING + BOILER + limit(150, "throttled"),
        {
            "[engine.one]": ENGINE + 'running = "full_load"\nmajor_interval_hours = 30000\n',
            "[engine.two]": ENGINE + "top_end_interval_hours = 9000\n",
            "[power]": 'plant_use_method = "by_consumer"',
            "[feed.canteen_food]": 'handling = "macerated_12mm"',
            "[herd.hill_farm_cows_on_straw]": 'handling = "solid_feeder"',
            "[feed.potato_peel]": 'handling = "macerated"',
        },
    ),
    "flared": (
        "dairy_with_leftovers",
        BOILER + limit(210, "flared"),
        {
            "[engine.main]": ENGINE,
            "[site]": "elevation_m = 900",
            "[power]": 'plant_use_method = "by_consumer"',
            "[feed.bakery]": 'handling = "depackaged"',
            "[feed.whey]": 'handling = "finely_ground"',
        },
    ),
    "upgraded": ("dairy_with_leftovers", GAS + UPGRADING + BOILER, {}),
    "cold": (
        "small_herd_manure_only",
        BOILER.replace("60", "4") + limit(8, "throttled"),
        {"[site]": "elevation_m = 1500", "[engine.main]": 'running = "full_load"'},
    ),
}
NAMES = tuple(CASES)
ALL_SOLD = UPGRADING.replace("share_of_gas = 0.4", "share_of_gas = 1").replace("= 60", "= 200")
CASES["all_gas_sold"] = ("dairy_with_leftovers", GAS + ALL_SOLD, {})  # not among the names: its engine never runs


@cache
def chosen(name: str) -> Appraisal:
    """One case, appraised once a test process."""
    demo, added, below = CASES[name]
    text = demos()[demo].read_text("utf-8")
    for heading in re.findall(r"^\[\w+\]$", added, flags=re.MULTILINE):  # the case's own section instead of the demo's
        text = re.sub(rf"^{re.escape(heading)}\n(?:[^\[\n].*\n)*", "", text, flags=re.MULTILINE)
    for heading, lines in below.items():
        assert text.count(f"{heading}\n") == 1, heading
        text = text.replace(f"{heading}\n", f"{heading}\n{lines}\n")
    return appraise(loads(text + added, file=name))


def moved(name: str, *, draws: int = 60, seed: int = 7) -> dict[str, Array]:
    """Inputs of a case, every number (draws, 1) moved by up to 40 % inside its declared limits."""
    rng, case = np.random.default_rng(seed), chosen(name)
    inputs = dict(case.inputs)
    for pattern, item in declared().items():
        for path in model.paths(case.structure, pattern):
            if item.kind == "number":
                inputs[path] = np.clip(case.inputs[path] * rng.uniform(0.6, 1.4, (draws, 1)), item.low, item.high)
    inputs["project.build_months"] = np.round(inputs["project.build_months"])
    return inputs


def evaluated(name: str, inputs: dict[str, Array]) -> dict[str, Array]:
    """All lines of a case at other inputs."""
    case = chosen(name)
    return evaluate(case.plan, model.inputs(case.structure, inputs))


@cache
def batch(name: str) -> dict[str, Array]:
    """All lines of one case over random plants."""
    return evaluated(name, moved(name))
