"""The units library, knowing nothing but `unit_list`; imported only when a quantity with its unit is read."""

from __future__ import annotations

from collections import Counter
from functools import cache
from typing import Any

from appraisal.scenario.unit_list import UNITS, ZERO, Parts


@cache
def _registry() -> Any:
    """The units library, knowing nothing but `UNITS`."""
    import pint

    registry: Any = pint.UnitRegistry(None)
    for base in dict.fromkeys(row.base for row in UNITS if row.base != "kWh/hour"):
        registry.define(f"{base} = {'[]' if base == 'share' else f'[kind_of_{base}]'}")
    for row in UNITS:
        if row.name != row.base:
            offset = f"; offset: {ZERO[row.name]!r}" if row.name in ZERO else ""
            registry.define(f"{row.name} = {row.factor!r} * {row.base}{offset}")
    return registry


def converted(value: float, got: Parts, wanted: Parts) -> float:
    """The value [wanted] of a value [got] of the same kind."""
    registry, powers = _registry(), (Counter(got.over), Counter(wanted.over))
    for power, parts in zip(powers, (got, wanted), strict=True):
        power.subtract(parts.under)
    source, target = (registry.UnitsContainer(power) for power in powers)
    return float(registry.Quantity(value, source).m_as(target))
