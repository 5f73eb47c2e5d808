"""Grant tables foot, tie to each other and to the lines of the model, and mark what only the applicant can say."""

from __future__ import annotations

from types import SimpleNamespace

import numpy as np
import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from appraisal.appraise import appraise
from appraisal.lines.evaluate import year_sum
from appraisal.present.emission_tables import SOURCES, footed
from appraisal.present.footing import crossed, whole
from appraisal.present.grant_money import funds
from appraisal.present.grant_quarters import OWN_COLUMN, quarters
from appraisal.present.grant_tables import TABLES, grant_tables
from appraisal.present.grant_tables_money import ELIGIBLE_COLUMN, budget, claims_and_cash, funding_match, who_pays
from appraisal.present.tables import Table
from appraisal.present.words import BLANK
from appraisal.present.years import by_year as by_year_of
from appraisal.present.years import signed_by_year
from appraisal.reports.csv_text import number_of
from appraisal.scenario.load import with_values
from tests.money_cases import CASES, appraised
from tests.papers.material_of import DEMOS, material_of


def numbers(table: Table, column: int) -> list[float]:
    """Numbers of one column without its last row."""
    return [number_of(row[column]) or 0.0 for row in table.rows[:-1]]


def last(table: Table, column: int) -> float:
    found = number_of(table.rows[-1][column])
    assert found is not None
    return found


@pytest.mark.parametrize("demo", DEMOS)
def test_budget_who_pays_match_and_quarters_tie(demo: str) -> None:
    made = grant_tables(material_of(demo))
    budget, pays, match, cash = (made[name] for name in ("budget", "who_pays", "funding_match", "claims_and_cash"))
    total = last(budget, 2)
    assert sum(numbers(budget, 2)) == total == sum(numbers(match, 3)) == last(match, 3) == last(pays, 1)
    assert sum(numbers(budget, 4)) == last(budget, 4)
    for row in pays.rows:
        assert sum(number_of(cell) or 0.0 for cell in row[2:]) == number_of(row[1])
    for column in range(1, len(pays.head)):
        assert sum(numbers(pays, column)) == last(pays, column)
    assert [number_of(cell) for cell in pays.rows[-1][2:]] == numbers(match, 3)
    assert [row[0] for row in pays.rows[:-1]] == [row[1] for row in budget.rows[:-1]]
    heads = dict(zip(cash.head, range(len(cash.head)), strict=True))
    assert last(cash, heads["capital\npaid"]) == -sum(
        n for n, row in zip(numbers(budget, 2), budget.rows, strict=False) if row[0] != "funding"
    )
    assert last(cash, heads[OWN_COLUMN]) == numbers(match, 3)[-1]


@pytest.mark.parametrize("case", sorted(CASES))
def test_money_tables_tie_under_every_choice_of_funding(case: str) -> None:
    """With bridge loans, claims, reserves, two loans: all totals alike, every quarter balanced, no bridge left."""
    found = SimpleNamespace(appraisal=appraised(case))
    made, pays, match, cash = (make(found) for make in (budget, who_pays, funding_match, claims_and_cash))
    assert sum(numbers(made, 2)) == last(made, 2) == sum(numbers(match, 3)) == last(match, 3) == last(pays, 1)
    assert [number_of(cell) for cell in pays.rows[-1][2:]] == numbers(match, 3)
    assert all(sum(number_of(cell) or 0.0 for cell in row[2:]) == number_of(row[1]) for row in pays.rows)
    owed = [place for place, head in enumerate(cash.head) if head.startswith("bridge owed")]
    flows = [place for place in range(1, len(cash.head)) if place not in owed and cash.head[place] != ELIGIBLE_COLUMN]
    assert last(cash, cash.head.index(ELIGIBLE_COLUMN)) == last(made, 4)
    assert all(sum(number_of(row[place]) or 0.0 for place in flows) == 0 for row in cash.rows)
    assert all(sum(numbers(cash, place)) == last(cash, place) for place in flows)
    assert all(number_of(cash.rows[-2][place]) == 0 for place in owed)
    assert bool(owed) == (appraised(case).loaded.scenario.funding.bridge == "until_grants")
    assert last(cash, cash.head.index(OWN_COLUMN)) == numbers(match, 3)[-1]


