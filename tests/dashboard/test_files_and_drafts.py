"""Files and drafts: what is refused or taken over whole, other plans beside this one, a draft found again or removed."""

from __future__ import annotations

import tomllib

import pytest

from appraisal.dashboard import drafts
from appraisal.dashboard.frame import WELCOME
from appraisal.demos import demos
from appraisal.scenario.starter_short import starter_short
from tests.dashboard.forms import button
from tests.dashboard.windows import draft_of_demo, healthy, said, screen, window


def test_a_bad_file_is_refused_with_every_fault_and_the_open_farm_stays() -> None:
    id = draft_of_demo().id
    at = screen(window(id), "opening")
    bad = demos()["small_herd_manure_only"].read_text(encoding="utf-8").replace("head = 102", 'head = "many"\nheds = 1')
    at.file_uploader(key="upload").set_value(("bad.toml", bad.encode(), "application/toml")).run()
    healthy(at)
    assert "herd.milkers.head" in at.error[0].value
    assert "heds" in at.error[0].value
    assert at.query_params["draft"] == id
    assert "Hollow Creek" in said(screen(at, "shall_we_build"))


def test_a_file_that_is_no_text_is_refused() -> None:
    at = screen(window(draft_of_demo().id), "opening")
    at.file_uploader(key="upload").set_value(("bad.toml", b"\xff\xfe\x00", "application/toml")).run()
    healthy(at)
    assert "UTF-8" in at.error[0].value


def test_a_good_file_opens_as_a_new_draft() -> None:
    at = screen(window(draft_of_demo().id), "opening")
    good = demos()["small_herd_manure_only"].read_bytes()
    healthy(at.file_uploader(key="upload").set_value(("good.toml", good, "application/toml")).run())
    assert "Stony Lane" in said(at)
    assert drafts.read(at.query_params["draft"]).text == good.decode()
    assert len(drafts.recent()) == 2


def test_the_file_itself_is_taken_over_only_when_nothing_is_wrong() -> None:
    id = draft_of_demo().id
    at = screen(window(id), "farm_puts_in")
    at.session_state["_view"] = "The file itself"
    at.run()
    text = drafts.read(id).text
    at.text_area(key="_whole_file").set_value(text.replace("years = 21", "years = 1")).run()
    healthy(button(at, "Take this text over").click().run())
    assert "project.years" in at.error[0].value
    assert drafts.read(id).text == text
    at.text_area(key="_whole_file").set_value(text + "# a remark\n").run()
    healthy(button(at, "Take this text over").click().run())
    assert drafts.read(id).text.endswith("# a remark\n")


def test_the_bare_address_lists_recent_drafts_and_opens_one() -> None:
    kept = draft_of_demo("small_herd_manure_only")
    at = window()
    assert "Stony Lane Dairy" in said(at)
    at.button(key=f"draft_{kept.id}").click().run()
    healthy(at)
    assert at.query_params["draft"] == kept.id


@pytest.mark.parametrize("id", ["0" * 32, "../../etc/passwd", "x", ""])
def test_an_address_of_no_draft_is_told_in_words(id: str) -> None:
    at = window(id or "no")
    healthy(at)
    assert any("cannot be opened" in each.value for each in at.warning)


def test_levers_stand_beside_the_unchanged_case_and_leave_the_file_alone() -> None:
    id = draft_of_demo().id
    at = screen(window(id, reader="bank"), "loan_and_cover")
    healthy(at.slider(key="_lever_price").set_value(-0.2).run())
    assert "as in your file" in said(at)
    assert "with the levers" in said(at)
    screen(at, "farm_puts_in")
    at = screen(at, "loan_and_cover")
    assert at.slider(key="_lever_price").value == -0.2
    healthy(at.selectbox(key="_lever_lost").set_value("lost_whey").run())
    assert drafts.read(id).head.revision == 1
    healthy(button(at, "Put the levers back").click().run())
    assert at.slider(key="_lever_price").value == 0
    assert "All levers rest" in said(at)


