"""What each reader is shown about the money, what the JSON object holds, and the findings about funding."""

from __future__ import annotations

import json
from typing import Any

import pytest
from click.testing import CliRunner

from appraisal.appraise import Appraisal, appraise
from appraisal.cli import main
from appraisal.demos import demos
from appraisal.present import money_tables, tables
from appraisal.present.page import page
from appraisal.present.result import result
from appraisal.scenario.load import load, loads
from tests.money_cases import BASE, CASES, Tables, appraised, changed_demo

READERS = {
    "family": ("For the family", "Month by month", "If the plant stops", "still owed", "worst month"),
    "bank": ("What a lender asks", "signed", "Income statement", "From profit to cash", "Balance sheet", "checks hold"),
    "grant": ("What the grant changes", "Budget", "Grants", "Greenhouse gases", "What a kWh costs"),
}
ONLY = {"family": "Balance sheet", "bank": "Budget", "grant": "Income statement"}  # what the reader is spared


@pytest.mark.parametrize("reader", READERS)
@pytest.mark.parametrize("name", sorted(demos()))
def test_each_reader_is_shown_the_right_few(name: str, reader: str) -> None:
    done = CliRunner().invoke(main, ["run", "--demo", name, "--reader", reader])
    assert done.exit_code == 0
    for words in READERS[reader]:
        assert words in done.stdout, words
    assert ONLY[reader] not in done.stdout
    assert "What to ask about" in done.stdout and "Before anyone acts on this" in done.stdout
    assert "nan" not in done.stdout.lower().replace("finan", "")


def test_an_unknown_reader_is_refused() -> None:
    assert CliRunner().invoke(main, ["run", "--demo", BASE, "--reader", "neighbour"]).exit_code == 2


@pytest.mark.parametrize("name", sorted(CASES))
@pytest.mark.parametrize("reader", [None, "family", "bank", "grant"])
def test_every_choice_about_money_has_its_page(name: str, reader: Any) -> None:
    text = page(appraised(name), reader=reader)
    assert "nan" not in text.lower().replace("finan", "") and "inf " not in text


def told(appraisal: Appraisal) -> dict[str, Any]:
    """The JSON object, read back."""
    found: dict[str, Any] = json.loads(json.dumps(result(appraisal), allow_nan=False))
    return found


@pytest.mark.parametrize("name", sorted(CASES))
def test_json_says_unit_and_side_of_every_measure(name: str) -> None:
    """No measure without them, and none of what is not there."""
    found, currency = told(appraised(name)), appraised(name).loaded.scenario.project.currency
    sections = {key: found[key] for key in ("measures", "unit_costs", "ratios", "bank", "stop", "family", "funding")}
    sections |= {"views": found["views"][0], "whole_farm": (found["whole_farm"] or {}).get("without", {})}
    said = {path for path in found["units"] if "." in path and not path.startswith("whole_farm.")}
    there = {f"{section}.{key}" for section, parts in sections.items() for key in parts
             if key not in ("view", "whose", "tax", "money", "timing") and section != "whole_farm"}  # fmt: skip
    assert said == there
    assert all(f"whole_farm.{key}" in found["units"] for key in sections["whole_farm"])
    for path, note in found["units"].items():
        assert note["unit"] and note["counted"] and "money" not in note["unit"], path
        if path.split(".")[0] in ("measures", "unit_costs", "ratios"):
            words = ("project", "before tax", "after tax", "nominal", "month", "year")
            assert sum(word in note["counted"] for word in words) >= 3, path
    assert found["units"]["unit_costs.net_sold"]["unit"] == f"{currency}/kWh"


@pytest.mark.parametrize("name", sorted(CASES))
def test_json_holds_everything_about_the_money(name: str) -> None:
    found = told(appraised(name))
    sides = {(view["whose"], view["tax"], view["money"], view["timing"]) for view in found["views"]}
    assert len(sides) == 8
    project = next(
        v for v in found["views"] if (v["whose"], v["tax"], v["money"]) == ("project", "after tax", "nominal")
    )
    assert project["npv"] == found["measures"]["npv"] and project["irr"] == found["measures"]["irr"]
    assert found["checks"]["passed"] == found["checks"]["of"] == len(found["checks"]["list"]) >= 13
    years = len(found["yearly"])
    for part in found["statements"].values():
        assert {len(row) for row in part.values()} == {years}
    assert {len(row) for row in found["bank"]["cover"].values()} == {years}


