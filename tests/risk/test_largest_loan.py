"""The largest loan: run with it, the plan's least cover is the target."""

from __future__ import annotations

import re

import pytest

from appraisal.appraise import appraise
from appraisal.present.loan_words import largest_loan
from appraisal.risk.drivers import LOANS, standard_drivers
from appraisal.risk.reverse import breaks
from appraisal.scenario.load import Loaded
from tests.risk.farms import edited, plain

NAMES = ("dairy_with_leftovers", "shared_plant_three_farms")


def told(loaded: Loaded) -> str | None:
    drivers = [driver for driver in standard_drivers(loaded) if driver.patterns[0] in LOANS]
    passage = largest_loan(breaks(loaded, drivers), loaded)
    return None if passage is None else passage.sentences[0]


@pytest.mark.parametrize("name", NAMES)
def test_a_plan_with_the_largest_loan_meets_its_target(name: str) -> None:
    loaded = plain(name)
    said = told(loaded)
    assert said is not None
    found = re.match(r"Loans of ([\d,]+)", said)
    assert found
    planned = {short: loan.amount for short, loan in loaded.scenario.loan.items()}
    factor = float(found[1].replace(",", "")) / sum(planned.values())
    lent = edited(name, *((f"amount = {amount:.0f}", f"amount = {amount * factor!r}") for amount in planned.values()))
    assert float(appraise(lent).headline.dscr_min.value[0]) == pytest.approx(loaded.scenario.judging.least_cover, rel=1e-4)


def test_loans_of_no_stated_amount_say_nothing() -> None:
    share = ("amount = 1150000", 'size = "share_of_cost"\nshare_of_cost = 0.5')
    assert told(edited("dairy_with_leftovers", share)) is None
