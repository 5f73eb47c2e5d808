"""The pages match the program: generated parts are current, named commands exist, the top level is as agreed."""

from __future__ import annotations

import re
import subprocess
import tomllib
from pathlib import Path

import pytest

from appraisal.cli import main
from appraisal.demos import demos
from tests.regenerate import pages, parts, renewed

ROOT = Path(__file__).parents[1]
TOP_LEVEL = {
    "README.md",
    "DEVELOPERS.md",
    "pyproject.toml",
    "appraisal",
    "tests",
    "demo_scenarios",
    ".streamlit",
    ".ci",
    ".gitignore",
}
README = (ROOT / "README.md").read_text(encoding="utf-8")


@pytest.mark.parametrize("file", sorted(parts()))
def test_generated_parts_are_current(file: str) -> None:
    text = (ROOT / file).read_text(encoding="utf-8")
    assert renewed(text, parts()[file]) == text, "run: python -m tests.regenerate"


@pytest.mark.parametrize("file", sorted(pages()))
def test_generated_pages_are_current(file: str) -> None:
    assert (ROOT / file).read_text(encoding="utf-8") == pages()[file], "run: python -m tests.regenerate"


def test_every_command_is_in_the_readme_and_every_named_command_exists() -> None:
    named = set(re.findall(r"appraisal (new|check|run|reference|schema|\w+) ", README)) & set(main.commands)
    assert named == set(main.commands)
    assert set(re.findall(r"^(?:\S+/)?appraisal (\w+)", README, re.MULTILINE)) <= set(main.commands)
    assert set(re.findall(r"--demo (\w+)", README)) - {"NAME"} <= set(demos())


def test_ci_calls_the_readme_test_command() -> None:
    command = "pip install uv && uv run --extra test pytest"
    assert command in README.splitlines()
    assert command in (ROOT / ".ci" / "run").read_text(encoding="utf-8").splitlines()


def test_readme_opens_with_the_job_in_one_paragraph() -> None:
    title, job = README.split("\n\n")[:2]
    assert title.startswith("# ")
    assert "farm" in job and "digester" in job and "loan" in job


def test_top_level_holds_nothing_else() -> None:
    try:
        tracked = subprocess.run(
            ["git", "ls-files"], cwd=ROOT, capture_output=True, text=True, check=True
        ).stdout.splitlines()
    except (OSError, subprocess.CalledProcessError):
        pytest.skip("not a git checkout")
    assert {Path(file).parts[0] for file in tracked} == TOP_LEVEL


def test_settings_of_the_project_file() -> None:
    project = tomllib.loads((ROOT / "pyproject.toml").read_text(encoding="utf-8"))
    assert project["tool"]["uv"]["python-downloads"] == "never"
    assert set(project["project"]["optional-dependencies"]) == {"test", "pdf", "browser"}
    assert project["tool"]["pytest"]["ini_options"]["filterwarnings"] == ["error"]
    assert "uv.lock" in (ROOT / ".gitignore").read_text(encoding="utf-8").split()
