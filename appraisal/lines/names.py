"""How argument names are read: views of other lines, lists over items and over roles."""

from __future__ import annotations

from dataclasses import dataclass
from typing import Literal

View = Literal["same", "previous", "next", "cumulative", "life_sum", "year_sum", "year_end", "in_year", "years_of"]

VIEWS: dict[str, tuple[View, str]] = {
    "previous_": ("previous", "the value one month (or year) earlier, 0 in the first"),
    "next_": ("next", "the value one month (or year) later, 0 in the last"),
    "cumulative_": ("cumulative", "the sum from the first month up to and with this one"),
    "life_sum_": ("life_sum", "the sum over all months"),
    "year_sum_": ("year_sum", "the sum over the twelve months of the project year, in a yearly line"),
    "year_end_": ("year_end", "the value in the last month of the project year, in a yearly line"),
    "in_year_": ("in_year", "the yearly line's value for the project year of this month"),
    "years_of_": ("years_of", "all years of an input that has a value for each project year, to `pick` from"),
}
EACH, ALL = "each_", "all_"
MONTHS = 12  # of a project year


@dataclass(frozen=True)
class Ref:
    """One value that a line reads: the full name of a line or input, and through which view."""

    name: str
    view: View = "same"


def split_view(argument: str) -> tuple[View, str]:
    """Take the view off the front of an argument name: `year_sum_tax` -> (year_sum, tax)."""
    for prefix, (view, _) in VIEWS.items():
        if argument.startswith(prefix):
            return view, argument[len(prefix) :]
    return "same", argument
