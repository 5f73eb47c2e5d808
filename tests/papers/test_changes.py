"""What changed between two files: every difference found, each effect equals a run of its own, nothing else moves."""

from __future__ import annotations

import json
from pathlib import Path

import pytest
from click.testing import CliRunner

from appraisal.appraise import appraise
from appraisal.cli import main
from appraisal.demos import demos
from appraisal.present.changes_page import changes_page, inputs_table, together
from appraisal.risk.differences import differences
from appraisal.risk.points import RiskError
from appraisal.scenario.load import load, loads, with_values

FILE = demos()["small_herd_manure_only"]


def test_the_same_file_has_no_difference() -> None:
    loaded = load(FILE)
    assert differences(loaded, loaded).inputs == ()
    assert changes_page(differences(loaded, loaded)) == "No input differs.\n"


def test_each_change_by_itself_is_a_run_of_its_own() -> None:
    old = load(FILE)
    price = float(str(old.assumptions["power.contract_price_per_kwh"].value))
    new = with_values(old, {"power.contract_price_per_kwh": price * 1.1, "judging.discount_rate": 0.08})
    found = differences(old, new)
    assert {each.path for each in found.inputs} == {"power.contract_price_per_kwh", "judging.discount_rate"}
    for each in found.inputs:
        assert each.new is not None
        alone = appraise(with_values(old, {each.path: each.new.value}))
        assert each.npv_change == pytest.approx(float(alone.headline.npv[0] - found.old.headline.npv[0]), abs=1e-6)
    assert abs(found.inputs[0].npv_change or 0) >= abs(found.inputs[1].npv_change or 0)
    assert "Price for power fed to the grid" in {row[0] for row in inputs_table(found).rows}
    assert "least cover goes from" in together(found) and "from changes acting together" in together(found)


def test_one_change_explains_all_and_a_loan_moves_only_the_cover() -> None:
    old = load(FILE)
    found = differences(old, with_values(old, {"loan.bank.rate": 0.07}))
    said = together(found)
    assert "The single changes add up to that." in said and "move the worth by 0 " in said
    assert "least cover goes from" in said


def test_an_item_that_came_is_told() -> None:
    old = load(FILE)
    new = loads(FILE.read_text(encoding="utf-8") + "\n[running_cost.office]\nper_year = 900\n")
    found = differences(old, new)
    assert {each.path for each in found.inputs if each.why == "only in the new file"} >= {
        "running_cost.office.per_year"
    }
    table = inputs_table(found)
    assert all(len(row) == len(table.head) for row in table.rows)
    assert all(row[0] for row in table.rows)


def test_other_currency_is_refused() -> None:
    text = FILE.read_text(encoding="utf-8")
    old = loads(text)
    other = "EUR" if old.scenario.project.currency != "EUR" else "USD"
    new = loads(text.replace(f'currency = "{old.scenario.project.currency}"', f'currency = "{other}"'))
    with pytest.raises(RiskError, match="different currencies"):
        differences(old, new)


def test_the_command(tmp_path: Path) -> None:
    changed = tmp_path / "new.toml"
    text = FILE.read_text(encoding="utf-8")
    assert "discount_rate = " in text
    changed.write_text(text.replace("discount_rate = ", "discount_rate = 0.02 + 0 # ", 1).replace("0.02 + 0", "0.02"))
    run = CliRunner().invoke(main, ["changes", str(FILE), str(changed)])
    assert run.exit_code == 0, run.output
    assert "judging.discount_rate" in run.output and "Inputs that differ: 1;" in run.output
    assert CliRunner().invoke(main, ["changes", str(FILE), str(tmp_path / "none.toml")]).exit_code == 3


def test_the_command_as_json(tmp_path: Path) -> None:
    """One object: both plans, and each input with its values, unit and effect by itself."""
    changed = tmp_path / "new.toml"
    text = FILE.read_text(encoding="utf-8") + "\n[running_cost.office]\nper_year = 900\n"
    changed.write_text(text.replace("discount_rate = ", "discount_rate = 0.02 # ", 1))
    run = CliRunner().invoke(main, ["changes", str(FILE), str(changed), "--json"])
    assert run.exit_code == 0, run.output
    found, old = json.loads(run.output), appraise(load(FILE))
    assert (found["schema"], found["kind"]) == (1, "changes")
    assert found["old"]["measures"]["npv"] == pytest.approx(float(old.headline.npv[0]))
    assert found["npv_change"] == pytest.approx(found["new"]["measures"]["npv"] - found["old"]["measures"]["npv"])
    by_path = {each["path"]: each for each in found["inputs"]}
    rate = by_path["judging.discount_rate"]
    alone = appraise(with_values(load(FILE), {"judging.discount_rate": 0.02}))
    assert (rate["new"], rate["unit"], rate["why"]) == (0.02, "share/year", "")
    assert rate["npv_change"] == pytest.approx(float(alone.headline.npv[0] - old.headline.npv[0]))
    office = by_path["running_cost.office.per_year"]
    assert (office["old"], office["new"], office["npv_change"]) == (None, 900, None)
