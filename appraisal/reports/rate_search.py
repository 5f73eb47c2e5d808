"""The search for a rate of return: a spreadsheet finds one near a guess, so several are tried and each answer is proved."""

from __future__ import annotations

from typing import Any

from appraisal.reports import subjects as where
from appraisal.reports.cover_sheet import ROLLING_ROWS
from appraisal.reports.grid_sheets import row_head
from appraisal.reports.layout import FIRST_COLUMN, letter
from appraisal.reports.results import NONE
from appraisal.reports.sheets import Book, band, style
from appraisal.reports.worked_out import GUESSES
from appraisal.reports.workings.eight import SIDES, Side

ROWS = 3  # a side: rates found, what the cash is worth at them, rank of those at which that is nothing


def rate_rows(book: Book, sheet: Any) -> dict[str, tuple[str, str]]:
    """Below the workings: rates tried and proved; returns the ranges of rates and proofs by side."""
    row = max(place for _, place in book.plot.on(where.WORKINGS)) + ROLLING_ROWS
    band(book, sheet, row, "Rates of return: looked for from several guesses, each in a column, and proved")
    guess = row + 1
    row_head(book, sheet, guess, label="Guess", unit="share/month", name="")
    for place, name in enumerate(GUESSES):
        value = float(book.stored[f"constant.{name}"][0, 0])
        sheet.write_formula(guess, FIRST_COLUMN + place, f"={book.one(f'constant.{name}')}", style(book), value)
    found = {}
    for number, side in enumerate(SIDES):
        first = guess + 1 + ROWS * number
        _side(book, sheet, first, side, guess=guess)
        found[side.key] = (_span(first), _span(first + ROWS - 1))
    return found


def _span(row: int) -> str:
    return f"{where.WORKINGS}!${letter(0)}${row + 1}:${letter(len(GUESSES) - 1)}${row + 1}"


def _side(book: Book, sheet: Any, row: int, side: Side, *, guess: int) -> None:
    key = side.key
    flows, size = book.row(f"{key}_flow", sheet=where.WORKINGS), book.total(f"{key}_size", sheet=where.WORKINGS)
    limit, months = book.one("constant.check_limit"), book.one("months_in_all", sheet=where.WORKINGS)
    place_of = book.plot.places[f"{key}_flow"].row + 1
    rest, today = f"${letter(1)}${place_of}:${letter(book.plot.month_count - 1)}${place_of}", f"${letter(0)}${place_of}"
    labels = (
        ("Rate found", "share/month"),
        ("What the cash is worth at it", "money"),
        ("Rank: proved rates from zero up, then those below", "1"),
    )
    for each, (label, unit) in enumerate(labels):
        row_head(book, sheet, row + each, label=f"{label}; {side.words}", unit=unit, name="")
    for place in range(len(GUESSES)):
        here = letter(place)
        rate, worth = f"{here}{row + 1}", f"{here}{row + 2}"
        near = f"{limit}*{size}*MAX((1+{rate})^(0-{months}),1)"
        for each, text in enumerate(
            (
                f'=IFERROR(IRR({flows},{here}${guess + 1}),"{NONE}")',
                f'=IF(ISNUMBER({rate}),IFERROR(NPV({rate},{rest})+{today},"{NONE}"),"{NONE}")',
                f'=IF(ISNUMBER({worth}),IF(AND({rate}>-1,ABS({worth})<={near}),IF({rate}<0,1-{rate},{rate}),"{NONE}"),"{NONE}")',
            )
        ):
            sheet.write_formula(row + each, FIRST_COLUMN + place, text, style(book), NONE)
