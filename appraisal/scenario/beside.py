"""What stands beside the values for the questions of risk: ranges, correlations between them, and cases to test."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass
from typing import Any, Literal, get_args

from pydantic import Field

from appraisal.scenario.quantity import Section, choice, number, numbers, text

Shape = Literal["triangular", "pert", "uniform", "truncated_normal", "lognormal", "table", "hazard"]
AS_VALUE = "in the unit of the value"
# Which parameters each shape needs, and which may be given besides.
PARAMETERS: Mapping[str, tuple[tuple[str, ...], tuple[str, ...]]] = {
    "triangular": (("low", "high"), ("likely",)),
    "pert": (("low", "high"), ("likely",)),
    "uniform": (("low", "high"), ()),
    "truncated_normal": (("low", "high", "sd_before_cut"), ("mean_before_cut",)),
    "lognormal": (("p10", "p90"), ("low", "high")),
    "table": (("values",), ("weights",)),
    "hazard": (("per_year",), ()),
}

NAMES = (
    "low", "likely", "high", "p10", "p90", "mean_before_cut", "sd_before_cut", "values", "weights", "per_year")


class Range(Section):
    """How far a number may lie from its value, and why."""

    shape: Shape = choice(*get_args(Shape), label="Shape",
        help="How likely the values between are. triangular, pert: low, high, and likely for the peak; uniform: low, high; "
        "truncated_normal: low, high, sd_before_cut, mean_before_cut; lognormal: p10, p90, cut at low and high; "
        "table: values as they were observed, with weights; hazard: per_year, for a number of years that may end early, or "
        "for the month in which something happens, 0 being never.")
    low: float | None = number(AS_VALUE, None, None, optional=True, label="Low", help="The least plausible value.")
    likely: float | None = number(AS_VALUE, None, None, optional=True, label="Most likely",
        help="Peak of a triangular or pert range where it is not the value itself.")
    high: float | None = number(AS_VALUE, None, None, optional=True, label="High", help="The greatest plausible value.")
    p10: float | None = number(AS_VALUE, None, None, optional=True, label="P10", help="One future in ten lies below.")
    p90: float | None = number(AS_VALUE, None, None, optional=True, label="P90", help="One future in ten lies above.")
    mean_before_cut: float | None = number(AS_VALUE, None, None, optional=True, label="Mean before cutting",
        help="Of the normal curve that low and high cut, where it is not the value itself; the mean of what is left differs.")
    sd_before_cut: float | None = number(AS_VALUE, 0, None, optional=True, label="Standard deviation before cutting",
        help="Of the normal curve that low and high cut.")
    values: list[float] | None = numbers(AS_VALUE, None, None, label="Values",
        help="As observed, two or more; every future takes one of them.")
    weights: list[float] | None = numbers("share", 0, 1e6, label="Weights",
        help="How often each of the values counts; alike when left out.")
    per_year: float | None = number("share/year", 0, 1, optional=True, label="Chance in a year",
        help="That the years end before their time, given that they have not ended before; the first year is certain. Of a "
        "month: that it happens in a year, given that it has not happened before, the first year included.")
    reason: str = text(label="Reason", help="Why this range.")


class Correlation(Section):
    """Two ranges that move together."""

    first: str = text(label="First value", help="Path of a value with a range.")
    second: str = text(label="Second value", help="Path of another value with a range.")
    rank: float = number("share", -0.99, 0.99, label="Rank correlation",
        help="Spearman's: 0 is none; 0.5 is clear; negative: one rises as the other falls.")
    reason: str = text(label="Reason", help="Why they move together.")


class StressCase(Section):
    """A bad case of the user's own: values multiplied, moved or replaced together."""

    label: str = text(label="Name", help="Shown in tables.")
    reason: str = text(default="", label="Reason", help="Why this may happen.")
    times: dict[str, float] = Field(default_factory=dict)
    plus: dict[str, float] = Field(default_factory=dict)
    to: dict[str, float] = Field(default_factory=dict)


class Wander(Section):
    """A movement of prices from year to year that is pulled back to the plan's own path; several values may share it."""

    half_life_years: float = number("year", 0.1, 30, label="Years until half a departure is gone",
        help="3: half of this year's departure from the plan is left in three years.")
    sd_long_run: float = number("share", 0.001, 0.6, label="Spread in the long run",
        help="Standard deviation of the logarithm: 0.2 puts two years in three within about a fifth of the plan's price.")
    reason: str = text(label="Reason", help="Why this spread and this return.")
    moves: dict[str, float] = Field(default_factory=dict)


MOVES = "Strengths by path of a value by project year: 1 moves it in full, 0.5 by half the logarithm, -1 the other way."
CHANGES: Mapping[str, str] = {
    "times": "Factors by path: \"capital.*.amount\" = 1.2 makes every item 20 % dearer.",
    "plus": "Amounts added, by path: \"loan.*.rate\" = \"2 %/year\" is two points more.",
    "to": "Values put in the place of the scenario's, by path.",
}


@dataclass(frozen=True)
class Pair:
    """One declared rank correlation [1] between two paths, under the name it has in the file."""

    name: str
    first: str
    second: str
    rank: float


@dataclass(frozen=True)
class Culprit:
    """What makes a matrix impossible.

    pair: the one whose least change mends it, None when no single one does. low, high: the rank correlations [1] it may
    have while the others stay. paths: values that take part in the contradiction.
    """

    pair: Pair | None
    low: float
    high: float
    paths: tuple[str, ...]


def parameters(item: Any) -> dict[str, Any]:
    """The parameters given in a range, by name: of a Range, or of the mapping it is made from."""
    get = item.get if isinstance(item, Mapping) else lambda name: getattr(item, name)
    return {name: value for name in NAMES if (value := get(name)) is not None}
