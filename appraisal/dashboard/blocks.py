"""Passages, tables and findings on a page. Text of a scenario is shown as text, never read as markup."""

from __future__ import annotations

import re
from collections.abc import Iterable
from contextlib import nullcontext
from dataclasses import replace
from html import escape

import streamlit as st

from appraisal.errors import Fault, Finding
from appraisal.present.blocks import plus_minus
from appraisal.present.tables import Table
from appraisal.present.words import Passage

_MARKS = re.compile(r"([\\`*{}\[\]<>#|~$&^=@!]|(?<![A-Za-z0-9])_|_(?![A-Za-z0-9])|^[-+]|^\d+(?=[.)] ))")
SOFT_HYPHEN = "\N{SOFT HYPHEN}"  # where a heading of a table on paper is broken within a word
_JOINER = "\N{WORD JOINER}"  # keeps `:name:`, `:red[...]` and addresses from being read as more than letters
WORDS_OF_A_UNIT = 2  # as `short tons`; what is longer, or has a second number, is a sentence that begins with a number
LONGEST_WORD, FEW = 20, 8  # letters of what may stand among numbers; a sentence may where it is one cell in so many
SEVERITY_WORDS = {"stop and ask": "Stop and ask", "warning": "Look at this", "note": "Good to know"}


def plain(text: str) -> str:
    """Text with every sign that Markdown might act on made a plain sign; line ends become blanks."""
    marked = _MARKS.sub(_plain_sign, " ".join(plus_minus(text).split()))
    return re.sub(r"(:|www)(?=\S)", rf"\1{_JOINER}", marked)


def _plain_sign(found: re.Match[str]) -> str:
    sign = found.group()
    return f"{sign[0]}{_JOINER}{sign[1:]}" if sign[0].isdigit() else f"\\{sign}"


def whose(name: str, reader: str) -> None:
    """The line under a title: which farm this is, and for whom it is arranged."""
    st.html(f'<p class="whose">{_cell(name)}, arranged for {_cell(reader)}</p>')


def passage(part: Passage) -> None:
    """A heading and its sentences."""
    st.subheader(plain(part.title))
    sentences(part.sentences)


def sentences(lines: Iterable[str]) -> None:
    """Sentences, one a line."""
    st.markdown("\n".join(f"- {plain(line)}" for line in lines))


def table(part: Table) -> None:
    """A titled table of text; wide ones scroll inside their frame."""
    if not part.rows:
        st.html(f"<p><strong>{_cell(part.title)}</strong><br>Nothing to show here.</p>")
        return
    numeric = [_mostly_numbers(column) for column in zip(*part.rows, strict=True)]
    head = "".join(_th(text, number) for text, number in zip(part.head, numeric, strict=True))
    body = "".join(f"<tr>{_row(row, numeric)}</tr>" for row in part.rows)
    st.html(
        f'<div class="sheet" tabindex="0" role="region" aria-label="{_cell(part.title)}"><table>'
        f"<caption><span>{_cell(part.title)}</span></caption><thead><tr>{head}</tr></thead><tbody>{body}</tbody></table></div>"
    )


def tables(parts: Iterable[Table], *, behind: str = "") -> None:
    """Tables one after the other; behind: what they are folded away behind, nothing to show them at once."""
    with st.expander(plain(behind)) if behind else nullcontext():
        for part in parts:
            table(part)


def passages(parts: Iterable[Passage], *, behind: str = "") -> None:
    """Passages one after the other; behind: as in `tables`."""
    with st.expander(plain(behind)) if behind else nullcontext():
        for part in parts:
            passage(part)


def findings(found: Iterable[Finding]) -> None:
    """Every finding with its seriousness, what it is about, and the source of its limit; what is only good to know last."""
    listed = list(found)
    st.subheader("What to ask about")
    grave = [each for each in listed if each.severity != "note"]
    notes = [each for each in listed if each.severity == "note"]
    if not grave:
        st.markdown("Nothing stands out.")
    else:
        st.html("".join(_finding(each) for each in grave))
    if notes:
        with st.expander(f"{len(notes)} more that are good to know"):
            st.html("".join(_finding(each) for each in notes))


def _finding(each: Finding) -> str:
    kind = each.severity.split()[0]
    word = "Limit" if each.limit is not None else "Source"
    source = f'<br><span class="source">{word}: {_cell(each.source)}.</span>' if each.source else ""
    return f'<div class="finding {kind}"><strong>{SEVERITY_WORDS[each.severity]}.</strong> {_cell(each.what)}{source}</div>'


def _th(text: str, number: bool) -> str:
    return f'<th scope="col" class="{"number" if number else "words"}">{_cell(text)}</th>'


def _row(row: tuple[str, ...], numeric: list[bool]) -> str:
    return "".join(
        f'<td class="{_kind(text, number=number)}">{_cell(text)}</td>'
        for text, number in zip(row, numeric, strict=True)
    )


def _kind(text: str, *, number: bool) -> str:
    """The class of a cell; a word in a column of numbers stands at their side of it."""
    return "words" if not number else "number" if _is_number(text) or not text else "among"


def _cell(text: str) -> str:
    return escape(plus_minus(text).replace("-\n", SOFT_HYPHEN).replace("\n", " "), quote=True)


def _mostly_numbers(column: tuple[str, ...]) -> bool:
    """Whether most of what stands in a column are numbers; a word in place of one does not move the others, sentences do."""
    filled = [cell for cell in column if cell]
    said = [cell for cell in filled if not _is_number(cell)]
    sentences = max(map(len, said), default=0) > LONGEST_WORD
    return len(said) * (FEW if sentences else 2) < len(filled)


def _is_number(cell: str) -> bool:
    first, *unit = cell.partition(" +- ")[0].lstrip("-+").split() or [""]
    return first[:1].isdigit() and len(unit) <= WORDS_OF_A_UNIT and not any(word[0].isdigit() for word in unit)


def faults(found: Iterable[Fault]) -> None:
    """Everything that is wrong with a scenario, a line each."""
    lines = "\n".join(f"- {plain(_where(fault) + replace(fault, line=None).text(''))}" for fault in found)
    st.error(f"This farm file cannot be used as it stands:\n\n{lines}")


def _where(fault: Fault) -> str:
    return f"Line {fault.line}: " if fault.line else ""


def refused(what: str, found: Iterable[Fault]) -> None:
    """What was not done, and everything that is wrong with it."""
    st.error(plain(" ".join([what, *(f"{replace(fault, line=None).text('')}." for fault in found)])))
