"""An installed copy works as a checkout does: demos and reference tables travel inside the package."""

from __future__ import annotations

import contextlib
import json
import os
import subprocess
import sys
import time
import urllib.request
from pathlib import Path

import pytest

from appraisal.demos import demos
from tests.browser.served import free_port

ROOT = Path(__file__).parents[1]
LOOKS = 300  # at the server, a fifth of a second apart
pytestmark = pytest.mark.install


def done(*command: str | Path, folder: Path) -> str:
    finished = subprocess.run([str(word) for word in command], cwd=folder, capture_output=True, text=True, check=False)
    assert finished.returncode == 0, finished.stdout + finished.stderr
    return finished.stdout


def serves(python: Path, folder: Path) -> None:
    """The dashboard of the installed copy answers, and ends with the command that started it."""
    port = free_port()
    words = [str(python), "-m", "appraisal", "dashboard", "--no-browser", "--port", str(port)]
    running = subprocess.Popen(words, cwd=folder, env={**os.environ, "APPRAISAL_HOME": str(folder / "home")})
    try:
        for _ in range(LOOKS):
            assert running.poll() is None
            with (
                contextlib.suppress(OSError),
                urllib.request.urlopen(f"http://127.0.0.1:{port}/_stcore/health") as answer,
            ):
                assert answer.status == 200
                return
            time.sleep(0.2)
        raise AssertionError("it never answered")
    finally:
        running.terminate()
        running.wait(10)


def test_the_wheel_runs_a_demo_in_a_fresh_environment(tmp_path: Path) -> None:
    done(sys.executable, "-m", "venv", "env", folder=tmp_path)
    python = tmp_path / "env" / ("Scripts" if sys.platform == "win32" else "bin") / "python"
    done(python, "-m", "pip", "wheel", "--quiet", "--no-deps", "--wheel-dir", "wheels", ROOT, folder=tmp_path)
    (wheel,) = (tmp_path / "wheels").glob("appraisal-*.whl")
    done(python, "-m", "pip", "install", "--quiet", wheel, folder=tmp_path)
    for name in demos():
        told = json.loads(done(python, "-m", "appraisal", "run", "--demo", name, "--json", folder=tmp_path))
        assert told["plant"]["methane_nm3"] > 0
    serves(python, tmp_path)
    assert "sweet_whey" in done(python, "-m", "appraisal", "reference", "feedstocks", folder=tmp_path)
