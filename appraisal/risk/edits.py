"""Changes to the tables of a scenario file as its user would make them: items left out, numbers and their ranges multiplied."""

from __future__ import annotations

from collections.abc import Sequence
from typing import Any

from appraisal.scenario.beside import NAMES
from appraisal.scenario.load import Loaded

Raw = dict[str, Any]
NOT_OF_THE_VALUE = ("weights", "per_year")  # parameters of a range that are not in the unit of its value


def drop(raw: Raw, table: str, name: str) -> None:
    """Leave out an item, with the ranges, correlations and sources of its values."""
    raw.get(table, {}).pop(name, None)
    start = name if table == "range" else f"{table}.{name}."
    gone = {path for path in raw.get("range", {}) if path.startswith(start)} | ({name} if table == "range" else set())
    for path in gone:
        raw.get("range", {}).pop(path, None)
    for path in [path for path in raw.get("source", {}) if table != "range" and path.startswith(start)]:
        raw["source"].pop(path)
    pairs = raw.get("correlation", {})
    for pair in [pair for pair, value in pairs.items() if {value.get("first"), value.get("second")} & gone]:
        pairs.pop(pair)


def multiply(raw: Raw, loaded: Loaded, path: str, factor: float) -> None:
    """Multiply a number, a profile or a path of the file, and the range it carries, by a factor [1]."""
    value = loaded.assumptions[path].value
    *parts, name = path.split(".")
    holder = raw
    for part in parts:
        holder = holder.setdefault(part, {})
    holder[name] = [each * factor for each in value] if isinstance(value, (tuple, list)) else float(value) * factor
    if path in loaded.scenario.range:
        kept = loaded.scenario.range[path]
        raw["range"][path] |= {
            each: _times(getattr(kept, each), factor)
            for each in NAMES
            if each not in NOT_OF_THE_VALUE and getattr(kept, each) is not None
        }


def _times(value: Any, factor: float) -> Any:
    return [each * factor for each in value] if isinstance(value, list) else value * factor


def put_off(raw: Raw, *, loaded: Loaded, years: int, paths: Sequence[str]) -> None:
    """Begin some years later, the money at `paths` risen by general inflation."""
    project = loaded.scenario.project
    year, month = project.first_month.split("-")
    raw["project"]["first_month"] = f"{int(year) + years:04d}-{month}"
    if project.price_year:
        raw["project"]["price_year"] = project.price_year + years
    for path in paths:
        multiply(raw, loaded, path, (1 + project.inflation) ** years)
