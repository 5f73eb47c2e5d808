"""A paper as PDF, set by typst (the extra `pdf`). User text goes in as string literals, never as markup."""

from __future__ import annotations

import importlib.util
import json
import re
import tempfile
from collections.abc import Callable, Iterator, Mapping
from datetime import UTC, datetime
from pathlib import Path
from typing import Any

from appraisal.errors import AppraisalError
from appraisal.present.blocks import (
    Contents,
    Figure,
    Heading,
    Note,
    PageBreak,
    Paper,
    Paragraph,
    Points,
    Tabled,
    in_cell,
    is_total,
    points,
    prose,
    readable,
    short,
    tied,
    to_the_right,
    widths,
)
from appraisal.reports.pictures import png

PAGES = {"a4": "a4", "letter": "us-letter"}
PAD = 2.4  # mm, left and right of a cell together
CHAR = 0.175  # mm of a mean character for each point of its size
LONGEST_WHOLE = 1500  # characters of a cell up to which rows are not broken over pages
ZERO_WIDTH = "\u200b"  # lets a long name break at its joints
_UNBROKEN = re.compile(r"[^\s\u200b/.,;:?&=_\u2010-\u2015-]{40}(?=\S)")  # wider than a narrow line; it may then break
_LONG_WORD, _JOINT = re.compile(r"\S{18,}"), re.compile(r"[._/]")
NEEDED = (
    "PDF needs the extra `pdf`: pip install 'appraisal[pdf]' (or typst by itself); Word files are written without it"
)

STYLE = """
#set text(font: "Libertinus Serif", size: 10.5pt, lang: "en")
#set par(spacing: 0.8em)
#show heading: set text(fill: rgb("#0072B2"))
#show heading.where(level: 1): set text(size: 17pt)
#show heading.where(level: 2): set text(size: 13pt)
#show heading.where(level: 3): set text(size: 11pt, fill: rgb("#222222"))
#show heading: it => block(above: 1.3em, below: 0.7em, it)
#show figure.caption: it => block(width: 100%, sticky: true, align(left, text(size: 9.5pt, weight: "bold", it)))
#show figure.where(kind: table): set figure.caption(position: top)
#set table(stroke: (x, y) => (bottom: 0.4pt + rgb("#9AA5AD")), inset: (x: 3pt, y: 2.6pt))
#let room = { block(breakable: false, height: 24mm, below: 0pt); v(-24mm) } // else the next page
#let remark(body) = block(below: 1.2em, text(size: 9pt, style: "italic", body))
#let note(body) = block(breakable: false, stroke: (left: 3pt + rgb("#0072B2")), inset: (left: 8pt, y: 3pt), body)
"""


class PdfNotThereError(AppraisalError):
    """The extra that sets PDF is not installed; the message says how to get it."""


def pdf_there() -> bool:
    """Whether PDF can be made on this machine."""
    return importlib.util.find_spec("typst") is not None


def pdf(paper: Paper) -> bytes:
    """The paper as bytes of a tagged PDF; raises PdfNotThereError without the extra."""
    if not pdf_there():
        raise PdfNotThereError(NEEDED)
    import typst

    pictures = [block for block in paper.blocks if isinstance(block, Figure)]
    with tempfile.TemporaryDirectory() as folder:
        for number, picture in enumerate(pictures):
            Path(folder, f"{number}.png").write_bytes(png(picture))
        main = Path(folder, "main.typ")
        main.write_text(markup(paper), encoding="utf-8")
        day = datetime.fromisoformat(paper.date).replace(tzinfo=UTC)
        return bytes(
            typst.compile(
                str(main), root=folder, ignore_system_fonts=True, timestamp=int(day.timestamp()), pdf_standards=["ua-1"]
            )
        )


def literal(text: str) -> str:
    """A text as a string literal of typst code: nothing in it is markup."""
    breakable = _UNBROKEN.sub(lambda run: run[0] + ZERO_WIDTH, readable(text).replace("\t", " "))
    return json.dumps(breakable, ensure_ascii=False)


def markup(paper: Paper) -> str:
    """The whole paper as typst source."""
    return "\n".join((*_head(paper), *_body(paper))) + "\n"


