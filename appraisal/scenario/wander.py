"""Reads the movements of prices from year to year, which stand in the file under names of their own."""

from __future__ import annotations

from collections.abc import Mapping
from math import isfinite
from typing import Any

from appraisal.errors import Fault
from appraisal.scenario.beside import Wander
from appraisal.scenario.draft import Draft
from appraisal.scenario.faults import shown
from appraisal.scenario.fill import read_fields
from appraisal.scenario.locate import dotted
from appraisal.scenario.named_asides import tables_by_name
from appraisal.scenario.quantity import Declaration, declarations

STRONGEST = 3.0


def read_wanders(raw: Mapping[str, Any], *, targets: Mapping[str, Declaration], draft: Draft) -> dict[str, dict[str, Any]]:
    """[wander.name] tables; refused where one moves nothing, or something that is no value by project year."""
    read = {}
    for name, given in tables_by_name("wander", raw, draft=draft):
        plain = {key: value for key, value in given.items() if key != "moves"}
        item = read_fields(declarations(Wander), plain, parts=("wander", name), draft=draft)
        item["moves"] = _moves(name, given.get("moves", {}), targets=targets, draft=draft)
        read[name] = item
    return read


def _moves(name: str, given: Any, *, targets: Mapping[str, Declaration], draft: Draft) -> dict[str, float]:
    where = dotted(("wander", name, "moves"))
    if not isinstance(given, dict) or not given:
        draft.refuse(Fault(where, "must be strengths by path, one at least", got=shown(given), hint=f"write [{where}]"))
        return {}
    read = {}
    for path, value in given.items():
        fault = _unfit(dotted(("wander", name, "moves", path)), path, value, targets=targets, draft=draft)
        if fault is None:
            read[path] = float(value)
        else:
            draft.refuse(fault)
    return read


def _unfit(spot: str, path: str, value: Any, *, targets: Mapping[str, Declaration], draft: Draft) -> Fault | None:
    by_year = [each for each, item in targets.items() if item.kind == "path"]
    if path not in targets:
        return Fault(spot, "no such value in this scenario", got=shown(path), hint=draft.did_you_mean(path, by_year))
    if path not in by_year:
        return Fault(spot, "only values by project year wander", got=shown(path), allowed="; ".join(by_year),
                     hint=f'give a single number a [range."{path}"] instead')
    if isinstance(value, bool) or not isinstance(value, (int, float)) or (isinstance(value, float) and not isfinite(value)):
        return Fault(spot, "must be a number", got=shown(value), allowed=f"{-STRONGEST:g} to {STRONGEST:g}, not 0")
    if value == 0 or abs(value) > STRONGEST:
        return Fault(spot, "a strength that cannot be used", got=shown(value), allowed=f"{-STRONGEST:g} to {STRONGEST:g}, not 0")
    return None
