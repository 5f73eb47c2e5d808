"""A workbook of live formulas: every line of the model, traced from its definition, over inputs to type over.

With an appraisal behind it, it becomes a paper to open: first sheet, results, statements, charts and checks, all live. Choices
and counts are fixed at export. Stored values are the engine's, so that viewers show figures.
"""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from datetime import UTC, datetime
from io import BytesIO

import xlsxwriter

from appraisal.appraise import Appraisal
from appraisal.constants import CONSTANTS
from appraisal.lines.evaluate import Values
from appraisal.lines.plan import Plan
from appraisal.present.tables import Table
from appraisal.reports import subjects as where
from appraisal.reports.check_sheet import check_sheet
from appraisal.reports.cover_sheet import cover_sheet, rolling_row
from appraisal.reports.first_sheet import first_sheet, other_runs_sheet
from appraisal.reports.fixed_sheets import choices_sheet, constants_sheet
from appraisal.reports.grid_sheets import back_sheets, month_sheets
from appraisal.reports.input_sheets import input_sheets
from appraisal.reports.layout import Layout, layout, letter
from appraisal.reports.picture_sheet import picture_sheet, pictures
from appraisal.reports.rate_search import rate_rows
from appraisal.reports.result_sheet import result_sheet
from appraisal.reports.results import VALUE
from appraisal.reports.sheets import Book, PlainFormulas
from appraisal.reports.worked_out import FIXED, with_workings, worked_out
from appraisal.reports.yearly_sheets import yearly_sheets
from appraisal.timeline import SERIES, Timeline

CREATED = datetime(2000, 1, 1, tzinfo=UTC)
OPTIONS = {"strings_to_formulas": False, "strings_to_urls": False, "strings_to_numbers": False, "in_memory": True}
FONT = {"font_name": "Arial", "font_size": 10}  # handed over as a copy: the library writes into it
RATE = "Project, after tax, nominal: Rate of return"
RATE_PROOF = "Project, after tax, nominal: Net present value at this rate"
ONLY_WHOLE = {*where.FRONT, *where.MIDDLE, where.WORKINGS, where.YEARLY_WORKINGS} - {
    where.INPUTS,
    where.PROFILES,
    where.PATHS,
}


def workbook(
    plan: Plan,
    *,
    inputs: Values,
    stored: Values,
    timeline: Timeline,
    labels: Mapping[str, tuple[str, str]],
    paper: Appraisal | None = None,
    runs: Sequence[Table] = (),
    date: str = "",
) -> tuple[bytes, Layout]:
    """A workbook of one scenario as bytes, the same for the same input, and where everything stands in it.

    inputs: dotted path -> (1, 1) value, (1, 12) profile or (1, 60) path, written as live cells.
    stored: full name -> what the engine computed, stored beside each formula; a spreadsheet program recomputes it.
    labels: input path -> (label, unit). paper: the appraisal, for the whole paper; without it inputs and lines alone.
    runs: tables of results of many runs, stored as they are. date: ISO, for the foot of every page.
    """
    whole = plan if paper is None else with_workings(paper.structure, plan)
    values = stored if paper is None else worked_out(whole, stored)
    plot = layout(
        whole,
        inputs={name: array.shape[1] for name, array in inputs.items()},
        constants=[f"constant.{c.name}" for c in (CONSTANTS if paper is None else (*CONSTANTS, *FIXED))],
        series=[f"timeline.{name}" for name in SERIES],
        months=timeline.months,
        years=timeline.years,
    )
    out = BytesIO()
    with xlsxwriter.Workbook(out, {**OPTIONS, "default_format_properties": dict(FONT)}) as file:
        file.set_properties({"created": CREATED})
        file.set_calc_mode("auto")
        sheets = {name: file.add_worksheet(name, PlainFormulas) for name in _names(plot, whole_paper=paper is not None)}
        book = Book(file, sheets, plot, inputs, values, timeline, labels, paper, tuple(runs), date)
        _write(book)
    return out.getvalue(), plot


def _names(plot: Layout, *, whole_paper: bool) -> list[str]:
    """Sheets that have something to show, in their order."""
    filled = {place.sheet for place in plot.places.values()}
    return [name for name in where.SHEETS if name in filled or (whole_paper and name in ONLY_WHOLE)]


def _write(book: Book) -> None:
    """Fill all sheets; those that others point into come first."""
    input_sheets(book)
    month_sheets(book)
    back_sheets(book)
    constants_sheet(book)
    if book.paper is not None:
        _write_paper(book, book.paper)


def _write_paper(book: Book, paper: Appraisal) -> None:
    covers, cover_rows = cover_sheet(book)
    covers["rolling"] = rolling_row(book, book.sheets[where.WORKINGS])
    years = yearly_sheets(book, paper)
    rates = rate_rows(book, book.sheets[where.WORKINGS])
    results = result_sheet(book, paper, covers=covers, rates=rates)
    cash = years[where.STATEMENTS]["Cash of the year, inflow positive: Left for the family"] + 1
    span = f"{where.STATEMENTS}!${letter(0)}${cash}:${letter(book.plot.year_count - 1)}${cash}"
    rate, worth = (f"{where.RESULTS}!${VALUE}${results[name].row + 1}" for name in (RATE, RATE_PROOF))
    written = [
        name
        for name in book.sheets
        if name not in (where.READ_FIRST, where.CHOICES, where.PICTURES, where.CHECKS, where.OTHER_RUNS)
    ]
    check_sheet(book, paper, written=written, cash_by_year=span, proof=(rate, worth))
    picture_sheet(book, pictures(book, years, cover_rows))
    choices_sheet(book, paper)
    other_runs_sheet(book)
    first_sheet(book, paper, results)
    book.sheets[where.READ_FIRST].activate()
