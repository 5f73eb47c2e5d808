"""Every test has a folder of drafts of its own; the script under test is the one that Streamlit runs."""

from __future__ import annotations

from pathlib import Path

import pytest


@pytest.fixture(autouse=True)
def own_home(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> Path:
    """A fresh folder for drafts."""
    monkeypatch.setenv("APPRAISAL_HOME", str(tmp_path / "home"))
    return tmp_path / "home"
