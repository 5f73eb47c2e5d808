"""Lines that TOML cannot read are all told at once, each with its column and a way out; what is left open ends the search."""

from __future__ import annotations

import pytest

from appraisal.errors import Fault, ScenarioError
from appraisal.scenario.load import loads
from tests.edges.scenario_text import STARTER


def faults(text: str) -> list[Fault]:
    with pytest.raises(ScenarioError) as told:
        loads(text)
    return told.value.faults


def test_every_unreadable_line_is_told_with_its_column_and_a_way_out() -> None:
    found = faults("schema_version = 1\n[project]\nname = Green farm\nyears = 21 years\ninflation = 2.3 %\n")
    assert [each.line for each in found] == [3, 4, 5]
    assert all("at column" in each.what and each.got and each.hint for each in found)
    assert found[0].hint is not None and "in quotes" in found[0].hint


def test_the_search_ends_at_what_is_left_open_and_at_a_broken_head() -> None:
    assert [each.line for each in faults(STARTER + "\n[engine.main\nx = 1 2\n")][1:] == []
    assert len(faults("a = [1,\nb = 2\nc = 3 4\n")) == 1
    assert len(faults("x = 1 2\n" * 50)) == 20


def test_a_unit_is_not_taken_for_the_money_of_a_far_country() -> None:
    text = STARTER.replace("head = ", 'head = "180 cows" # ', 1)
    (fault,) = faults(text)
    assert "unknown unit 'cow'" in fault.what and "COP" not in fault.text("")


def test_a_place_with_a_blank_in_its_name_is_looked_for_inside_the_names() -> None:
    old = STARTER[STARTER.index("climate = ") :].splitlines()[0]
    (fault,) = faults(STARTER.replace(old, 'climate = "new york"', 1))
    assert fault.hint is not None and "us_new_york_syracuse" in fault.hint


def test_the_last_line_says_that_the_values_were_not_looked_at() -> None:
    found = faults("years = 21 years\ninflation = 2.3 %\n[project]\nyears = -1\n")
    assert [each.hint is not None and "not looked at" in each.hint for each in found] == [False, True]


def test_a_line_of_a_whole_file_is_cut_in_the_message() -> None:
    (fault,) = faults(STARTER.replace("\n", "\r")[:15_000])
    assert fault.got is not None and len(fault.got) < 100
