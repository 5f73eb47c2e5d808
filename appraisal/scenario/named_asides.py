"""Correlations and stress cases, which stand in the file under names of their own and point at values by path."""

from __future__ import annotations

from collections.abc import Iterable, Iterator, Mapping
from math import isfinite
from typing import Any

from appraisal.errors import Fault
from appraisal.scenario.beside import CHANGES, Correlation, Culprit, Pair, StressCase
from appraisal.scenario.convert import RefusedError, UnjudgedError, converted
from appraisal.scenario.draft import Draft
from appraisal.scenario.faults import out_of_range, shown
from appraisal.scenario.fill import ITEM_NAME, ITEM_NAME_RULE, read_fields
from appraisal.scenario.locate import dotted
from appraisal.scenario.quantity import Declaration, declarations

Targets = Mapping[str, Declaration]
STAR = "*"


def read_correlations(raw: Mapping[str, Any], *, targets: Targets, draft: Draft) -> dict[str, dict[str, Any]]:
    """[correlation.name] tables; refused where a path carries no range or all together are impossible."""
    read: dict[str, dict[str, Any]] = {}
    pairs: list[Pair] = []
    for name, given in tables_by_name("correlation", raw, draft=draft):
        read[name] = read_fields(declarations(Correlation), given, parts=("correlation", name), draft=draft)
        pair = _pair(name, read[name], targets=targets, draft=draft)
        if pair is not None and any({pair.first, pair.second} == {each.first, each.second} for each in pairs):
            draft.refuse(Fault(dotted(("correlation", name)), "these two values are correlated twice"))
        elif pair is not None:
            pairs.append(pair)
    if pairs:
        from appraisal.scenario.correlations import culprit  # numpy, which a file without correlations does not need

        if (found := culprit(paths_of(pairs), pairs)) is not None:
            draft.refuse(_impossible(found))
    return read


def paths_of(pairs: Iterable[Pair]) -> list[str]:
    """Every path that some pair names, in their order."""
    return list(dict.fromkeys(path for pair in pairs for path in (pair.first, pair.second)))


def _pair(name: str, item: Mapping[str, Any], *, targets: Targets, draft: Draft) -> Pair | None:
    where, good = dotted(("correlation", name)), True
    for side in ("first", "second"):
        path = item.get(side)
        if not isinstance(path, str) or f"{where}.{side}" in draft.doubtful:
            good = False
        elif path not in draft.content["range"]:
            good = False
            if dotted(("range", path)) not in draft.doubtful:
                what = "carries no range, so nothing of it can move" if path in targets else "no such value in this scenario"
                near = draft.did_you_mean(path, draft.content["range"] or targets)
                hint = f'write [range."{path}"]' if path in targets else near
                draft.refuse(Fault(f"{where}.{side}", what, got=shown(path), hint=hint))
    if good and item["first"] == item["second"]:
        draft.refuse(Fault(where, "a value correlated with itself", got=shown(item["first"])))
        good = False
    rank = item.get("rank")
    if not good or not isinstance(rank, float) or not isfinite(rank) or abs(rank) >= 1:
        return None
    return Pair(name, item["first"], item["second"], rank)


def _impossible(found: Culprit) -> Fault:
    """The correlations contradict each other: which one, and what it could be."""
    among = ", ".join(found.paths)
    if found.pair is None:
        return Fault("correlation", f"the correlations between {among} contradict each other: no futures move like that",
                     hint="take some out or bring them nearer to 0")
    pair = found.pair
    return Fault(
        f"correlation.{pair.name}.rank", f"contradicts the other correlations: no futures move like that ({among})",
        got=f"{pair.rank:g}", allowed=f"{found.low:.2f} to {found.high:.2f} while the others stay")


def read_stress_cases(raw: Mapping[str, Any], *, targets: Targets, draft: Draft) -> dict[str, dict[str, Any]]:
    """[stress.name] tables: label, reason, and the values that a case multiplies, moves or replaces."""
    read = {}
    for name, given in tables_by_name("stress", raw, draft=draft):
        plain = {key: value for key, value in given.items() if key not in CHANGES}
        item = read_fields(declarations(StressCase), plain, parts=("stress", name), draft=draft)
        for change in CHANGES:
            item[change] = _changes(name, change, given.get(change, {}), targets=targets, draft=draft)
        if not any(given.get(change) for change in CHANGES):
            draft.refuse(Fault(dotted(("stress", name)), "changes nothing", allowed="times, plus or to, by path"))
        read[name] = item
    return read


