"""A table as CSV that a spreadsheet program cannot run: text that starts like a formula gets an apostrophe before it."""

from __future__ import annotations

import csv
import io
import re

from appraisal.present.blocks import plus_minus
from appraisal.present.tables import Table

DANGEROUS = ("=", "+", "-", "@", "\t", "\r", "\n", "\0")
OF_TABLE, NAMELESS = "table", "what"
BOM = "\ufeff"
_PERCENT = re.compile(r"-?\d+(\.\d+)?%")
_NUMBER = re.compile(r"[-+]?\d{1,3}(,\d{3})*(\.\d+)?|[-+]?\d+(\.\d+)?")


def csv_bytes(table: Table) -> bytes:
    """Head and rows by RFC 4180, UTF-8 with a mark for spreadsheet programs; numbers without thousands marks.

    One line of heads, no two alike. The last column repeats the table's title, for currency, year and basis stand there.
    """
    out = io.StringIO(newline="")
    writer = csv.writer(out, lineterminator="\r\n")
    title = safe(table.title)
    writer.writerow([*(safe(head) for head in heads(table)), OF_TABLE])
    writer.writerows([*(safe(cell.strip(" ")) for cell in row), title] for row in table.rows)
    return (BOM + out.getvalue()).encode()


def heads(table: Table) -> list[str]:
    """Heads as one line each: what has none gets one, and what stands twice is numbered."""
    made: list[str] = []
    for head in table.head:
        name = " ".join(head.split()) or NAMELESS
        again = sum(one == name or one.startswith(f"{name} (") for one in made)
        made.append(f"{name} ({again + 1})" if name in made else name)
    return made


def safe(cell: str) -> str:
    """A number as a plain number, a share as per cent; a text so that no program reads it as a formula."""
    if _PERCENT.fullmatch(cell):
        return cell
    if _NUMBER.fullmatch(cell):
        return cell.replace(",", "").removeprefix("+")
    cell = plus_minus(cell)
    return "'" + cell if cell.startswith(DANGEROUS) else cell


def number_of(cell: str) -> float | None:
    """The number that a cell shows, None where it is text."""
    return float(cell.replace(",", "")) if _NUMBER.fullmatch(cell) else None


def share_of(cell: str) -> float | None:
    """The share that a cell shows as per cent, None where it shows none."""
    return float(cell.removesuffix("%")) / 100 if _PERCENT.fullmatch(cell) else None


def places_of(cell: str) -> int:
    """Decimals that a number or a share shows."""
    return len(cell.rstrip("%").partition(".")[2])
