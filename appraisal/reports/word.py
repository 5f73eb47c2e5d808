"""A paper as a Word file: the same bytes for the same paper. User text is only ever the text of a run."""

from __future__ import annotations

from collections.abc import Callable, Mapping, Sequence
from datetime import datetime
from io import BytesIO
from typing import Any

import docx
from docx.enum.section import WD_ORIENT
from docx.enum.style import WD_STYLE_TYPE
from docx.enum.table import WD_TABLE_ALIGNMENT
from docx.enum.text import WD_TAB_ALIGNMENT, WD_TAB_LEADER
from docx.shared import Mm, Pt, RGBColor

from appraisal.present.blocks import (
    MARGIN,
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
    sections,
    short,
    tied,
    to_the_right,
    widths,
)
from appraisal.reports import word_parts as parts
from appraisal.reports.pictures import png

PAD = 2.6  # mm, left and right of a cell together
WIDEST_PICTURE = 150.0  # mm
CHAR = 0.19  # mm of a mean character for each point of its size
KEPT_ROWS = 4  # head and first rows of a long table that stay together
LINES = 1.05  # distance of lines, of their height
FONT, BLUE = "Arial", "0072B2"


class _Writer:
    """One document in the making, with its running numbers."""

    def __init__(self, paper: Paper) -> None:
        self.paper = paper
        self.document: Any = docx.Document()
        self.numbers = {"Table": 0, "Figure": 0, "mark": 0}
        self.width = paper.room
        self.fresh = False  # what comes next starts a page
        self.tied = False  # the block in hand stays on one page with the one below


def word(paper: Paper) -> bytes:
    """The paper as bytes of a Word file."""
    writer = _Writer(paper)
    _set_up(writer)
    _opening(writer)
    writers: Mapping[type, Callable[[_Writer, Any], None]] = {
        Heading: _heading, Paragraph: _paragraph, Points: _points, Note: _note, Tabled: _table, Figure: _figure,
        Contents: _contents, PageBreak: _break,
    }  # fmt: skip
    body = writer.document.element.body
    for block, writer.tied in tied(paper.blocks):
        place, fresh = len(body) - 1, writer.fresh  # the last element holds the page
        writers[type(block)](writer, block)
        if fresh and len(body) - 1 > place:
            parts.on_new_page(body[place])
            writer.fresh = False
    out = BytesIO()
    writer.document.save(out)
    return parts.same_bytes(out.getvalue())


def _set_up(writer: _Writer) -> None:
    document, paper = writer.document, writer.paper
    section = document.sections[0]
    section.page_width, section.page_height = (Mm(side) for side in paper.sheet)
    section.orientation = WD_ORIENT.LANDSCAPE if paper.wide else WD_ORIENT.PORTRAIT
    section.left_margin = section.right_margin = Mm(MARGIN)
    section.top_margin, section.bottom_margin = Mm(22), Mm(20)
    day = datetime.fromisoformat(paper.date)
    properties = document.core_properties
    properties.title, properties.subject, properties.author = paper.title, readable(paper.subject), "appraisal"
    properties.created = properties.modified = day
    properties.comments, properties.last_modified_by, properties.language = "", "appraisal", "en"
    _styles(document)
    head, foot = section.header.paragraphs[0], section.footer.paragraphs[0]
    head.text = readable(f"{paper.title}: {paper.subject}")
    foot.style = head.style = document.styles["Normal"]
    foot.paragraph_format.tab_stops.add_tab_stop(Mm(writer.width), WD_TAB_ALIGNMENT.RIGHT)
    foot.text = readable(paper.foot) + "\tpage "
    parts.add_field(foot, "PAGE", "1")
    foot.add_run(" of ")
    parts.add_field(foot, "NUMPAGES", "1")
    for paragraph in (head, foot):
        for run in paragraph.runs:
            run.font.size, run.font.color.rgb = Pt(8), RGBColor.from_string("555555")


def _styles(document: Any) -> None:
    styles = document.styles
    normal = styles["Normal"]
    normal.font.name, normal.font.size = FONT, Pt(10)
    normal.paragraph_format.space_after, normal.paragraph_format.line_spacing = Pt(6), LINES
    for level, size in ((1, 17), (2, 13), (3, 11)):
        style = styles[f"Heading {level}"]
        style.font.name, style.font.size, style.font.bold = FONT, Pt(size), True
        style.font.color.rgb = RGBColor.from_string(BLUE if level < 3 else parts.DARK)
        style.paragraph_format.space_before, style.paragraph_format.keep_with_next = Pt(14 if level < 3 else 8), True
        fonts = style.element.rPr.rFonts
        for name in list(fonts.attrib):
            if "Theme" in name:
                del fonts.attrib[name]
    caption = styles["Caption"]
    caption.font.name, caption.font.size, caption.font.bold = FONT, Pt(9.5), True
    caption.font.color.rgb = RGBColor.from_string(parts.DARK)
    parts.spaced(styles["List Bullet"])
    cell = styles.add_style("Cell", WD_STYLE_TYPE.PARAGRAPH)
    cell.base_style, cell.font.size = normal, Pt(9)
    cell.paragraph_format.space_after = Pt(0)


