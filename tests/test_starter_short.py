"""The short starter: few lines, loads as it stands, and says the same as the full one."""

from __future__ import annotations

import re
import tomllib

import pytest
from click.testing import CliRunner

from appraisal.appraise import appraise
from appraisal.cli import main
from appraisal.errors import ScenarioError
from appraisal.scenario.load import loads
from appraisal.scenario.model import declared
from appraisal.scenario.starter import starter
from appraisal.scenario.starter_short import ASKED, starter_short

SHORT = starter_short()


@pytest.mark.parametrize("currency", ["USD", "EUR", "DKK"])
@pytest.mark.parametrize("units", ["us", "metric"])
def test_the_short_starter_loads_as_it_stands(currency: str, units: str) -> None:
    text = starter_short(currency=currency, display_units="us" if units == "us" else "metric")
    project = loads(text).scenario.project
    assert (project.currency, project.display_units) == (currency, units)


def test_it_can_be_read_in_one_sitting() -> None:
    assert len(SHORT.splitlines()) < 300 < len(starter().splitlines()) / 5


def _flat(tables: object, path: str = "") -> dict[str, object]:
    if not isinstance(tables, dict):
        return {path: tables}
    return {key: value for name, below in tables.items() for key, value in _flat(below, f"{path}.{name}").items()}


def test_each_of_its_values_is_that_of_the_full_starter() -> None:
    short, full = _flat(tomllib.loads(SHORT)), _flat(tomllib.loads(starter()))
    assert short.items() <= full.items()


@pytest.mark.parametrize("table", ASKED)
def test_every_field_asked_stands_in_it_with_its_label(table: str) -> None:
    text = SHORT.split(f"\n[{table}]\n", 1)[1].split("\n[", 1)[0]
    words = " ".join(line.removeprefix("# ") for line in text.splitlines())
    for name in ASKED[table]:
        item = declared().get(f"{table}.{name}") or declared()[f"{table.split('.')[0]}.*.{name}"]
        assert f"{name} = " in text and item.label in words


def test_what_stands_behind_the_comment_sign_is_what_is_used() -> None:
    uncommented = re.sub(r"^# (\w+ = )", r"\1", SHORT, flags=re.MULTILINE)
    assert uncommented != SHORT
    used, written = loads(SHORT).assumptions, loads(uncommented).assumptions
    assert {path: found.value for path, found in used.items()} == {path: found.value for path, found in written.items()}


def test_no_currency_is_refused() -> None:
    with pytest.raises(ScenarioError, match="three capital letters"):
        starter_short(currency="euro")


@pytest.mark.parametrize(("option", "text"), [((), starter_short), (("--all",), starter)])
def test_the_command_writes_the_short_one_unless_all_is_asked(tmp_path, option, text) -> None:  # type: ignore[no-untyped-def]
    file = tmp_path / "farm.toml"
    assert CliRunner().invoke(main, ["new", str(file), *option]).exit_code == 0
    assert file.read_text(encoding="utf-8") == text(currency="EUR", display_units="metric")


def test_the_nitrogen_it_says_is_bought_has_a_price() -> None:
    """Else the fertilizer saved of a new farm is nothing, whatever its bill."""
    case = appraise(loads(SHORT))
    assert case.values["fertilizer_saved"].sum() > 0
    assert "fertilizer" not in {finding.where for finding in case.findings}