def test_other_plans_stand_beside_this_one_and_a_copy_leaves_it_alone() -> None:
    id = draft_of_demo().id
    at = window(id)
    healthy(at.multiselect(key="_alternatives").set_value(["small_herd_manure_only", "leftovers_outgrow_land"]).run())
    assert "The plans side by side" in said(at)
    assert "Stony Lane Dairy" in said(at)
    healthy(button(at, "Try another way on a copy of this plan").click().run())
    copy = at.query_params["draft"]
    assert copy != id
    assert drafts.read(copy).head.name.endswith("another way")
    assert at.multiselect(key="_alternatives").value == [id]
    assert drafts.read(id).head.revision == 1


def test_ready_made_ways_stand_beside_the_plan_or_say_what_is_missing() -> None:
    at = window(draft_of_demo("heat_for_the_cheese_dairy").id)
    healthy(at.multiselect(key="_ways").set_value(["as_it_is", "without_grant", "rent"]).run())
    text = said(at)
    assert "The plans side by side" in text
    assert "Without any grant" in text
    assert "The family pays what the grants would have paid." in text
    assert "nothing spent" in text
    assert "nan" not in text.split()
    assert "Another builds on our yard: not for this farm: " in text
    assert all(
        "Alder Bank" not in each for each in at.multiselect(key="_alternatives").options
    )  # the same farm, untouched


@pytest.mark.parametrize(("system", "currency"), [("metric", "EUR"), ("us", "USD"), ("us", "CAD")])
def test_a_new_farm_begins_with_an_example(system: str, currency: str) -> None:
    """Money is in dollars where US units are chosen, as long as no other currency is."""
    at = window()
    at.radio(key="new_units").set_value(system).run()
    assert at.selectbox(key=f"new_currency_{system}").value == {"metric": "EUR", "us": "USD"}[system]
    at.selectbox(key=f"new_currency_{system}").set_value(currency).run()
    healthy(at.button(key="begin").click().run())
    begun = tomllib.loads(drafts.read(at.query_params["draft"]).text)["project"]
    assert (begun["currency"], begun["display_units"]) == (currency, system)
    assert at.title[0].value == "Shall we build?"
    assert "This is a first answer" in said(at)


def test_the_first_questions_are_written_into_the_new_farm() -> None:
    at = window()
    at.radio(key="new_units").set_value("us").run()
    at.text_input(key="first_project.name_us").set_value("Hill Farm")
    at.text_input(key="first_herd.cows.head_us").set_value("340")
    at.text_input(key="first_feed.whey.tonnes_per_year_us").set_value("1200")
    healthy(at.button(key="begin").click().run())
    made = tomllib.loads(drafts.read(at.query_params["draft"]).text)
    assert made["project"]["name"] == "Hill Farm"
    assert made["herd"]["cows"]["head"] == 340
    assert made["feed"]["whey"]["tonnes_per_year"] == "1200 short ton/year"
    assert made["engine"] == tomllib.loads(starter_short(currency="USD", display_units="us"))["engine"]


def test_no_leftovers_from_outside_means_no_such_feed() -> None:
    at = window()
    at.text_input(key="first_feed.whey.tonnes_per_year_metric").set_value("0")
    healthy(at.button(key="begin").click().run())
    assert "feed" not in tomllib.loads(drafts.read(at.query_params["draft"]).text)


def test_a_first_answer_that_cannot_be_is_told_and_begins_nothing() -> None:
    at = window()
    at.text_input(key="first_herd.cows.head_metric").set_value("many")
    at.text_input(key="first_capital.plant.amount_metric").set_value("-5")
    healthy(at.button(key="begin").click().run())
    (error,) = at.error
    assert "herd.cows.head" in error.value.replace("\\", "")
    assert "capital.plant.amount" in error.value.replace("\\", "")
    assert at.title[0].value == WELCOME
    assert drafts.recent() == []


def test_a_draft_is_removed_only_when_asked_twice() -> None:
    kept, other = draft_of_demo(), draft_of_demo("small_herd_manure_only")
    at = screen(window(kept.id), "opening")
    healthy(at.button(key=f"remove_{kept.id}").click().run())
    assert [each.id for each in drafts.recent()] == [other.id]
    assert "draft" not in at.query_params
