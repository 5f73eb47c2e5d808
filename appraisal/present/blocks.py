"""A paper as one list of blocks, from which every kind of file is made. Text only; user text stays text."""

from __future__ import annotations

import re
from collections.abc import Iterable
from dataclasses import dataclass
from typing import Any, Literal

from appraisal.present.tables import Table
from appraisal.present.words import Passage

BLANK = "[to fill in]"
_UNPRINTABLE = re.compile(r"[^\t\n\x20-\x7e\xa0-\ud7ff\ue000-\ufffd\U00010000-\U0010ffff]")
NARROW, WIDE = 4, 40  # characters: least and most that a column is made for


@dataclass(frozen=True)
class Heading:
    """A heading; level 1 opens a part and stands in the contents, 2 a section, which stands there too, 3 does not."""

    text: str
    level: Literal[1, 2, 3] = 1


@dataclass(frozen=True)
class Paragraph:
    """Plain sentences."""

    text: str


@dataclass(frozen=True)
class Points:
    """A list of sentences."""

    items: tuple[str, ...]


@dataclass(frozen=True)
class Note:
    """Something the reader must not miss, set apart from the text."""

    text: str


@dataclass(frozen=True)
class Tabled:
    """A titled table with a remark below it; the title becomes a numbered caption."""

    table: Table
    remark: str = ""


@dataclass(frozen=True)
class Figure:
    """A chart with its finding as title and a text that says the same to those who cannot see it."""

    title: str
    alt: str
    chart: Any


@dataclass(frozen=True)
class PageBreak:
    """What follows starts on a new page."""


Block = Heading | Paragraph | Points | Note | Tabled | Figure | PageBreak


@dataclass(frozen=True)
class Paper:
    """A whole paper.

    title, subject: on the first page and in the head of every page. facts: label and value on the first page.
    foot: what stands at the foot of every page beside its number. page: sheet of paper. date: ISO, as the caller gave it.
    """

    title: str
    subject: str
    facts: tuple[tuple[str, str], ...]
    foot: str
    page: Literal["a4", "letter"]
    date: str
    blocks: tuple[Block, ...]


def readable(text: str) -> str:
    """The text without characters that no page can hold; they become a question mark."""
    return _UNPRINTABLE.sub("?", text)


def passage(part: Passage, *, level: Literal[1, 2, 3] = 2) -> tuple[Block, ...]:
    """A heading and its sentences as points."""
    return (Heading(part.title, level), Points(part.sentences))


def cautions(part: Passage) -> tuple[Block, ...]:
    """The cautions as a part of their own, with the sentence that defers to local codes."""
    return (
        Heading(part.title, 1),
        Note("Defer to local codes and licensed practice. Limits and rates differ by place and change."),
        Points(part.sentences),
    )


def sections(blocks: Iterable[Block]) -> tuple[Heading, ...]:
    """Headings that stand in the contents."""
    return tuple(block for block in blocks if isinstance(block, Heading) and block.level < 3)


def to_the_right(table: Table) -> tuple[bool, ...]:
    """For each column whether it holds numbers only and is set to the right."""
    columns = list(zip(*table.rows, strict=True)) or [()] * len(table.head)
    return tuple(_all_numbers(column) for column in columns)


def _all_numbers(column: Iterable[str]) -> bool:
    cells = [cell.strip() for cell in column if cell.strip() not in ("", BLANK)]
    return bool(cells) and all(re.fullmatch(r"[-+]?[\d,.]+( ?%)?", cell) for cell in cells)


def widths(table: Table) -> tuple[float, ...]:
    """Shares of the page that the columns of a table get [share]: by their longest word and line, within bounds."""
    weights = []
    for place, head in enumerate(table.head):
        cells = [row[place] for row in table.rows]
        words = [len(word) for cell in (head, *cells) for word in cell.split()]
        lines = [len(line) for cell in (*head.split("\n"), *cells) for line in cell.split("\n")]
        longest, whole = max(words, default=0), max(lines, default=0)
        weights.append(max(NARROW, min(longest, WIDE), min(whole, WIDE)))
    total = float(sum(weights))
    return tuple(weight / total for weight in weights)


def is_total(row: tuple[str, ...]) -> bool:
    """Whether a row sums the others; such rows are set in bold."""
    return bool(row) and row[0].lower().split(",")[0] in ("all", "total", "in all", "sum", "uses in all", "sources in all")
