"""Start the dashboard as a process of its own, on this computer only."""

from __future__ import annotations

import os
import subprocess
import sys
from collections.abc import Sequence
from pathlib import Path

from appraisal.dashboard import drafts
from appraisal.dashboard.settings import SCRIPT, options
from appraisal.dashboard.state import DRAFT_OPTION
from appraisal.scenario.load import Loaded

ABOVE_PACKAGE = Path(__file__).parents[2]


def draft_of(loaded: Loaded, file: Path) -> str:
    """The id of the draft of a file: the one begun from the same content of it, else a new one."""
    origin = str(file.resolve())
    for kept in drafts.recent(most=drafts.KEPT):
        if kept.head.origin == origin and drafts.began_with(kept.id, loaded.text):
            return kept.id
    return drafts.create(loaded.text, name=loaded.scenario.project.name, origin=origin).id


def command(draft: str | None, *, port: int | None, open_browser: bool) -> Sequence[str]:
    """The command line that starts the server, every safe setting on it."""
    words = [sys.executable, "-m", "appraisal.dashboard.server", "run", str(SCRIPT), *options()]
    words += [f"--server.headless={str(not open_browser).lower()}"]
    words += [] if port is None else [f"--server.port={port}", f"--browser.serverPort={port}"]
    return words if draft is None else [*words, "--", DRAFT_OPTION, draft]


def serve(draft: str | None, *, port: int | None, open_browser: bool) -> int:
    """Run the server until it is ended; its exit code. Where the system can, this process becomes the server."""
    words = command(draft, port=port, open_browser=open_browser)
    there = [str(ABOVE_PACKAGE), *filter(None, [os.environ.get("PYTHONPATH")])]
    env = {**os.environ, "PYTHONPATH": os.pathsep.join(there)}
    if os.name == "posix":
        sys.stdout.flush()
        os.execve(words[0], list(words), env)
    try:
        return subprocess.run(words, env=env, check=False).returncode
    except KeyboardInterrupt:
        return 0
