"""A table as CSV that a spreadsheet program cannot run: text that starts like a formula gets an apostrophe before it."""

from __future__ import annotations

import csv
import io
import re

from appraisal.present.tables import Table

DANGEROUS = ("=", "+", "-", "@", "\t", "\r", "\n", "\0")
BOM = "\ufeff"
_NUMBER = re.compile(r"[-+]?\d{1,3}(,\d{3})*(\.\d+)?|[-+]?\d+(\.\d+)?")


def csv_bytes(table: Table) -> bytes:
    """Head and rows by RFC 4180, UTF-8 with a mark for spreadsheet programs; numbers without thousands marks."""
    out = io.StringIO(newline="")
    writer = csv.writer(out, lineterminator="\r\n")
    writer.writerow([safe(head.replace("\n", " ")) for head in table.head])
    writer.writerows([safe(cell) for cell in row] for row in table.rows)
    return (BOM + out.getvalue()).encode()


def safe(cell: str) -> str:
    """A number as a plain number; a text so that no program reads it as a formula."""
    if _NUMBER.fullmatch(cell):
        return cell.replace(",", "").removeprefix("+")
    return "'" + cell if cell.startswith(DANGEROUS) else cell


def number_of(cell: str) -> float | None:
    """The number that a cell shows, None where it is text."""
    return float(cell.replace(",", "")) if _NUMBER.fullmatch(cell) else None