def _head(paper: Paper) -> Iterator[str]:
    day = datetime.fromisoformat(paper.date)
    yield (
        f'#set document(title: {literal(paper.title + ": " + paper.subject)}, author: "appraisal", '
        f"date: datetime(year: {day.year}, month: {day.month}, day: {day.day}))"
    )
    yield (
        f'#set page(paper: "{PAGES[paper.page]}", flipped: {str(paper.wide).lower()}, '
        "margin: (x: 20mm, top: 22mm, bottom: 20mm), "
        f'header: text(size: 8pt, fill: rgb("#555555"), {literal(paper.title + ": " + paper.subject)}), '
        f'footer: text(size: 8pt, fill: rgb("#555555"), {{ {literal(paper.foot)}; h(1fr); "page "; '
        'context counter(page).display("1 of 1", both: true) }))'
    )
    yield STYLE
    yield f'#text(size: 24pt, weight: "bold", {literal(paper.title)})'
    yield f'\n#text(size: 14pt, weight: "bold", {literal(paper.subject)})\n'
    yield from (f"#strong({literal(label + ': ')})#{literal(value)} \\" for label, value in paper.facts)


def _body(paper: Paper) -> Iterator[str]:
    pictures = 0
    for block, sticky in tied(paper.blocks):
        if isinstance(block, Figure):
            yield _figure(block, pictures)
            pictures += 1
        else:
            text = _WRITERS[type(block)](block, paper)
            yield f"\n#block(sticky: true)[{text}]\n" if sticky else text


def _figure(block: Figure, number: int) -> str:
    return (
        f'\n#figure(image("{number}.png", alt: {literal(block.alt)}, width: 88%), kind: image, supplement: "Figure", '
        f"caption: {literal(prose(block.title))}, alt: {literal(block.alt)})\n"
    )


def _table(block: Tabled, paper: Paper) -> str:
    content = block.table
    if not content.rows:
        return f"\n#strong({literal(content.title + ':')}) #{literal('nothing to show.')}\n"
    size_of_letters = points(block)
    sizes = ", ".join(
        f"{size:.2f}mm" for size in widths(content, page=paper.room, char=CHAR * size_of_letters, pad=PAD)
    )
    sides = ", ".join("right" if right else "left" for right in to_the_right(content))
    head = ", ".join(_cell(text, bold=True) for text in content.head)
    rows = ",\n".join(", ".join(_cell(text, bold=is_total(row)) for text in row) for row in content.rows)
    remark = f"\nremark({literal(prose(block.remark))})" if block.remark else ""
    breakable, room = str(not short(content)).lower(), "" if short(content) else "\n#room"
    rows_break = str(max(len(cell) for row in content.rows for cell in row) > LONGEST_WHOLE).lower()
    return (
        f"{room}\n#[#set text(size: {size_of_letters}pt)\n#show figure: set block(breakable: {breakable})\n"
        f"#set table.cell(breakable: {rows_break})\n"
        f'#figure(kind: table, supplement: "Table", caption: {literal(prose(content.title))},\n'
        f'align(left, {{ table(columns: ({sizes},), align: ({sides},), fill: (x, y) => if y == 0 {{ rgb("#EEF2F5") }},\n'
        f"table.header({head}),\n{rows}){remark} }}))]\n"
    )


def _cell(text: str, *, bold: bool) -> str:
    shown = literal(
        _LONG_WORD.sub(lambda word: _JOINT.sub(lambda joint: joint[0] + ZERO_WIDTH, word[0]), in_cell(text))
    )
    return f"strong({shown})" if bold else f"[#{shown}]"


_WRITERS: Mapping[type, Callable[[Any, Paper], str]] = {
    Heading: lambda block, paper: f"\n#heading(level: {block.level}, {literal(block.text)})\n",
    Paragraph: lambda block, paper: f"\n#par({literal(prose(block.text))})\n",
    Points: lambda block, paper: "\n#list(" + ", ".join(f"[#{literal(prose(item))}]" for item in block.items) + ")\n",
    Note: lambda block, paper: f"\n#note({literal(prose(block.text))})\n",
    Tabled: _table,
    Contents: lambda block, paper: (
        f"\n#block(breakable: {str(block.depth > 1).lower()}, "
        f"outline(title: text(size: 12pt)[Contents], depth: {block.depth}))\n"
    ),
    PageBreak: lambda block, paper: "\n#pagebreak(weak: true)\n",
}
