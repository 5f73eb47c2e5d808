"""A real spreadsheet program as the judge: LibreOffice Calc with recalculation forced."""

from __future__ import annotations

import csv
import os
import shutil
import subprocess
from collections.abc import Sequence
from pathlib import Path

import pytest

from appraisal.reports.subjects import INPUTS

FORCE_RECALCULATION = """<?xml version="1.0" encoding="UTF-8"?>
<oor:items xmlns:oor="http://openoffice.org/2001/registry" xmlns:xs="http://www.w3.org/2001/XMLSchema">
<item oor:path="/org.openoffice.Office.Calc/Formula/Load"><prop oor:name="OOXMLRecalcMode"><value>0</value></prop></item>
</oor:items>
"""
SECONDS = 300
# Comma, quotes, UTF-8, from the first row, cells not as shown but with all digits, every sheet into a file of its own.
EVERY_SHEET = "csv:Text - txt - csv (StarCalc):44,34,76,1,,0,false,false,false,false,false,-1"


def office() -> str:
    """Path of the office program; without one the test is skipped, except in CI, where it fails."""
    found = shutil.which("soffice") or shutil.which("libreoffice")
    if found is None:
        if os.environ.get("CI"):
            pytest.fail("LibreOffice Calc is missing; .ci/run must install it")
        pytest.skip("LibreOffice Calc is not installed")
    return found


def recalculated(books: Sequence[Path], folder: Path, *, force: bool = True) -> list[Path]:
    """Open each workbook in the office program, recalculate, and save every sheet as text with all digits.

    force: set the program to recalculate always; otherwise it trusts the values stored in the file.
    Returns one name a book; `cells` reads a sheet of it.
    """
    program, profile, out = office(), folder / "profile", folder / "out"
    if force:
        (profile / "user").mkdir(parents=True)
        (profile / "user" / "registrymodifications.xcu").write_text(FORCE_RECALCULATION, encoding="utf-8")
    command = [program, "--headless", f"-env:UserInstallation={profile.as_uri()}", "--convert-to", EVERY_SHEET]
    command += ["--outdir", str(out), *map(str, books)]
    done = subprocess.run(command, capture_output=True, text=True, timeout=SECONDS, check=False)
    made = [out / book.stem for book in books]
    missing = [book.name for book in made if not book.with_name(f"{book.name}-{INPUTS}.csv").exists()]
    assert not missing, f"not converted: {missing}\n{done.stdout}\n{done.stderr}"
    return made


def cells(book: Path, sheet: str) -> list[list[str]]:
    """All cells of one recalculated sheet, row by row, as text; per cent turned back into a plain number."""
    with book.with_name(f"{book.name}-{sheet}.csv").open(encoding="utf-8", newline="") as text:
        return [[_plain(cell) for cell in row] for row in csv.reader(text)]


def _plain(cell: str) -> str:
    """`7.5%` as 0.075; any other text as it is."""
    number = cell.removesuffix("%")
    if number == cell:
        return cell
    try:
        return repr(float(number) / 100)
    except ValueError:
        return cell


def sheets(book: Path) -> list[str]:
    """Names of the sheets of a recalculated book."""
    return [each.stem.removeprefix(f"{book.name}-") for each in book.parent.glob(f"{book.name}-*.csv")]
