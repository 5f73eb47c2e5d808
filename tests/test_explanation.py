"""How was this figure made: what is shown is what the appraisal holds, and what went in gives what came out."""

from __future__ import annotations

import json
import re

import numpy as np
import pytest
from click.testing import CliRunner

from appraisal.appraise import Appraisal, appraise
from appraisal.cli import main
from appraisal.demos import demos
from appraisal.lines.evaluate import MONTHS
from appraisal.present.explanation import OF_MEASURES, Explanation, UnknownLineError, explainable, explanation
from appraisal.present.explanation_text import AS_READ, explanation_tables, parts_table, sentences
from appraisal.scenario.load import load
from appraisal.scenario.units import read_quantity

DEMO = "dairy_with_leftovers"
YEAR = 3


@pytest.fixture(scope="module", params=sorted(demos()))
def appraisal(request: pytest.FixtureRequest) -> Appraisal:
    return appraise(load(demos()[request.param]))


@pytest.fixture(scope="module")
def one() -> Appraisal:
    return appraise(load(demos()[DEMO]))


def shown(case: Appraisal, name: str, year: int) -> np.ndarray:
    """The year's values of a line straight from the appraisal."""
    row, grid = case.values[name][0], case.plan.grid(name)
    if row.size == 1 or grid == "once":
        return row[:1]
    return row[year - 1 : year] if grid == "year" else row[(year - 1) * MONTHS : year * MONTHS]


def test_every_figure_shown_is_the_appraisals_own(appraisal: Appraisal) -> None:
    for name in explainable(appraisal):
        told = explanation(appraisal, name, year=YEAR)
        assert told.figure.months == tuple(shown(appraisal, name, YEAR)), name
        for part in (each for each in told.parts if not each.reading):
            assert part.months == tuple(shown(appraisal, part.name, YEAR)), (name, part.name)


def test_what_went_in_gives_the_figure(appraisal: Appraisal) -> None:
    """The definition, called with the numbers shown beside it, gives the number shown: nothing is left out of the tale."""
    for name, node in appraisal.plan.nodes.items():
        if any(ref.view == "years_of" for ref in node.refs()):
            continue  # reads all years of an input, the explanation shows this year's
        told, numbers = explanation(appraisal, name, year=YEAR), iter(explanation(appraisal, name, year=YEAR).parts)
        arguments = [
            [np.array(next(numbers).months) for _ in argument]
            if isinstance(argument, tuple)
            else np.array(next(numbers).months)
            for argument in node.arguments
        ]
        got = np.broadcast_to(np.asarray(node.line.body(*arguments), dtype=float), (len(told.figure.months),))
        assert got == pytest.approx(told.figure.months, rel=1e-9, abs=1e-9), name


def test_flows_add_up_balances_stand_and_prices_are_a_mean(one: Appraisal) -> None:
    for name, summary, unit in (
        ("power_sales", "sum of the year", "USD/year"),
        ("loans_owed", "at the year's end", "USD"),
        ("power_price", "mean of the months", "USD/kWh"),
    ):
        figure = explanation(one, name, year=YEAR).figure
        months = shown(one, name, YEAR)
        want = {"sum": months.sum(), "at": months[-1], "mean": months.mean()}[summary.split()[0]]
        assert (figure.summary, figure.value_unit) == (summary, unit)
        assert figure.value == pytest.approx(want)


def test_what_a_measure_is_said_to_be_made_of_can_be_explained(one: Appraisal) -> None:
    for made_of in set(OF_MEASURES.values()):
        for name in made_of.replace(" and ", ", ").split(", "):
            assert explanation(one, name, year=YEAR).figure.label, name


def test_it_goes_down_to_inputs_with_their_sources(one: Appraisal) -> None:
    told = explanation(one, "power_sales", year=YEAR)
    inputs = {each.name: each for each in told.inputs}
    price, meant = inputs["power.contract_price_per_kwh"], one.loaded.assumptions["power.contract_price_per_kwh"]
    assert price.value == meant.value and price.origin is not None
    assert (price.origin.source, price.origin.known) == (meant.source, meant.known)
    assert all(each.origin is not None and each.origin.source and each.origin.known for each in told.inputs)
    assert (
        told.inputs[0].name == "power.contract_years"
    )  # read by the price, two steps down: nearer than any of the gas
    assert not {each.name for each in told.inputs} & set(one.plan.nodes)


