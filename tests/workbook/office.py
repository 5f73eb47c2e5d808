"""A real spreadsheet program as the judge: LibreOffice Calc with recalculation forced."""

from __future__ import annotations

import os
import shutil
import subprocess
from collections.abc import Sequence
from pathlib import Path

import pytest

FORCE_RECALCULATION = """<?xml version="1.0" encoding="UTF-8"?>
<oor:items xmlns:oor="http://openoffice.org/2001/registry" xmlns:xs="http://www.w3.org/2001/XMLSchema">
<item oor:path="/org.openoffice.Office.Calc/Formula/Load"><prop oor:name="OOXMLRecalcMode"><value>0</value></prop></item>
</oor:items>
"""
SECONDS = 300


def office() -> str:
    """Path of the office program; without one the test is skipped, except in CI, where it fails."""
    found = shutil.which("soffice") or shutil.which("libreoffice")
    if found is None:
        if os.environ.get("CI"):
            pytest.fail("LibreOffice Calc is missing; .ci/run must install it")
        pytest.skip("LibreOffice Calc is not installed")
    return found


def recalculated(books: Sequence[Path], folder: Path, *, force: bool = True) -> list[Path]:
    """Open each workbook in the office program, recalculate and save it as a new xlsx in `folder`.

    force: set the program to recalculate always; otherwise it trusts the values stored in the file.
    """
    program, profile, out = office(), folder / "profile", folder / "out"
    if force:
        (profile / "user").mkdir(parents=True)
        (profile / "user" / "registrymodifications.xcu").write_text(FORCE_RECALCULATION, encoding="utf-8")
    command = [
        program,
        "--headless",
        f"-env:UserInstallation={profile.as_uri()}",
        "--convert-to",
        "xlsx:Calc MS Excel 2007 XML",
        "--outdir",
        str(out),
        *map(str, books),
    ]
    done = subprocess.run(command, capture_output=True, text=True, timeout=SECONDS, check=False)
    made = [out / book.name for book in books]
    missing = [book.name for book in made if not book.exists()]
    assert not missing, f"not converted: {missing}\n{done.stdout}\n{done.stderr}"
    return made
