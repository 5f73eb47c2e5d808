"""Native charts over the live rows: they follow the inputs like everything else."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from dataclasses import dataclass
from typing import Any

import numpy as np

from appraisal.reports import subjects as where
from appraisal.reports.layout import FIRST_COLUMN, YEAR_ROW
from appraisal.reports.sheets import GREY, INK, Book, sheet_of, style, title

BLUE, VERMILION, GREEN, DARK = "#0072B2", "#D55E00", "#009E73", "#1F2A33"
SIZE = {"width": 900, "height": 340}
ROWS_APART = 18


@dataclass(frozen=True)
class Curve:
    """One series of a picture: name, sheet and row of its values by year, colour, dash; years: how many, all when 0."""

    name: str
    sheet: str
    row: int
    colour: str
    dash: str = "solid"
    years: int = 0


def chart(
    book: Book, kind: Mapping[str, str], curves: Sequence[Curve], *, words: str, unit: str, form: str = "#,##0"
) -> Any:
    """A chart by project year with its unit on the axis, and words that say what it shows for those who cannot see it."""
    made = book.file.add_chart(dict(kind))
    for each in curves:
        last = FIRST_COLUMN + (each.years or book.plot.year_count) - 1
        line = {"color": each.colour, "width": 2.25, "dash_type": each.dash}
        made.add_series(
            {
                "name": each.name,
                "categories": [each.sheet, YEAR_ROW, FIRST_COLUMN, YEAR_ROW, last],
                "values": [each.sheet, each.row, FIRST_COLUMN, each.row, last],
                **({"line": line} if kind["type"] == "line" else {"fill": {"color": each.colour}, "gap": 60}),
            }
        )
    ink = {"color": INK, "size": 9}
    made.set_title({"name": words, "name_font": {"size": 11, "color": INK}, "overlay": False})
    made.set_x_axis({"name": "project year", "num_font": ink, "name_font": ink, "label_position": "low"})
    made.set_y_axis(
        {
            "name": unit,
            "num_font": ink,
            "name_font": ink,
            "num_format": form,
            "major_gridlines": {"visible": True, "line": {"color": "#D8DEE3"}},
        }
    )
    made.set_legend({"position": "bottom", "font": ink})
    made.set_size(SIZE)
    return made


def pictures(
    book: Book, places: Mapping[str, Mapping[str, int]], cover_rows: Mapping[str, int]
) -> list[tuple[Any, str]]:
    """Every chart with its text alternative. places: rows of the yearly sheets; cover_rows: rows of the sheet Cover."""
    bars, lines = {"type": "column", "subtype": "stacked"}, {"type": "line"}
    a_year, money, loans = f"{book.currency} a year", places[where.STATEMENTS], places[where.LOANS]
    owed = [Curve("owed, all loans", where.LOANS, loans["All loans and reserves: Owed, all loans"], DARK)]
    return [
        (
            chart(book, bars, _flows(money), words="What comes in and what goes out", unit=a_year),
            "Columns by project year: income, bills saved, running costs and debt service.",
        ),
        (
            chart(book, lines, _account(money), words="The family's cash", unit=book.currency),
            "Lines by project year: the family's cash of the year and so far.",
        ),
        (
            chart(
                book,
                lines,
                _covers(book, cover_rows),
                words="Cover of debt service",
                unit="cash over debt service",
                form="0.0",
            ),
            "Lines by project year with debt: cover as assumed, on signed contracts only, and the least cover wanted.",
        ),
        (
            chart(book, lines, owed, words="What is still owed at the year's end", unit=book.currency),
            "Line by project year: what is owed on all loans.",
        ),
    ]


def _cash(money: Mapping[str, int], name: str, label: str, colour: str, dash: str = "solid") -> Curve:
    return Curve(name, where.STATEMENTS, money[f"Cash of the year, inflow positive: {label}"], colour, dash)


def _flows(money: Mapping[str, int]) -> list[Curve]:
    return [
        _cash(money, "income", "Income", BLUE),
        _cash(money, "bills saved", "Bills saved", GREEN),
        _cash(money, "running costs", "Running costs", VERMILION),
        _cash(money, "debt service", "Debt service", DARK),
    ]


def _account(money: Mapping[str, int]) -> list[Curve]:
    return [
        _cash(money, "cash of the year", "Left for the family", VERMILION, "dash"),
        _cash(money, "cash so far", "Family's cash so far, at the year's end", BLUE),
    ]


def _covers(book: Book, rows: Mapping[str, int]) -> list[Curve]:
    """Drawn as long as debt falls due at export: a line would fall to 0 over years without debt, which are empty."""
    owed = np.flatnonzero(book.stored["debt_falls_due"][0])
    years = int(owed[-1]) + 1 if owed.size else 0
    return [
        Curve("as assumed", where.COVER, rows["as_assumed"], BLUE, years=years),
        Curve("signed contracts only", where.COVER, rows["signed_contracts_only"], VERMILION, "dash", years),
        Curve("wanted", where.COVER, rows["wanted"], DARK, "round_dot", years),
    ]


def picture_sheet(book: Book, made: Sequence[tuple[Any, str]]) -> None:
    """Write the sheet: one chart below the other, each with a text alternative."""
    sheet = sheet_of(book, where.PICTURES)
    title(book, sheet, "Pictures", "They follow the inputs.")
    sheet.set_column(0, 0, 30)
    sheet.set_portrait()
    sheet.fit_to_pages(1, 1)
    for place, (each, words) in enumerate(made):
        sheet.insert_chart(3 + ROWS_APART * place, 0, each, {"description": words, "object_position": 2})
    sheet.write_string(
        3 + ROWS_APART * len(made),
        0,
        "The rows behind them stand on the sheets Statements, Cover and Loans by year. "
        "Cover is drawn over the years with debt at export.",
        style(book, font_color=GREY),
    )
