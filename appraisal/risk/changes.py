"""A scenario with some of its numbers multiplied, moved, cut or replaced, read anew so that what follows from them follows."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from dataclasses import dataclass
from typing import Literal

import numpy as np
import numpy.typing as npt

from appraisal.errors import ScenarioError
from appraisal.risk.futures import Outcomes, rows
from appraisal.risk.points import RiskError
from appraisal.scenario.faults import did_you_mean
from appraisal.scenario.load import Loaded, with_values
from appraisal.scenario.named_asides import matching
from appraisal.scenario.values import values

Array = npt.NDArray[np.float64]
Kind = Literal["times", "plus", "to", "less"]
ANY = "judging.discount_rate"  # a column that leaves everything as it is, for a case that changes nothing

ROUNDING = 1e-12


@dataclass(frozen=True)
class Change:
    """One kind of move of the values that a pattern means; a star stands for every item of a table.

    kind: times (a factor), plus (an amount in the field's unit), to (the new value), less (a share [1] taken off what is
    left: 0.15 makes a cut of 0.1 one of 1 - 0.9 x 0.85).
    """

    pattern: str
    kind: Kind
    amount: float

    def of(self, value: float) -> float:
        """The value after the change, in its unit."""
        if self.kind == "times":
            return value * self.amount
        if self.kind == "plus":
            return value + self.amount
        return self.amount if self.kind == "to" else 1 - (1 - value) * (1 - self.amount)


def numbers(loaded: Loaded) -> dict[str, float]:
    """Every single number of a scenario by path, in its unit."""
    return {
        path: float(found.value)
        for path, found in loaded.assumptions.items()
        if found.declaration.kind == "number" and isinstance(found.value, (int, float))
    }


NO_NUMBER = {
    "count": "a whole number fixes the shape of the model: compare a second scenario instead",
    "choice": "a choice fixes the shape of the model: compare a second scenario instead",
    "text": "a text",
    "path": "values by year: let them wander, under [wander.name]",
    "profile": "twelve monthly values: take a number that they are multiplied with",
}


def no_number(loaded: Loaded, path: str) -> RiskError:
    """The refusal of a path that is no single number: what it is instead, or how it is spelled."""
    found = loaded.assumptions.get(path)
    if found is not None and found.declaration.kind in NO_NUMBER:
        return RiskError(f"{path}: no single number, but {NO_NUMBER[found.declaration.kind]}")
    hint = did_you_mean(path, numbers(loaded))
    return RiskError(f"{path}: no single number of this scenario" + (f"; {hint}" if hint else ""))


def changed_values(loaded: Loaded, changes: Sequence[Change]) -> dict[str, float]:
    """New values by path after all changes, one upon the other; raises RiskError where a pattern means nothing."""
    known = numbers(loaded)
    new: dict[str, float] = {}
    for change in changes:
        paths = matching(change.pattern, known)
        if not paths:
            raise no_number(loaded, change.pattern)
        for path in paths:
            new[path] = change.of(new.get(path, known[path]))
    return {path: snapped(loaded, path, value) for path, value in new.items() if value != known[path]}


def snapped(loaded: Loaded, path: str, value: float) -> float:
    """A value that lies beyond a limit of its field by a rounding error, put on the limit."""
    field = loaded.assumptions[path].declaration
    for limit in (field.low, field.high):
        if limit is not None and abs(value - limit) <= ROUNDING * max(abs(limit), 1.0):
            return limit
    return value


def changed_scenario(loaded: Loaded, new: Mapping[str, float]) -> Loaded:
    """The scenario with new values; raises RiskError, with the first fault, where it would not be valid."""
    try:
        return with_values(loaded, new)
    except ScenarioError as error:
        fault = error.faults[0]
        more = f", and {len(error.faults) - 1} more" if len(error.faults) > 1 else ""
        allowed = f" (got {fault.got}, allowed {fault.allowed})" if fault.allowed and fault.got else ""
        raise RiskError(f"not a valid scenario: {fault.path}: {fault.what}{allowed}{more}") from None


def outcomes_of_cases(loaded: Loaded, cases: Sequence[Loaded]) -> Outcomes:
    """One row of outcomes for each of several readings of one scenario that differ in numbers only."""
    base = values(loaded.scenario)
    flat = [values(case.scenario) for case in cases]
    moved = [
        path
        for path, array in base.items()
        if array.shape[1] == 1 and any(each[path][0, 0] != array[0, 0] for each in flat)
    ]
    columns = {path: np.array([[each[path][0, 0]] for each in flat]) for path in (*moved, ANY)}
    return rows(loaded, columns)
