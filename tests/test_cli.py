"""The command line as its users meet it: exit codes, what stands on which stream, files that are never overwritten."""

from __future__ import annotations

import json
import re
import subprocess
import sys
from pathlib import Path

import openpyxl
import pytest
from click.testing import CliRunner, Result

from appraisal.cli import main
from appraisal.demos import demos
from appraisal.reports.subjects import READ_FIRST, SHEETS

DEMO = "dairy_with_leftovers"
PLANT = {
    "methane_nm3",
    "biogas_nm3",
    "power_gross_kwh",
    "power_own_use_kwh",
    "power_sold_kwh",
    "heat_recoverable_kwh",
    "heat_to_digester_kwh",
    "heat_used_kwh",
    "digestate_t",
    "n_kg",
    "p_kg",
    "k_kg",
    "engine_hours",
    "capacity_factor",
    "capacity_factor_sold",
    "contract_gas_share",
}
MEASURES = {
    "npv",
    "irr",
    "mirr",
    "payback_years",
    "discounted_payback_years",
    "levelised_cost_per_kwh",
    "benefit_cost_ratio",
    "dscr_min",
    "dscr_average",
}


def call(*words: str | Path) -> Result:
    return CliRunner().invoke(main, [str(word) for word in words])


def fresh(*words: str) -> subprocess.CompletedProcess[str]:
    return subprocess.run([sys.executable, *words], capture_output=True, text=True, check=False)


@pytest.mark.parametrize("name", sorted(demos()))
def test_every_demo_runs(name: str) -> None:
    done = call("run", "--demo", name, "--full")
    assert done.exit_code == 0
    for heading in (
        "For the family",
        "For the bank",
        "For the grant office",
        "What to ask about",
        "Before anyone acts on this",
    ):
        assert heading in done.stdout
    assert "nan" not in done.stdout.lower().replace("finan", "")


@pytest.mark.parametrize("name", sorted(demos()))
def test_by_itself_run_prints_a_page_for_the_family(name: str) -> None:
    """The answer, few years, conditions, causes, work, loan, findings, cautions and what to type next; notes are counted."""
    told, full = (call("run", "--demo", name, *more).stdout for more in ((), ("--full",)))
    heads = (
        "Shall we build?", "Money in", "each by itself", "What hurts most", "The work", "The loan", "What to ask about",
        "Before anyone acts on this", "What next",
    )  # fmt: skip
    places = [told.index(head) for head in heads]
    assert places == sorted(places) and len(told.splitlines()) <= 110 < 200 < len(full.splitlines())
    assert "nan" not in told.lower().replace("finan", "") and "was not asked yet.\n\nWhat hurts" not in told
    assert told.count("[warning]") + told.count("[stop and ask]") == full.count("[warning]") + full.count("[stop and ask]")
    assert f"{full.count('[note]')} notes more" in told
    assert not re.search(r"\] [a-z]\w*[_.]\w+:", told), "a finding begins with its place in words"
    for line in told[told.index("What next") :].splitlines()[2:8]:
        words = line.split("  ")[0].split()
        assert words[0] == "appraisal" and words[1] in main.commands and f"--demo {name}" in line


def test_the_small_herd_is_told_plainly_that_it_does_not_pay() -> None:
    told = call("run", "--demo", "small_herd_manure_only", "--full").stdout
    assert "On these figures it does not pay" in told
    assert told.index("Not as it stands.") < told.index("For the family")  # the screen's answer comes first here too


@pytest.mark.parametrize("name", sorted(demos()))
def test_json_is_one_object_with_the_agreed_names(name: str) -> None:
    done = fresh("-m", "appraisal", "run", "--demo", name, "--json")
    assert (done.returncode, done.stderr) == (0, "")
    told = json.loads(done.stdout)
    assert {"schema", "version", "scenario", "plant", "yearly", "measures", "findings"} <= set(told)
    assert {"name", "currency", "display_units", "fingerprint"} <= set(told["scenario"])
    assert set(told["plant"]) >= PLANT
    assert set(told["measures"]) >= MEASURES
    assert [year["year"] for year in told["yearly"]] == list(range(1, len(told["yearly"]) + 1))
    for year in told["yearly"]:
        assert {"cash_available_for_debt_service", "debt_service", "tax", "net_cash", "dscr"} <= set(year)
        assert sum(year[line] for line in told["lines"]) == pytest.approx(year["net_cash"], abs=1e-4)
        assert year["debt_service"] <= 0
    for finding in told["findings"]:
        assert {"where", "what", "severity", "value", "limit", "source"} <= set(finding)


def test_units_shown_do_not_change_the_json(tmp_path: Path) -> None:
    text = demos()[DEMO].read_text(encoding="utf-8")
    other = tmp_path / "metric.toml"
    other.write_text(text.replace('display_units = "us"', 'display_units = "metric"'), encoding="utf-8")
    us, metric = (json.loads(call("run", path, "--json").stdout) for path in (demos()[DEMO], other))
    assert us["plant"] == metric["plant"] and us["yearly"] == metric["yearly"]
    assert "short ton" in call("run", demos()[DEMO], "--full").stdout
    assert "short ton" not in call("run", other, "--full").stdout


