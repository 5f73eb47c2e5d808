"""Cautions meet every reader, and the numbers to call stand beside them, as blanks until somebody fills them in."""

from __future__ import annotations

import pytest

from appraisal.appraise import Appraisal, appraise
from appraisal.demos import demos
from appraisal.present import words
from appraisal.present.decision import decide
from appraisal.present.page import page
from appraisal.scenario.load import loads

SMALL = demos()["small_herd_manure_only"].read_text("utf-8")
NUMBERS = '\n[emergency]\nnumber = "112 (invented)"\nengineer = "Invented works, 555-0100"\n'


@pytest.fixture(scope="module")
def filled() -> Appraisal:
    return appraise(loads(SMALL + NUMBERS))


def test_numbers_that_are_given_are_shown_and_the_others_stay_blank(filled: Appraisal) -> None:
    said = words.whom_to_call(filled.loaded)
    assert "emergency 112 (invented)" in said and "engineer on call Invented works, 555-0100" in said
    assert f"gas supplier {words.BLANK}" in said


@pytest.mark.parametrize("reader", [None, "family", "bank", "grant"])
def test_every_reader_of_a_run_meets_the_cautions_that_save_lives(filled: Appraisal, reader: str | None) -> None:
    text = " ".join(page(filled, reader=reader).split())  # type: ignore[arg-type]
    for caution in ("No smell never means safe air", "Would-be rescuers often die too", "Never go into a pit", "not engineering"):
        assert caution in text, caution
    assert ": emergency 112 (invented); gas supplier" in text


def test_the_screen_shows_them_too(filled: Appraisal) -> None:
    shown = decide(filled).cautions.sentences
    assert words.whom_to_call(filled.loaded) in shown
    assert any("Would-be rescuers" in each for each in shown)