@pytest.mark.parametrize("demo", DEMOS)
def test_whole_amounts_are_those_of_the_model(demo: str) -> None:
    appraisal = material_of(demo).appraisal
    asked, shown = funds(appraisal), quarters(appraisal)
    assert abs(asked.costs.sum() - appraisal.values["uses_of_funds"][0, 0]) <= 0.5
    assert np.abs(asked.costs - [use.cost for use in asked.uses]).max() < 1
    assert np.abs(asked.amounts - [source.amount for source in asked.sources]).max() < 1
    by_grant = [s for s in asked.sources if s.kind == "grant"]
    assert sum(s.amount for s in by_grant) == pytest.approx(float(appraisal.values["grants"][0].sum()))
    assert sum(flow.sum() for flow in shown.flows.values()) == 0
    assert (np.sum(list(shown.flows.values()), axis=0) == 0).all()


@settings(max_examples=200, deadline=None)
@given(st.lists(st.lists(st.floats(0, 1e7), min_size=3, max_size=3), min_size=1, max_size=8))
def test_whole_numbers_foot_both_ways(rows: list[list[float]]) -> None:
    matrix = np.array(rows)
    columns = whole(matrix.sum(axis=0))
    sums = whole(matrix.sum(axis=1), total=int(columns.sum()))
    made = crossed(matrix, rows=sums, columns=columns)
    assert (made.sum(axis=1) == sums).all() and (made.sum(axis=0) == columns).all()
    assert np.abs(made - matrix).max() <= len(rows) + 2


def test_what_is_nothing_stays_nothing() -> None:
    assert whole(np.array([0.4, 0.0, 0.4, 0.4, 0.4])).tolist()[1] == 0
    assert whole(np.array([-0.6, 0.3])).sum() == 0


@pytest.mark.parametrize("demo", DEMOS)
def test_energy_foots_as_it_flows(demo: str) -> None:
    appraisal = material_of(demo).appraisal
    year = appraisal.plant.year - 1
    of = {name: float(year_sum(appraisal.values[name][:1])[0, year]) for name in appraisal.values if name in (
        "power_gross", "power_own_use", "power_to_farm", "power_sold", "power_curtailed",
        "heat_recoverable", "heat_from_boiler", "heat_digester_met", "heat_to_house", "heat_to_barn", "heat_to_dryer",
        "heat_sold", "heat_lost_in_main", "heat_dumped")}  # fmt: skip
    used = of["power_own_use"] + of["power_to_farm"] + of["power_sold"] + of["power_curtailed"]
    assert of["power_gross"] == pytest.approx(used, rel=1e-9)
    heat = sum(
        of[name] for name in of if name.startswith("heat") and name not in ("heat_recoverable", "heat_from_boiler")
    )
    assert of["heat_recoverable"] + of["heat_from_boiler"] == pytest.approx(heat, rel=1e-9)
    shown = {row[1]: row[2] for row in grant_tables(material_of(demo))["energy"].rows if row[0] == "power"}
    assert shown["sold to the grid"] == f"{of['power_sold']:,.0f}"


@pytest.mark.parametrize("demo", DEMOS)
def test_gases_by_source_tie_to_years_and_tonnes(demo: str) -> None:
    made = grant_tables(material_of(demo))
    by_source, by_year, tonnes = (made[n] for n in ("greenhouse_gases", "greenhouse_gases_by_year", "tonnes"))
    for table in (by_source, by_year, tonnes):
        for column in range(1, len(table.head)):
            assert sum(numbers(table, column)) == last(table, column), (table.title, column)
    full = material_of(demo).appraisal.plant.year - 1
    of_year = [number_of(cell) for cell in by_year.rows[full][1:4]]
    assert [last(by_source, column) for column in (1, 2, 3)] == of_year
    assert [last(by_source, column) for column in (4, 5, 6)] == [last(by_year, column) for column in (1, 2, 3)]
    for row in by_source.rows:
        cells = [number_of(cell) or 0 for cell in row[1:]]
        assert cells[0] - cells[1] == cells[2] and cells[3] - cells[4] == cells[5]
    for row in by_year.rows:
        cells = [number_of(cell) or 0 for cell in row[1:]]
        assert cells[0] - cells[1] == cells[2] == sum(cells[3:])
    _tonnes_tie(tonnes, by_year)


def _tonnes_tie(tonnes: Table, by_year: Table) -> None:
    """Made and given away are the other four; made is avoided and what months of more add."""
    heads = {head: place for place, head in enumerate(tonnes.head)}
    for row, years in zip(tonnes.rows, by_year.rows, strict=True):
        cells = [number_of(cell) or 0 for cell in row]
        made = heads["made"]
        assert cells[made] + cells[made + 1] == sum(cells[made + 2 :])
        before = sum(cells[1:3]) if "avoided" in heads else cells[made]
        assert cells[made] == before
        assert cells[heads.get("avoided", made)] == number_of(years[3])


