"""Titled tables as a workbook: a sheet each, text as text, numbers as numbers; nothing in it is a formula."""

from __future__ import annotations

from collections.abc import Callable, Mapping, Sequence
from datetime import datetime
from functools import cache
from io import BytesIO
from textwrap import wrap
from typing import Any

import xlsxwriter

from appraisal.present.blocks import is_total, readable, to_the_right
from appraisal.present.tables import Table
from appraisal.reports.csv_text import number_of, places_of, share_of

OPTIONS = {"strings_to_formulas": False, "strings_to_urls": False, "strings_to_numbers": False, "in_memory": True}
LONGEST_NAME, WIDEST, REMARK_ROW, HEAD_ROW = 31, 50, 1, 2
NO_REMARKS: Mapping[str, str] = {}
BOLD = (("bold", True),)
HEAD = (*BOLD, ("text_wrap", True), ("bg_color", "#EEF2F5"), ("bottom", 1))
Style = Callable[..., Any]
LINE_HEIGHT, MARGIN = 15, 2  # points of a line of text; characters that a cell keeps free


def table_book(tables: Mapping[str, Table], *, foot: str, date: str, remarks: Mapping[str, str] = NO_REMARKS) -> bytes:
    """The tables under their fixed names, the same bytes for the same tables and date (ISO).

    remarks: by the same names, a sentence under the title.
    """
    out = BytesIO()
    with xlsxwriter.Workbook(out, OPTIONS) as book:
        book.set_properties({"created": datetime.fromisoformat(date)})
        style = _styles(book)
        for name, table in tables.items():
            _sheet(book.add_worksheet(name[:LONGEST_NAME]), table, style, foot=foot, remark=remarks.get(name, ""))
    return out.getvalue()


def _styles(book: Any) -> Style:
    """Makes each format of cells once."""

    @cache
    def style(*parts: tuple[str, Any]) -> Any:
        return book.add_format({"valign": "top", **dict(parts)})

    return style


def _sheet(sheet: Any, table: Table, style: Style, *, foot: str, remark: str) -> None:
    sheet.write_string(0, 0, readable(table.title), style(*BOLD, ("font_size", 13)))
    heads, widths = [readable(head.replace("\n", " ")) for head in table.head], _widths(table)
    if remark:
        style_of = style(("italic", True), ("text_wrap", True))
        sheet.merge_range(REMARK_ROW, 0, REMARK_ROW, len(widths) - 1, readable(remark), style_of)
        sheet.set_row(REMARK_ROW, _height([remark], [sum(widths)]))
    right = to_the_right(table)
    for column, (head, width) in enumerate(zip(heads, widths, strict=True)):
        sheet.write_string(HEAD_ROW, column, head, style(*HEAD, *_side(right[column])))
        sheet.set_column(column, column, width)
    sheet.set_row(HEAD_ROW, _height(heads, widths))
    for place, row in enumerate(table.rows, start=HEAD_ROW + 1):
        sheet.set_row(place, _height(row, widths))
        for column, cell in enumerate(row):
            _cell(sheet, (place, column), cell, style, strong=is_total(row), right=right[column])
    sheet.freeze_panes(HEAD_ROW + 1, 1)
    sheet.set_landscape()
    sheet.fit_to_pages(1, 0)
    sheet.repeat_rows(HEAD_ROW)
    sheet.set_footer("&L" + foot.replace("&", "&&") + "&Rpage &P of &N")


def _cell(sheet: Any, place: tuple[int, int], cell: str, style: Style, *, strong: bool, right: bool) -> None:
    """A number or a share as such, with the decimals that it shows; everything else as text."""
    number, share, line = number_of(cell), share_of(cell), (*BOLD, ("top", 1)) if strong else ()
    plain = "#,##0" + (f".{'0' * places_of(cell)}" if places_of(cell) else "")
    if number is not None:
        sheet.write_number(*place, number, style(*line, ("num_format", plain)))
    elif share is not None:
        sheet.write_number(*place, share, style(*line, ("num_format", plain + "%")))
    else:
        sheet.write_string(*place, readable(cell), style(*line, ("text_wrap", True), *_side(right)))


def _side(right: bool) -> tuple[tuple[str, Any], ...]:
    """Where texts stand: to the right in a column of numbers."""
    return (("align", "right"),) if right else (("align", "left"), ("indent", 1))


def _widths(table: Table) -> list[int]:
    """Width of each column [characters]; a long text wraps."""
    longest = [max((len(row[place]) for row in table.rows), default=0) for place in range(len(table.head))]
    return [
        min(max(cells, len(head) // 2, 9) + 2 * MARGIN, WIDEST) for cells, head in zip(longest, table.head, strict=True)
    ]


def _height(cells: Sequence[str], widths: Sequence[int]) -> int:
    """Height of a row whose texts wrap [points]; office programs do not all find it by themselves."""
    return LINE_HEIGHT * max(
        [len(wrap(cell, width - MARGIN)) or 1 for cell, width in zip(cells, widths, strict=True)], default=1
    )
