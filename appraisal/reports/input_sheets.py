"""The sheet of what the user assumes: numbers to type over."""

from __future__ import annotations

from collections.abc import Sequence
from datetime import date
from typing import Any

from appraisal.present.explanation import ORIGIN
from appraisal.reports import subjects as where
from appraisal.reports.grid_head import EPOCH, serial, years_across, years_on_page
from appraisal.reports.input_states import (
    FIRST_MONTH_ROW,
    KNOWN_WIDTH,
    Beside,
    Sources,
    cite,
    columns_beside,
    exported,
    list_sources,
    sources_of,
    state,
)
from appraisal.reports.layout import HEAD_ROW, VALUE_COLUMN
from appraisal.reports.sheets import (
    GREY,
    LINE_HEIGHT,
    PALE,
    Book,
    band,
    head,
    sheet_of,
    style,
    title,
    widths,
    wrapped_lines,
)
from appraisal.scenario.assumptions import Assumption
from appraisal.scenario.quantity import Declaration
from appraisal.timeline import MONTH_NAMES

LONGEST_MESSAGE, LONGEST_TITLE = 250, 32  # characters that a spreadsheet shows beside a cell
THOUSAND = 1000
FIRST_DAY, LAST_DAY = (
    date(1900, 3, 1),
    date(2099, 12, 31),
)  # years that a scenario takes; spreadsheets count wrongly before
REFUSED = "This cannot be"
NAMED = 52, 14  # columns of the label and the unit [characters]
LIVE = {"locked": False, "bg_color": PALE, "border": 4, "border_color": "#B8C7D3"}


def input_sheets(book: Book) -> None:
    """Single numbers, twelve months, project years."""
    sheet = sheet_of(book, where.INPUTS)
    title(
        book, sheet, "Inputs", "Type over a number on pale ground and every sheet follows. Counts are fixed at export."
    )
    sheet.write_string(FIRST_MONTH_ROW, 0, "First month of spending", style(book))
    sheet.write_string(FIRST_MONTH_ROW, 1, "date", style(book, font_color=GREY))
    _inputs(book, sheet, ("value",))
    _first_month(book, sheet)
    months = MONTH_NAMES, "Inputs with a value for each calendar month"
    years = (
        tuple(f"year {year + 1}" for year in range(book.plot.year_count)),
        "Inputs with a value for each project year",
    )
    for name, (columns, words) in {where.PROFILES: months, where.PATHS: years}.items():
        if any(True for _ in book.plot.on(name)):
            sheet = sheet_of(book, name)
            title(book, sheet, words)
            _inputs(book, sheet, columns)


def _first_month(book: Book, sheet: Any) -> None:
    """The one date, live; a day inside a month counts as its month."""
    dated = {"num_format": "mmm yyyy"}
    sheet.write_number(FIRST_MONTH_ROW, VALUE_COLUMN, serial(book.timeline, 0), style(book, **dated, **LIVE))
    if book.paper is None:
        return
    beside, grey = columns_beside(1), style(book, font_color=GREY, **dated)
    for column, day in ((beside.low, FIRST_DAY), (beside.high, LAST_DAY)):
        sheet.write_number(FIRST_MONTH_ROW, column, (day - EPOCH).days, grey)
    exported(book, sheet, FIRST_MONTH_ROW, beside, [serial(book.timeline, 0)], dated)
    state(book, sheet, FIRST_MONTH_ROW, beside, fixed=False, bounds=(True, True))
    message = f"A date from {FIRST_DAY.isoformat()} to {LAST_DAY.isoformat()}; its month counts."
    limits = {"validate": "date", "criteria": "between", "minimum": FIRST_DAY, "maximum": LAST_DAY}
    limits |= {"ignore_blank": False, "error_title": REFUSED, "error_message": message, "input_message": message}
    sheet.data_validation(FIRST_MONTH_ROW, VALUE_COLUMN, FIRST_MONTH_ROW, VALUE_COLUMN, limits)


def _inputs(book: Book, sheet: Any, columns: Sequence[str]) -> None:
    beside, single = columns_beside(len(columns)), len(columns) == 1
    words = ("", "unit", *columns, *beside.words)
    head(book, sheet, HEAD_ROW, words, lines=2, right=range(VALUE_COLUMN, beside.origin - 1))
    values = [14.0 if single else 9.0] * len(columns)
    widths(sheet, (*NAMED, *values, *beside.sizes))
    sheet.freeze_panes(HEAD_ROW + 1, VALUE_COLUMN + single)
    sheet.repeat_rows(HEAD_ROW)
    _printed(book, sheet, beside)
    for each in book.plot.headings[sheet.name]:
        band(book, sheet, each.row, section_words(each.module))
    assumptions = book.paper.loaded.assumptions if book.paper else {}
    shown = [assumptions[name] for name, _ in book.plot.on(sheet.name) if name in assumptions]
    sources = sources_of(book, sheet, shown)
    for name, row in book.plot.on(sheet.name):
        _input(book, sheet, row, name, given=assumptions.get(name), beside=beside, sources=sources)
    last = beside.number if single else VALUE_COLUMN + years_on_page(beside.count) - 1  # of the first printed page
    wide = sum((*NAMED, *values, *beside.sizes)[: last + 1])
    end = list_sources(book, sheet, sources, last=last, width=wide)
    sheet.print_area(0, 0, end, beside.number)