def _changes(name: str, change: str, given: Any, *, targets: Targets, draft: Draft) -> dict[str, float]:
    where = dotted(("stress", name, change))
    if not isinstance(given, dict):
        draft.refuse(Fault(where, "must be values by path", got=shown(given), hint=f"write [{where}]"))
        return {}
    read = {}
    for pattern, value in given.items():
        paths = matching(pattern, targets)
        spot = dotted(("stress", name, change, pattern))
        if not paths:
            near = draft.did_you_mean(pattern, targets)
            draft.refuse(Fault(spot, "no such value in this scenario", got=shown(pattern), hint=near))
        elif any(targets[path].kind != "number" for path in paths):
            draft.refuse(Fault(spot, "only a single number can be changed: make a second scenario instead"))
        elif (amount := _amount(change, value, spot=spot, target=targets[paths[0]], draft=draft)) is not None:
            read[pattern] = amount
            _within_limits(change, amount, paths, spot=spot, targets=targets, draft=draft)
    return read


def matching(pattern: str, paths: Mapping[str, Any]) -> list[str]:
    """The paths that a pattern means; a star in the middle stands for every item of a table."""
    if STAR not in pattern:
        return [pattern] if pattern in paths else []
    table, _, field = pattern.partition(f".{STAR}.")
    return [path for path in paths if path.count(".") == 2 and path.startswith(f"{table}.") and path.endswith(f".{field}")]


def _amount(change: str, value: Any, *, spot: str, target: Declaration, draft: Draft) -> float | None:
    unit = {"times": "share", "plus": "K" if target.unit == "degC" else target.unit, "to": target.unit}[change]
    meant = Declaration(name=spot, kind="number", label="", help="", unit=unit)
    try:
        amount = converted(meant, value, currency=draft.currency)
    except UnjudgedError:
        return None
    except RefusedError as refused:
        draft.refuse(Fault(spot, refused.what, got=refused.got, hint=refused.hint))
        return None
    if isinstance(amount, bool) or not isinstance(amount, float) or not isfinite(amount):
        draft.refuse(Fault(spot, "not a finite number", got=shown(value)))
        return None
    return amount


def _within_limits(
    change: str, amount: float, paths: list[str], *, spot: str, targets: Targets, draft: Draft,
) -> None:
    """The changed value stays within its field's limits."""
    for path in paths:
        found = draft.assumptions.get(path)
        if found is None or path in draft.doubtful or not isinstance(found.value, float):
            continue
        new = changed(found.value, change, amount)
        if what := out_of_range(targets[path], new):
            got = f"{path} becomes {new:.10g} {targets[path].unit}"
            draft.refuse(Fault(spot, what, got=got, allowed=targets[path].allowed()))


def changed(value: float, change: str, amount: float) -> float:
    """A value multiplied (times), moved (plus) or replaced (to)."""
    return {"times": value * amount, "plus": value + amount, "to": amount}[change]


def tables_by_name(aside: str, raw: Mapping[str, Any], *, draft: Draft) -> Iterator[tuple[str, dict[str, Any]]]:
    """The tables of an aside whose names can be used; the others are refused."""
    given = raw.get(aside, {})
    if not isinstance(given, dict):
        draft.refuse(Fault(aside, "must be tables with a name each", got=shown(given), hint=f"write [{aside}.any_name]"))
        return
    for name, value in given.items():
        where = dotted((aside, name))
        if not ITEM_NAME.fullmatch(name):
            draft.refuse(Fault(where, "not a usable name", got=shown(name), allowed=ITEM_NAME_RULE))
        elif not isinstance(value, dict):
            draft.refuse(Fault(where, "must be a table of values", got=shown(value), hint=f"write [{where}]"))
        else:
            yield name, value
