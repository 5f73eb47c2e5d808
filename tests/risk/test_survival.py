"""How long plants ran elsewhere: the curve of Kaplan and Meier, its band, and the closing that it offers."""

from __future__ import annotations

import numpy as np
import pytest

from appraisal.appraise import appraise
from appraisal.present.risk_offers import offers_text
from appraisal.risk.offers import CLOSING, offers
from appraisal.risk.survival import COHORT_FROM, Life, record_for, survival
from appraisal.scenario.load import loads
from appraisal.scenario.reference import rows
from tests.risk.farms import edited, plain

# Weeks in remission of 21 patients given 6-mercaptopurine; + is still in remission (Freireich and others 1963, as in Gehan 1965;
# the data, the curve and its errors are textbook matter, here from memory).
REMISSION = "6 6 6 6+ 7 9+ 10 10+ 11+ 13 16 17+ 19+ 20+ 22 23 25+ 32+ 32+ 34+ 35+"
CURVE = {6: 0.857, 7: 0.807, 10: 0.753, 13: 0.690, 16: 0.627, 22: 0.538, 23: 0.448}
ERRORS = {6: 0.0764, 7: 0.0869, 10: 0.0963, 13: 0.1068, 16: 0.1141, 22: 0.1282, 23: 0.1346}


def test_a_published_curve_and_its_errors() -> None:
    steps = survival(Life(float(each.rstrip("+")), not each.endswith("+")) for each in REMISSION.split())
    assert {step.years: round(step.running, 3) for step in steps} == CURVE
    assert {step.years: step.error for step in steps} == pytest.approx(ERRORS, abs=6e-5)


def test_a_small_table_by_hand() -> None:
    """Five plants: shut after 2, runs at 3, shut after 4 twice, runs at 9: 4/5, then 4/5 x 1/3."""
    steps = survival([Life(2, True), Life(3, False), Life(4, True), Life(4, True), Life(9, False)])
    assert [(step.years, step.watched) for step in steps] == [(2, 5), (4, 3)]
    assert [step.running for step in steps] == pytest.approx([0.8, 0.8 / 3])
    assert steps[0].error == pytest.approx(
        (0.8 * 0.2 / 5) ** 0.5
    )  # before any plant leaves the watch it is the binomial error


def test_without_censoring_it_is_the_share_left() -> None:
    steps = survival(Life(float(years), True) for years in range(1, 11))
    assert [step.running for step in steps] == pytest.approx([1 - k / 10 for k in range(1, 11)])


@pytest.mark.parametrize(("kind", "words"), [("stirred_tank", "Complete Mix"), ("covered_lagoon", "Covered Lagoon")])
def test_the_record_is_of_the_kind_and_says_what_it_left_out(kind: str, words: str) -> None:
    found = record_for(kind, dairy=True)
    assert found is not None and words in found.label
    lines = [
        line
        for line in rows("us_farm_digester_lifetimes")
        if line["digester_type"] == words and line["animals"] == "Dairy" and int(line["year_started"]) >= COHORT_FROM
    ]
    assert found.plants == len(lines) and found.shut == sum(line["status"] == "shut" for line in lines)
    assert found.unknown == sum(line["status"] == "shut" and not line["year_shut"] for line in lines)
    assert found.running_after(12, pessimistic=True)[0] <= found.running_after(12)[0]
    assert "left out" in found.words() and "12 years" in found.words()


def test_all_kinds_since_1998_ran_on_after_twelve_years_as_the_record_says() -> None:
    """About 78 % of the plants begun since 1998 still ran after 12 years (figure computed from the record by others)."""
    lines = [line for line in rows("us_farm_digester_lifetimes") if int(line["year_started"]) >= COHORT_FROM]
    lives = [
        Life(float(int(line["year_shut"] or 2024) - int(line["year_started"])), bool(line["year_shut"]))
        for line in lines
        if line["status"] != "shut" or line["year_shut"]
    ]
    after = [step.running for step in survival(lives) if step.years <= 12][-1]
    assert after == pytest.approx(0.78, abs=0.02)


def test_too_few_plants_give_no_curve() -> None:
    assert record_for("tanks_in_a_row", dairy=True) is None


def test_the_offer_is_a_range_that_loads_and_is_never_applied() -> None:
    bare = edited("dairy_with_leftovers", ranges=False)
    mine = [each for each in offers(bare) if each.path == CLOSING]
    assert len(mine) == 1 and CLOSING not in bare.scenario.range
    filled = loads(f"{bare.text}\n{offers_text(tuple(mine))}").scenario.range[CLOSING]
    assert filled.weights is not None and sum(filled.weights) == pytest.approx(1.0, abs=1e-5)
    assert filled.values is not None and filled.values[-1] == 60


def test_a_plant_that_closes_early_earns_nothing_and_still_owes() -> None:
    runs_on = appraise(plain("dairy_with_leftovers"))
    closes = appraise(
        edited("dairy_with_leftovers", ("build_months = 12", "build_months = 12\ncloses_after_years = 6"))
    )
    end = 12 + 72
    for line in (
        "tonnes_fed",
        "methane_made",
        "power_sold",
        "cash_income",
        "running_costs",
        "heat_shortfall",
        "credit_tonnes",
    ):
        assert not closes.values[line][0, end:].any(), line
    assert np.array_equal(closes.values["power_sold"][0, :end], runs_on.values["power_sold"][0, :end])
    assert np.array_equal(closes.values["debt_service"], runs_on.values["debt_service"])
    assert closes.headline.dscr_min.value[0] == 0 and closes.headline.dscr_min.year[0] == 8
    assert all(check.passed for check in closes.money.checks)
