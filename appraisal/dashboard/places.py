"""The screens, in the order of the menu: the decision first, then what it rests on."""

from __future__ import annotations

from dataclasses import dataclass
from importlib import import_module
from pathlib import Path
from types import ModuleType

PAGES = (
    Path(__file__).parent / "page_files"
)  # not `pages`: a folder of that name Streamlit would run past the entry script


@dataclass(frozen=True)
class Place:
    """One screen: its name (of page file and module), its title in the menu, and whether levers move it and stand above it.

    A screen that levers move and that has none above it draws them itself.
    """

    name: str
    title: str
    levers: bool = True
    above: bool = True

    @property
    def file(self) -> Path:
        """The page file that Streamlit runs."""
        return PAGES / f"{self.name}.py"

    @property
    def levers_above(self) -> bool:
        """Whether the frame draws the levers over the screen."""
        return self.levers and self.above

    def module(self) -> ModuleType:
        """The module whose `show` draws the screen."""
        return import_module(f"appraisal.dashboard.screens.{self.name}")


PLACES = (
    Place("shall_we_build", "Shall we build?", above=False),
    Place("farm_puts_in", "What the farm puts in", levers=False),
    Place("gas_power_heat", "Gas, power and heat"),
    Place("digestate_and_land", "Digestate and land"),
    Place("money_in_and_out", "Money in and out"),
    Place("loan_and_cover", "The loan and its cover"),
    Place("what_could_go_wrong", "What could go wrong"),
    Place("papers", "Papers to take away", levers=False),
)
OPENING = Place("opening", "Open or save a farm", levers=False)


def place(name: str) -> Place:
    """A screen by its name; raises StopIteration where there is none."""
    return next(each for each in (*PLACES, OPENING) if each.name == name)
