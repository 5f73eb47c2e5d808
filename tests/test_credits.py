"""Carbon credits: what is made, sold, withheld, claimed elsewhere and claimable, and that one tonne is sold once."""

from __future__ import annotations

import json
from pathlib import Path

import numpy as np
import numpy.testing as npt
import pytest

from appraisal import model
from appraisal.appraise import Appraisal, appraise
from appraisal.cash_flow import credits as sheet
from appraisal.errors import ScenarioError
from appraisal.lines.evaluate import evaluate, year_sum
from appraisal.measures.discounting import npv
from appraisal.present.emission_tables import tonnes_table, tonnes_to_claim
from appraisal.present.page import page
from appraisal.scenario.load import loads
from appraisal.scenario.starter_short import starter_short
from appraisal.technical_yield import credit_tonnes as tonnes
from tests.credit_scenarios import CASES, scenario

FINANCE = {
    record["id"]: record
    for record in json.loads((Path(__file__).parent / "published" / "credits.json").read_text("utf-8"))
}


def case(name: str, *changes: tuple[str, str]) -> Appraisal:
    return appraise(scenario(name, *changes))


def years(appraisal: Appraisal, line: str) -> np.ndarray:
    """A line by project year."""
    return np.asarray(year_sum(appraisal.values[line])[0])


def at(appraisal: Appraisal, **changed: float) -> dict[str, np.ndarray]:
    """All lines at other inputs, given as section__field."""
    inputs = dict(appraisal.inputs)
    for path, value in changed.items():
        inputs[path.replace("__", ".")] = np.array([[value]])
    return evaluate(appraisal.plan, model.inputs(appraisal.structure, inputs))


def test_a_crediting_period_of_ten_years_is_not_worth_twenty() -> None:
    """FO-57: rule of the low-carbon-fuel programme of California (policy page, 2024); numbers made up for the check."""
    record = FINANCE["FO-57"]
    i, expected = record["inputs"], record["expected"]

    def worth(crediting_years: float) -> float:
        month = np.arange(1, 12 * i["project_years"] + 1)
        open_ = tonnes.credits_run(1.0, month, crediting_years, month - 1, 60, 12, 1e-9)
        sold = tonnes.credit_tonnes_sold(i["annual_credit_revenue"] / 12 * open_, 0.0, 0.0, 1.0)
        income = year_sum(sheet.credit_worth(sold, 1.0, 1.0)[None, :])
        flows = np.concatenate((np.zeros((1, 1)), income), axis=1)
        return float(npv(flows, i["rate"], timing="end of year")[0])

    right, wrong = worth(i["crediting_years"]), worth(i["project_years"])
    allowed = record["tolerance"]["default"]
    assert right == pytest.approx(expected["pv_correct"], abs=allowed, rel=1e-12), record["source"]
    assert wrong == pytest.approx(expected["pv_wrong_if_20_years"], abs=allowed, rel=1e-12)
    assert wrong - right == pytest.approx(expected["overstatement"], abs=2 * allowed)


@pytest.mark.parametrize("name", CASES)
def test_every_tonne_has_one_owner(name: str) -> None:
    """Made = sold + withheld + claimed elsewhere + claimable, or more is given away than made and nothing is claimable."""
    v = case(name).values
    given = v["tonnes_sold"] + v["tonnes_withheld"] + v["tonnes_claimed_elsewhere"]
    fits = given <= v["tonnes_made"]
    npt.assert_allclose((given + v["tonnes_claimable"])[fits], v["tonnes_made"][fits], rtol=1e-12, atol=1e-9)
    assert not v["tonnes_claimable"][~fits].any()
    in_all = given + v["tonnes_claimable"]
    npt.assert_allclose(v["tonnes_made"] + v["tonnes_beyond"], in_all, rtol=1e-12, atol=1e-9)
    assert not v["tonnes_beyond"][fits].any()


def test_credits_stop_with_the_period_and_with_the_law() -> None:
    found = case("full")
    fed = int(np.argmax(found.values["feeding"][0]))
    run = found.values["credits_run"][0]
    assert run[fed] == 1 and run[fed + 119] == 1 and not run[fed + 120 :].any() and not run[:fed].any()
    earlier = at(found, credits__law_after_years=5.0)["credits_run"][0]
    assert earlier[59] == 1 and not earlier[60:].any()