def _opening(writer: _Writer) -> None:
    """Title, subject and facts."""
    document, paper = writer.document, writer.paper
    title = document.add_paragraph(style="Title")
    title.add_run(paper.title).font.name = FONT
    title.runs[0].font.size = Pt(24)
    subject = document.add_paragraph().add_run(readable(paper.subject))
    subject.font.size, subject.font.bold = Pt(14), True
    for label, value in paper.facts:
        line = document.add_paragraph(style="Cell")
        line.add_run(f"{label}: ").bold = True
        line.add_run(readable(value))


def _contents(writer: _Writer, block: Contents) -> None:
    document = writer.document
    head = document.add_paragraph()
    head.paragraph_format.space_before, head.paragraph_format.keep_with_next = Pt(12), True
    head.add_run("Contents").bold = True
    for number, heading in enumerate(sections(writer.paper.blocks), start=1):
        if heading.level > block.depth:
            continue
        line = document.add_paragraph(style="Cell")
        line.paragraph_format.left_indent = Mm(5 * (heading.level - 1))
        line.paragraph_format.tab_stops.add_tab_stop(Mm(writer.width), WD_TAB_ALIGNMENT.RIGHT, WD_TAB_LEADER.DOTS)
        line.add_run(readable(heading.text) + "\t")
        parts.add_field(line, f"PAGEREF part{number} \\h", "")


def _heading(writer: _Writer, block: Heading) -> None:
    paragraph = writer.document.add_heading(readable(block.text), level=block.level)
    if block.level < 3:
        writer.numbers["mark"] += 1
        parts.bookmark(paragraph, f"part{writer.numbers['mark']}", writer.numbers["mark"])


def _paragraph(writer: _Writer, block: Paragraph) -> None:
    paragraph = writer.document.add_paragraph(prose(block.text))
    paragraph.paragraph_format.keep_with_next = writer.tied


def _points(writer: _Writer, block: Points) -> None:
    for item in block.items:
        point = writer.document.add_paragraph(prose(item), style="List Bullet")
        point.paragraph_format.space_after = Pt(3)


def _note(writer: _Writer, block: Note) -> None:
    paragraph = writer.document.add_paragraph(prose(block.text))
    paragraph.paragraph_format.space_before, paragraph.paragraph_format.keep_with_next = Pt(6), writer.tied
    parts.box(paragraph, BLUE)


def _break(writer: _Writer, block: PageBreak) -> None:
    """No paragraph of its own, which would fall on an empty page behind a full one."""
    writer.fresh = True


def _caption(writer: _Writer, kind: str, text: str) -> Any:
    writer.numbers[kind] += 1
    caption = writer.document.add_paragraph(style="Caption")
    caption.add_run(f"{kind} ")
    parts.add_field(caption, f"SEQ {kind} \\* ARABIC", str(writer.numbers[kind]))
    caption.add_run(": " + prose(text))
    return caption


def _table(writer: _Writer, block: Tabled) -> None:
    content = block.table
    _caption(writer, "Table", content.title).paragraph_format.keep_with_next = True
    if not content.rows:
        writer.document.add_paragraph("Nothing to show.")
        return
    made = writer.document.add_table(rows=1 + len(content.rows), cols=len(content.head))
    made.alignment, made.autofit = WD_TABLE_ALIGNMENT.LEFT, False
    parts.rules(made)
    sizes = [Mm(size) for size in widths(content, page=writer.width, char=CHAR * points(block), pad=PAD)]
    for column, size in zip(made.columns, sizes, strict=True):
        column.width = size
    _rows(block, made._tbl.tr_lst, sizes)
    remark = writer.document.add_paragraph(style="Cell")
    remark.paragraph_format.space_after = Pt(10)
    remark.add_run(prose(block.remark)).italic = True


def _rows(block: Tabled, lines: Sequence[Any], sizes: Sequence[Any]) -> None:
    """Fill the rows; a short table stays on one page, with its remark, a long one keeps its first rows and its last together."""
    content = block.table
    right, size_of_letters = to_the_right(content), points(block)
    count = len(content.rows)
    kept = range(count + bool(block.remark)) if short(content) else (*range(KEPT_ROWS), count - 1)
    for place, (row, cells) in enumerate(zip(lines, (content.head, *content.rows), strict=True)):
        properties = row.get_or_add_trPr()
        properties.append(parts.element("w:cantSplit", val="true"))
        bold, fill = place == 0 or is_total(cells), "EEF2F5" if place == 0 else ""
        for column, (cell, text) in enumerate(zip(row.tc_lst, cells, strict=True)):
            cell.width = sizes[column]
            parts.fill_cell(
                cell, in_cell(text), points=size_of_letters, right=right[column], bold=bold, next_too=place in kept, fill=fill
            )  # fmt: skip
    lines[0].get_or_add_trPr().append(parts.element("w:tblHeader", val="true"))


def _figure(writer: _Writer, block: Figure) -> None:
    picture = writer.document.add_picture(BytesIO(png(block)), width=Mm(min(writer.width, WIDEST_PICTURE)))
    holder = writer.document.paragraphs[-1]
    holder.paragraph_format.keep_with_next = True
    parts.describe(picture, readable(block.title), readable(block.alt))
    _caption(writer, "Figure", block.title)
