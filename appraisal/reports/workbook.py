"""A bare workbook of formulas: every line of the model, traced from its definition, over live inputs.

Choices and counts are fixed at export; numbers are live. Stored values are the engine's, so that viewers show figures.
"""

from __future__ import annotations

from collections.abc import Callable, Iterator, Mapping
from datetime import UTC, datetime
from io import BytesIO
from typing import Any

import xlsxwriter

from appraisal.constants import CONSTANTS
from appraisal.lines.evaluate import Values
from appraisal.lines.names import Ref
from appraisal.lines.plan import Node, Plan
from appraisal.lines.trace import formula
from appraisal.reports import layout as where
from appraisal.reports.layout import FIRST_COLUMN, Layout, layout
from appraisal.timeline import MONTHS, SERIES, Timeline

CREATED = datetime(2000, 1, 1, tzinfo=UTC)
OPTIONS = {"strings_to_formulas": False, "strings_to_urls": False, "strings_to_numbers": False, "in_memory": True}


def workbook(
    plan: Plan,
    *,
    inputs: Values,
    stored: Values,
    timeline: Timeline,
    labels: Mapping[str, tuple[str, str]],
) -> tuple[bytes, Layout]:
    """The traced workbook of one scenario as bytes, the same for the same input, and where everything stands in it.

    inputs: dotted path -> (1, 1) value, (1, 12) profile or (1, 60) path, written as live cells.
    stored: full name -> what the engine computed, stored beside each formula; a spreadsheet program recomputes it.
    labels: input path -> (label, unit).
    """
    series = [f"timeline.{name}" for name in SERIES]
    plot = layout(
        plan,
        inputs={name: array.shape[1] for name, array in inputs.items()},
        constants=[f"constant.{c.name}" for c in CONSTANTS],
        series=series,
        months=timeline.months,
        years=timeline.years,
    )
    out = BytesIO()
    with xlsxwriter.Workbook(out, OPTIONS) as book:
        book.set_properties({"created": CREATED})
        sheets = {name: book.add_worksheet(name) for name in where.SHEETS}
        bold, live = book.add_format({"bold": True}), book.add_format({"locked": False, "bg_color": "#EEF5FA"})
        _inputs(sheets[where.INPUTS], plot, inputs, labels=labels, bold=bold, live=live)
        _constants(sheets[where.CONSTANTS], plot, bold=bold)
        _months(sheets[where.MONTHS], plot, stored, timeline=timeline, bold=bold)
        _years(sheets[where.YEARS], plot, stored, bold=bold)
        _results(sheets[where.RESULTS], plot, bold=bold)
    return out.getvalue(), plot


def _head(sheet: Any, bold: Any, words: tuple[str, ...]) -> None:
    for column, word in enumerate(words):
        sheet.write_string(1, column, word, bold)
    sheet.freeze_panes(where.FIRST_ROW, FIRST_COLUMN)
    sheet.set_column(0, 1, 44)


def _inputs(
    sheet: Any,
    plot: Layout,
    inputs: Values,
    *,
    labels: Mapping[str, tuple[str, str]],
    bold: Any,
    live: Any,
) -> None:
    sheet.write_string(
        0, 0, "Inputs: change a number and everything follows. Choices and counts are fixed at export.", bold
    )
    _head(sheet, bold, ("Input", "Label", "Unit", "Value, or January to December, or by project year"))
    for name, row in plot.inputs.items():
        for column, word in enumerate((name, *labels.get(name, ("", "")))):
            sheet.write_string(row, column, word)
        shown = plot.year_count if name in plot.paths else None
        for place, value in enumerate(inputs[name][0][:shown]):
            sheet.write_number(row, where.VALUE_COLUMN + place, float(value), live)


def _constants(sheet: Any, plot: Layout, *, bold: Any) -> None:
    sheet.write_string(0, 0, "Figures that do not change from farm to farm", bold)
    _head(sheet, bold, ("Constant", "Meaning", "Unit", "Value", "Source", "How it is known"))
    for constant in CONSTANTS:
        row = plot.constants[f"constant.{constant.name}"]
        sheet.write_number(row, where.VALUE_COLUMN, constant.value)
        for column, word in (
            (0, constant.name),
            (1, constant.meaning),
            (2, constant.unit),
            (4, constant.source),
            (5, constant.basis),
        ):
            sheet.write_string(row, column, word)


