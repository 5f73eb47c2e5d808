"""Every measure of a single run as a live cell, with the tool's figure at export beside it."""

from __future__ import annotations

from typing import Any

from appraisal.appraise import Appraisal
from appraisal.reports import subjects as where
from appraisal.reports.layout import FIRST_ROW, HEAD_ROW, letter
from appraisal.reports.results import EXPORTED, FORMS, NONE, VALUE, Result, Written
from appraisal.reports.results_of_money import bank_results, cost_results, farm_results, stop_results
from appraisal.reports.results_of_sides import side_results
from appraisal.reports.sheets import GREY, Book, band, head, sheet_of, style, title, widths
from appraisal.reports.workings.eight import SIDES
from appraisal.reports.yearly_sheets import CHANGED, SAME


def result_sheet(
    book: Book, paper: Appraisal, *, covers: dict[str, str], rates: dict[str, tuple[str, str]]
) -> dict[str, Written]:
    """Write the sheet; returns what was written by `group: label`."""
    sheet = sheet_of(book, where.RESULTS)
    title(
        book, sheet, "Results, live", "Months dated, month 0 is today. The tool's figure at export stands beside each."
    )
    head(
        book,
        sheet,
        HEAD_ROW,
        ("", "unit", "now", "at export", "same as the tool's\nfigure at export?", ""),
        lines=2,
        right=(2, 3),
    )
    widths(sheet, (58, 13, 32, 32, 18, 56))
    sheet.freeze_panes(HEAD_ROW + 1, 1)
    sheet.repeat_rows(HEAD_ROW)
    sheet.fit_to_pages(1, 0)
    groups = (
        *side_results(book, paper, rates),
        *bank_results(book, paper, covers),
        *cost_results(book, paper),
        *stop_results(book, paper),
        *farm_results(book, paper),
    )
    row, places = FIRST_ROW - 1, dict[str, Written]()
    for words, results in groups:
        band(book, sheet, row, words)
        for each in results:
            row += 1
            _result(book, sheet, row, each, words)
            places[f"{words}: {each.label}"] = Written(row, each.stored)
        row += 2
    _not_live(book, sheet, row)
    return places


def _result(book: Book, sheet: Any, row: int, each: Result, group: str) -> None:
    form = {"num_format": FORMS.get(each.unit, "General"), "align": "right"}
    sheet.write_string(row, 0, each.label, style(book))
    sheet.write_string(row, 1, book.unit(each.unit) if each.unit != "1" else "", style(book, font_color=GREY))
    text = each.formula or _proof(book, group, row)
    proof = not each.formula
    sheet.write_formula(row, 2, text, style(book, bold=True, **form), each.stored)
    if isinstance(each.stored, str) and not proof:
        sheet.write_string(row, 3, each.stored, style(book, font_color=GREY, **form))
    elif not proof:
        sheet.write_number(row, 3, each.stored, style(book, font_color=GREY, **form))
    if not proof:
        now, then = f"{VALUE}{row + 1}", f"{EXPORTED}{row + 1}"
        limit = book.one("constant.check_limit")
        near = f"ABS({now}-{then})<={limit}*MAX(ABS({then}),{limit})"
        both = f"IF(AND(ISNUMBER({now}),ISNUMBER({then})),{near},{now}={then})"
        text = f'=IF({both},"{SAME}","{CHANGED}")'
        sheet.write_formula(row, 4, text, style(book, align="left", indent=1, font_color=GREY), SAME)
    sheet.write_string(row, 5, each.note, style(book, font_color=GREY, align="left", indent=1))


def _proof(book: Book, group: str, row: int) -> str:
    """Net present value at the rate of return in the cell above: the first flow is today, NPV discounts the others."""
    side = next(each for each in SIDES if each.words.capitalize() == group)
    place = book.plot.places[f"{side.key}_flow"]
    rest = f"{where.WORKINGS}!${letter(1)}${place.row + 1}:${letter(book.plot.month_count - 1)}${place.row + 1}"
    today = f"{where.WORKINGS}!${letter(0)}${place.row + 1}"
    rate = f"{VALUE}{row}"
    monthly = f"(1+{rate})^(1/{book.one('constant.months_per_year')})-1"
    return f'=IF(ISNUMBER({rate}),NPV({monthly},{rest})+{today},"{NONE}")'


STORED = f"; stored on the sheet {where.OTHER_RUNS} where it was asked for"
NOT_LIVE = (
    ("Break-even of a price, a yield or a cost", "solved by trying many values", STORED),
    ("The largest loan that a cover allows, and the smallest grant", "solved by trying many values", STORED),
    ("Bad cases, and how far each driver may move before the plan breaks", "many runs", STORED),
    ("Many futures, chances, and which assumption decides", "many runs", STORED),
    ("All rates of return where several fit", "one cell gives one rate; the net present value decides", ""),
    ("Rates of return below some -98 % a year", "a spreadsheet does not find them and says none; the tool may", ""),
    ("Findings and what operating limits say", "judged by rules; stored on the first sheet", ""),
)


def _not_live(book: Book, sheet: Any, row: int) -> None:
    band(book, sheet, row, "Not live in this workbook")
    for place, (what, why, stored) in enumerate(NOT_LIVE, start=1):
        sheet.write_string(row + place, 0, what, style(book))
        sheet.write_string(row + place, 1, f"{why}{stored}", style(book, font_color=GREY))
