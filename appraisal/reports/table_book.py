"""Titled tables as a workbook: a sheet each, text as text, numbers as numbers; nothing in it is a formula."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from datetime import datetime
from io import BytesIO
from textwrap import wrap
from typing import Any

import xlsxwriter

from appraisal.present.blocks import is_total, readable
from appraisal.present.tables import Table
from appraisal.reports.csv_text import number_of

OPTIONS = {"strings_to_formulas": False, "strings_to_urls": False, "strings_to_numbers": False, "in_memory": True}
LONGEST_NAME, WIDEST, HEAD_ROW = 31, 50, 2
LINE_HEIGHT, MARGIN = 15, 2  # points of a line of text; characters that a cell keeps free


def table_book(tables: Mapping[str, Table], *, foot: str, date: str) -> bytes:
    """The tables under their fixed names, the same bytes for the same tables and date (ISO)."""
    out = BytesIO()
    with xlsxwriter.Workbook(out, OPTIONS) as book:
        book.set_properties({"created": datetime.fromisoformat(date)})
        styles = {
            "title": book.add_format({"bold": True, "font_size": 13}),
            "head": book.add_format(
                {"bold": True, "text_wrap": True, "bg_color": "#EEF2F5", "bottom": 1, "valign": "top"}
                | {"align": "left", "indent": 1}
            ),
            "text": book.add_format({"text_wrap": True, "valign": "top", "align": "left", "indent": 1}),
            "number": book.add_format({"num_format": "#,##0.######", "valign": "top"}),
            "whole": book.add_format({"num_format": "#,##0", "valign": "top"}),
            "strong": book.add_format({"bold": True, "text_wrap": True, "top": 1, "align": "left", "indent": 1}),
            "strong_number": book.add_format({"bold": True, "num_format": "#,##0.######", "top": 1}),
            "strong_whole": book.add_format({"bold": True, "num_format": "#,##0", "top": 1}),
        }
        for name, table in tables.items():
            _sheet(book.add_worksheet(name[:LONGEST_NAME]), table, styles, foot=foot)
    return out.getvalue()


def _sheet(sheet: Any, table: Table, styles: Mapping[str, Any], *, foot: str) -> None:
    write_string, write_number = sheet.write_string, sheet.write_number
    write_string(0, 0, readable(table.title), styles["title"])
    heads, widths = [readable(head.replace("\n", " ")) for head in table.head], _widths(table)
    for column, (head, width) in enumerate(zip(heads, widths, strict=True)):
        write_string(HEAD_ROW, column, head, styles["head"])
        sheet.set_column(column, column, width)
    sheet.set_row(HEAD_ROW, _height(heads, widths))
    for place, row in enumerate(table.rows, start=HEAD_ROW + 1):
        strong = is_total(row)
        sheet.set_row(place, _height(row, widths))
        for column, cell in enumerate(row):
            number = number_of(cell)
            if number is None:
                write_string(place, column, readable(cell), styles["strong" if strong else "text"])
            else:
                kind = "whole" if number == int(number) else "number"
                write_number(place, column, number, styles[f"strong_{kind}" if strong else kind])
    sheet.freeze_panes(HEAD_ROW + 1, 1)
    sheet.set_landscape()
    sheet.fit_to_pages(1, 0)
    sheet.set_footer("&L" + foot.replace("&", "&&") + "&Rpage &P of &N")


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
