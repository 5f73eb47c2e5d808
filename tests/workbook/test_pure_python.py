"""Books of 24 months worked out by nothing but Python, from their formulas alone; and that this judge can be trusted."""

from __future__ import annotations

from io import BytesIO
from pathlib import Path

import numpy_financial
import openpyxl
import pytest

from appraisal.reports.worked_out import worked_out
from tests.workbook.formula_functions import FUNCTIONS, LAZY
from tests.workbook.pure_python import Book, Formula, recalculated_in_python
from tests.workbook.test_formulas_of_book import ALLOWED
from tests.workbook.test_whole_book import at, prove, written
from tests.workbook.test_without_office import SEEDS, SMALLEST, moved, two_years

FLOWS = (-1000.0, 300.0, 420.0, 680.0)
SHORT = {
    "-A2^2": 90_000.0,  # the sign binds tighter than the power
    "10-4-3": 3.0,
    "2+3*4/6": 4.0,
    "2^3^2": 64.0,  # powers from left to right
    'IF(1>2,1/0,"x")': "x",
    'IFERROR(1/0,"none")': "none",
    "1/0": "#DIV/0!",
    "A9+1": 1.0,
    '"Holds"="holds"': 1.0,
    '1<"a"': 1.0,
    "SUM(A1:A5)": 400.0,
    "COUNT(A1:B5)": 4.0,
    "COUNTA(A1:B5)": 5.0,
    'COUNTIF(A1:B5,"word")': 1.0,
    "SUMIF(A1:A4,A2,A1:A4)": 300.0,
    "INDEX(A1:A4,MATCH(A3,A1:A4,0))": 420.0,
    "NPV(0.08,A2:A4)+A1": numpy_financial.npv(0.08, FLOWS),
    "IRR(A1:A4,0.1)": numpy_financial.irr(FLOWS),
    "MONTH(DATE(2027,14,1))": 2.0,
    "YEAR(DATE(2027,14,1))": 2028.0,
}
"""Formulas and what they come to: by hand, by the rules of the OpenFormula standard, and by numpy-financial."""


def test_formulas_come_to_what_they_should() -> None:
    """Order of operators, errors, dates, empty cells and texts in ranges, worth and rate of return."""
    book = openpyxl.Workbook()
    sheet = book.active
    for row, value in enumerate((*FLOWS, "word"), start=1):
        sheet.cell(row, 1, value)
    for column, text in enumerate(SHORT, start=3):
        sheet.cell(1, column, f"={text}")
    content = BytesIO()
    book.save(content)
    judge = Book(content.getvalue())
    for column, (text, wanted) in enumerate(SHORT.items(), start=3):
        got = judge.at(sheet.title, 1, column)
        assert str(got) == wanted if isinstance(wanted, str) else got == pytest.approx(wanted), text


def test_it_knows_every_function_that_a_book_may_use() -> None:
    assert {*FUNCTIONS, *LAZY} == ALLOWED


def test_a_book_equals_the_engine(tmp_path: Path) -> None:
    """Lines, years, measures and checks of a plant so cheap that it has every kind of measure, at changed inputs."""
    case = two_years(SMALLEST)
    prove([("cheap", case, moved(case, SEEDS[-1]))], tmp_path, recalculated_in_python)


def test_a_wrong_formula_is_found_and_a_wrong_stored_value_never_seen(tmp_path: Path) -> None:
    """The values stored in the file are those of other inputs, so that none could pass; one formula is one too high."""
    case = two_years(SMALLEST)
    tool = at(case, moved(case, 0))
    content, plot = written(tool, {**case.values, "power_sales": case.values["power_sales"] * 0 + 999.0})
    judge, place = Book(content), plot.places["power_sales"]
    cell = (place.row + 1, plot.month_count)
    held = judge.sheets[place.sheet][cell]
    assert isinstance(held, Formula)
    right = judge.at(place.sheet, *cell)
    judge.sheets[place.sheet][cell] = Formula(f"{held}+1")
    judge.known.clear()
    assert judge.at(place.sheet, *cell) == pytest.approx(right + 1) and right != 999
    assert right == pytest.approx(worked_out(plot.plan, tool.values)["power_sales"][0, cell[1] - 5])
