"""Plants of every kind of digester, with everything that can happen to one: made of a demo by changing its text."""

from __future__ import annotations

import re
from dataclasses import replace
from functools import cache

import numpy as np
import numpy.typing as npt

from appraisal import model
from appraisal.appraise import Appraisal, appraise
from appraisal.demos import demos
from appraisal.lines.evaluate import evaluate
from appraisal.lines.plan import Plan
from appraisal.scenario.load import loads
from appraisal.scenario.model import declared

Array = npt.NDArray[np.float64]
KINDS = ("stirred_tank", "tanks_in_series", "plug_flow", "covered_lagoon")
DRAWS = 350  # of each demo: together over a thousand random plants
EVENTS = """
[clean_out]
every_years = 6
off_weeks = 5
each_cost = 30000
seed_t = 200

[start_up]
seed_t = 300
seed_cost_per_t = 12
gas_share_by_year = [0.85, 0.95, 1]

[upset]
month = 40
seed_t = 150
other_cost = 9000
"""
RETURN = '\n[recirculation]\namount = "share_of_feed"\nreturned_share = 0.4\nsolids_share = 0.6\nundigested_share = 0.3\n'


def changed(name: str, kind: str, *, tank: str = "", more: str = "") -> str:
    """Text of a demo with another kind of digester, other keys of it, and more tables in the place of its own."""
    text = demos()[name].read_text(encoding="utf-8")
    for table in re.findall(r"^\[(\w+)\]$", more, flags=re.MULTILINE):
        text = re.sub(rf"^\[{table}\]\n.*?(?=^\[)", "", text, flags=re.MULTILINE | re.DOTALL)
    head, mark, rest = text.partition("[digester]\n")
    body, end, tail = rest.partition("\n[")
    assert mark and end
    written = ("kind", *(key.split(" ")[0] for key in tank.splitlines()))
    kept = [line for line in body.splitlines() if not line.startswith(written)]
    return "\n".join([head + mark + f'kind = "{kind}"', tank, *kept]) + end + tail + more


@cache
def plant(name: str, kind: str, tank: str = "", more: str = "") -> Appraisal:
    """One changed demo, appraised once a test process."""
    return appraise(loads(changed(name, kind, tank=tank, more=more), file=f"{name}.toml"))


@cache
def busy(name: str, kind: str) -> Appraisal:
    """A demo with grit, clean-outs, a poor start, a soured tank and return liquid."""
    tank = "grit_share_per_year = 0.03" + ("\nsecond_volume_m3 = 400" if kind == "tanks_in_series" else "")
    return plant(name, kind, tank, EVENTS + RETURN)


def drawn(case: Appraisal, *, draws: int = DRAWS, seed: int = 2) -> dict[str, Array]:
    """Inputs of a plant, every number (draws, 1) moved by up to 40 % inside its declared limits."""
    rng, moved = np.random.default_rng(seed), dict(case.inputs)
    for pattern, item in declared().items():
        for path in model.paths(case.structure, pattern):
            if item.kind == "number":
                moved[path] = np.clip(case.inputs[path] * rng.uniform(0.6, 1.4, (draws, 1)), item.low, item.high)
    return moved


def lines(case: Appraisal, inputs: dict[str, Array], *, only: tuple[str, ...] = ()) -> dict[str, Array]:
    """Lines of a plant at other inputs: all of them, or some and what they are made of."""
    return evaluate(_as_far_as(case.plan, only) if only else case.plan, model.inputs(case.structure, inputs))


def _as_far_as(plan: Plan, wanted: tuple[str, ...]) -> Plan:
    """The steps of a plan that some lines hang on."""
    needed, steps = set(wanted), []
    for step in reversed(plan.steps):
        if any(node.name in needed for node in step.nodes):
            steps.append(step)
            needed |= {ref.name for node in step.nodes for ref in node.refs()}
    return replace(plan, steps=tuple(reversed(steps)))


def with_values(inputs: dict[str, Array], **values: object) -> dict[str, Array]:
    """Inputs with some replaced; `digester__kind` stands for the path digester.kind."""
    return {**inputs, **{path.replace("__", "."): np.atleast_2d(np.asarray(each, float)) for path, each in values.items()}}
