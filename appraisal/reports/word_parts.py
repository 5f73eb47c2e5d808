"""The few pieces of Word's XML that the library has no words for: fields, bookmarks, repeated heads, alternative texts."""

from __future__ import annotations

import re
import zipfile
from io import BytesIO
from typing import Any

from docx.oxml import OxmlElement
from docx.oxml.ns import qn

GREY, DARK = "9AA5AD", "222222"
ZIP_DATE = (1980, 1, 1, 0, 0, 0)
_IN_MONTH = re.compile(r"(?<=\b\d{4})-(?=\d\d)")  # no line ends inside a month such as 2027-03
CELL_MARGIN = 68  # twentieths of a point: 1.2 mm


def element(tag: str, **attributes: str) -> Any:
    """An XML element with attributes of Word's own name space."""
    made = OxmlElement(tag)
    for key, value in attributes.items():
        made.set(qn(f"w:{key}"), value)
    return made


def add_field(paragraph: Any, code: str, shown: str) -> None:
    """A field such as PAGE or SEQ, with the text shown until Word works it out."""
    for kind in ("begin", "instr", "separate", "shown", "end"):
        run = paragraph.add_run(shown if kind == "shown" else "")
        if kind == "instr":
            text = element("w:instrText")
            text.set(qn("xml:space"), "preserve")
            text.text = f" {code} "
            run._r.append(text)
        elif kind != "shown":
            run._r.append(element("w:fldChar", fldCharType=kind))


def bookmark(paragraph: Any, name: str, number: int) -> None:
    """Give the whole paragraph a name that fields can point to."""
    paragraph._p.insert(1, element("w:bookmarkStart", id=str(number), name=name))
    paragraph._p.append(element("w:bookmarkEnd", id=str(number)))


def fill_cell(cell: Any, text: str, *, points: float, right: bool, bold: bool, next_too: bool, fill: str) -> None:
    """Put a text into an empty cell (its XML, for a table of thousands); next_too: on one page with the row below."""
    properties = cell.get_or_add_tcPr()
    if fill:
        properties.append(element("w:shd", val="clear", color="auto", fill=fill))
    paragraph = cell.p_lst[0]
    style = paragraph.get_or_add_pPr()
    style.append(element("w:pStyle", val="Cell"))
    if next_too:
        style.append(element("w:keepNext"))
    if right:
        style.append(element("w:jc", val="right"))
    run = paragraph.add_r()
    look = run.get_or_add_rPr()
    if bold:
        look.append(element("w:b"))
    look.append(element("w:sz", val=str(round(points * 2))))
    first, *others = _IN_MONTH.split(text)
    run.text = first
    for part in others:
        run.append(element("w:noBreakHyphen"))
        run.add_t(part)


def rules(table: Any) -> None:
    """Thin lines between rows, stronger ones above and below, none between columns; small margins in the cells."""
    borders = element("w:tblBorders")
    for side, size, color in (("top", "8", DARK), ("bottom", "8", DARK), ("insideH", "4", GREY)):
        borders.append(element(f"w:{side}", val="single", sz=size, space="0", color=color))
    margins = element("w:tblCellMar")
    for side in ("left", "right"):
        margins.append(element(f"w:{side}", w=str(CELL_MARGIN), type="dxa"))
    table._tbl.tblPr.insert_element_before(borders, "w:shd", "w:tblLayout", "w:tblCellMar", "w:tblLook")
    table._tbl.tblPr.insert_element_before(margins, "w:tblLook")


def box(paragraph: Any, color: str) -> None:
    """A line at the left of a paragraph, for what must not be missed."""
    borders = element("w:pBdr")
    borders.append(element("w:left", val="single", sz="24", space="8", color=color))
    paragraph._p.get_or_add_pPr().insert_element_before(borders, "w:shd", "w:tabs", "w:spacing", "w:ind", "w:jc")


def on_new_page(paragraph: Any) -> None:
    """Let a paragraph of the body start a page."""
    paragraph.get_or_add_pPr().get_or_add_pageBreakBefore()


def describe(picture: Any, title: str, alt: str) -> None:
    """The text that stands for a picture."""
    for properties in picture._inline.iter(qn("wp:docPr")):
        properties.set("descr", alt)
        properties.set("title", title)


def spaced(style: Any) -> None:
    """Let paragraphs of a style keep their distance; where it is dropped, a heading may stay behind on the page before them."""
    for rule in list(style.element.iter(qn("w:contextualSpacing"))):
        rule.getparent().remove(rule)


def same_bytes(content: bytes) -> bytes:
    """A zip file whose entries carry no clock time."""
    out = BytesIO()
    with zipfile.ZipFile(BytesIO(content)) as old, zipfile.ZipFile(out, "w", zipfile.ZIP_DEFLATED) as new:
        for entry in old.infolist():
            fixed = zipfile.ZipInfo(entry.filename, ZIP_DATE)
            fixed.compress_type = zipfile.ZIP_DEFLATED
            new.writestr(fixed, old.read(entry))
    return out.getvalue()
