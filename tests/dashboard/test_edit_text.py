"""Edits of a scenario's text change what they are meant to and leave every other line as it was."""

from __future__ import annotations

import tomllib
from collections import Counter

import pytest

from appraisal.demos import demos
from appraisal.scenario.edit_text import EditError, parts_of, with_edits, with_item, without_item, without_table
from appraisal.scenario.load import load, loads

FARM = demos()["dairy_with_leftovers"].read_text(encoding="utf-8")
OTHER = {"text": "x", "count": 3}


def changed_lines(before: str, after: str) -> tuple[list[str], list[str]]:
    """Lines taken out and lines put in."""
    old, new = Counter(before.splitlines()), Counter(after.splitlines())
    return list((old - new).elements()), list((new - old).elements())


@pytest.mark.parametrize("demo", demos())
def test_any_value_can_be_set_without_touching_another_line(demo: str) -> None:
    """A quarter of the inputs of each of the four demos, another quarter in each."""
    text = demos()[demo].read_text(encoding="utf-8")
    every = list(load(demos()[demo]).assumptions.items())
    for path, assumption in every[list(demos()).index(demo) :: len(demos())]:
        item = assumption.declaration
        value = item.options[0] if item.kind == "choice" else OTHER.get(item.kind, 1.5)
        after = with_edits(text, {parts_of(path): value})
        out, put_in = changed_lines(text, after)
        assert len(out) <= 12, path
        names = {line.split(" = ")[0] for line in put_in if line and not line.startswith("[")}
        assert names <= {item.name}, path
        assert text.count("#") - sum(line.count("#") for line in out) <= after.count("#")


def test_a_value_keeps_the_remark_behind_it() -> None:
    after = with_edits(FARM, {("feed", "whey", "truckload_t"): "20 short_ton"})
    assert 'truckload_t = "20 short_ton" # a tanker, on weekdays, into a tank of two days' in after


def test_a_new_value_stands_in_its_own_table() -> None:
    out, put_in = changed_lines(FARM, with_edits(FARM, {("feed", "whey", "reject_share"): "3 %"}))
    assert (out, put_in) == ([], ['reject_share = "3 %"'])
    assert tomllib.loads(with_edits(FARM, {("pasteuriser", "treats"): "regulated"}))["pasteuriser"] == {
        "treats": "regulated"
    }


def test_an_item_comes_and_goes_without_a_trace() -> None:
    more = with_item(FARM, "feed", "silage", {"like": "maize_silage", "tonnes_per_year": 500, "supply_by": "own"})
    loads(more)
    assert without_item(more, "feed", "silage").rstrip() == FARM.rstrip()


def test_an_item_goes_with_its_ranges_and_the_remarks_of_the_next_table_stay() -> None:
    less = without_item(FARM, "feed", "bakery")
    loads(less)
    assert "feed.bakery" not in less
    assert "# 2,650 m3 keep the feed about 30 days." in less


def test_a_range_is_put_beside_the_others_and_taken_out() -> None:
    more = with_edits(FARM, {("range", "labour.hired_wage_per_hour", "shape"): "uniform"})
    assert tomllib.loads(more)["range"]["labour.hired_wage_per_hour"] == {"shape": "uniform"}
    assert without_table(more, ("range", "labour.hired_wage_per_hour")).rstrip() == FARM.rstrip()


def test_what_cannot_be_done_safely_is_refused() -> None:
    with pytest.raises(EditError):
        with_item(FARM, "feed", "whey", {})


def test_awkward_forms_of_the_same_file() -> None:
    inline = 'schema_version = 1\nproject = {name = "x", years = 20}\nfeed.whey.tonnes_per_year = 5\n'
    after = tomllib.loads(with_edits(inline, {("project", "years"): 15, ("feed", "whey", "supply_by"): "own"}))
    assert after["project"]["years"] == 15
    assert after["feed"]["whey"] == {"tonnes_per_year": 5, "supply_by": "own"}
    windows = "a = 1\r\n[gas]\r\nstorage_m3 = 5 # store\r\n"
    assert with_edits(windows, {("gas", "storage_m3"): 6}) == windows.replace("= 5", "= 6")


def test_a_path_in_quotes_is_one_part() -> None:
    assert parts_of('range."feed.whey.gate_fee_per_t".low') == ("range", "feed.whey.gate_fee_per_t", "low")
    assert parts_of("feed.whey.gate_fee_per_t") == ("feed", "whey", "gate_fee_per_t")
