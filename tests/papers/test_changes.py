"""What changed between two files: every difference found, each effect equals a run of its own, nothing else moves."""

from __future__ import annotations

import json
import re
from pathlib import Path

import pytest
from click.testing import CliRunner

from appraisal.appraise import appraise
from appraisal.cli import main
from appraisal.demos import demos
from appraisal.present.changes_page import changes_page, inputs_table, items_table, results_table, together
from appraisal.risk.differences import FOLLOWS, differences
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


@pytest.mark.parametrize("tonnes", [600.0, 700.0, 811.0, 1234.5])
def test_the_sentence_adds_up_in_what_is_shown(tonnes: float) -> None:
    """The whole change is the difference of the two worths of the table, and the single ones with the rest come to it."""
    old = load(demos()["dairy_with_leftovers"])
    found = differences(old, with_values(old, {f"feed.{name}.tonnes_per_year": tonnes for name in ("whey", "bakery")}))
    whole, single, rest = (int(each.replace(",", "")) for each in re.findall(r"(-?[\d,]+) USD", together(found)))
    was, now = (int(cell.replace(",", "")) for cell in results_table(found).rows[1][1:])
    assert whole == now - was == single + rest
    assert single == sum(int(row[-2].replace(",", "")) for row in inputs_table(found).rows)


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


DAIRY = demos()["dairy_with_leftovers"].read_text(encoding="utf-8")
NO_STRESS = DAIRY.replace(', "feed.bakery.tonnes_per_year" = 0.8', "")


def without_bakery(text: str) -> str:
    """The dairy without its second feed and what speaks of it."""
    feed = re.compile(r"\[feed\.bakery\]\n(?:[a-z_0-9]+ = .*\n)+")
    beside = re.compile(r'\[(?:range|source)\."feed\.bakery\.[^\n]*\n(?:[a-z_]+ = .*\n)+')
    return beside.sub("", feed.sub("", text))


def test_an_item_has_its_effect_as_a_whole() -> None:
    """A feed taken out, and put back: the change of worth is that between two runs, and the other way round."""
    whole, less = loads(NO_STRESS), loads(without_bakery(NO_STRESS))
    gone, come = differences(whole, less), differences(less, whole)
    lost = float(gone.new.headline.npv[0] - gone.old.headline.npv[0])
    for found, what, change in ((gone, "went", lost), (come, "came", -lost)):
        (one,) = found.items
        assert (one.what, one.why) == (what, "") and "feed.bakery" in (one.old, one.new)
        assert one.npv_change == pytest.approx(change, abs=1e-6) and abs(change) > 1000
        assert "The single changes add up to that." in together(found)
        stated = [row for row in inputs_table(found).rows if "with its item" in row]
        assert "feed.bakery.contract_years" in {row[1] for row in stated} and len(stated) < len(found.inputs)


def test_a_new_name_is_no_new_feed() -> None:
    found = differences(loads(NO_STRESS), loads(NO_STRESS.replace("feed.whey", "feed.cheese_whey")))
    assert [(one.what, one.old, one.new, one.npv_change) for one in found.items] == [
        ("renamed", "feed.whey", "feed.cheese_whey", pytest.approx(0.0, abs=1e-6))
    ]
    assert found.inputs == () and items_table(found).rows[0][1:3] == ("whey", "cheese whey")


def test_what_follows_from_a_change_is_not_counted_again() -> None:
    """A smaller engine is less efficient by the table of engines: that is in its own effect already."""
    found = differences(loads(DAIRY), loads(DAIRY.replace("rated_kw = 300", "rated_kw = 280")))
    by_path = {each.path: each for each in found.inputs}
    assert by_path["engine.main.efficiency_full"].why == FOLLOWS
    assert "The single changes add up to that." in together(found)
    whole = float(found.new.headline.npv[0] - found.old.headline.npv[0])
    assert by_path["engine.main.rated_kw"].npv_change == pytest.approx(whole, abs=1e-6) and whole


def test_only_another_source_is_told_without_an_effect() -> None:
    found = differences(loads(DAIRY), loads(DAIRY.replace('known = "invented"', 'known = "quote"', 1)))
    assert found.inputs == () and found.grounds == ("power.contract_price_per_kwh",)
    assert "Price for power fed to the grid" in changes_page(found)


def test_the_papers_of_what_changed(tmp_path: Path) -> None:
    changed = tmp_path / "new.toml"
    changed.write_text(DAIRY.replace("rated_kw = 300", "rated_kw = 280"), encoding="utf-8")
    call = ["changes", str(demos()["dairy_with_leftovers"]), str(changed), "--to", str(tmp_path / "to"), "--date", "2026-11-26"]
    assert CliRunner().invoke(main, call).exit_code == 0
    made = {each.relative_to(tmp_path / "to").as_posix() for each in (tmp_path / "to").rglob("*.*")}
    assert {"what_changed.docx", "csv/changed_inputs.csv", "csv/changed_items.csv", "csv/changed_results.csv"} <= made
    again = CliRunner().invoke(main, call)
    assert again.exit_code == 2 and "--replace" in again.output


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