@pytest.mark.parametrize("demo", DEMOS)
def test_whole_tonnes_are_those_of_the_model(demo: str) -> None:
    appraisal = material_of(demo).appraisal
    found = footed(appraisal)
    for place, source in enumerate(SOURCES):
        for shown, lines in ((found.without[place], source.without), (found.with_plant[place], source.with_plant)):
            exact = signed_by_year(appraisal, tuple((name, 1) for name in lines))
            assert np.abs(shown - exact).max() < 2 and shown.sum() == pytest.approx(exact.sum(), abs=1)
            assert not shown[exact == 0].any()
    assert np.abs(found.avoided - by_year_of(appraisal, "emissions_avoided")).max() < 2


@pytest.mark.parametrize("demo", DEMOS)
def test_energy_and_waste_foot_in_what_is_shown(demo: str) -> None:
    made = grant_tables(material_of(demo))
    shown = {(row[0], row[1]): number_of(row[2]) or 0 for row in made["energy"].rows}
    power = sum(shown.get(("power", use), 0) for use in ("used by the plant, of its own", "used on the farm",
                                                         "sold to the grid", "not taken by the grid"))  # fmt: skip
    assert power == shown["power", "made by the engines"]
    heat = {label: amount for (kind, label), amount in shown.items() if kind == "heat"}
    sources = ("usable from the engines", "from the boiler")
    assert sum(heat.get(one, 0) for one in sources) == sum(heat[use] for use in heat if use not in sources)
    waste = made["waste"]
    assert sum(numbers(waste, 2)) == last(waste, 2) and sum(numbers(waste, 6)) == last(waste, 6)


def test_every_table_has_cells_for_every_head_and_a_title() -> None:
    for demo in DEMOS:
        for name, table in grant_tables(material_of(demo)).items():
            assert table.title and all(len(row) == len(table.head) for row in table.rows), name
            assert all(len(row) for row in table.rows)
    assert set(grant_tables(material_of(DEMOS[0]))) == set(TABLES)


def test_blanks_are_marked_and_filled_by_the_scenario() -> None:
    made = grant_tables(material_of("small_herd_manure_only"))
    assert dict(made["applicant"].rows)["Applicant"] == BLANK
    assert any(BLANK in row for row in made["funding_match"].rows)
    assert any(BLANK in row for row in made["risk_register"].rows)


@pytest.mark.parametrize("demo", DEMOS)
def test_the_smallest_grant_reaches_its_target_and_a_little_less_does_not(demo: str) -> None:
    """Run as scenarios: for worth with all else as planned, for cover with loans that give way to the grant."""
    loaded = material_of(demo).loaded
    asked, found = material_of(demo).least_grant, set()
    given = float(appraise(loaded).values[f"grant.{asked.grant}.received"][0].sum())
    for each in asked.targets:
        if each.status == "none needed":
            bare = appraise(with_values(loaded, {f"grant.{asked.grant}.share_of_eligible": 0.0})).headline
            assert float(bare.npv[0] if each.measure == "npv" else bare.dscr_min.value[0]) >= each.limit
            found.add(each.measure)
        if each.status != "found" or each.share is None or each.amount is None:
            continue
        found.add(each.measure)
        seen = []
        for factor in (0.99, 1.0, 1.01):
            changes = {
                f"grant.{asked.grant}.share_of_eligible": each.share * factor,
                f"grant.{asked.grant}.at_most": 1e9,
            }
            if each.measure == "least_cover":
                lent = sum(loan.amount for loan in loaded.scenario.loan.values())
                less = (lent + given - each.amount * factor) / lent
                changes |= {f"loan.{name}.amount": loan.amount * less for name, loan in loaded.scenario.loan.items()}
            head = appraise(with_values(loaded, changes)).headline
            seen.append(float(head.npv[0] if each.measure == "npv" else head.dscr_min.value[0]))
        assert seen[0] < each.limit < seen[2]
        assert seen[1] == pytest.approx(each.limit, abs=5 if each.measure == "npv" else 1e-3)
        assert each.loans is None or each.loans == pytest.approx(lent + given - each.amount)
    assert found == {"npv", "least_cover"}