@pytest.mark.parametrize("name", sorted(CASES))
def test_statements_of_the_json_add_up_by_hand(name: str) -> None:
    """Profit, cash, balance, sources and uses, once more from the figures a reader has before him."""
    found = told(appraised(name))
    income, balance, cash = (found["statements"][part] for part in ("income", "balance_at_year_end", "cash"))
    steps, funding = found["statements"]["profit_to_cash"], found["funding"]
    for year in range(len(found["yearly"])):
        parts = ("operating_result", "overhauls_paid", "written_off", "written_off_at_end", "grants_earned", "disposals",
                 "interest_cost", "fees_paid", "bridge_interest_paid")  # fmt: skip
        assert sum(income[part][year] for part in parts) == pytest.approx(income["profit_before_tax"][year], abs=1e-5)
        assert sum(row[year] for row in steps.values()) == pytest.approx(cash["net_cash"][year], abs=1e-5)
        owns = ("cash_held", "reserves_held", "receivables", "sales_tax_to_come", "plant_in_books")
        owned = sum(balance[part][year] for part in owns) - balance["grants_off_assets"][year]
        owes = ("loans_owed", "bridge_owed_in_books", "payables", "tax_owed", "grants_among_debts", "equity")
        assert owned == pytest.approx(balance["assets"][year], abs=1e-5)
        assert owned == pytest.approx(sum(balance[part][year] for part in owes), abs=1e-4)
        assert cash["net_cash"][year] == pytest.approx(found["yearly"][year]["net_cash"], abs=1e-5)
    sources = funding["sources"]
    spent = sum(amount for use, amount in funding["uses"].items() if use != "in_all")
    assert spent == pytest.approx(funding["uses"]["in_all"], abs=1e-4)
    assert sources["grants"] + sum(sources["loans"].values()) + sources["own_money"] == pytest.approx(spent, abs=1e-4)


def test_each_reader_counts_a_kind_of_benefit_more() -> None:
    counted = told(appraised("gap"))["counted_by"]
    lender, family, public = (sum(counted[who]) for who in ("lender", "family", "public_funder"))
    assert lender < family < public


def column(text: str) -> float:
    return float(text.replace(",", ""))


@pytest.mark.parametrize("name", [*sorted(CASES), *sorted(demos())])
def test_rows_of_the_money_table_add_up(name: str) -> None:
    """Every row of the table a family reads: the columns before `left` add to it, to the rounding of its cells."""
    appraisal = appraised(name) if name in CASES else appraise(load(demos()[name]))
    table = tables.money_table(appraisal)
    left = next(place for place, head in enumerate(table.head) if head.startswith("left for"))
    for row in table.rows:
        parts = [column(cell) for cell in row[1:left]]
        assert sum(parts) == pytest.approx(column(row[left]), abs=0.5 * len(parts) + 0.5)


def test_the_funding_table_adds_up() -> None:
    rows = tables.funding_table(appraised("upward")).rows
    uses = [column(amount) for side, label, amount, _ in rows if side == "Uses" and label != "in all"]
    whole = next(column(amount) for _, label, amount, _ in rows if label == "in all")
    sources = [column(amount) for side, label, amount, _ in rows if side == "Sources" and label != "in all"]
    assert sum(uses) == pytest.approx(whole, abs=3)
    assert sum(sources) == pytest.approx(whole, abs=3)
    assert {side: amount for side, label, amount, _ in rows if label == "in all"} == {
        "Uses": f"{whole:,.0f}",
        "Sources": f"{whole:,.0f}",
    }
    assert next(amount for _, label, amount, _ in rows if label == "Family's own money, for building") == "500,000"
    shares = [float(share.rstrip("%")) for side, label, _, share in rows if side == "Sources" and label != "in all"]
    assert sum(shares) == pytest.approx(100, abs=0.05 * len(shares) + 0.01)


def test_what_is_owed_if_it_stops_adds_up() -> None:
    rows = money_tables.stop_table(appraised("lender")).rows
    assert {"Loans", "Removal", "Grants to pay back", "Less resale", "Contract penalties"} <= {row[0] for row in rows}
    for place in range(1, len(rows[0])):
        parts = [column(row[place]) for row in rows[:-1]]
        assert sum(parts) == pytest.approx(column(rows[-1][place]), abs=0.5 * len(rows))


# Findings about funding: what is changed in the demo, and where the finding then stands.