def test_no_inputs_year_stands_under_a_months_unit(one: Appraisal) -> None:
    """A bill of twelve months, added up, is money a year."""
    table = explanation_tables(explanation(one, "power_bill_saved", year=YEAR))[-1]
    rows = {row[0]: row for row in table.rows}
    assert rows["farm_now.power_bill"][2:4] == ("112,160", "USD/year")
    assert rows["farm_now.power_kwh"][2:4] == ("701,000", "kWh/year")
    assert rows["farm_now.power_bill_energy_share"][2:4] == ("0.65", "share")


def test_an_input_explains_itself(one: Appraisal) -> None:
    told = explanation(one, "judging.discount_rate", year=1)
    assert told.parts == told.inputs == () and told.equation == ""
    assert any("How it is known" in each for each in sentences(told))


def test_tables_hold_every_part_and_month(one: Appraisal) -> None:
    told = explanation(one, "net_cash", year=YEAR)
    parts, *months, inputs = explanation_tables(told)
    assert [row[0] for row in parts.rows] == [each.name for each in told.parts]
    assert all(len(table.rows) == MONTHS for table in months) and len(inputs.rows) == len(told.inputs)
    assert sum(len(table.head) - 2 for table in months) == sum(len(each.months) > 1 for each in told.parts)


@pytest.mark.parametrize(
    ("name", "year", "hint"),
    [
        ("power_sale", 3, "did you mean power_sales"),
        ("substrate_tonnes", 3, "substrate.milkers.tonnes"),
        ("npv", 3, "made of project_cash"),
        ("llcr", 3, "made of cash_available_for_debt_service"),
        ("levelised_cost_per_kwh", 3, "made of investment"),
        ("power_sales", 99, "years 1 to 21"),
        ("power_sales", 0, "years 1 to 21"),
        ("POWER SALES ", 3, "did you mean power_sales"),
        ("Cover of debt service", 3, "did you mean cover\\?"),
        ("", 3, "lists them all"),
        ("project.display_units", 3, "is a choice, not a figure: .* is 'us'"),
    ],
)
def test_an_unknown_line_or_year_is_one_clear_error(one: Appraisal, name: str, year: int, hint: str) -> None:
    with pytest.raises(UnknownLineError, match=hint):
        explanation(one, name, year=year)
    done = CliRunner().invoke(main, ["explain", "--demo", DEMO, name, "--year", str(year)])
    assert done.exit_code == 3 and re.search(hint, done.stderr) and not done.stdout


def test_the_command_prints_text_and_json(one: Appraisal) -> None:
    text = CliRunner().invoke(main, ["explain", str(demos()[DEMO]), "power_sales", "--year", "3"])
    assert text.exit_code == 0 and "power_sales = power_paid_for * power_price" in text.stdout
    told = CliRunner().invoke(main, ["explain", "--demo", DEMO, "power_sales", "--json"])
    figure = json.loads(told.stdout)["figure"]
    assert figure["value"] == pytest.approx(shown(one, "power_sales", one.plant.year).sum())
    assert CliRunner().invoke(main, ["explain", "a", "b", "c"]).exit_code == 2


def test_the_record_is_frozen(one: Appraisal) -> None:
    told: Explanation = explanation(one, "power_sales", year=YEAR)
    with pytest.raises(AttributeError):
        told.year = 4  # type: ignore[misc]


@pytest.mark.parametrize("name", ["substrate.milkers.manure", "methane_made"])
def test_a_us_farm_reads_its_own_units_and_the_equations_beside_them(one: Appraisal, name: str) -> None:
    """The number shown, read again with its unit, is what the equation reads."""
    table = parts_table(explanation(one, name, year=YEAR))
    place, seen = table.head.index(AS_READ), 0
    for row in table.rows:
        if row[place]:
            own, unit = row[place].replace(",", "").split(" ", 1)
            shown_here = f"{row[2].replace(',', '')} {row[3].replace('short ton', 'short_ton')}"
            assert read_quantity(shown_here, unit) == pytest.approx(float(own), rel=1e-3)
            seen += 1
    assert seen and "Nm3" not in table.rows[0][3] and "short ton" in sentences(explanation(one, "tonnes_fed", year=YEAR))[0]


def test_a_metric_farm_has_no_second_column() -> None:
    metric = appraise(load(demos()["shared_plant_three_farms"]))
    assert AS_READ not in parts_table(explanation(metric, "methane_made", year=YEAR)).head
