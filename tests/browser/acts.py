"""What the walks in the browser do again and again."""

from __future__ import annotations

import time
import tomllib
from collections.abc import Callable
from typing import Any

from appraisal.dashboard import drafts
from tests.browser.served import Watched


def soon(holds: Callable[[], bool], seconds: float = 20) -> None:
    """Wait until something holds."""
    end = time.monotonic() + seconds
    while not holds():
        assert time.monotonic() < end, "it never came to hold"
        time.sleep(0.05)


def feed_of(id: str, name: str) -> dict[str, Any]:
    """A feed as the draft on disk has it."""
    table: dict[str, Any] = tomllib.loads(drafts.read(id).text)["feed"][name]
    return table


def to_feeds(window: Watched) -> None:
    """Open the form of the feeds."""
    window.go("What the farm puts in")
    window.page.get_by_text("Feeds brought in", exact=True).click()
    window.page.get_by_role("heading", name="Leftovers and crops").wait_for()
    window.idle()