TWO_GRANTS: Tables = {"grant": {"second": {"share_of_eligible": 0.6, "arrives_in_month": 20}}}
FINDINGS: dict[str, tuple[Tables, str]] = {
    "public money over its cap": ({**TWO_GRANTS, "funding": {"public_share_at_most": 0.5}}, "funding.public_share_at_most"),
    "match is not there": (
        {"grant": {"second": {"share_of_eligible": 0.6, "arrives_in_month": 20, "match_share": 0.4}}},
        "grant.second.match_share"),
    "paid before the eligible start": ({"grant": {"state_energy": {"eligible_from_month": 3}}},
                                       "grant.state_energy.eligible_from_month"),
    "more money than is used": ({**TWO_GRANTS}, "own_money_needed"),
    "quote ends before the order": ({"capital": {"grid": {"quote_ends": "2027-06"}}}, "capital.grid.quote_ends"),
    "no quotes and little contingency": ({}, "capital.contingency"),
    "signed contracts do not cover": ({"power": {"contract_signed": "no"}}, "bank.signed_contracts_only"),
    "cover under the default level": ({"loan": {"bank": {"years": 8}}}, "funding.default_cover"),
    "cover under the lock-up level": (
        {"funding": {"default_cover": 0.0, "lock_up_cover": 3.0}}, "funding.lock_up_cover"),
    "reserve lacks": ({"funding": {"debt_reserve": "from_cash", "debt_reserve_months": 12}}, "debt_reserve"),
    "whole farm does not carry its debts": (
        {"whole_farm": {"net_income_per_year": 20000, "living_per_year": 60000, "principal_per_year": 300000}}, "whole_farm"),
}  # fmt: skip


@pytest.mark.parametrize("what", FINDINGS)
def test_a_finding_about_funding_is_raised(what: str) -> None:
    changes, where = FINDINGS[what]
    found = appraise(loads(changed_demo(changes))).findings
    assert where in {finding.where for finding in found}


def found_in(changes: Tables) -> dict[str, str]:
    return {finding.where: finding.what for finding in appraise(loads(changed_demo(changes))).findings}


def test_a_plan_with_all_income_signed_is_not_told_that_it_hangs_on_hope() -> None:
    """Its cover is the same with and without: other findings say that it is low."""
    small = appraise(load(demos()["small_herd_manure_only"]))
    assert small.money.bank.least["signed_contracts_only"].value[0] == small.money.bank.least["as_assumed"].value[0] < 1
    assert "bank.signed_contracts_only" not in {finding.where for finding in small.findings}


def test_hoped_for_income_is_blamed_only_where_it_would_carry_the_loan() -> None:
    no_overhauls: Tables = {"engine": {"main": {"top_end_cost": 0, "major_cost": 0}}, "loan": {"bank": {"amount": 600000}}}
    carries = found_in({**no_overhauls, "power": {"contract_signed": "no"}})
    assert "hangs on income nobody has signed for" in carries["bank.signed_contracts_only"]
    assert "costs more than comes in" in carries["bank.signed_contracts_only"]
    assert "does not carry the loan either" in found_in({})["bank.signed_contracts_only"]


def test_findings_about_funding_stay_silent_where_nothing_is_wrong() -> None:
    engine = {"main": {"top_end_cost": 0, "major_cost": 0}}
    changes: Tables = {"capital": {}, "engine": engine, "loan": {"bank": {"amount": 300000, "years": 18}}}
    for name in appraise(load(demos()[BASE])).structure.items["capital"]:
        changes["capital"][name] = {"estimate": "quote", "quote_ends": "2029-01"}
    whole_farm = {"net_income_per_year": 150000, "depreciation_per_year": 50000, "living_per_year": 60000,
                  "principal_per_year": 30000}  # fmt: skip
    text = changed_demo({**changes, "whole_farm": whole_farm})
    found = {finding.where for finding in appraise(loads(text)).findings}
    assert not found & {where for _, where in FINDINGS.values()}
    assert not {where for where in found if where.startswith("checks.")}


@pytest.mark.parametrize("demo", demos())
def test_shares_of_uses_and_sources_add_up(demo: str) -> None:
    rows = tables.funding_table(appraise(load(demos()[demo]))).rows
    for side in ("Uses", "Sources"):
        *lines, total = (float(share.rstrip("%")) for name, _, _, share in rows if name == side)
        assert sum(lines) == pytest.approx(total)
