"""The result screens: the answer first, other order for other readers, risk on request, and what levers and edits do to it."""

from __future__ import annotations

import time

import pytest
from streamlit.testing.v1 import AppTest

from appraisal.appraise import appraise
from appraisal.dashboard import drafts
from appraisal.dashboard.asked import LABEL
from appraisal.dashboard.screens.what_could_go_wrong import NO_RANGES
from appraisal.demos import demos
from appraisal.present.decision import decide
from appraisal.scenario.edit_text import with_edits
from appraisal.scenario.load import load
from tests.dashboard.windows import draft_of_demo, healthy, said, screen, window

LONG = 60.0


def asked(at: AppTest) -> AppTest:
    """Press the button that works out what could go wrong, if it is there, and wait for the answer."""
    for button in at.button:
        if button.label == LABEL:
            button.click().run()
            break
    end = time.monotonic() + LONG
    while any(button.label == "Cancel run" for button in at.button) and time.monotonic() < end:
        time.sleep(0.3)
        at.run()
    at.run()
    return at


@pytest.mark.parametrize("demo", demos())
def test_the_answer_stands_first_for_every_reader(demo: str) -> None:
    kept = draft_of_demo(demo)
    first = decide(appraise(load(demos()[demo]))).said.sentences[0]
    for reader in ("family", "bank", "grant"):
        at = window(kept.id, reader=reader)
        whose = "your" if reader == "family" else "the family's"
        bold = [str(each.value) for each in at.main.markdown if str(each.value).startswith("**")]
        assert bold[0].startswith(f"**{first.split('.')[0].replace('your', whose)}.")


def test_readers_see_the_same_parts_in_another_order() -> None:
    kept = draft_of_demo()
    heads = {
        reader: [str(each.value) for each in window(kept.id, reader=reader).subheader] for reader in ("family", "bank")
    }
    shared = set(heads["family"]) & set(heads["bank"])
    assert len(shared) >= 5
    order = {reader: [head for head in found if head in shared] for reader, found in heads.items()}
    assert order["family"] != order["bank"]


def on(at: AppTest, name: str) -> str:
    """What a window says on a screen, where no exception is shown."""
    healthy(screen(at, name))
    return said(at)


def test_the_bank_finds_sources_breaking_points_and_the_largest_loan() -> None:
    at = asked(screen(window(draft_of_demo("heat_for_the_cheese_dairy").id, reader="bank"), "what_could_go_wrong"))
    text = on(at, "shall_we_build")
    for wanted in ("Where the money comes from and goes", "How far each may move by itself", "The largest loan"):
        assert wanted in text
    loan = on(at, "loan_and_cover")
    for wanted in ("Does it carry its loan", "in a lender&#x27;s order", "Loans, GBP", "The largest loan"):
        assert wanted in loan
    assert "Does the sum add up?" in on(at, "money_in_and_out")


def test_the_grant_office_finds_budget_match_energy_nutrients_jobs_and_the_smallest_grant() -> None:
    at = asked(screen(window(draft_of_demo("heat_for_the_cheese_dairy").id, reader="grant"), "what_could_go_wrong"))
    text = on(at, "shall_we_build")
    for wanted in ("Budget, GBP", "Funding match", "The smallest grant", "own history", "Nutrients in", "Jobs in"):
        assert wanted in text
    assert "Rules of the grants" in on(at, "loan_and_cover")
    assert "Claims and cash by quarter" in on(at, "money_in_and_out")
    assert "Waste and manure treated" in on(at, "digestate_and_land")
    assert "Energy generated, used and replaced" in on(at, "gas_power_heat")


def test_risk_is_worked_out_on_request_and_known_on_the_other_screens() -> None:
    kept = draft_of_demo("shared_plant_three_farms")
    at = screen(window(kept.id), "what_could_go_wrong")
    assert "Nothing is worked out yet" in said(at)
    healthy(asked(at))
    text = said(at)
    assert "futures it loses money" in text
    assert "one in ten is worse than the bad one" in text
    assert "All of these together" in text
    at.selectbox(key="_year_of_three").set_value(12).run()
    healthy(at)
    assert "In project year 12 the account moves by" in said(at).replace("\\", "")
    healthy(screen(at, "shall_we_build"))
    assert "What hurts most" in said(at)
    assert "not asked yet" not in said(at)
    healthy(screen(at, "loan_and_cover"))
    assert "with all bad cases together" in said(at)


def test_a_changed_farm_is_asked_anew() -> None:
    kept = draft_of_demo("small_herd_manure_only")
    at = asked(screen(window(kept.id), "what_could_go_wrong"))
    assert "Nothing is worked out yet" not in said(at)
    text = with_edits(drafts.read(kept.id).text, {("judging", "least_cover"): 1.4})
    drafts.save(kept.id, text, name="changed", revision=drafts.read(kept.id).head.revision)
    fresh = screen(window(kept.id), "what_could_go_wrong")
    assert "Nothing is worked out yet" in said(fresh)


def test_without_ranges_the_bad_cases_still_stand_and_the_reason_is_told() -> None:
    text = "\n".join(demos()["small_herd_manure_only"].read_text(encoding="utf-8").splitlines())
    head, *tables = text.split("\n[")
    kept_tables = [table for table in tables if not table.startswith(("range.", "correlation"))]
    kept = drafts.create("\n[".join([head, *kept_tables]), name="plain")
    at = asked(screen(window(kept.id), "what_could_go_wrong"))
    healthy(at)
    assert NO_RANGES[:40] in said(at)
    assert "Building costs 20% more" in said(at)


def test_what_is_owed_follows_the_slider() -> None:
    at = window(draft_of_demo().id)
    at.slider(key="_year_it_stops").set_value(4).run()
    healthy(at)
    owed = float(appraise(load(demos()["dairy_with_leftovers"])).values["owed_if_stopped"][0, 3])
    assert f"{owed:,.0f} USD are still owed" in said(at)


def test_two_inputs_that_are_one_are_refused_in_words() -> None:
    at = screen(window(draft_of_demo().id), "what_could_go_wrong")
    at.selectbox(key="_grid_across").set_value(at.selectbox(key="_grid_down").value).run()
    healthy(at)
    assert "a table needs two different inputs" in said(at)
