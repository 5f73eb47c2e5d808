"""Ranges that the reference tables offer for values without one. They are shown, never applied by themselves."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass

from appraisal.risk.survival import record_for
from appraisal.scenario.load import Loaded
from appraisal.scenario.reference import row

CLASSES = ("5", "4", "3", "2", "1")
CLOSING = "project.closes_after_years"
FIRM = ("quote", "measured")


@dataclass(frozen=True)
class Offer:
    """One range to take over or not.

    path: of the value. shape and facts: parameters by name, in the unit of the field. reason: with the source.
    """

    path: str
    shape: str
    facts: tuple[tuple[str, float | tuple[float, ...]], ...]
    reason: str


def offers(loaded: Loaded, *, estimate_class: str = "4") -> tuple[Offer, ...]:
    """Ranges on offer, in file order: of looked-up values their row's low and high, of costs their estimate class.

    estimate_class: 5 (first look) to 1 (contracts signed), for every capital item that no quote stands behind.
    """
    return (*_of_closing(loaded), *_of_rows(loaded), *_of_costs(loaded, estimate_class))


def _of_closing(loaded: Loaded) -> Iterator[Offer]:
    """How long such plants ran elsewhere, as a table of years until the plant closes for good."""
    found = record_for(loaded.scenario.digester.kind, dairy=any("dairy" in herd.like for herd in loaded.scenario.herd.values()))
    if found is not None and CLOSING not in loaded.scenario.range:
        years, weights = zip(*found.closings(never=loaded.assumptions[CLOSING].declaration.high or 0.0), strict=True)
        yield Offer(CLOSING, "table", (("values", years), ("weights", weights)), found.words())


def _of_rows(loaded: Loaded) -> Iterator[Offer]:
    for path, found in loaded.assumptions.items():
        value, low, high = found.value, found.low, found.high
        if path in loaded.scenario.range or not isinstance(value, float) or low is None or high is None:
            continue
        field = found.declaration
        if field.kind == "number" and low < high and low <= value <= high:
            inside = (field.low is None or field.low <= low) and (field.high is None or high <= field.high)
            if inside:
                reason = f"Low and high of the reference row ({found.known}): {found.source}"
                yield Offer(path, "triangular", (("low", low), ("high", high)), reason)


def _of_costs(loaded: Loaded, estimate_class: str) -> Iterator[Offer]:
    bounds = row("estimate_classes", estimate_class)
    low, high = (1 + float(bounds[name]) / 100 for name in ("default_low_pct", "default_high_pct"))
    for name, item in loaded.scenario.capital.items():
        path = f"capital.{name}.amount"
        if path in loaded.scenario.range or item.amount <= 0 or loaded.assumptions[path].known in FIRM:
            continue
        reason = (
            f"Estimate class {estimate_class}, {bounds['what_the_farm_has']}: {bounds['default_low_pct']} to "
            f"+{bounds['default_high_pct']} %, about eight futures in ten ({bounds['source']}; {bounds['basis']})"
        )
        yield Offer(path, "lognormal", (("p10", item.amount * low), ("p90", item.amount * high)), reason)
