"""A check for machines without an office program: whole books of 24 months, every formula worked out at changed inputs."""

from __future__ import annotations

from functools import cache
from pathlib import Path

import numpy as np
import pytest

from appraisal.appraise import Appraisal, appraise
from appraisal.demos import demos
from appraisal.reports import subjects as where
from appraisal.reports.check_sheet import IN_THE_BOOK
from appraisal.reports.layout import FIRST_COLUMN, VALUE_COLUMN, Layout
from appraisal.reports.sheets import MASTER_HOLDS
from appraisal.reports.worked_out import worked_out
from appraisal.scenario.load import load, loads, with_values
from tests.money_cases import changed_demo
from tests.workbook.in_process import opened, recalculated_here, saved
from tests.workbook.office import cells
from tests.workbook.test_whole_book import ZERO, at, different_measures, prove, written
from tests.workbook.test_workbook_equals_engine import Arrays, changed, compared

SMALLEST = "small_herd_manure_only"
YEARS = {"project.years": 2, "project.build_months": 3}
LOAN = {"years": 2, "interest_only_months": 6}
CHEAP = 0.02  # of the cost of the plant, so that it pays back within two years
SEEDS = range(3)


@cache
def two_years(name: str) -> Appraisal:
    """A demo over 24 months: three of building, then feeding; the second year is a full one in which debt falls due."""
    loaded = load(demos()[name])
    loans = {f"loan.{each}.{key}": value for each in loaded.scenario.loan for key, value in LOAN.items()}
    case = appraise(with_values(loaded, {**loans, **YEARS}))
    assert case.timeline.months == 24
    return case


def moved(case: Appraisal, seed: int) -> Arrays:
    """Changed inputs; one of the changes makes the plant so cheap that it pays back and has a rate of return above zero."""
    inputs = changed(case, seed)
    if seed == SEEDS[-1]:
        inputs |= {
            path: inputs[path] * CHEAP for path in inputs if path.startswith(("capital.", "loan.")) and path.endswith("amount")
        }
    return inputs


@pytest.mark.parametrize("name", sorted(demos()))
def test_two_year_books_equal_the_engine(name: str, tmp_path: Path) -> None:
    """Every monthly and yearly line, every single-run measure and every check; nothing stored can pass."""
    case = two_years(name)
    prove([(f"{name}{seed}", case, moved(case, seed)) for seed in SEEDS], tmp_path, recalculated_here)


def test_the_cheap_plant_has_every_kind_of_measure() -> None:
    """Paybacks, a rate of return and covers are numbers in one of the cases, so that their formulas are told apart from words."""
    case = two_years(SMALLEST)
    money = at(case, moved(case, SEEDS[-1])).money
    assert all(np.isfinite(view.payback_years.value[0]) and view.irr.value[0] > 0 for view in money.views)
    assert all(np.isfinite(least.value[0]) for least in money.bank.least.values())
    assert np.isfinite(money.bank.llcr.value[0])


def test_a_wrong_stored_value_does_not_hide(tmp_path: Path) -> None:
    """A planted 999 beside the formulas goes away once they are worked out; a planted wrong formula is found."""
    case = two_years(SMALLEST)
    planted = {name: np.full_like(array, 999.0) for name, array in case.values.items() if name == "power_sales"}
    content, plot = written(case, {**case.values, **planted})
    engine, lines, place = opened(content), worked_out(plot.plan, case.values), plot.places["power_sales"]
    assert found(saved(engine, content, tmp_path / "before"), plot, lines) != []
    engine.evaluate_all()
    assert found(saved(engine, content, tmp_path / "after"), plot, lines) == []
    sheet, cell = engine.sheet(place.sheet), (place.row + 1, FIRST_COLUMN + 7)
    sheet.set_formula(*cell, f"={engine.get_formula(place.sheet, *cell).removeprefix('=')}+1")
    engine.evaluate_all()
    spoilt = saved(engine, content, tmp_path / "spoilt")
    assert "power_sales" in found(spoilt, plot, lines) and different_measures(spoilt) != []


