"""Random plants for the property tests: every number of a demo moved inside its limits, many draws at once."""

from __future__ import annotations

from functools import cache, lru_cache

import numpy as np
import numpy.typing as npt

from appraisal import model
from appraisal.appraise import Appraisal, appraise
from appraisal.demos import demos
from appraisal.lines.evaluate import evaluate
from appraisal.scenario.load import load
from appraisal.scenario.model import declared

Array = npt.NDArray[np.float64]
DEMOS = sorted(demos())
DRAWS = 350  # of each demo: together over a thousand random plants


@cache
def appraised(name: str) -> Appraisal:
    """One demo, appraised once a test process."""
    return appraise(load(demos()[name]))


def drawn(name: str, *, draws: int = DRAWS, seed: int = 1) -> dict[str, Array]:
    """Inputs of a demo by dotted path, every number (draws, 1) moved by up to 40 % inside its declared limits."""
    rng, case = np.random.default_rng(seed), appraised(name)
    moved = dict(case.inputs)
    for pattern, item in declared().items():
        for path in model.paths(case.structure, pattern):
            if item.kind == "number":
                value = case.inputs[path] * rng.uniform(0.6, 1.4, (draws, 1))
                moved[path] = np.clip(value, item.low, item.high)
    moved["project.build_months"] = np.round(moved["project.build_months"])
    return moved


def lines(name: str, inputs: dict[str, Array]) -> dict[str, Array]:
    """All lines of a demo at other inputs."""
    case = appraised(name)
    return evaluate(case.plan, model.inputs(case.structure, inputs))


@lru_cache(maxsize=1)  # one demo at a time: all lines over all plants take a gigabyte
def batch(name: str) -> dict[str, Array]:
    """All lines of one demo over the random plants."""
    return lines(name, drawn(name))