def _printed(book: Book, sheet: Any, beside: Beside) -> None:
    """Single values on one page across; months and years over several, what stands beside them on the last."""
    if beside.count == 1:
        sheet.fit_to_pages(1, 0)
        return
    behind = beside.sizes[: beside.number - beside.low + 1]
    sheet.repeat_columns(0, VALUE_COLUMN - 1)
    years_across(book, sheet, first=VALUE_COLUMN, before=NAMED, year=9, behind=behind, count=beside.count)


def section_words(section: str) -> str:
    """`feed.bakery` as people say it."""
    return ": ".join(part.replace("_", " ") for part in section.split(".")).capitalize()


def _input(
    book: Book, sheet: Any, row: int, name: str, *, given: Assumption | None, beside: Beside, sources: Sources
) -> None:
    label, unit = book.labels.get(name, (name, ""))
    sheet.write_string(row, 0, label, style(book))
    sheet.write_string(row, 1, book.unit(unit), style(book, font_color=GREY))
    fixed = given is not None and given.declaration.kind == "count"
    values = book.inputs[name][0].tolist()[: beside.count]
    for place, value in enumerate(values):
        form = style(book, num_format=_input_format(unit, value), **({} if fixed else LIVE))
        sheet.write_number(row, VALUE_COLUMN + place, value, form)
    if given is None:
        return
    item = given.declaration
    exported(book, sheet, row, beside, values, {"num_format": _input_format(unit, values[0])})
    state(book, sheet, row, beside, fixed=fixed, bounds=(item.low is not None, item.high is not None))
    _beside(book, sheet, row, given, beside=beside, sources=sources)
    if not fixed:
        _limits(book, sheet, row, item, last=VALUE_COLUMN + beside.count - 1)


def _input_format(unit: str, value: float) -> str:
    """An input shows what was typed: shares with two decimals of a per cent, large whole numbers with their thousands."""
    return (
        "0.00%"
        if unit.startswith("share")
        else "#,##0"
        if value == int(value) and abs(value) >= THOUSAND
        else "General"
    )


def _beside(book: Book, sheet: Any, row: int, given: Assumption, *, beside: Beside, sources: Sources) -> None:
    """Range, where the value comes from, how it is known, its source by number and in full, its name in the file."""
    item, plain = given.declaration, {"font_color": GREY, "align": "left", "indent": 1}
    for column, value in ((beside.low, item.low), (beside.high, item.high)):
        if value is not None:
            bound = style(book, font_color=GREY, num_format=_input_format(item.unit, value))
            sheet.write_number(row, column, value, bound)
    origin = "count, fixed at export" if item.kind == "count" else ORIGIN[given.origin]
    known = given.known or "nobody said"
    sheet.write_string(row, beside.origin, origin, style(book, **plain))
    sheet.write_string(row, beside.known, known, style(book, text_wrap=True, **plain))
    sheet.set_row(row, LINE_HEIGHT * wrapped_lines(known, KNOWN_WIDTH))
    if given.source:
        cite(book, sheet, row, beside.number, source=given.source, sources=sources)
    sheet.write_string(row, beside.path, given.path, style(book, **plain))
    sheet.write_string(row, beside.source, given.source or "", style(book, **plain))


def _limits(book: Book, sheet: Any, row: int, item: Declaration, *, last: int) -> None:
    """The allowed range, held by the spreadsheet itself, with the unit in its message."""
    low, high = item.low, item.high
    limits: dict[str, Any] = {"criteria": "between", "minimum": low, "maximum": high}
    if low is None or high is None:
        limits = {"criteria": ">=", "value": low} if low is not None else {"criteria": "<=", "value": high}
    if low is None and high is None:
        return
    allowed = f"Allowed: {book.unit(item.allowed())}."
    message = f"{cut(item.help, LONGEST_MESSAGE - len(allowed) - 1)} {allowed}"
    limits |= {"validate": "decimal", "ignore_blank": False, "error_title": REFUSED, "error_message": message}
    limits |= {"input_title": cut(item.label, LONGEST_TITLE), "input_message": message}
    sheet.data_validation(row, VALUE_COLUMN, row, last, limits)


def cut(text: str, longest: int) -> str:
    """A text of at most so many characters, cut between words, the cut shown by dots."""
    if len(text) <= longest:
        return text
    return f"{text[: longest - 3].rpartition(' ')[0].rstrip(',;:. ')} ..."
