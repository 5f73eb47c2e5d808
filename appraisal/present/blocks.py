"""A paper as one list of blocks, from which every kind of file is made. Text only; user text stays text."""

from __future__ import annotations

import re
from collections.abc import Iterable, Iterator, Sequence
from dataclasses import dataclass
from math import sqrt
from typing import Any, Literal

from appraisal.present.tables import Table
from appraisal.present.words import BLANK, Passage

SHEETS = {"a4": (210.0, 297.0), "letter": (215.9, 279.4)}  # mm
MARGIN = 20.0  # mm, left and right
_UNPRINTABLE = re.compile(r"[^\t\n\x20-\x7e\xa0-\ud7ff\ue000-\ufffd\U00010000-\U0010ffff]")
# Characters: least of a column, longest word that it must hold and that it may get room for, longest line.
NARROW, WORD, PATH, LONG = 4, 24, 44, 60
REMARK = 32  # characters of a cell that may stand to the right among numbers
WIDER, THINNER = 0.35, 0.5  # of a mean character that a capital is wider, and a comma or point thinner
THIN = ",.:;'|"
SMALL, USUAL = 7.5, 9.0  # points of the letters in tables
MANY_COLUMNS, MANY_ROWS = 8, 100  # from here on letters are small
SHORT = 16  # rows of a table that is not broken over pages
_NEGATIVE, _ERROR = re.compile(r"(?<![\w-])-(?=\d)"), re.compile(r"\+- ?(?=\d)")
_NUMBER = re.compile(r"[-+]?[\d,.]+( ?%)?( \+- [\d.,e-]+ ?%?)?")
MINUS = "\u2212"  # no line ends behind it


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
    """A titled table with a remark below it; the title becomes a numbered caption. small: in the smaller letters."""

    table: Table
    remark: str = ""
    small: bool = False


@dataclass(frozen=True)
class Figure:
    """A chart with its finding as title and a text that says the same to those who cannot see it."""

    title: str
    alt: str
    chart: Any


@dataclass(frozen=True)
class Contents:
    """The list of headings with their pages, down to a level."""

    depth: Literal[1, 2] = 2


@dataclass(frozen=True)
class PageBreak:
    """What follows starts on a new page."""


Block = Heading | Paragraph | Points | Note | Tabled | Figure | Contents | PageBreak


@dataclass(frozen=True)
class Paper:
    """A whole paper.

    title, subject: on the first page and in the head of every page. facts: label and value on the first page.
    foot: what stands at the foot of every page beside its number. page: sheet of paper. wide: it lies on its side.
    date: ISO, as the caller gave it.
    """

    title: str
    subject: str
    facts: tuple[tuple[str, str], ...]
    foot: str
    page: Literal["a4", "letter"]
    date: str
    blocks: tuple[Block, ...]
    wide: bool = False

    @property
    def sheet(self) -> tuple[float, float]:
        """Width and height of a page [mm]."""
        narrow, high = SHEETS[self.page]
        return (high, narrow) if self.wide else (narrow, high)

    @property
    def room(self) -> float:
        """Width between the margins [mm]."""
        return self.sheet[0] - 2 * MARGIN


def readable(text: str) -> str:
    """The text without characters that no page can hold; they become a question mark."""
    return _UNPRINTABLE.sub("?", text)


def prose(text: str) -> str:
    """A sentence as printed: a minus that keeps to its number at the end of a line, and the sign for a standard error."""
    return _NEGATIVE.sub(MINUS, printed(text))


def printed(text: str) -> str:
    """A cell or caption as printed, on one line; its numbers can still be pasted into a spreadsheet."""
    return plus_minus(readable(text.replace("\n", " ")))


def plus_minus(text: str) -> str:
    """The text with the sign for a standard error, which keeps to its number."""
    return _ERROR.sub("\u00b1", text).replace("+-", "\u00b1")


def in_cell(text: str) -> str:
    """A cell as printed: in a sentence a minus keeps to its number, a number by itself can be pasted."""
    return prose(text) if len(text) > REMARK else printed(text)


def tied(blocks: Sequence[Block]) -> Iterator[tuple[Block, bool]]:
    """Each block, and whether it introduces what stands below it and stays on one page with its beginning."""
    for place, block in enumerate(blocks):
        below = blocks[place + 1] if place + 1 < len(blocks) else None
        opens = isinstance(block, Note) and isinstance(below, Points)
        yield block, opens or (isinstance(block, Paragraph) and isinstance(below, (Tabled, Figure)))


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
    """For each column whether it is set to the right: most of it are numbers, none has a unit behind it, none is a sentence."""
    columns = list(zip(*table.rows, strict=True)) or [()] * len(table.head)
    return tuple(_mostly_numbers(column) for column in columns)


def _mostly_numbers(column: Iterable[str]) -> bool:
    cells = [cell.strip() for cell in column if cell.strip() not in ("", BLANK)]
    numbers = [cell for cell in cells if _NUMBER.fullmatch(cell)]
    with_unit = any(cell[0].isdigit() and cell not in numbers for cell in cells)
    return len(numbers) > len(cells) / 2 and not with_unit and max(map(len, cells)) <= REMARK


def widths(table: Table, *, page: float, char: float, pad: float) -> tuple[float, ...]:
    """Width of each column [mm]: its longest line where all of them fit the page, else long texts get less and wrap.

    page: width there is [mm]. char: mean width of a character [mm]. pad: left and right of a cell together [mm].
    """
    columns = [(head, *(row[place] for row in table.rows)) for place, head in enumerate(table.head)]
    lines = [max((_length(line) + 1 for cell in cells for line in cell.split("\n")), default=0) for cells in columns]
    words = [
        max((_length(word) + 1 for cell in cells for word in re.split(r"[\s/-]+", cell)), default=0) for cells in columns
    ]
    natural = [max(line, NARROW) * char + pad for line in lines]
    if sum(natural) <= page:
        return tuple(natural)
    least = [max(min(word, WORD), NARROW) * char + pad for word in words]
    wish = [
        max(max(min(line, 12 + 2.2 * sqrt(line)), min(word, PATH)) * char + pad, low)
        for line, word, low in zip(lines, words, least, strict=True)
    ]
    if sum(least) >= page:
        return tuple(low * page / sum(least) for low in least)
    low, high = (wish, natural) if sum(wish) <= page else (least, wish)
    part = (page - sum(low)) / (sum(high) - sum(low))
    return tuple(one + part * (other - one) for one, other in zip(low, high, strict=True))


def _length(text: str) -> float:
    """Characters of a text; capitals count for more and points for less, by their width."""
    return len(text) + WIDER * sum(each.isupper() for each in text) - THINNER * sum(each in THIN for each in text)


def points(block: Tabled) -> float:
    """Size of the letters of a table [pt]: smaller for many columns, very many rows, and where it is asked for."""
    many = len(block.table.head) > MANY_COLUMNS or len(block.table.rows) > MANY_ROWS
    return SMALL if many or block.small else USUAL


def short(table: Table) -> bool:
    """Whether a table is kept on one page."""
    return len(table.rows) <= SHORT and max((len(cell) for row in table.rows for cell in row), default=0) <= LONG * 2


def is_total(row: tuple[str, ...]) -> bool:
    """Whether a row sums the others; such rows are set in bold."""
    return bool(row) and row[0].lower().split(",")[0] in (
        "all",
        "total",
        "in all",
        "sum",
        "uses in all",
        "sources in all",
    )