def test_discount_buffer_and_buyer_are_taken_one_after_the_other() -> None:
    found = case("full")
    v = found.values
    npt.assert_allclose(v["credit_tonnes_sold"], v["credit_tonnes"] * 0.94 * 0.9, rtol=1e-12)
    npt.assert_allclose(v["credit_worth"], v["credit_tonnes_sold"] * 0.7 * v["credit_price"], rtol=1e-12)
    assert at(found, credits__price_per_t_co2e=0.0)["credit_tonnes_sold"].sum() == 0


def test_cash_comes_a_year_later_and_is_the_same_money() -> None:
    found = case("full")
    worth, cash = years(found, "credit_worth"), years(found, "credit_sales")
    npt.assert_allclose(cash[1:], worth[:-1], rtol=1e-12)
    month = np.flatnonzero(found.values["credit_sales"][0]) % 12
    assert set(month) == {3}  # the fourth month of the project year


def test_the_price_follows_its_own_path() -> None:
    price = case("full").values["credit_price"][0, ::12]
    npt.assert_allclose(price[:5], 12 * np.array([1, 1, 0.5, 0.5, 0.5]) * 1.02 ** np.arange(5), rtol=1e-12)


def test_costs_of_the_registry() -> None:
    v = case("full").values
    fed = int(np.argmax(v["feeding"][0]))
    assert set(np.flatnonzero(v["credit_registration"][0])) == {fed}
    due = np.flatnonzero(v["credit_verifications"][0])
    npt.assert_array_equal(due, fed - 1 + 24 * np.arange(1, 6))  # every second year, five times in ten years
    assert v["credit_verifications"].sum() == 5
    assert v["credit_issuance"].sum() < 0
    npt.assert_allclose(v["credit_issuance"], -0.19 * v["credit_tonnes_sold"] * v["inflation_index"], rtol=1e-12)


def test_a_claim_of_others_brings_no_money_and_takes_its_tonnes() -> None:
    found = case("full")
    assert "carbon_claim.dairy.income" not in found.plan.nodes
    assert found.values["tonnes_claimed_elsewhere"].sum() > 0
    v = found.values
    npt.assert_allclose(v["tonnes_claimed_elsewhere"], v["carbon_claim.dairy.tonnes"], rtol=1e-9, atol=1e-9)
    assert v["carbon_claim.bonus.income"].sum() > 0 > v["carbon_claim.bonus.cost"].sum()


def test_the_same_tonne_sold_twice_is_refused_with_one_message() -> None:
    with pytest.raises(ScenarioError) as caught:
        scenario("full", ('of = "power"', 'of = "manure_methane"'))
    (fault,) = caught.value.faults
    said = fault.text("farm.toml")
    assert "sold twice: methane of the manure store is claimed by credits (100%) and carbon_claim.bonus (100%)" in said
    assert "offset for the same methane" in said  # what the table says that a tariff bonus excludes


def test_programmes_that_allow_each_other_are_let_through() -> None:
    allowed = scenario("full", ('of = "power"', 'of = "manure_methane"\nallowed_beside = "credits"'))
    assert allowed.scenario.carbon_claim["bonus"].allowed_beside == "credits"


@pytest.mark.parametrize(("share", "refused"), [(0.5, False), (0.51, True)])
def test_two_claims_may_share_a_tonne_out(share: float, refused: bool) -> None:
    more = f'\n[carbon_claim.rival]\nkind = "voluntary_offset"\nof = "power"\nclaimed_share = {share}\n'
    changes = (
        ('of = "power"', 'of = "power"\nclaimed_share = 0.5'),
        ("\n[carbon_claim.dairy]", f"{more}\n[carbon_claim.dairy]"),
    )
    if refused:
        with pytest.raises(ScenarioError, match="sold twice"):
            scenario("full", *changes)
    else:
        scenario("full", *changes)


def test_table_has_a_row_a_year_and_a_sum() -> None:
    found = case("full")
    table = tonnes_table(found)
    assert len(table.rows) == found.timeline.years + 1 and table.rows[-1][0] == "all"
    sold = table.rows[-1][table.head.index("sold")]
    assert float(sold.replace(",", "")) == pytest.approx(found.values["tonnes_sold"].sum(), abs=0.5)


def test_a_page_without_a_tonne_to_claim_leaves_the_table_of_claims_out() -> None:
    title = "Who may claim the tonnes"
    short = appraise(loads(starter_short()))
    assert not tonnes_to_claim(short) and title not in page(short)
    assert tonnes_to_claim(case("full")) and title in page(case("full"))


def test_a_finding_says_when_more_is_sold_than_avoided() -> None:
    found = {finding.where for finding in case("sold_short").findings}
    assert "tonnes_claimable" in found
    assert "tonnes_claimable" not in {finding.where for finding in case("full").findings}
