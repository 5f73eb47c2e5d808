"""Numbers and units as people read them: rounded only here, in the unit system of the scenario."""

from __future__ import annotations

from collections.abc import Iterable
from dataclasses import dataclass
from math import floor, log10
from typing import Literal

from appraisal.scenario.units import shown

SIGNIFICANT = 4
FINE = 1_000  # thousandths, where hundredths hide on which side of a limit a cover stands
COLUMN_DIGITS, MOST_PLACES = 3, 6


@dataclass(frozen=True)
class Units:
    """How one scenario is shown: unit system and currency."""

    system: Literal["metric", "us"]
    currency: str

    def number(self, value: float, unit: str) -> tuple[float, str]:
        """A value [`unit`] in the chosen system, not rounded, and that system's unit."""
        return shown(value, unit, system=self.system, currency=self.currency)

    def amount(self, value: float, unit: str) -> str:
        """A value [`unit`] in the chosen system, rounded for the eye, with its unit."""
        number, label = self.number(value, unit)
        return with_unit(rounded(number), label)

    def cells(self, value: float, unit: str) -> tuple[str, str]:
        """The same as two cells: number and unit."""
        number, label = self.number(value, unit)
        return rounded(number), label

    def money(self, value: float) -> str:
        """An amount of money without decimals, with the currency."""
        return f"{value:,.0f} {self.currency}"


def with_unit(number: str, unit: str) -> str:
    """A written number with its unit; per cent stand close to it."""
    return f"{number}{unit}" if unit.startswith("%") else f"{number} {unit}".rstrip()


def listed(parts: Iterable[str]) -> str:
    """Names in a sentence: a, b and c."""
    names = list(parts)
    return names[0] if len(names) == 1 else f"{', '.join(names[:-1])} and {names[-1]}" if names else "none"


def counted(number: float, what: str) -> str:
    """A whole number with its noun: 1 year, 4 years."""
    return f"{number:,g} {what}" if number == 1 else f"{number:,g} {what}s"


def rounded(value: float) -> str:
    """Four significant digits, thousands separated; whole numbers from 1,000 up."""
    if value == 0:
        return "0"
    places = max(SIGNIFICANT - 1 - floor(log10(abs(value))), 0)
    text = f"{value:,.{min(places, 6)}f}"
    return text.rstrip("0").rstrip(".") if "." in text else text


def alike(values: Iterable[float]) -> tuple[str, ...]:
    """Numbers of one column, all with as many decimals as give the largest of them three significant digits."""
    numbers = [float(value) for value in values]
    largest = max(map(abs, numbers), default=0.0)
    places = min(max(COLUMN_DIGITS - 1 - floor(log10(largest)), 0), MOST_PLACES) if largest else 0
    return tuple(f"{number or 0.0:,.{places}f}" for number in numbers)


def times(value: float, limit: float) -> str:
    """A cover with two decimals; with three, rounded down, where two would hide that it is under the limit."""
    plain = f"{value:z.2f}"
    return f"{floor(value * FINE) / FINE:.3f}" if value < limit and plain == f"{limit:.2f}" else plain


def percent(share: float) -> str:
    """A share as per cent with one decimal."""
    return f"{share:.1%}"
