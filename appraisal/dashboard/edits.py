"""Changes on their way into the draft: tried on its text, accepted when nothing is wrong, else kept beside their field."""

from __future__ import annotations

from collections.abc import Callable, Mapping
from dataclasses import dataclass
from typing import Any

from appraisal.dashboard import state
from appraisal.errors import Fault
from appraisal.scenario.edit_text import EditError, parts_of, with_edits


@dataclass(frozen=True)
class Waiting:
    """A change that was not accepted: as typed, as it would stand in the file, and what is wrong with it."""

    typed: str
    raw: Any
    faults: tuple[Fault, ...]


def change(path: str, typed: str, raw: Any) -> None:
    """Try a change of one value together with those that wait, then alone; what is refused waits beside its field."""
    waiting = state.waiting()
    others = {name: each.raw for name, each in waiting.items() if name != path}
    if others and not _try({**others, path: raw}):
        state.forget_waiting()
        return
    faults = _try({path: raw})
    waiting = state.waiting()
    waiting.pop(path, None)
    if faults:
        waiting[path] = Waiting(typed, raw, faults)


def _try(values: Mapping[str, Any]) -> tuple[Fault, ...]:
    return attempt(lambda text: with_edits(text, {parts_of(path): raw for path, raw in values.items()}))


def attempt(edit: Callable[[str], str]) -> tuple[Fault, ...]:
    """Accept what an edit makes of the text of the draft, or hand back what is wrong with it."""
    kept = state.opened()
    if kept is None:
        return ()
    try:
        return state.accept(edit(kept.text))
    except EditError as error:
        return (Fault("", str(error)),)


def drop() -> None:
    """Give up the changes that wait; the fields go back to what is saved."""
    state.forget_waiting()