def test_every_check_of_the_tool_stands_on_the_check_sheet(tmp_path: Path) -> None:
    """One live row for each, allowing what the tool allows; at a plan with a debt reserve and at one without."""
    for place, name in enumerate(("small_herd_manure_only", "dairy_with_leftovers")):
        case = two_years(name)
        tool = at(case, changed(case, place))
        content, _ = written(tool, dict(case.values))
        engine = opened(content)
        engine.evaluate_all()
        rows = {row[0]: row for row in cells(saved(engine, content, tmp_path / name), where.CHECKS)}
        for check in tool.money.checks:
            words = IN_THE_BOOK.get(check.name) or check.what.capitalize()
            _, _, gap, limit, verdict = rows[words][:5]
            assert (float(limit), verdict) == (pytest.approx(check.limit, rel=1e-6), "holds"), check.name
            assert float(gap) <= float(limit), check.name


def found(book: Path, plot: Layout, lines: Arrays) -> list[str]:
    """Lines that differ from the engine, rows of rounding left out."""
    return [name for name in compared(book, plot, lines) if name not in ZERO]


def test_inputs_typed_into_the_open_book(tmp_path: Path) -> None:
    """A tonnage, a gas yield, a price, the loan rate and the overhaul hours, typed over as a banker would."""
    case = two_years("dairy_with_leftovers")
    content, plot = written(case, dict(case.values))
    engine, inputs = opened(content), dict(case.inputs)
    for path, factor in TYPED.items():
        inputs[path] = case.inputs[path] * factor
        place = plot.places[path]
        engine.sheet(place.sheet).set_value(place.row + 1, VALUE_COLUMN + 1, float(inputs[path][0, 0]))
    engine.evaluate_all()
    book, tool = saved(engine, content, tmp_path / "typed"), at(case, inputs)
    assert all((tool.values[line] != case.values[line]).any() for line in FOLLOW)
    assert found(book, plot, worked_out(plot.plan, tool.values)) == []
    assert cells(book, where.CHECKS)[3][2] == MASTER_HOLDS
    assert len(different_measures(book)) > 50  # "changed" stands beside them, for the tool's figures are of the export


TYPED = {
    "feed.whey.tonnes_per_year": 0.9,
    "feed.whey.potential_nm3_per_t_vs": 0.9,
    "power.contract_price_per_kwh": 1.1,
    "loan.bank.rate": 1.5,
    "engine.main.top_end_interval_hours": 0.2,  # so that one falls into the 24 months
}
FOLLOW = ("tonnes_fed", "methane_made", "power_sales", "interest_paid", "overhauls_paid")


def test_a_book_with_a_sweep_equals_the_engine(tmp_path: Path) -> None:
    """A circle of lines through the years: a sweep at the end of year two lowers interest and tax of year three.

    The tax year ends in June, so that what is taxed is carried from one column of years into the next.
    """
    changes = {"project": {"years": 3, "build_months": 3}, "loan": {"bank": {"years": 3, "interest_only_months": 6}}}
    changes |= {"funding": {"sweep": "prepays", "sweep_share": 0.6, "sweep_keeps_amount": 5000, "debt_reserve": "from_cash"}}
    changes |= {"tax": {"year_first_month": 7, "paid_months_after_year": 5}}
    case = appraise(loads(changed_demo(changes), file="swept"))
    cheap = {path: case.inputs[path] / 10 for path in case.inputs if path.endswith(("amount", "at_most"))}
    some = [changed(case, seed) | cheap for seed in range(2)]
    assert all(at(case, inputs).values["swept"][0, 1] > 0 for inputs in some)
    prove([(f"swept{seed}", case, inputs) for seed, inputs in enumerate(some)], tmp_path, recalculated_here)


@pytest.mark.parametrize("name", ["dairy_with_leftovers", "shared_plant_three_farms"])
def test_the_book_of_a_plant_that_closes_early_equals_the_engine(name: str, tmp_path: Path) -> None:
    """Closed in its second year: grants paid back, machines sold, basis and books written off."""
    case = two_years(name)
    items = case.structure.items["capital"]
    closing = {"project.closes_after_years": np.array([[0.75]]), "funding.stop_penalty_cost": np.array([[9_000.0]])}
    places = {f"capital.{item}.resale_share": np.array([[0.3]]) for item in items}
    places |= {f"capital.{item}.removal_cost": np.array([[5_000.0]]) for item in items}
    inputs = {**changed(case, 1), **closing, **places}
    assert at(case, inputs).values["plant_goes"][0, 12:23].sum() == 1
    prove([(f"{name}_closes", case, inputs)], tmp_path, recalculated_here)
