"""What can go wrong, as values: faults in a scenario, findings about a plant, and the exception tree."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from typing import Literal

Severity = Literal["note", "warning", "stop and ask"]


class AppraisalError(Exception):
    """Root of every error this package raises on purpose."""


class LineError(AppraisalError):
    """A line is written wrongly: unknown argument, circle, or an operation with no spreadsheet form."""


class UnitError(AppraisalError):
    """A text value cannot be read as a quantity of the wanted kind; the message names the likely meaning."""


@dataclass(frozen=True)
class Fault:
    """One thing wrong with a scenario.

    path: dotted path of the value, empty for the file as a whole.
    what: what is wrong, in one clause.
    got: the offending value as written, None when there is none.
    allowed: what would be accepted, with its unit, None when not applicable.
    hint: likely spelling or meaning, None when there is none.
    line: line in the file, None when not known.
    """

    path: str
    what: str
    got: str | None = None
    allowed: str | None = None
    hint: str | None = None
    line: int | None = None

    def text(self, file: str) -> str:
        """One line for people: file:line: path: what is wrong (got ..., allowed ...; did you mean ...?)."""
        where = f"{file}:{self.line}" if self.line else file
        facts = [f"got {self.got}" if self.got is not None else "", f"allowed {self.allowed}" if self.allowed else ""]
        bracket = "; ".join(part for part in (", ".join(f for f in facts if f), self.hint or "") if part)
        return ": ".join(part for part in (where, self.path, self.what) if part) + (f" ({bracket})" if bracket else "")


class ScenarioError(AppraisalError):
    """A scenario is not valid. Carries every fault found, not only the first."""

    def __init__(self, file: str, faults: list[Fault]) -> None:
        self.file, self.faults = file, faults
        super().__init__("\n".join(fault.text(file) for fault in faults))


def together(refused: Sequence[ScenarioError]) -> ScenarioError:
    """The faults of several files as one error, each fault with the name of its file; at least one file is needed."""
    whole = ScenarioError(refused[0].file, [fault for each in refused for fault in each.faults])
    whole.args = ("\n".join(map(str, refused)),)
    return whole


@dataclass(frozen=True)
class Finding:
    """Something possible but worth a question, shown alike to every reader.

    where: dotted path or line name the finding is about.
    what: one plain sentence, with figure and unit, on what it means for the farm.
    severity: note, warning, or stop and ask.
    value, limit: the figure and the limit it met, in `unit`; None when the finding is not about one figure.
    source: where the limit comes from and how it is known.
    """

    where: str
    what: str
    severity: Severity
    value: float | None = None
    limit: float | None = None
    unit: str | None = None
    source: str = ""
