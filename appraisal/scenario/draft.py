"""What is gathered while a file is read: content to check, assumptions, faults, and paths nobody can judge any more."""

from __future__ import annotations

from collections.abc import Iterable
from dataclasses import dataclass, field
from typing import Any

from appraisal.errors import Fault
from appraisal.scenario.assumptions import Assumption
from appraisal.scenario.faults import likely
from appraisal.scenario.quantity import SERIES, Declaration

MOST_HINTS = 100  # spelling hints, which are slow to find among many names
STAND_IN = "-"  # name of an item that stands in for a refused one; no name in a file can be this


@dataclass
class Draft:
    """The file on its way to a scenario.

    currency: three-letter code of all money, None when the file names none that can be used.
    content: sections for the scenario's classes to check; stand-ins where a value was refused.
    assumptions: by dotted path, for every field that could be read.
    written: texts as the file has them, by path, where they are not the value itself.
    faults: all that was found so far.
    doubtful: paths that hold a stand-in; no check may conclude anything from them.
    """

    currency: str | None = None
    content: dict[str, Any] = field(default_factory=dict)
    assumptions: dict[str, Assumption] = field(default_factory=dict)
    written: dict[str, str] = field(default_factory=dict)
    faults: list[Fault] = field(default_factory=list)
    doubtful: set[str] = field(default_factory=set)

    def likely(self, name: str, known: Iterable[str]) -> str | None:
        """The known name that was most likely meant, or None: also once so many faults are found that looking takes long."""
        return likely(name, known) if len(self.faults) < MOST_HINTS else None

    def did_you_mean(self, name: str, known: Iterable[str]) -> str | None:
        """The same as the question to put behind an unknown name."""
        meant = self.likely(name, known)
        return f"did you mean `{meant}`?" if meant else None

    def refuse(self, fault: Fault) -> None:
        """Keep a fault, and mark its path as one that nothing may be concluded from."""
        self.faults.append(fault)
        self.doubtful.add(fault.path)


def stand_in(item: Declaration) -> Any:
    """A value that a field accepts, to go on checking the others after this one was refused."""
    if item.kind == "choice":
        return item.options[0]
    if item.kind == "text":
        return item.default or ""
    value = next((each for each in (item.default, item.low, item.high) if each is not None), 0.0)
    if item.kind == "list":
        return None
    if item.kind in SERIES:
        return [float(value)] * SERIES[item.kind]
    return int(value) if item.kind == "count" else float(value)
