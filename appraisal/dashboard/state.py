"""What one browser window has open: the draft as last drawn, the reader, the units, the levers."""

from __future__ import annotations

import sys
from collections.abc import Sequence
from typing import Any, get_args

import streamlit as st

from appraisal.dashboard import drafts
from appraisal.dashboard.cached import reading
from appraisal.dashboard.drafts import Kept, NoDraftError, OtherTabError
from appraisal.dashboard.seen import Reader, System
from appraisal.dashboard.typed import DRAWN
from appraisal.errors import Fault
from appraisal.risk.levers import LOST
from appraisal.scenario.load import Loaded

DRAFT_OPTION = "--draft"
OPEN, LEVERS, WAITING, NEWS = "_open", "_levers", "_waiting", "_news"


def begin() -> None:
    """Take up the draft of the address (or of the command line, in a new window) and write the address anew."""
    if OPEN not in st.session_state:
        st.session_state[OPEN] = None
        _take_up(st.query_params.get("draft") or _of_command_line(sys.argv))
    kept = st.session_state[OPEN]
    if kept is not None:
        _look_again(kept)
    _write_address()


def _of_command_line(words: Sequence[str]) -> str | None:
    return words[words.index(DRAFT_OPTION) + 1] if DRAFT_OPTION in words[:-1] else None


def _take_up(id: str | None) -> None:
    if id is not None:
        try:
            st.session_state[OPEN] = drafts.read(id)
        except NoDraftError as error:
            tell(f"The farm of this address cannot be opened: {error}.")


def _look_again(kept: Kept) -> None:
    """Read the draft anew; another window may have changed it."""
    try:
        now = drafts.read(kept.id)
    except (NoDraftError, OSError) as error:
        tell(f"The draft cannot be read from disk just now ({error}); this page shows what was last read.")
        return
    if now.head.revision != kept.head.revision:
        tell("This farm was changed in another window. You see it as it is now.")
        forget_waiting()
    st.session_state[OPEN] = now


def _write_address() -> None:
    kept = opened()
    if kept is not None:
        st.query_params.from_dict({"draft": kept.id, "reader": reader(), "units": units()})


def opened() -> Kept | None:
    """The draft this window has open."""
    found: Kept | None = st.session_state.get(OPEN)
    return found


def open_draft(kept: Kept) -> None:
    """Show another draft in this window, with levers at rest."""
    st.session_state[OPEN] = kept
    st.session_state[LEVERS] = {}
    st.session_state.pop("_units", None)
    forget_waiting()
    _write_address()


def close() -> None:
    """Leave the draft; it stays on disk."""
    st.session_state[OPEN] = None
    st.query_params.clear()


def standing() -> Loaded | tuple[Fault, ...] | None:
    """The scenario of the open draft, its faults, or None when nothing is open."""
    kept = opened()
    return None if kept is None else reading(kept.text)


def is_usable() -> bool:
    """Whether a farm is open and can be worked out; if not, only the screen that opens one has something to show."""
    return isinstance(standing(), Loaded)


def accept(text: str) -> tuple[Fault, ...]:
    """Save a changed text when nothing is wrong with it, and hand back its faults when something is."""
    kept, found = opened(), reading(text)
    if isinstance(found, tuple) or kept is None:
        return found if isinstance(found, tuple) else ()
    if text != kept.text:
        _change(lambda: drafts.save(kept.id, text, name=found.scenario.project.name, revision=kept.head.revision))
    return ()


def step(by: int) -> None:
    """Undo or redo one change."""
    kept = opened()
    if kept is not None:
        forget_waiting()
        _change(lambda: drafts.step(kept.id, by, revision=kept.head.revision))


def _change(make: Any) -> None:
    try:
        st.session_state[OPEN] = make()
    except OtherTabError:
        tell(
            "This farm was changed in another window in the meantime. Your last change was not saved, so that nothing of "
            "the other window is lost. You see the farm as it is now; make the change again if you still want it."
        )
        forget_waiting()
        kept = opened()
        st.session_state[OPEN] = drafts.read(kept.id) if kept is not None else None
    except (NoDraftError, OSError) as error:
        tell(f"Your last change could not be written to disk ({error}). Nothing that was saved before is lost.")


def tell(news: str) -> None:
    """Keep a sentence for the top of the next page."""
    st.session_state.setdefault(NEWS, [])
    if news not in st.session_state[NEWS]:
        st.session_state[NEWS].append(news)


def told() -> list[str]:
    """The sentences kept for this page; they are shown once."""
    found: list[str] = st.session_state.pop(NEWS, [])
    return found


def waiting() -> dict[str, Any]:
    """Changes not accepted yet, by path, as typed."""
    found: dict[str, Any] = st.session_state.setdefault(WAITING, {})
    return found


def forget_waiting() -> None:
    """Drop the changes that were not accepted; every field then shows what is saved."""
    st.session_state[WAITING] = {}
    st.session_state[DRAWN] = {}


def reader() -> Reader:
    """For whom the results are arranged."""
    found: Reader = _chosen("_reader", "reader", get_args(Reader), "family")
    return found


def units() -> System:
    """The unit system shown: chosen, in the address, or that of the scenario."""
    found = standing()
    own = found.scenario.project.display_units if isinstance(found, Loaded) else "metric"
    chosen: System = _chosen("_units", "units", get_args(System), own)
    return chosen


def _chosen(key: str, name: str, options: Sequence[str], other: str) -> Any:
    for value in (st.session_state.get(key), st.query_params.get(name)):
        if value in options:
            return value
    return other


def levers() -> dict[str, float | str]:
    """How far each lever is moved, and under LOST the contract that is lost; what is at rest is not listed."""
    found: dict[str, float | str] = st.session_state.setdefault(LEVERS, {})
    return found


def lost() -> str | None:
    """The name of the case of a lost contract, if the reader chose one."""
    found = levers().get(LOST)
    return found if isinstance(found, str) else None
