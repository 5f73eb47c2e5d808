"""Every value in use as text: what it is, where it comes from, how it is known."""

from __future__ import annotations

from collections.abc import Iterable

from tabulate import tabulate

from appraisal.present.numbers import rounded
from appraisal.scenario.assumptions import Assumption

WIDEST = 48


def values_text(assumptions: Iterable[Assumption]) -> str:
    """A table of all assumptions, in the order of the file's sections; units are those of the declarations."""
    rows = [
        (each.path, _shown(each), each.declaration.unit, each.origin, each.known, each.source[:WIDEST])
        for each in assumptions
    ]
    head = ("input", "value", "unit", "from", "how it is known", "source")
    return tabulate(rows, head, disable_numparse=True)


def _shown(each: Assumption) -> str:
    if isinstance(each.value, tuple):
        return rounded(each.value[0]) if len(set(each.value)) == 1 else " ".join(rounded(value) for value in each.value)
    text = str(each.value) if isinstance(each.value, str) else rounded(float(each.value))
    return text if len(text) <= WIDEST else text[:WIDEST] + "..."
