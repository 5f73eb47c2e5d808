"""Work is never lost: edits that stay, bad input that changes nothing, two windows on one draft, undo and redo."""

from __future__ import annotations

import tomllib

import pytest

from appraisal.dashboard import drafts
from appraisal.demos import demos
from tests.dashboard.forms import FEE, TONNES, button, form, whey
from tests.dashboard.windows import draft_of_demo, healthy, said, screen, window


def test_an_edit_survives_leaving_returning_and_a_new_window() -> None:
    id = draft_of_demo().id
    at = form(id, "Feeds brought in", units="us")
    healthy(at.text_input(key=TONNES).set_value("6100").run())
    screen(at, "shall_we_build")
    at = screen(at, "farm_puts_in")
    assert at.text_input(key=TONNES).value == "6100"
    assert form(id, "Feeds brought in", units="us").text_input(key=TONNES).value == "6100"
    assert whey(id)["tonnes_per_year"] == "6100 short ton/year"


def test_an_edit_leaves_comments_and_every_other_line_as_they_were() -> None:
    id = draft_of_demo().id
    form(id, "Feeds brought in", units="us").text_input(key=FEE).set_value("9").run()
    before = demos()["dairy_with_leftovers"].read_text(encoding="utf-8").splitlines()
    after = drafts.read(id).text.splitlines()
    assert len(before) == len(after)
    assert [b for a, b in zip(before, after, strict=True) if a != b] == ['gate_fee_per_t = "9 USD/short ton"']


def test_an_edit_changes_the_answer() -> None:
    id = draft_of_demo().id
    at = window(id)
    before = said(at)
    at = form(id, "Feeds brought in", units="us")
    at.text_input(key=TONNES).set_value("500").run()
    assert said(screen(at, "shall_we_build")) != before


@pytest.mark.parametrize(
    ("typed", "words"),
    [
        ("9000", "Above the allowed range"),
        ("12,5", "comma"),
        ("many", "does not begin with a finite number"),
        ("5 kWh", "kWh measures energy"),
    ],
)
def test_a_bad_value_is_told_beside_its_field_and_changes_nothing(typed: str, words: str) -> None:
    id = draft_of_demo().id
    at = form(id, "Feeds brought in")
    healthy(at.text_input(key=FEE).set_value(typed).run())
    assert len(at.error) == 1
    assert words in at.error[0].value
    assert "still in force" in at.error[0].value
    assert drafts.read(id).head.revision == 1
    healthy(screen(at, "shall_we_build"))
    at = screen(at, "farm_puts_in")
    assert at.text_input(key=FEE).value == typed, "what was typed is still there to mend"
    healthy(at.text_input(key=FEE).set_value("7").run())
    assert not at.error
    assert drafts.read(id).head.revision == 2


def test_values_that_are_right_only_together_are_accepted_together() -> None:
    id = draft_of_demo("small_herd_manure_only").id
    at = form(id, "Power sold")
    at.session_state["more_power"] = True
    at.run()
    healthy(at.selectbox(key="in_power.demand_charge").set_value("falls").run())
    if at.error:
        assert drafts.read(id).head.revision == 1
    at.text_input(key="in_power.peak_replaced_kw").set_value("20").run()
    at.text_input(key="in_power.demand_price_per_kw_month").set_value("12").run()
    assert not at.error
    assert tomllib.loads(drafts.read(id).text)["power"]["demand_charge"] == "falls"


def test_undo_and_redo() -> None:
    id = draft_of_demo().id
    at = form(id, "Feeds brought in")
    first = at.text_input(key=FEE).value
    at.text_input(key=FEE).set_value("7").run()
    at.text_input(key=FEE).set_value("6").run()
    button(at, "Undo").click().run()
    assert at.text_input(key=FEE).value == "7"
    button(at, "Undo").click().run()
    assert at.text_input(key=FEE).value == first
    assert button(at, "Undo").disabled
    button(at, "Redo").click().run()
    assert at.text_input(key=FEE).value == "7"
    healthy(at)