def _months(sheet: Any, plot: Layout, stored: Values, *, timeline: Timeline, bold: Any) -> None:
    sheet.write_string(0, 0, "The plant and its money, month by month", bold)
    _head(
        sheet,
        bold,
        ("Line", "Label", "Unit", "Sheet", "One value", *(timeline.name(m) for m in range(timeline.months))),
    )
    for name, row in plot.months.items():
        node = plot.plan.nodes.get(name)
        if node is None:
            sheet.write_string(row, 0, name)
            sheet.write_row(row, FIRST_COLUMN, stored[name][0].tolist())
        else:
            _line(sheet, row, node, plot, stored[name], sheet_name=where.MONTHS)


def _years(sheet: Any, plot: Layout, stored: Values, *, bold: Any) -> None:
    sheet.write_string(0, 0, "By project year, building years included", bold)
    _head(sheet, bold, ("Line", "Label", "Unit", "Sheet", ""))
    for year in range(plot.year_count):
        sheet.write_number(plot.years[where.YEAR_NUMBER], FIRST_COLUMN + year, year + 1)
        sheet.write_number(plot.years[where.YEAR_LAST_MONTH], FIRST_COLUMN + year, (year + 1) * MONTHS)
    for name, row in plot.years.items():
        node = plot.plan.nodes.get(name)
        if node is None:
            sheet.write_string(row, 0, name)
        else:
            _line(sheet, row, node, plot, stored[name], sheet_name=where.YEARS)


def _line(sheet: Any, row: int, node: Node, plot: Layout, stored: Any, *, sheet_name: str) -> None:
    for column, word in enumerate((node.name, node.label, node.line.unit, node.line.sheet)):
        sheet.write_string(row, column, word)
    text = _template(node, plot, sheet_name)
    if node.grid == "once":
        sheet.write_formula(row, where.ONCE_COLUMN, text(0), None, float(stored[0, 0]))
        return
    for place, value in enumerate(stored[0].tolist()):
        sheet.write_formula(row, FIRST_COLUMN + place, text(place), None, value)


def _template(node: Node, plot: Layout, sheet_name: str) -> Callable[[int], str]:
    """Trace the line once; the text for a column then only fills in addresses."""
    found: list[Callable[[int], str]] = []

    def token(ref: Ref) -> str:
        found.append(plot.address(ref, sheet=sheet_name))
        return f"{{{len(found) - 1}}}"

    text = "=" + formula(node, token)
    return lambda column: text.format(*(address(column) for address in found))


def results(plot: Layout) -> Iterator[tuple[str, str, str]]:
    """The hand-written results: label, unit, formula; IRR picks a root by guess, so NPV at that rate stands beside it."""
    cash = plot.address(Ref("project_cash", "life_sum"), sheet=where.RESULTS)(0).removeprefix("SUM(").removesuffix(")")
    month = (
        plot.address(Ref("timeline.month_number", "life_sum"), sheet=where.RESULTS)(0)
        .removeprefix("SUM(")
        .removesuffix(")")
    )
    rate, twelve = (
        plot.address(Ref(name), sheet=where.RESULTS)(0)
        for name in ("judging.discount_rate", "constant.months_per_year")
    )
    yield "Net present value, project, after tax", "money", f"=SUMPRODUCT({cash},(1+{rate})^(-({month})/{twelve}))"
    yield "Rate of return, project, after tax", "1/year", f'=IFERROR((1+IRR({cash},0))^{twelve}-1,"none")'
    yield (
        "Net present value at this rate",
        "money",
        f'=IFERROR(SUMPRODUCT({cash},(1+$C$4)^(-({month})/{twelve})),"none")',
    )


def _results(sheet: Any, plot: Layout, *, bold: Any) -> None:
    sheet.write_string(0, 0, "Results: months dated, month 0 is today", bold)
    for column, word in enumerate(("Measure", "Unit", "Value")):
        sheet.write_string(1, column, word, bold)
    sheet.set_column(0, 1, 44)
    for place, (label, unit, text) in enumerate(results(plot)):
        sheet.write_string(where.FIRST_ROW + place, 0, label)
        sheet.write_string(where.FIRST_ROW + place, 1, unit)
        sheet.write_formula(where.FIRST_ROW + place, 2, text)
