"""The first sheet (what this is, the answer, cautions, how to use the book), and the sheet of stored results."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from typing import Any

from appraisal import __version__
from appraisal.appraise import Appraisal
from appraisal.present import words
from appraisal.reports import subjects as where
from appraisal.reports.layout import HEAD_ROW
from appraisal.reports.results import EXPORTED, VALUE, Written
from appraisal.reports.sheets import (
    ACCENT,
    ALARM,
    GREY,
    LINE,
    LINE_HEIGHT,
    MASTER_CELL,
    MASTER_HOLDS,
    MOVED_CELL,
    NOT_HOLDING,
    Book,
    band,
    head,
    sheet_of,
    style,
    title,
    widths,
    wrapped_lines,
)

PROJECT, OWNER, BANK = "Project, after tax, nominal", "Owner, after tax, nominal", "What a lender looks at"
KEY_FIGURES = (
    (f"{PROJECT}: Net present value", "What it is worth today", "money", "#,##0"),
    (f"{PROJECT}: Rate of return", "Rate of return", "a year", "0.0%"),
    (f"{PROJECT}: Payback", "Money back after", "years", "0.0"),
    (f"{OWNER}: Net present value", "What it is worth to the family, with its loans", "money", "#,##0"),
    (f"{BANK}: Least cover as assumed", "Least cover of debt service", "", "0.00"),
    (f"{BANK}: Least cover on signed contracts only", "Least cover on signed contracts only", "", "0.00"),
)
USE = (
    "Change a number on the sheets Inputs, Inputs by month or Inputs by year (pale ground): every sheet follows, charts too.",
    "Choices, names and counts are fixed at export (sheet Choices). Change them in the scenario file and export again.",
    "Results shows every measure live beside the tool's figure at export, and says whether they are still the same.",
    "Every row is one formula; every sheet says at its head whether all checks hold. Checks lists them.",
    "Monthly sheets hold the plant and every line of money; yearly sheets add up their months. Inflow is positive.",
    "Results of many runs (break-even, largest loan, bad cases, chances) are stored, not live: see Other runs.",
    "A number outside its range, or inputs impossible together, show at the head of every sheet. Changed inputs are marked.",
    "Sheets are protected without a password, against typing over a formula by accident. Units are those of the file (SI).",
)
CAUTIONS = ("not_advice", "default_values", "market_prices", "permits", "confined_space", "h2s_smell")
WIDE = 132  # of a line over the whole width

RUN_WIDTHS = (46, *[20] * 8)  # columns of stored tables [characters]
RUN_SCALE, RUN_LINES = 60, 55  # per cent; lines of a printed page at it


def first_sheet(book: Book, paper: Appraisal, results: Mapping[str, Written]) -> None:
    """Write the sheet. results: what stands on the sheet Results, by `group: label`."""
    sheet, project = sheet_of(book, where.READ_FIRST), paper.loaded.scenario.project
    widths(sheet, (46, 18, 18, 50))
    sheet.set_portrait()
    sheet.fit_to_pages(1, 0)
    sheet.write_string(0, 0, project.name, style(book, bold=True, font_size=18))
    sheet.set_row(0, 28)
    sheet.write_string(
        1,
        0,
        "A biogas plant for this farm: the whole calculation as live formulas",
        style(book, font_size=12, font_color=GREY),
    )
    facts = (
        f"Scenario fingerprint {paper.loaded.fingerprint}, appraisal {__version__}, first month {project.first_month}."
    )
    sheet.write_string(2, 0, facts, style(book, font_color=GREY))
    row = _text(book, sheet, 3, [project.note] if project.note else [])
    row = _answer(book, sheet, row + 1, results)
    band(book, sheet, row + 1, "How to use this book")
    row = _text(book, sheet, row + 2, USE)
    row = _passages(book, sheet, row + 1, paper)
    band(book, sheet, row + 1, "Be careful")
    row = _text(book, sheet, row + 2, words.cautions_short(CAUTIONS).sentences)
    _sheet_list(book, sheet, row + 1)


def _answer(book: Book, sheet: Any, row: int, results: Mapping[str, Written]) -> int:
    """The answer, live, with the key figures below and the figure at export beside."""
    value = f"{where.RESULTS}!${VALUE}${results[f'{PROJECT}: Net present value'].row + 1}"
    yes, no = "On these figures it pays, if what is assumed comes true.", "On these figures it does not pay."
    worth = float(book.stored["project_after_nominal_present"][0].sum())
    strong = style(book, bold=True, font_size=14, font_color=ACCENT)
    sheet.write_formula(row, 0, f'=IF({value}>0,"{yes}","{no}")', strong, yes if worth > 0 else no)
    sheet.set_row(row, 22)
    head(book, sheet, row + 1, ("", "now", "at export", ""), right=(1, 2))
    for place, (key, label, unit, form) in enumerate(KEY_FIGURES, start=row + 2):
        source, stored = results[key].row + 1, results[key].stored
        shown = f'{form} "{book.unit(unit)}"' if unit else form
        plain = style(book, num_format=shown, align="right")
        sheet.write_string(place, 0, label, style(book))
        for column, letter, bold in ((1, VALUE, True), (2, EXPORTED, False)):
            form_of = style(book, num_format=shown, align="right", bold=True) if bold else plain
            sheet.write_formula(place, column, f"={where.RESULTS}!${letter}${source}", form_of, stored)
    last = row + 2 + len(KEY_FIGURES)
    sheet.write_string(last, 0, "Does the sum add up?", style(book))
    told = style(book, bold=True, align="left", indent=1)  # a long answer goes on to the right
    sheet.write_formula(last, 1, f"={MASTER_CELL}", told, MASTER_HOLDS)
    alarm = style(book, bold=True, font_color=ALARM)
    sheet.conditional_format(last, 1, last, 1, {**NOT_HOLDING, "format": alarm})
    sheet.write_string(last + 1, 0, "Inputs changed since export", style(book))
    sheet.write_formula(last + 1, 1, f"={MOVED_CELL}", style(book, bold=True, align="right"), 0)
    return last + 2


def _passages(book: Book, sheet: Any, row: int, paper: Appraisal) -> int:
    """The same in sentences, as they stood at export, and what to ask about."""
    for part in (words.family(paper), words.bank(paper)):
        band(book, sheet, row, f"{part.title}, at export")
        row = _text(book, sheet, row + 1, part.sentences) + 1
    band(book, sheet, row, "What to ask about, at export")
    found = [f"[{each.severity}] {each.what}" for each in paper.findings] or ["Nothing stands out."]
    return _text(book, sheet, row + 1, found)


def _text(book: Book, sheet: Any, row: int, sentences: Sequence[str]) -> int:
    """Sentences over the whole width, each as high as it needs; returns the next row."""
    form = style(book, text_wrap=True)
    for sentence in sentences:
        sheet.merge_range(row, 0, row, 3, "", form)
        sheet.write_string(row, 0, sentence, form)
        sheet.set_row(row, LINE_HEIGHT * wrapped_lines(sentence, WIDE))
        row += 1
    return row


ABOUT = {
    where.INPUTS: "numbers to change, with unit, range, source and how it is known",
    where.PROFILES: "inputs with a value for each calendar month",
    where.PATHS: "inputs with a value for each project year",
    where.CHOICES: "what was chosen, fixed at export",
    where.RESULTS: "every measure, live, beside the tool's figure",
    where.COVER: "cover by year from three sides, and a lender's order of payments",
    where.STATEMENTS: "cash, profit, from profit to cash, balance sheet",
    where.MONEY: "every line of money by year",
    where.LOANS: "each loan: opening, in, out, closing",
    where.TAX: "depreciation and tax",
    where.PLANT: "gas, power, heat, digestate and emissions by year",
    where.PICTURES: "charts",
    where.CHECKS: "every check, and the master check",
    where.OTHER_RUNS: "stored results of many runs",
    where.YEARLY: "lines with one value a year",
    where.WORKINGS: "how the results are worked out, by month",
    where.YEARLY_WORKINGS: "how the results are worked out, by year",
    where.CONSTANTS: "figures that do not change from farm to farm",
}


def _sheet_list(book: Book, sheet: Any, row: int) -> None:
    band(book, sheet, row, "The sheets")
    titles = {**{each.sheet: each.title.lower() + ", by month" for each in where.MONTHLY}, **ABOUT}
    for name in book.sheets:
        if name in titles:
            row += 1
            sheet.write_url(row, 0, f"internal:'{name}'!A1", style(book, font_color=ACCENT, underline=1), name)
            sheet.write_string(row, 1, titles[name], style(book))


def other_runs_sheet(book: Book) -> None:
    """Results that take many runs: stored as they were, each table under its title."""
    sheet = sheet_of(book, where.OTHER_RUNS)
    title(book, sheet, "Results of many runs, stored", "These do not follow the inputs of this book.")
    widths(sheet, RUN_WIDTHS)
    sheet.set_print_scale(RUN_SCALE)
    sheet.ignore_errors({"number_stored_as_text": "A1:L2000"})
    fresh = "The inputs are as at export, and what is stored here belongs to them."
    stale = "INPUTS HAVE CHANGED: what is stored here belongs to the inputs at export, not to those in this book now."
    sheet.write_formula(HEAD_ROW, 0, f'=IF({MOVED_CELL}=0,"{fresh}","{stale}")', style(book, font_color=GREY), fresh)
    alarm = style(book, bold=True, font_color=ALARM)
    rule = {"type": "text", "criteria": "begins with", "value": "INPUTS", "format": alarm}
    sheet.conditional_format(HEAD_ROW, 0, HEAD_ROW, 0, rule)
    row = HEAD_ROW + 2
    if book.runs and book.paper is not None and book.paper.structure.display_units == "us":
        words = "This sheet has the units that the scenario is shown in (US); all others have those of the file (SI)."
        sheet.write_string(HEAD_ROW + 1, 0, words, style(book, font_color=GREY))
        row += 1
    if not book.runs:
        sheet.write_string(row, 0, "None were asked for when this book was written.", style(book))
        for place, line in enumerate(
            ("appraisal stress FILE", "appraisal rank FILE", "appraisal simulate FILE"), start=1
        ):
            sheet.write_string(row + place, 0, f"`{line}` shows them.", style(book, font_color=GREY))
    used, breaks = 0.0, list[int]()
    for table in book.runs:
        high = sum(max(map(wrapped_lines, cells, RUN_WIDTHS)) for cells in (table.head, *table.rows)) + 2
        if used and used + high > RUN_LINES:
            breaks.append(row)
            used = 0
        used += high
        band(book, sheet, row, table.title)
        for place, cells in enumerate((table.head, *table.rows)):
            row += 1
            facts = {"bold": True, "bottom": 1, "border_color": LINE} if place == 0 else {}
            sheet.set_row(row, LINE_HEIGHT * max(map(wrapped_lines, cells, RUN_WIDTHS)))
            for column, cell in enumerate(cells):
                align = "left" if column == 0 else "right"
                sheet.write_string(row, column, cell, style(book, text_wrap=True, align=align, **facts))
        row += 2
    sheet.set_h_pagebreaks(breaks)
