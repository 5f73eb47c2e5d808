"""Published plants at other inputs, and what they are worth."""

from __future__ import annotations

from dataclasses import replace

import numpy as np

from appraisal.appraise import Appraisal
from appraisal.lines.evaluate import evaluate
from appraisal.measures.discounting import npv
from appraisal.model import inputs as model_inputs

EURO = 0.5  # sums are printed in whole euros


def changed(plant: Appraisal, **values: float) -> Appraisal:
    """The same plant at other inputs; `a__b__c` stands for the path a.b.c."""
    given = {name.replace("__", "."): np.array([[value]]) for name, value in values.items()}
    assert set(given) <= set(plant.inputs)
    lines = evaluate(plant.plan, model_inputs(plant.structure, {**plant.inputs, **given}))
    return replace(plant, values=lines)


def worth(plant: Appraisal, *, rate: float, cash: str = "project_cash") -> float:
    """Net present value of the project [money]."""
    return float(npv(plant.values[cash], rate)[0])


def at_year_ends(plant: Appraisal, rate: float) -> float:
    """Worth of yearly sums, the building year today and the others at their ends [money]."""
    yearly = plant.values["project_cash"].reshape(1, -1, 12).sum(axis=2)
    return float(npv(yearly, rate, timing="end of year")[0])
