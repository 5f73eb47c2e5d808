"""How the results of the workbook are worked out: lines of their own, by month and by year, over the lines of the model.

They say once more, in spreadsheet steps, what `appraisal.measures` does with arrays; the tests hold the two together.
"""

from __future__ import annotations

from functools import cache

import numpy as np

from appraisal.constants import Constant
from appraisal.lines.catalogue import Catalogue, catalogue
from appraisal.lines.define import lines_of
from appraisal.lines.evaluate import Array, Values, evaluate
from appraisal.lines.plan import Plan, plan
from appraisal.measures import checks, cover, payback
from appraisal.model import CATALOGUE, FAMILIES, choices, items
from appraisal.reports.workings import lender, order, proofs, sides, stopping, worth
from appraisal.scenario.values import Structure

_OWN = ("appraisal.measures", "definition")
_GUESS = ("any value near the rate does", "judged, no source")
FIXED = (
    Constant(
        "close_to_zero",
        payback.CLOSE_TO_ZERO,
        "1",
        "A running total this part of all cash below zero counts as zero",
        *_OWN,
    ),
    Constant("negligible_debt", cover.NO_DEBT, "1", "Debt below this part of all debt is rounding, not a debt", *_OWN),
    *(
        Constant(name, value, "share/month", "The search for a rate of return begins here, too", *_GUESS)
        for name, value in (
            ("rate_guess", 0.0),
            ("rate_guess_b", -0.01),
            ("rate_guess_c", -0.03),
            ("rate_guess_d", -0.08),
            ("rate_guess_e", -0.15),
            ("rate_guess_f", -0.24),
            ("rate_guess_g", -0.35),
            ("rate_guess_h", -0.5),
        )
    ),
    Constant("check_limit", checks.LIMIT, "1", "A check may be missed by this part of the amount it is about", *_OWN),
)

GUESSES = tuple(each.name for each in FIXED if each.name.startswith("rate_guess"))


@cache
def _catalogue() -> Catalogue:
    lines = [
        *(line for variants in CATALOGUE.lines.values() for line in variants),
        *lines_of((worth, lender, order, stopping, proofs)),
        *sides.view_lines(),
        proofs.bridge_line(),
    ]
    fixed = {each.name: f"constant.{each.name}" for each in FIXED}
    return catalogue(lines, inputs={**CATALOGUE.inputs, **fixed}, families=FAMILIES)


def with_workings(structure: Structure, model: Plan) -> Plan:
    """The plan of a scenario with the workings behind it."""
    return plan(_catalogue(), items=items(structure), choices=choices(structure), monthly_inputs=model.monthly_inputs)


def fixed() -> dict[str, Array]:
    """The figures that only the workings read, by full name."""
    return {f"constant.{each.name}": np.array([[each.value]]) for each in FIXED}


def worked_out(whole: Plan, values: Values) -> dict[str, Array]:
    """Values of lines and workings together.

    whole: plan with workings. values: lines and inputs of the model by full name, first axis 1; taken as they are.
    """
    known = {**values, **fixed()}
    steps = tuple(step for step in whole.steps if any(node.name not in known for node in step.nodes))
    return evaluate(Plan(steps, whole.nodes, whole.monthly_inputs), known)
