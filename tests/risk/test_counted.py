"""What the futures hold and leave out: each bad case held against the ends of the ranges, and told in plain words."""

from __future__ import annotations

import pytest
from click.testing import CliRunner

from appraisal.cli import main
from appraisal.present.futures_hold import events_held, futures_hold
from appraisal.risk.counted import counted_cases
from appraisal.risk.draws import Settings
from appraisal.risk.simulate import simulate
from tests.risk.farms import DEMOS, edited, plain


def test_a_case_is_reached_where_every_value_lies_between_the_ends_of_its_range() -> None:
    found = {each.case.name: each for each in counted_cases(plain("dairy_with_leftovers"))}
    late = next(each for each in found.values() if each.case.label.startswith("First feeding"))
    assert late.whole and late.reached == ("project.build_months",)  # 12 + 6 months, the range goes to 20
    whey = found["lost_whey"]
    assert whey.reached == ("feed.whey.contract_years",) and whey.planned == ("feed.whey.share_after_contract",)
    assert not found["lost_bakery"].reached
    assert found["tank_soured"].planned == ("upset.month",)


def test_a_range_that_ends_before_the_case_does_not_reach_it() -> None:
    short = edited("dairy_with_leftovers", ("low = 11\nhigh = 20", "low = 11\nhigh = 17"))
    late = next(each for each in counted_cases(short) if each.case.label.startswith("First feeding"))
    assert not late.whole and late.short == ("project.build_months",)


def test_the_whey_whose_loss_the_futures_do_not_hold_is_named() -> None:
    """Nearly all futures pay, while losing the whey for good costs most of the worth: the page must say that no future does."""
    told = " ".join(futures_hold(plain("heat_for_the_cheese_dairy")).sentences)
    assert "the contract for whey ends early (3.0% a year)" in told and "once at most" in told
    assert "the contract for whey is lost in project year 3 (share that still comes after the contract (whey) stays at" in told
    assert "the tank turns sour" in told[told.index("Reached by no range") :]


def test_without_events_the_sentence_says_so() -> None:
    bare = edited("dairy_with_leftovers", ranges=False)
    assert events_held(bare).startswith("No event is in these futures")


@pytest.mark.parametrize("name", DEMOS)
def test_counts_of_the_futures_stand_beside_the_yearly_chances(name: str) -> None:
    found = simulate(plain(name), Settings(640))
    told = futures_hold(found.loaded, found).sentences[0]
    assert told.count(" of 100 futures") + told.count("all futures") + told.count("no futures") >= len(found.events) > 0


@pytest.mark.parametrize("command", ["simulate", "stress"])
def test_pages_of_futures_and_of_bad_cases_say_it(command: str) -> None:
    more = ["--draws", "64"] if command == "simulate" else []
    told = CliRunner().invoke(main, [command, "--demo", "small_herd_manure_only", *more]).stdout
    assert "What the futures hold, and what they leave out" in told and "upset" not in told.split("hold, and what")[1]
    if command == "stress":
        joined = " ".join(told.split())
        assert "prices that wander have no way from the plan to a bad end: in this search they stay as planned" in joined
