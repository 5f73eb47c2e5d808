"""How fast the dashboard answers, in a real browser: `python -m tests.benchmarks.dashboard`. Figures, no verdicts.

First screen: from asking a server that has just started to the answer being readable. A change: from pressing a key on a
lever to the new figure standing beside the unchanged one, the scenario read and appraised anew each time.
"""

from __future__ import annotations

import os
import shutil
import sys
import tempfile
import time
from functools import partial
from pathlib import Path
from statistics import median, quantiles
from typing import Any

from tabulate import tabulate

from appraisal.appraise import appraise
from appraisal.demos import demos
from appraisal.risk.levers import with_levers
from appraisal.scenario.edit_text import with_edits
from appraisal.scenario.load import load, loads
from tests.benchmarks.measure import Shown, best
from tests.browser.conftest import FLAGS
from tests.browser.served import Server, Watched
from tests.dashboard.windows import draft_of_demo

CHANGES, STARTS = 50, 3
# Each from its lowest place upwards, one after the other: no case comes twice, so none is found among those kept.
LEVERS = {
    "Price of energy sold": 16,
    "Cost of building": 18,
    "Interest, points more or less": 14,
    "Less gas than planned": 8,
}
STEPS = [name for name, steps in LEVERS.items() for _ in range(steps)][:CHANGES]
TOLD = "document.querySelector('[aria-label=\"What the levers do\"]')?.innerText ?? ''"
SCREENS = ("The loan and its cover", "Money in and out", "Shall we build?")
DEMO = "dairy_with_leftovers"


def first_screens(browser: Any, home: Path, folder: Path) -> Shown:
    """Cold: a server started for this, a browser that never was here."""
    kept, times = draft_of_demo(DEMO), []
    for _ in range(STARTS):
        server, called = Server(home, folder), time.perf_counter()
        server.start()
        window = Watched(browser, server)
        start = time.perf_counter()
        window.page.goto(f"{server.address}/?draft={kept.id}")
        window.page.get_by_text("What to ask about").first.wait_for()
        times.append((time.perf_counter() - called, time.perf_counter() - start))
        window.close()
        server.stop()
    return (
        "First screen with its answer, cold server and cold browser",
        ("start", "seconds from the command", "from opening the page"),
        [(str(number + 1), *(f"{each:.2f}" for each in pair)) for number, pair in enumerate(times)],
    )


def changes(browser: Any, home: Path, folder: Path) -> Shown:
    """One lever moved step by step; never twice to the same place."""
    server = Server(home, folder)
    server.start()
    try:
        rows = [_on_screen(browser, server, title) for title in SCREENS]
    finally:
        server.stop()
    head = ("screen", "median", "nine in ten", "longest")
    return f"From a key on a lever to the new figure, {CHANGES} changes", head, rows


def _on_screen(browser: Any, server: Server, title: str) -> tuple[str, ...]:
    window = Watched(browser, server)
    page = window.open(f"?draft={draft_of_demo(DEMO).id}&reader=bank")
    window.go(title)
    for name in LEVERS:
        page.get_by_role("slider", name=name).press("Home")
        window.idle()
    times = sorted(_one_change(window, page, name) for name in STEPS)
    window.close()
    return title, f"{median(times):.0f} ms", f"{quantiles(times, n=10)[-1]:.0f} ms", f"{times[-1]:.0f} ms"


def _one_change(window: Watched, page: Any, lever: str) -> float:
    """Press a key and wait in the page itself until the figures beside the plan are others [ms]."""
    slider = page.get_by_role("slider", name=lever)
    slider.focus()
    before = page.evaluate(TOLD)
    start = time.perf_counter()
    slider.press("ArrowRight")
    page.wait_for_function(f"({TOLD}) !== {before!r}", polling=5)
    spent = (time.perf_counter() - start) * 1000
    window.idle()
    return spent


def where_it_goes() -> Shown:
    """The parts of a change without the browser."""
    loaded = load(demos()[DEMO])
    text = loaded.text
    parts = (
        ("edit the text of the file", lambda: with_edits(text, {("judging", "discount_rate"): 0.06})),
        ("read and check a text", lambda: loads(text)),
        ("read anew with levers moved", lambda: with_levers(loaded, {"price": 0.1})),
        ("appraise", lambda: appraise(loaded)),
    )
    return (
        "Where the time of a change goes, best of five",
        ("part", "time"),
        [(name, f"{best(task) * 1000:.0f} ms") for name, task in parts],
    )


def main() -> None:
    """Measure and print."""
    chromium = shutil.which("chromium") or sys.exit("no Chromium on this machine")
    from playwright.sync_api import sync_playwright

    with tempfile.TemporaryDirectory() as folder, sync_playwright() as playwright:
        os.environ["APPRAISAL_HOME"] = f"{folder}/home"
        browser = playwright.chromium.launch(executable_path=chromium, args=FLAGS)
        places = Path(folder) / "home", Path(folder)
        for measured in (where_it_goes, partial(first_screens, browser, *places), partial(changes, browser, *places)):
            title, head, rows = measured()
            print(f"{title}\n{tabulate(rows, head, disable_numparse=True)}\n", flush=True)
        browser.close()


if __name__ == "__main__":
    main()