def test_a_second_window_is_warned_and_overwrites_nothing() -> None:
    id = draft_of_demo().id
    one, two = form(id, "Feeds brought in"), form(id, "Feeds brought in")
    one.text_input(key=FEE).set_value("7").run()
    two.text_input(key=TONNES).set_value("4000").run()
    assert any("another window" in each.value for each in two.warning)
    assert two.text_input(key=FEE).value == "7", "the second window shows what the first saved"
    assert "4000" not in str(whey(id)["tonnes_per_year"])
    two.text_input(key=TONNES).set_value("4000").run()
    assert not two.warning
    assert whey(id)["gate_fee_per_t"] == "7 USD/short ton"
    assert whey(id)["tonnes_per_year"] == "4000 short ton/year"


def test_a_cell_of_the_table_is_saved_and_stays_after_leaving() -> None:
    id = draft_of_demo().id
    at = form(id, "Feeds brought in", units="us")
    key = at.session_state["_base_feed"].key
    at.session_state[key] = {"edited_rows": {1: {"tonnes_per_year": 950.0}}, "added_rows": [], "deleted_rows": []}
    healthy(at.run())
    bakery = tomllib.loads(drafts.read(id).text)["feed"]["bakery"]
    assert bakery["tonnes_per_year"] == "950 short ton/year"
    screen(at, "money_in_and_out")
    at = screen(at, "farm_puts_in")
    healthy(at.run())
    assert tomllib.loads(drafts.read(id).text)["feed"]["bakery"] == bakery, "an old table must not come back"
    button(at, "Undo").click().run()
    healthy(at.run())
    assert tomllib.loads(drafts.read(id).text)["feed"]["bakery"]["tonnes_per_year"] == "900 short_ton/year"


def test_an_emptied_cell_changes_nothing_and_is_told() -> None:
    id = draft_of_demo().id
    at = form(id, "Feeds brought in")
    key = at.session_state["_base_feed"].key
    at.session_state[key] = {"edited_rows": {0: {"tonnes_per_year": None}}, "added_rows": [], "deleted_rows": []}
    healthy(at.run())
    assert any("needed" in each.value for each in at.error)
    assert drafts.read(id).head.revision == 1


def test_a_feed_from_the_library_is_added_and_taken_out() -> None:
    id = draft_of_demo().id
    at = form(id, "Feeds brought in")
    at.text_input(key="add_feed").set_value("Maize silage").run()
    at.selectbox(key="add_feed_like").set_value("maize_silage").run()
    at.text_input(key="add_feed_tonnes_per_year").set_value("400").run()
    healthy(at.button(key="add_feed_now").click().run())
    assert tomllib.loads(drafts.read(id).text)["feed"]["maize_silage"]["tonnes_per_year"] == "400 short ton/year"
    assert at.selectbox(key="chosen_feed").value == "maize_silage"
    healthy(at.button(key="remove_feed_maize_silage").click().run())
    assert "maize_silage" not in tomllib.loads(drafts.read(id).text)["feed"]


def test_an_unfinished_feed_is_not_added() -> None:
    id = draft_of_demo().id
    at = form(id, "Feeds brought in")
    at.text_input(key="add_feed").set_value("silage").run()
    healthy(at.button(key="add_feed_now").click().run())
    assert any("Not added" in each.value and "tonnes_per_year" in each.value for each in at.error)
    assert drafts.read(id).head.revision == 1


def test_a_range_and_a_source_can_be_given() -> None:
    id = draft_of_demo().id
    at = screen(window(id), "farm_puts_in")
    at.session_state["_view"] = "Sources and ranges"
    at.session_state["_beside"] = "capital.grid.amount"
    at.run()
    fields = {each.label: each for each in at.text_input}
    low = next(each for label, each in fields.items() if label.startswith("Low"))
    high = next(each for label, each in fields.items() if label.startswith("High"))
    low.set_value("100")
    high.set_value("900000")
    fields["Reason"].set_value("a quote and a half")
    healthy(button(at, "Keep this range").click().run())
    kept = tomllib.loads(drafts.read(id).text)["range"]["capital.grid.amount"]
    assert (kept["low"], kept["high"], kept["reason"]) == (100, 900000, "a quote and a half")
