"""What changed between two readings of a plan: every input and item that differs, and what each does to worth and cover."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass
from typing import Any, Literal

import numpy as np

from appraisal.appraise import Appraisal, appraise
from appraisal.errors import ScenarioError
from appraisal.risk.points import RiskError
from appraisal.scenario.assumptions import Assumption
from appraisal.scenario.load import Loaded, with_values
from appraisal.scenario.read_text import read_tables

ITEM_PARTS = 3  # parts of the path of an input that belongs to a named item
FOLLOWS = "follows from other inputs"
ONLY_NEW, ONLY_OLD = "only in the new file", "only in the old file"


@dataclass(frozen=True)
class Difference:
    """One input that differs.

    old, new: its assumption in either file, None where the file has none (an item that came or went).
    npv_change [money], cover_change [1]: of the old plan with this one input as in the new; None where it cannot be set by
    itself, `why` then says so. cover_change is None too where no debt is due.
    """

    path: str
    old: Assumption | None
    new: Assumption | None
    npv_change: float | None
    cover_change: float | None
    why: str = ""


@dataclass(frozen=True)
class ItemDifference:
    """A whole item (a feed, a herd, a machine, a loan) that came, went or has another name with all its inputs alike.

    old, new: its path `section.name` in either file, empty where there is none. inputs: how many it has. npv_change [money],
    cover_change [1]: of the old plan with this item as in the new; None where that is no valid plan, `why` then says so.
    """

    what: Literal["came", "went", "renamed"]
    old: str
    new: str
    inputs: int
    npv_change: float | None
    cover_change: float | None
    why: str = ""


@dataclass(frozen=True, eq=False)
class Differences:
    """Two plans: their appraisals and every difference, the largest effect on worth first.

    inputs: those of both files, then those of items that came or went, which have no effect by themselves. items: with their
    effect as a whole. grounds: paths of inputs with the value as before whose source, kind of knowledge or range differs.
    """

    old: Appraisal
    new: Appraisal
    inputs: tuple[Difference, ...]
    items: tuple[ItemDifference, ...]
    grounds: tuple[str, ...]


def differences(old: Loaded, new: Loaded) -> Differences:
    """Compare two plans of one currency input by input; raises RiskError where the currencies differ."""
    was, now = old.scenario.project.currency, new.scenario.project.currency
    if was != now:
        raise RiskError(f"the plans count in different currencies: the old one in {was}, the new one in {now}")
    before, after = appraise(old), appraise(new)
    items = _items(old, new, before)
    renamed = {path for item in items if item.what == "renamed" for path in (item.old, item.new)}
    paths = dict.fromkeys((*old.assumptions, *new.assumptions))
    made = [
        _one(old, before, path, old.assumptions.get(path), new.assumptions.get(path))
        for path in paths
        if _differs(old.assumptions.get(path), new.assumptions.get(path)) and _item(path) not in renamed
    ]
    made.sort(key=lambda each: (each.npv_change is None, each.why, -abs(each.npv_change or 0.0), each.path))
    return Differences(before, after, tuple(made), items, _grounds(old, new))


def _differs(old: Assumption | None, new: Assumption | None) -> bool:
    return old is None or new is None or old.value != new.value


def _one(old: Loaded, before: Appraisal, path: str, was: Assumption | None, now: Assumption | None) -> Difference:
    if was is None or now is None:
        return Difference(path, was, now, None, None, ONLY_NEW if was is None else ONLY_OLD)
    if "scenario" not in (was.origin, now.origin):
        return Difference(path, was, now, None, None, FOLLOWS)
    value = list(now.value) if isinstance(now.value, tuple) else now.value
    return Difference(path, was, now, *_effect(old, before, {path: value}))


def _effect(old: Loaded, before: Appraisal, changes: Mapping[str, Any]) -> tuple[float | None, float | None, str]:
    """Change of worth [money] and of least cover [1] of the old plan with some changes, or why there is none."""
    try:
        moved = appraise(with_values(old, changes))
    except ScenarioError as error:
        return None, None, f"not by itself: {error.faults[0].what}"
    cover = [float(each.headline.dscr_min.value[0]) for each in (before, moved)]
    change = cover[1] - cover[0]
    return float(moved.headline.npv[0] - before.headline.npv[0]), change if np.isfinite(change) else None, ""


def _item(path: str) -> str:
    """The item an input belongs to, as `feed.whey`; empty for an input of no item."""
    parts = path.split(".")
    return ".".join(parts[:2]) if len(parts) == ITEM_PARTS else ""


def _items(old: Loaded, new: Loaded, before: Appraisal) -> tuple[ItemDifference, ...]:
    had, has = _by_item(old), _by_item(new)
    gone, come = [each for each in had if each not in has], [each for each in has if each not in had]
    made, tables = [], _tables(new)
    for path in gone:
        section = path.partition(".")[0]
        twin = next((each for each in come if each.partition(".")[0] == section and has[each] == had[path]), "")
        change: dict[str, Any] = {path: None} | ({twin: tables[twin]} if twin else {})
        come = [each for each in come if each != twin]
        what: Literal["went", "renamed"] = "renamed" if twin else "went"
        made.append(ItemDifference(what, path, twin, len(had[path]), *_effect(old, before, change)))
    for path in come:
        made.append(ItemDifference("came", "", path, len(has[path]), *_effect(old, before, {path: tables[path]})))
    return tuple(sorted(made, key=lambda each: (-abs(each.npv_change or 0.0), each.old, each.new)))


def _by_item(loaded: Loaded) -> dict[str, dict[str, Any]]:
    """Field -> value of every item, by its path."""
    made: dict[str, dict[str, Any]] = {}
    for path, each in loaded.assumptions.items():
        if _item(path):
            made.setdefault(_item(path), {})[path.split(".")[2]] = each.value
    return made


def _tables(loaded: Loaded) -> dict[str, Any]:
    """The table of every item as the file has it with what was changed since, by its path."""
    raw = read_tables(loaded.text, file="<new>")
    made = {path: dict(raw.get(path.split(".")[0], {}).get(path.split(".")[1], {})) for path in _by_item(loaded)}
    for path, value in loaded.changes.items():
        if _item(path) in made:
            made[_item(path)][path.split(".")[2]] = value
    return made


def _grounds(old: Loaded, new: Loaded) -> tuple[str, ...]:
    """Paths of inputs with the same value in both files that rest on another source or carry another range."""

    def ground(loaded: Loaded, path: str) -> tuple[object, ...]:
        return loaded.scenario.source.get(path), loaded.scenario.range.get(path)

    both = [path for path, each in old.assumptions.items() if not _differs(each, new.assumptions.get(path))]
    return tuple(path for path in both if ground(old, path) != ground(new, path))
