"""What stands beside the values: ranges and sources by the path of their value, correlations and stress cases by name."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import replace
from typing import Any

from appraisal.errors import Fault
from appraisal.scenario.beside import AS_VALUE, Range
from appraisal.scenario.draft import Draft
from appraisal.scenario.faults import shown
from appraisal.scenario.fill import fields_in, read_fields
from appraisal.scenario.locate import DEEPEST, dotted
from appraisal.scenario.model import Source, sections
from appraisal.scenario.named_asides import read_correlations, read_stress_cases
from appraisal.scenario.quantity import Declaration, declarations
from appraisal.scenario.range_checks import check_range
from appraisal.scenario.wander import read_wanders

_NO_RANGE = {
    "count": "a whole number fixes the shape of the model: make a second scenario instead",
    "choice": "a choice fixes the shape of the model: make a second scenario instead",
    "text": "a text has no range",
    "path": "values by year have no single range: let them wander, under [wander.name]",
    "profile": "twelve monthly values have no single range: put it on a number that they are multiplied with",
}
_DIFFERENCE = {"degC": "K"}  # a width is no level: 5 degF more is not 5 degF


def read_asides(raw: Mapping[str, Any], draft: Draft) -> None:
    """Read [range."path"], [source."path"], [correlation.name], [stress.name] and [wander.name] into the draft."""
    targets = fields_in(draft.content)
    draft.content["range"] = {}
    for path, given in _tables("range", raw, targets=targets, draft=draft).items():
        if (item := _range(path, given, target=targets[path], draft=draft)) is not None:
            draft.content["range"][path] = item
    draft.content["correlation"] = read_correlations(raw, targets=targets, draft=draft)
    draft.content["stress"] = read_stress_cases(raw, targets=targets, draft=draft)
    draft.content["wander"] = read_wanders(raw, targets=targets, draft=draft)
    draft.content["source"] = {}
    for path, given in _tables("source", raw, targets=targets, draft=draft).items():
        item = read_fields(declarations(Source), given, parts=("source", path), draft=draft)
        draft.content["source"][path] = item
        _name_source(path, item, draft=draft)


def _tables(
    aside: str, raw: Mapping[str, Any], *, targets: Mapping[str, Declaration], draft: Draft,
) -> dict[str, dict[str, Any]]:
    """The tables of [range] or [source] whose path is a field of this scenario; the others are refused."""
    given = raw.get(aside, {})
    if not isinstance(given, dict):
        draft.refuse(Fault(aside, "must be tables by path", got=shown(given), hint=f'write [{aside}."section.field"]'))
        return {}
    good = {}
    for path, value in given.items():
        fault = _misplaced(aside, path, value=value, targets=targets)
        if fault is None:
            good[path] = value
        elif not any(around in draft.doubtful for around in _around(path)):
            draft.refuse(replace(fault, hint=fault.hint or draft.did_you_mean(path, targets)))
    return good


def _around(path: str) -> list[str]:
    """The path and every table that it lies in."""
    parts = path.split(".")
    return [".".join(parts[:length]) for length in range(1, min(len(parts), DEEPEST) + 1)]


def _misplaced(aside: str, path: str, *, value: Any, targets: Mapping[str, Declaration]) -> Fault | None:
    where = dotted((aside, path))
    if path in targets and isinstance(value, dict):
        return None
    if path in targets:
        return Fault(where, "must be a table of values", got=shown(value), hint=f"write [{where}]")
    if any(path == place.name for place in sections()):
        hint = f'write [{aside}."{_spelled_out(path, value, targets=targets)}"], the path in quotes'
        return Fault(where, "a whole section cannot carry it", hint=hint)
    return Fault(where, "no such value in this scenario", got=shown(path))


def _spelled_out(path: str, value: Any, *, targets: Mapping[str, Declaration]) -> str:
    """The path that was meant where its parts became nested tables."""
    while path not in targets and isinstance(value, dict) and value:
        name, value = next(iter(value.items()))
        path = f"{path}.{name}"
    return path if path in targets else f"{path.partition('.')[0]}.field"


def _range(path: str, given: Mapping[str, Any], *, target: Declaration, draft: Draft) -> dict[str, Any] | None:
    """One range, its ends in the unit of its value; None when the value may carry none."""
    where = dotted(("range", path))
    if target.kind != "number":
        draft.refuse(Fault(where, f"may not carry a range: {_NO_RANGE[target.kind]}"))
        return None
    fields = [_as_the_value(field, target) for field in declarations(Range)]
    item = read_fields(fields, given, parts=("range", path), draft=draft)
    check_range(path, item, target=target, draft=draft)
    return item


def _as_the_value(field: Declaration, target: Declaration) -> Declaration:
    """A parameter of a range in the unit of the value; a width keeps its own lower limit."""
    if field.unit != AS_VALUE:
        return field
    if field.low is not None:
        return replace(field, unit=_DIFFERENCE.get(target.unit, target.unit))
    return replace(field, unit=target.unit, low=target.low, high=target.high)


def _name_source(path: str, item: Mapping[str, Any], *, draft: Draft) -> None:
    """Put the source into the assumption, whose value the file itself must give."""
    origin, known, found = item.get("origin"), item.get("known"), draft.assumptions.get(path)
    if found is not None and found.origin != "scenario":
        what, hint = "a source for a value that the file leaves out", "give the value too, or take the source out"
        draft.refuse(Fault(dotted(("source", path)), what, hint=hint))
    elif found is not None and isinstance(origin, str) and isinstance(known, str):
        draft.assumptions[path] = replace(found, source=origin, known=known)
