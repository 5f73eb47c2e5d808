"""A real server and a real browser: one server for all tests, a fresh window for each, and everything it asked for."""

from __future__ import annotations

import os
import shutil
from collections.abc import Iterator
from pathlib import Path
from typing import Any

import pytest

from tests.browser.served import Server, Watched

FLAGS = [
    "--headless", "--no-sandbox", "--disable-gpu", "--disable-quic", "--no-first-run", "--disable-background-networking",
    "--disable-component-update", "--disable-sync",
]  # fmt: skip


@pytest.fixture(scope="session")
def chromium() -> str:
    """Where the browser is; without one these tests are skipped, in CI they fail."""
    found = shutil.which("chromium") or shutil.which("chromium-browser") or shutil.which("google-chrome")
    if found is None:
        if os.environ.get("CI"):
            pytest.fail("no Chromium on this machine, and CI must have one")
        pytest.skip("no Chromium on this machine")
    return found


@pytest.fixture(scope="session")
def browser(chromium: str) -> Iterator[Any]:
    """The browser, started once."""
    from playwright.sync_api import sync_playwright

    with sync_playwright() as playwright:
        running = playwright.chromium.launch(executable_path=chromium, args=FLAGS)
        yield running
        running.close()


@pytest.fixture(scope="session")
def shared_home(tmp_path_factory: pytest.TempPathFactory) -> Path:
    """The folder of drafts that server and tests share."""
    return tmp_path_factory.mktemp("drafts")


@pytest.fixture(scope="session")
def server(shared_home: Path, tmp_path_factory: pytest.TempPathFactory) -> Iterator[Server]:
    """The dashboard, started as its own command starts it, from a folder that holds nothing."""
    running = Server(shared_home, tmp_path_factory.mktemp("elsewhere"))
    running.start()
    yield running
    running.stop()


@pytest.fixture(autouse=True)
def same_home(shared_home: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    """Tests look into the folder the server writes to."""
    monkeypatch.setenv("APPRAISAL_HOME", str(shared_home))


@pytest.fixture
def watched(browser: Any, server: Server) -> Iterator[Watched]:
    """A fresh window; at its end no console error and no request to another host may have come."""
    window = Watched(browser, server)
    yield window
    window.close()
    assert window.errors == []
    assert window.strangers == []
