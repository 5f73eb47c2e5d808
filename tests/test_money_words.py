"""Sentences about rates, years of default, grants and the family's own money."""

from __future__ import annotations

import re

import numpy as np
import pytest

from appraisal.appraise import appraise
from appraisal.demos import demos
from appraisal.present import lender_words, money_words
from appraisal.present.numbers import counted
from appraisal.present.words import own_money, rate
from appraisal.scenario.load import load, loads
from tests.money_cases import changed_demo


@pytest.mark.parametrize(
    ("status", "value", "says"),
    [
        ("one", 0.081, r"8.1% a year"),
        ("one", -0.046, r"-4.6% a year: more money goes out than ever comes back"),
        ("one", -0.999998, r"none to speak of: more money goes out .*"),
        ("several", -0.046, r"-4.6% a year \(more than one rate fits; .*\)"),
        ("none", float("nan"), r"none: no rate makes these flows worth zero"),
    ],
)
def test_a_rate_of_return_below_nothing_is_said_to_be_a_loss(status: str, value: float, says: str) -> None:
    """The starter farm with 60 cows has a root at -99.9998 % a year, and nobody earns that."""
    assert re.fullmatch(says, rate(status, value))


def test_years_of_building_are_no_years_of_default() -> None:
    """The dairy pays interest while it builds and has no cash then; of its full years two lie under 1 and three under 1.1."""
    dairy = appraise(load(demos()["dairy_with_leftovers"]))
    bank = dairy.money.bank
    full = bank.covers["as_assumed"].value[0][int(bank.first_year[0]) - 1 :]
    low, bad = (int((full[np.isfinite(full)] < level).sum()) for level in (1.1, 1.0))
    [said] = lender_words.tests(dairy)
    assert f"locked up in {low} years" in said and f"in default in {bad} (" in said
    assert np.isnan(bank.tests.cover[0, : int(bank.first_year[0]) - 1]).all()


def test_one_year_is_no_years() -> None:
    assert [counted(number, "year") for number in (0, 1, 2, 1.0)] == ["0 years", "1 year", "2 years", "1 year"]


def test_a_plan_without_a_grant_is_not_told_what_its_grant_changes() -> None:
    bare = appraise(loads(changed_demo({"grant": {"state_energy": {"share_of_eligible": 0.0}}})))
    assert money_words.grant_money(bare).sentences[0].startswith("The plan has no grant;")


def test_a_lender_with_nothing_to_hold_back_is_not_told_of_nought_years() -> None:
    easy = appraise(loads(changed_demo({"loan": {"bank": {"amount": 100000}}, "engine": {"main": {"major_cost": 0}}})))
    said = "A lender with the usual tests finds cover over 1.1 in every full operating year."
    assert lender_words.tests(easy)[0].startswith(said)


def test_own_money_says_what_pays_for_the_plant_and_what_bridges() -> None:
    """The account's lowest point and the family's part of the funding are two figures: one sentence names both."""
    late = appraise(load(demos()["heat_for_the_cheese_dairy"]))
    part, lowest = (float(late.values[name][0].min()) for name in ("own_money_needed", "bank_balance"))
    assert 0 < part < -lowest
    said = own_money(late)
    assert f"Of this {part:,.0f} GBP pay for the plant (its cost with fees" in said
    assert f"{lowest:,.0f} GBP, month by month" in said
    assert said.endswith("the rest bridges what comes late or falls short.")
