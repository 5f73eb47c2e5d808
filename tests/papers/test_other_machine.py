"""The same bytes in another process: another order of hashing, another time zone, another language, another folder."""

from __future__ import annotations

import hashlib
import os
import subprocess
import sys
from pathlib import Path

from appraisal.demos import demos
from tests.papers.test_files import DATE, SMALL

ROOT = Path(__file__).parents[2]
MACHINES = (
    {"PYTHONHASHSEED": "1", "TZ": "Pacific/Auckland", "LC_ALL": "C"},
    {"PYTHONHASHSEED": "4242", "TZ": "America/New_York", "LC_ALL": "C.UTF-8"},
)


def test_all_papers_are_the_same_bytes_in_another_process(tmp_path: Path) -> None:
    """Word, PDF, workbooks and CSV of a plan of few years, made twice from the command line."""
    text = demos()[SMALL].read_text(encoding="utf-8")
    file = tmp_path / "short.toml"
    short = text.replace("\nyears = 21", "\nyears = 5").replace("\nyears = 15", "\nyears = 5")
    assert short != text
    file.write_text(short, encoding="utf-8")
    made = []
    for place, machine in enumerate(MACHINES):
        folder = tmp_path / f"papers{place}"
        command = [sys.executable, "-m", "appraisal", "papers", str(file), "--to", str(folder), "--date", DATE, "--pdf"]
        environment = {**os.environ, **machine, "PYTHONPATH": str(ROOT)}
        subprocess.run(command, check=True, capture_output=True, env=environment, cwd=tmp_path)
        made.append({str(path.relative_to(folder)): _hash(path) for path in folder.rglob("*") if path.is_file()})
    assert made[0] == made[1]
    assert {"family_report.docx", "bank_report.pdf", "workbook.xlsx", "csv/grant_budget.csv"} <= set(made[0])


def _hash(path: Path) -> str:
    return hashlib.sha256(path.read_bytes()).hexdigest()
