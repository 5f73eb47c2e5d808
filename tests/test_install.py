"""An installed copy works as a checkout does: demos and reference tables travel inside the package."""

from __future__ import annotations

import json
import subprocess
import sys
from pathlib import Path

import pytest

from appraisal.demos import demos

ROOT = Path(__file__).parents[1]
pytestmark = pytest.mark.install


def done(*command: str | Path, folder: Path) -> str:
    finished = subprocess.run([str(word) for word in command], cwd=folder, capture_output=True, text=True, check=False)
    assert finished.returncode == 0, finished.stdout + finished.stderr
    return finished.stdout


def test_the_wheel_runs_a_demo_in_a_fresh_environment(tmp_path: Path) -> None:
    done(sys.executable, "-m", "venv", "env", folder=tmp_path)
    python = tmp_path / "env" / ("Scripts" if sys.platform == "win32" else "bin") / "python"
    done(python, "-m", "pip", "wheel", "--quiet", "--no-deps", "--wheel-dir", "wheels", ROOT, folder=tmp_path)
    (wheel,) = (tmp_path / "wheels").glob("appraisal-*.whl")
    done(python, "-m", "pip", "install", "--quiet", wheel, folder=tmp_path)
    for name in demos():
        told = json.loads(done(python, "-m", "appraisal", "run", "--demo", name, "--json", folder=tmp_path))
        assert told["plant"]["methane_nm3"] > 0
    assert "sweet_whey" in done(python, "-m", "appraisal", "reference", "feedstocks", folder=tmp_path)
