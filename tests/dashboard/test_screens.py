"""Every screen with every farm, every reader and both unit systems is drawn without an exception."""

from __future__ import annotations

import pytest
from streamlit.testing.v1 import AppTest

from appraisal.dashboard.blocks import plain
from appraisal.dashboard.frame import WELCOME
from appraisal.dashboard.groups import groups
from appraisal.dashboard.places import OPENING, PLACES, Place
from appraisal.demos import demos
from tests.dashboard.windows import draft_of_demo, healthy, said, screen, window

READERS, SYSTEMS = ("family", "bank", "grant"), ("metric", "us")


@pytest.mark.parametrize("demo", demos())
def test_every_screen_for_every_reader_in_both_systems(demo: str) -> None:
    kept = draft_of_demo(demo)
    for reader in READERS:
        for units in SYSTEMS:
            at = window(kept.id, reader=reader, units=units)
            for place in (*PLACES, OPENING):
                healthy(screen(at, place.name))
                assert at.title[0].value == place.title
            assert (at.query_params["reader"], at.query_params["units"]) == (reader, units)


def test_the_first_screen_without_a_farm_opens_one() -> None:
    at = window()
    assert at.title[0].value == WELCOME
    at.button(key="demo_small_herd_manure_only").click().run()
    healthy(at)
    assert at.title[0].value == "Shall we build?"
    assert "Stony Lane Dairy" in said(at)


@pytest.mark.parametrize("place", PLACES, ids=lambda place: place.name)
def test_without_a_farm_every_screen_offers_to_open_one(place: Place) -> None:
    at = screen(window(), place.name)
    healthy(at)
    assert at.title[0].value == WELCOME


@pytest.mark.parametrize("group", groups())
def test_every_part_of_the_form_with_all_its_values(group: str) -> None:
    at = screen(window(draft_of_demo("shared_plant_three_farms").id), "farm_puts_in")
    at.session_state["_group"] = group
    healthy(at.run())
    for toggle in at.toggle:
        toggle.set_value(True)
    healthy(at.run())


@pytest.mark.parametrize("view", ["Sources and ranges", "Library", "The file itself"])
def test_every_other_view_of_what_the_farm_puts_in(view: str) -> None:
    at = screen(window(draft_of_demo().id), "farm_puts_in")
    at.session_state["_view"] = view
    healthy(at.run())


def test_a_reader_and_units_chosen_on_one_screen_hold_on_the_next() -> None:
    at = window(draft_of_demo().id)
    at.radio(key="_reader").set_value("bank").run()
    at.radio(key="_units").set_value("metric").run()
    healthy(screen(at, "loan_and_cover"))
    assert at.radio(key="_reader").value == "bank"
    assert at.radio(key="_units").value == "metric"
    assert at.query_params["reader"] == "bank"


def test_user_text_is_not_read_as_markup() -> None:
    joiner = "\N{WORD JOINER}"
    assert plain("<img src=x>") == r"\<img src\=x\>"
    assert plain("[a](http://b)") == rf"\[a\](http:{joiner}//b)"
    assert plain(":red[x]") == rf":{joiner}red\[x\]"
    assert plain("1. one") == f"1{joiner}. one"
    assert plain("12.5 % of it") == "12.5 % of it"


def test_a_word_among_numbers_stands_at_their_side_and_a_broken_heading_is_mended() -> None:
    def show() -> None:
        from appraisal.dashboard import blocks
        from appraisal.present.tables import Table

        blocks.table(Table("T", ("case", "ferti-\nlizer"), (("a", "1"), ("b", "2"), ("c", "not here"))))

    body = str(AppTest.from_function(show).run().get("html")[0].proto.body)
    assert '<td class="among">not here</td>' in body
    assert '<th scope="col" class="number">ferti\N{SOFT HYPHEN}lizer</th>' in body


def test_any_figure_can_be_followed_down() -> None:
    at = screen(window(draft_of_demo().id), "money_in_and_out")
    healthy(at.toggle(key="_explain").set_value(True).run())
    at.selectbox(key="_explained").set_value("power_sales").run()
    healthy(at)
    assert "What went into" in said(at)
    healthy(at.get_by_key("_further").set_value("power_paid_for").run())
    assert at.selectbox(key="_explained").value == "power_paid_for"
