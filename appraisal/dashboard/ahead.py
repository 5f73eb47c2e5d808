"""Brings in what the screens rest on while a browser that never was here still fetches its own part.

It takes about a second. Whoever draws a screen waits for it: a library half brought in by one thread must not be used by
another.
"""

from __future__ import annotations

from threading import Thread

from appraisal.dashboard.places import PLACES

_AHEAD: list[Thread] = []


def begin() -> None:
    """Start in a thread of its own."""
    _AHEAD.append(Thread(target=_bring_in, name="bring in the screens", daemon=True))
    _AHEAD[-1].start()


def wait() -> None:
    """Until all is there; at once where nothing was begun."""
    for thread in _AHEAD:
        thread.join()


def _bring_in() -> None:
    for place in PLACES:
        place.module()
