"""A few sheets of the model on their own: everything they do not work out themselves is given."""

from __future__ import annotations

from collections.abc import Mapping
from types import ModuleType
from typing import Any

import numpy as np
import numpy.typing as npt

from appraisal.constants import CONSTANTS
from appraisal.lines.catalogue import catalogue
from appraisal.lines.define import lines_of
from appraisal.lines.evaluate import evaluate
from appraisal.lines.names import ALL, EACH, split_view
from appraisal.lines.plan import plan
from appraisal.timeline import Timeline, series

Array = npt.NDArray[np.float64]
FAMILIES = ("loan", "capital", "grant", "substrate", "engine", "running_cost", "other_income", "task")


def alone(
    *modules: ModuleType,
    given: Mapping[str, Any],
    choices: Mapping[str, str],
    years: int,
    keep: tuple[str, ...] | None = None,
) -> dict[str, Array]:
    """Evaluate the lines of some modules over whole project years, one item a family, by their short names.

    given: argument name -> number, or one value a month or a year. choices: argument name -> option. keep: only these lines
    and what they need; left out, all lines of the modules whose choices hold.
    """
    lines = [line for line in lines_of(modules) if _holds(line.when, choices)]
    if keep is not None:
        lines = _needed(lines, keep)
    made = {line.name for line in lines}
    time = {
        name: f"timeline.{name}"
        for name in ("month_number", "calendar_month", "year_number", "last_of_year", "years_on", "days", "hours")
    }
    fixed = {constant.name: f"constant.{constant.name}" for constant in CONSTANTS}
    named = {name: _path(name) for name in (*given, *choices)}
    families = {family: (family,) for family in FAMILIES}
    inputs = {name: path for name, path in {**fixed, **time, **named}.items() if name not in made}
    roles = {line.role for line in lines}
    asked = {a.removeprefix(ALL) for line in lines for a in line.arguments if a.startswith(ALL)}
    assert asked <= roles, f"roles without a line: {asked - roles}"
    built = catalogue(lines, inputs=inputs, families=families)
    values = {
        **series(Timeline(2027, 1, years)),
        **{f"constant.{c.name}": np.array([[float(c.value)]]) for c in CONSTANTS},
    }
    values |= {_path(name, item="it"): _row(value, years) for name, value in given.items()}
    monthly = {name for name, array in values.items() if array.shape[1] == years * 12}
    items = {family: ((family, "it"),) for family in FAMILIES}
    paths = {_path(name, item="it"): option for name, option in choices.items()}
    ordered = plan(built, items=items, choices=paths, monthly_inputs=monthly)
    found = evaluate(ordered, values)
    return {name.replace(".it.", "_"): array for name, array in found.items()}


def _holds(when: Mapping[str, str], choices: Mapping[str, str]) -> bool:
    return all(choices.get(key) in option.split("|") for key, option in when.items())


def _needed(lines: list[Any], keep: tuple[str, ...]) -> list[Any]:
    by_name, wanted = {line.name: line for line in lines}, list(keep)
    for name in wanted:
        reads = [split_view(a.removeprefix(EACH))[1] for a in by_name[name].arguments]
        wanted += [read for read in reads if read in by_name and read not in wanted]
    return [line for line in lines if line.name in wanted]


def _path(name: str, *, item: str = "*") -> str:
    family = next((family for family in FAMILIES if name.startswith(family + "_")), None)
    return f"{family}.{item}.{name[len(family) + 1 :]}" if family else name


def _row(value: Any, years: int) -> Array:
    """A number as (1, 1); a value a year is spread over its months; a value a month as it is."""
    array = np.atleast_1d(np.asarray(value, dtype=np.float64))
    if array.size == years and years > 1:
        array = np.repeat(array, 12)
    return array[None, :]


def by_year(array: Array) -> list[float]:
    """Sums of months by year."""
    return [float(x) for x in array[0].reshape(-1, 12).sum(axis=1)]
