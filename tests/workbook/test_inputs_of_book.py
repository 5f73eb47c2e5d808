"""What the book says of inputs typed over: changed, missing, out of range, impossible together; and that stored runs go stale."""

from __future__ import annotations

from collections.abc import Iterator
from contextlib import contextmanager
from functools import cache
from pathlib import Path
from typing import Any

import openpyxl
import pytest
from openpyxl.utils import get_column_letter
from openpyxl.utils.cell import coordinate_to_tuple

from appraisal.errors import ScenarioError
from appraisal.reports import subjects as where
from appraisal.reports.input_sheets import LONGEST_MESSAGE, LONGEST_TITLE, cut
from appraisal.reports.input_states import FIXED_COUNT, MOVED, NO_NUMBER, OUTSIDE, columns_beside
from appraisal.reports.layout import VALUE_COLUMN, Layout
from appraisal.reports.sheets import INPUT_FAILS, MASTER_FAILS, MASTER_HOLDS
from appraisal.scenario.load import with_values
from tests.workbook.in_process import opened
from tests.workbook.test_whole_book import written
from tests.workbook.test_without_office import two_years

DAIRY = "dairy_with_leftovers"
MASTER, MOVES, LIST = "C4", "C7", range(11, 90)  # cells of the sheet of checks, and the rows of its list
Value = float | str | None
Typed = dict[str, Value]


@cache
def book() -> tuple[Any, Layout]:
    """The book of a demo over two years, open in the engine."""
    case = two_years(DAIRY)
    content, plot = written(case, dict(case.values))
    return opened(content), plot


@contextmanager
def typed(changes: Typed) -> Iterator[None]:
    """Some cells of the inputs typed over, for a while."""
    engine, plot = book()
    before = {path: float(two_years(DAIRY).inputs[path][0, 0]) for path in changes}
    for values in (changes, before):
        for path, value in values.items():
            place = plot.places[path]
            engine.sheet(place.sheet).set_value(place.row + 1, VALUE_COLUMN + 1, value)
        if values is changes:
            yield


def shown(sheet: str, cell: str) -> object:
    """What a cell says now."""
    row, column = coordinate_to_tuple(cell)
    return book()[0].evaluate_cell(sheet, row, column)


def said(path: str) -> object:
    """The word beside an input."""
    plot = book()[1]
    place, counts = plot.places[path], {where.INPUTS: 1, where.PROFILES: 12, where.PATHS: plot.year_count}
    return shown(place.sheet, f"{get_column_letter(columns_beside(counts[place.sheet]).state + 1)}{place.row + 1}") or ""


def test_nothing_is_said_at_export() -> None:
    assert {said(path) for path in two_years(DAIRY).inputs} == {""}
    assert (shown(where.CHECKS, MASTER), shown(where.CHECKS, MOVES)) == (MASTER_HOLDS, 0)
    assert str(shown(where.OTHER_RUNS, "A3")).startswith("The inputs are as at export")


CASES: tuple[tuple[str, Value, str], ...] = (
    ("loan.bank.rate", 0.0, MOVED),
    ("loan.bank.rate", 6.0, OUTSIDE),
    ("loan.bank.rate", "six", NO_NUMBER),
    ("loan.bank.rate", None, NO_NUMBER),
    ("feed.whey.tonnes_per_year", -1.0, OUTSIDE),
    ("loan.bank.years", 3.0, FIXED_COUNT),
    ("heat.house_kwh", 9_000.0, MOVED),
    ("heat.house_kwh", -1.0, OUTSIDE),
    ("heat.house_kwh", "none", NO_NUMBER),
)


@pytest.mark.parametrize(("path", "value", "word"), CASES)
def test_each_input_says_what_became_of_it(path: str, value: Value, word: str) -> None:
    with typed({path: value}):
        assert said(path) == word
        assert shown(where.CHECKS, MOVES) == 1
        assert (shown(where.CHECKS, MASTER) == MASTER_HOLDS) == (word == MOVED)
        assert str(shown(where.OTHER_RUNS, "A3")).startswith("INPUTS HAVE CHANGED")
    assert (said(path), shown(where.CHECKS, MASTER)) == ("", MASTER_HOLDS)


TOGETHER: tuple[tuple[Typed, str], ...] = (
    ({"engine.main.heat_efficiency_full": 0.7}, "Engine main: power and heat at full load stay below the gas energy"),
    ({"engine.main.efficiency_half": 0.5}, "Engine main: half load is not the more efficient one"),
    ({"engine.main.major_interval_hours": 15_000.0}, "Engine main: a major overhaul comes after more hours than a top-end one"),
    ({"loan.bank.amount": 9e7}, "Loans together are no more than what they pay for"),
    ({"project.build_months": 24.0}, "Building and the rise to full gas end before the project"),
    (
        {"feed.whey.landfilled_share": 0.7, "feed.whey.fed_before_share": 0.4},
        "Feed whey: landfill and animals got no more than all",
    ),
    ({"separation.sold_share": 0.7, "separation.bedding_share": 0.6}, "Solids sold and used as bedding are no more than all"),
)


@pytest.mark.parametrize(("changes", "words"), TOGETHER)
def test_what_cannot_be_together_shows_in_the_master_check(changes: Typed, words: str) -> None:
    """Each in its own range; the loader refuses the same in a file."""
    with pytest.raises(ScenarioError):
        with_values(two_years(DAIRY).loaded, dict(changes))
    with typed(changes):
        assert {said(path) for path in changes} == {MOVED}
        failing = {shown(where.CHECKS, f"A{row}") for row in LIST if shown(where.CHECKS, f"E{row}") == "does not hold"}
        assert words in failing
        assert shown(where.CHECKS, MASTER) in (INPUT_FAILS, MASTER_FAILS)


def test_every_live_input_refuses_what_cannot_be(tmp_path: Path) -> None:
    """Each unlocked cell has its range, with a message that is shown whole; no other cell of the book is unlocked."""
    case = two_years("shared_plant_three_farms")
    content, _ = written(case, dict(case.values))
    path = tmp_path / "book.xlsx"
    path.write_bytes(content)
    made = openpyxl.load_workbook(path)
    live = {where.INPUTS, where.PROFILES, where.PATHS}
    for sheet in made.worksheets:
        rules = sheet.data_validations.dataValidation
        held = {cell for rule in rules for area in rule.sqref.ranges for cell in area.cells}
        open_cells = {(cell.row, cell.column) for row in sheet.iter_rows() for cell in row if not cell.protection.locked}
        assert sheet.protection.sheet and (sheet.title in live or not open_cells), sheet.title
        assert held == open_cells
        for rule in rules:
            assert len(rule.error) <= LONGEST_MESSAGE and ("Allowed: " in rule.error or rule.type == "date")
            assert len(rule.promptTitle or "") <= LONGEST_TITLE and not rule.allowBlank


def test_a_message_is_cut_between_words() -> None:
    assert cut("Income from only covering and flaring", 32) == "Income from only covering ..."
    assert cut("short", 32) == "short"