def test_help_imports_nothing_heavy() -> None:
    code = """
import sys
from appraisal.cli import main
try:
    main(["--help"])
except SystemExit as end:
    assert end.code == 0
heavy = {"numpy", "pydantic", "pint", "xlsxwriter", "tabulate", "pandas"} & set(sys.modules)
assert not heavy, heavy
"""
    done = fresh("-c", code)
    assert done.returncode == 0, done.stderr


def test_new_then_check_then_run(tmp_path: Path) -> None:
    file = tmp_path / "my_farm.toml"
    made = call("new", file, "--units", "us", "--currency", "USD")
    assert made.exit_code == 0 and "with them the plan loses money" in made.stdout
    assert json.loads(call("run", file, "--json").stdout)["measures"]["npv"] < 0  # as it says
    assert "valid" in call("check", file).stdout
    assert call("run", file).exit_code == 0


def test_check_lists_every_value_with_its_origin() -> None:
    told = call("check", "--demo", DEMO, "--values").stdout
    row = next(line for line in told.splitlines() if line.startswith("feed.whey.potential_nm3_per_t_vs"))
    assert "380" in row and "Nm3/t VS" in row and "reference" in row
    assert any(line.startswith("power.contract_price_per_kwh") and "invented" in line for line in told.splitlines())


def test_new_never_overwrites(tmp_path: Path) -> None:
    file = tmp_path / "my_farm.toml"
    file.write_text("precious", encoding="utf-8")
    done = call("new", file)
    assert done.exit_code == 2
    assert file.read_text(encoding="utf-8") == "precious"


@pytest.mark.parametrize(
    "words",
    [
        ("run",),
        ("run", "a.toml", "--demo", DEMO),
        ("run", "--demo", "nowhere"),
        ("run", "--demo", DEMO, "--full", "--reader", "bank"),
        ("check",),
        ("reference", "feedstock"),
        ("reference", "feedstocks", "whay"),
        ("nonsense",),
    ],
)
def test_wrong_use_is_2(words: tuple[str, ...]) -> None:
    done = call(*words)
    assert done.exit_code == 2
    assert "Traceback" not in done.output


@pytest.mark.parametrize("command", ["run", "check"])
def test_a_scenario_that_is_not_valid_is_3_without_traceback(command: str, tmp_path: Path) -> None:
    file = tmp_path / "broken.toml"
    file.write_text("schema_version = 1\n[project]\nname = 3\n", encoding="utf-8")
    done = fresh("-m", "appraisal", command, str(file))
    assert done.returncode == 3
    assert done.stdout == ""
    assert "Traceback" not in done.stderr
    assert f"{file}:3: project.name" in done.stderr


def test_a_starter_in_no_currency_is_refused_and_leaves_no_file(tmp_path: Path) -> None:
    for everything in ([], ["--all"]):
        done = call("new", tmp_path / "farm.toml", "--currency", "Dollar", *everything)
        assert done.exit_code == 2 and "three capital letters" in done.output
        assert not (tmp_path / "farm.toml").exists()


def test_a_missing_file_is_3(tmp_path: Path) -> None:
    done = call("run", tmp_path / "nowhere.toml")
    assert done.exit_code == 3
    assert "nowhere.toml" in done.stderr


def test_workbook_is_written_and_a_bad_place_is_told(tmp_path: Path) -> None:
    book = tmp_path / "farm.xlsx"
    assert call("run", "--demo", DEMO, "--workbook", book).exit_code == 0
    names = openpyxl.load_workbook(book, read_only=True).sheetnames
    assert names[0] == READ_FIRST and set(names) <= set(SHEETS) and "Results" in names
    bad = call("run", "--demo", DEMO, "--workbook", tmp_path / "nowhere" / "farm.xlsx")
    assert bad.exit_code == 2
    assert "Traceback" not in bad.output


def test_a_workbook_that_exists_is_not_overwritten(tmp_path: Path) -> None:
    book = tmp_path / "farm.xlsx"
    book.write_text("precious", encoding="utf-8")
    assert call("run", "--demo", DEMO, "--workbook", book).exit_code == 2
    assert book.read_text(encoding="utf-8") == "precious"


def test_reference_shows_tables_rows_and_sources() -> None:
    assert "feedstocks" in call("reference").stdout
    assert "sweet_whey" in call("reference", "feedstocks").stdout
    row = call("reference", "feedstocks", "sweet_whey").stdout
    assert "source:" in row and "basis:" in row


def test_schema_is_json() -> None:
    assert json.loads(call("schema").stdout)["type"] == "object"


def test_module_and_command_are_the_same() -> None:
    assert fresh("-m", "appraisal", "--version").stdout.startswith("appraisal")
