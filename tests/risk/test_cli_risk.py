"""The four commands as their users meet them: the same bytes for the same seed, plain words, exit codes, streams."""

from __future__ import annotations

import json
import subprocess
import sys
from pathlib import Path

import pytest
from click.testing import CliRunner, Result

from appraisal.cli import main
from tests.risk.farms import DEMOS, edited

DAIRY = "dairy_with_leftovers"
COMMANDS = {
    "simulate": ("simulate", "--demo", DAIRY, "--draws", "640"),
    "rank": (
        "rank",
        "--demo",
        DAIRY,
        "--draws",
        "640",
        "--table",
        "tax.rate",
        "digester.availability",
        "--engine",
        "main",
        "--engine-cost",
        "engine_set",
    ),
    "stress": ("stress", "--demo", DAIRY, "--driver", "feed.bakery.tonnes_per_year"),
    "compare": ("compare", "--demo", DAIRY, "--demo", "small_herd_manure_only", "--draws", "640"),
}


def call(*words: str | Path) -> Result:
    return CliRunner().invoke(main, [str(word) for word in words])


def fresh(*words: str) -> subprocess.CompletedProcess[str]:
    return subprocess.run([sys.executable, "-m", "appraisal", *words], capture_output=True, text=True, check=False)


@pytest.mark.parametrize("name", COMMANDS)
def test_json_is_one_object_and_the_same_bytes_for_the_same_seed(name: str) -> None:
    first, second = fresh(*COMMANDS[name], "--json"), call(*COMMANDS[name], "--json")
    assert first.returncode == second.exit_code == 0, first.stderr
    assert first.stdout == second.stdout
    told = json.loads(first.stdout)
    assert told["kind"] == name and {"schema", "version", "scenario"} <= set(told)
    if name != "stress":
        assert told["drawing"] | {"draws": 640, "seed": 1, "method": "sobol", "joining": "copula"} == told["drawing"]
        assert set(told["drawing"]["versions"]) == {"appraisal", "numpy", "scipy"}
        other = json.loads(call(*COMMANDS[name], "--json", "--seed", "2").stdout)
        assert other != told


def test_workers_do_not_change_a_byte() -> None:
    words = ("simulate", "--demo", DAIRY, "--draws", "3000", "--json", "--workers")
    assert call(*words, "1").stdout == fresh(*words, "2").stdout


@pytest.mark.parametrize("method", ["sobol", "latin", "plain"])
@pytest.mark.parametrize("correlation", ["copula", "iman_conover"])
def test_every_way_of_drawing_runs(method: str, correlation: str) -> None:
    done = call("simulate", "--demo", DAIRY, "--draws", "320", "--method", method, "--correlation", correlation)
    assert done.exit_code == 0
    assert "seed 1" in done.stdout


@pytest.mark.parametrize("demo", DEMOS)
@pytest.mark.parametrize("name", ["simulate", "rank", "stress"])
def test_every_demo_is_told_in_plain_words(name: str, demo: str) -> None:
    draws = () if name == "stress" else ("--draws", "320")
    done = call(name, "--demo", demo, *draws)
    assert done.exit_code == 0, done.output
    assert "nan" not in done.stdout.lower().replace("finan", "")
    heading = {"simulate": "futures say", "rank": "What decides", "stress": "Bad cases"}[name]
    assert heading in done.stdout and "Before anyone acts on this" in done.stdout


def test_the_pages_say_what_the_reader_needs() -> None:
    told = call(*COMMANDS["simulate"]).stdout
    for words in (
        "counts that risk a second time",
        "one future in ten lies below",
        "The plan as written is worth",
        "How much own money the family has is not stated",
        "Checked in every future",
        "not of the assumptions",
    ):
        assert words in " ".join(told.split()), words
    assert "would meet 1.25" in call(*COMMANDS["stress"]).stdout
    assert "beats Hollow Creek Dairy" in " ".join(call(*COMMANDS["compare"]).stdout.split())


@pytest.mark.parametrize(
    "words",
    [
        ("simulate",),
        ("simulate", "--demo", "nowhere"),
        ("simulate", "--demo", DAIRY, "--draws", "0"),
        ("simulate", "--demo", DAIRY, "--method", "halton"),
        ("rank", "--demo", DAIRY, "--by", "100"),
        ("rank", "--demo", DAIRY, "--table", "tax.rate", "nothing.here"),
        ("rank", "--demo", DAIRY, "--engine", "second"),
        ("rank", "--demo", DAIRY, "--engine-cost", "engine_set"),
        ("stress", "--demo", DAIRY, "--driver", "project.years"),
        ("compare", "--demo", DAIRY),
        ("compare", "--demo", DAIRY, "--demo", "shared_plant_three_farms"),
    ],
)
def test_wrong_use_is_2_without_traceback(words: tuple[str, ...]) -> None:
    done = call(*words)
    assert done.exit_code == 2
    assert "Traceback" not in done.output and done.stdout == ""


def test_a_scenario_without_ranges_is_told_so(tmp_path: Path) -> None:
    file = tmp_path / "bare.toml"
    file.write_text(edited(DAIRY, ranges=False).text.split("\n[range.")[0], encoding="utf-8")
    text = "\n\n".join(
        block for block in file.read_text("utf-8").split("\n\n") if not block.startswith(("[range.", "[correlation."))
    )
    file.write_text(text, encoding="utf-8")
    done = call("simulate", file)
    assert done.exit_code == 2 and "no value of this scenario carries a range" in done.output
    assert call("stress", file).exit_code == 0


@pytest.mark.parametrize("name", ["simulate", "rank", "stress"])
def test_a_scenario_that_is_not_valid_is_3(name: str, tmp_path: Path) -> None:
    file = tmp_path / "broken.toml"
    file.write_text("schema_version = 1\n[project]\nname = 3\n", encoding="utf-8")
    done = call(name, file)
    assert done.exit_code == 3
    assert call("compare", file, file).exit_code == 3


def test_long_runs_tell_on_standard_error_how_far_they_are(monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.setattr("appraisal.cli_drawing.LONG_SECONDS", -1.0)
    done = call("simulate", "--demo", DAIRY, "--draws", "4096", "--json", "--workers", "1")
    assert json.loads(done.stdout)["kind"] == "simulate"
    assert "futures: 50 % done" in done.stderr
    monkeypatch.setattr("appraisal.cli_drawing.LONG_SECONDS", 1e9)
    assert call("simulate", "--demo", DAIRY, "--draws", "4096", "--workers", "1").stderr == ""


def test_help_of_every_command_imports_nothing_heavy() -> None:
    code = """
import sys
from appraisal.cli import main
for name in ("simulate", "rank", "stress", "compare"):
    try:
        main([name, "--help"])
    except SystemExit as end:
        assert end.code == 0
heavy = {"numpy", "scipy", "pydantic", "pint", "tabulate", "multiprocessing"} & set(sys.modules)
assert not heavy, heavy
"""
    done = subprocess.run([sys.executable, "-c", code], capture_output=True, text=True, check=False)
    assert done.returncode == 0, done.stderr
