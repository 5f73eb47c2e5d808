"""Starting and ending the server, and a window that notes what goes wrong and whom it asks."""

from __future__ import annotations

import os
import signal
import socket
import subprocess
import time
import urllib.error
import urllib.request
from pathlib import Path
from typing import Any
from urllib.parse import urlsplit

from appraisal.dashboard.launch import ABOVE_PACKAGE, command

WAIT_SECONDS, WAIT_MS = 60, 30_000
NARROW = 768  # CSS px; under it the menu lies over the page
IDLE = '[data-testid="stApp"][data-test-script-state="notRunning"]'


def free_port() -> int:
    """A port nobody uses just now."""
    with socket.socket() as probe:
        probe.bind(("127.0.0.1", 0))
        return int(probe.getsockname()[1])


class Server:
    """The dashboard as a process of its own, on a free port."""

    def __init__(self, home: Path, folder: Path) -> None:
        self.home, self.folder, self.port = home, folder, free_port()
        self.log = folder / "server.log"
        self.process: subprocess.Popen[bytes] | None = None

    @property
    def address(self) -> str:
        """Where it answers."""
        return f"http://localhost:{self.port}"

    def start(self) -> None:
        """Start it and wait until it is well."""
        env = {**os.environ, "APPRAISAL_HOME": str(self.home), "PYTHONPATH": str(ABOVE_PACKAGE)}
        with self.log.open("ab") as out:
            self.process = subprocess.Popen(
                command(None, port=self.port, open_browser=False), cwd=self.folder, env=env, stdout=out, stderr=out
            )
        end = time.monotonic() + WAIT_SECONDS
        while time.monotonic() < end:
            assert self.process.poll() is None, self.log.read_text(encoding="utf-8")
            try:
                urllib.request.urlopen(f"{self.address}/_stcore/health", timeout=2).close()
                return
            except (urllib.error.URLError, OSError):
                time.sleep(0.05)
        raise AssertionError(self.log.read_text(encoding="utf-8"))

    def kill(self) -> None:
        """End it without a word."""
        assert self.process is not None
        self.process.send_signal(signal.SIGKILL)
        self.process.wait(10)

    def stop(self) -> None:
        """End it."""
        if self.process is not None and self.process.poll() is None:
            self.process.terminate()
            try:
                self.process.wait(10)
            except subprocess.TimeoutExpired:
                self.kill()


class Watched:
    """One window of its own, with the console errors it prints and the strangers it asks."""

    def __init__(self, browser: Any, server: Server, *, width: int = 1280, height: int = 1800) -> None:
        self.server, self.narrow = server, width < NARROW
        self.context = browser.new_context(viewport={"width": width, "height": height}, accept_downloads=True)
        self.page = self.context.new_page()
        self.page.set_default_timeout(WAIT_MS)
        self.errors: list[str] = []
        self.strangers: list[str] = []
        self.page.on("console", lambda told: self.errors.append(told.text) if told.type == "error" else None)
        self.page.on("pageerror", lambda error: self.errors.append(str(error)))
        self.page.on("request", self._note)

    def _note(self, request: Any) -> None:
        if urlsplit(request.url).hostname not in ("localhost", None, ""):
            self.strangers.append(request.url)

    def open(self, query: str = "") -> Any:
        """Go to the first screen and wait until it is drawn."""
        self.page.goto(f"{self.server.address}/{query}")
        self.page.wait_for_selector("h1")
        self.idle()
        return self.page

    def idle(self) -> None:
        """Wait until the script has ended and the page is drawn."""
        self.page.wait_for_selector(IDLE)
        self.page.wait_for_timeout(150)
        self.page.wait_for_selector(IDLE)

    def go(self, title: str) -> None:
        """Choose a screen in the menu; on a phone the menu is opened first, and closed again where it stays open."""
        expand = self.page.get_by_test_id("stExpandSidebarButton")
        if expand.is_visible():
            expand.click()
        self.page.get_by_test_id("stSidebarNav").get_by_role("link", name=title).click()
        self.page.get_by_role("heading", level=1, name=title).wait_for()
        self.idle()
        collapse = self.page.get_by_test_id("stSidebarCollapseButton").get_by_role("button")
        if self.narrow and collapse.is_visible():
            collapse.click()

    def fill(self, label: str, value: str) -> None:
        """Type into a field and leave it."""
        field = self.page.get_by_label(label, exact=True).first
        field.fill(value)
        field.press("Tab")

    def close(self) -> None:
        """Close the window."""
        self.context.close()
