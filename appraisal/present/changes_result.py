"""What changed between two scenario files as one plain mapping: what `changes --json` prints."""

from __future__ import annotations

from collections.abc import Mapping
from typing import Any

from appraisal import __version__
from appraisal.appraise import Appraisal
from appraisal.present.result import SCHEMA, measures
from appraisal.risk.differences import Difference, Differences, ItemDifference
from appraisal.scenario.assumptions import Assumption, Value


def changes_object(found: Differences) -> dict[str, Any]:
    """Both plans with their measures, every input and every item that differs, the largest effect on worth first.

    Money is in the scenarios' currency, values in the units of their fields. Effects are those of one input by itself in the
    old plan; null where it cannot be set by itself, `why` then says so, and null for cover where no debt is due.
    """
    return {
        "schema": SCHEMA,
        "version": __version__,
        "kind": "changes",
        "currency": found.old.loaded.scenario.project.currency,
        "old": _plan(found.old),
        "new": _plan(found.new),
        "npv_change": float(found.new.headline.npv[0] - found.old.headline.npv[0]),
        "inputs": [_input(each) for each in found.inputs],
        "items": [_of_item(each) for each in found.items],
        "only_source_or_range": list(found.grounds),
    }


def _plan(side: Appraisal) -> Mapping[str, Any]:
    return {
        "name": side.loaded.scenario.project.name,
        "fingerprint": side.loaded.fingerprint,
        "own_money_needed": float(side.values["own_money_needed"][0, 0]),
        "lowest_balance": float(side.values["bank_balance"][0].min()),
        "measures": measures(side.headline),
    }


def _input(each: Difference) -> Mapping[str, Any]:
    known = each.new or each.old
    return {
        "path": each.path,
        "unit": None if known is None else known.declaration.unit,
        "old": _value(each.old),
        "new": _value(each.new),
        "npv_change": each.npv_change,
        "least_cover_change": each.cover_change,
        "why": each.why,
    }


def _of_item(each: ItemDifference) -> Mapping[str, Any]:
    return {
        "what": each.what,
        "old": each.old or None,
        "new": each.new or None,
        "inputs": each.inputs,
        "npv_change": each.npv_change,
        "least_cover_change": each.cover_change,
        "why": each.why,
    }


def _value(known: Assumption | None) -> Value | list[float] | None:
    if known is None:
        return None
    return list(known.value) if isinstance(known.value, tuple) else known.value
