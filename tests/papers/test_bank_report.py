"""What the bank's report leaves out, keeps together and puts on one page."""

from __future__ import annotations

from dataclasses import replace
from io import BytesIO

import docx
import pytest
from docx.oxml.ns import qn

from appraisal.demos import demos
from appraisal.present.bank_answers import answers
from appraisal.present.blocks import (
    SHORT,
    Heading,
    Note,
    PageBreak,
    Paper,
    Points,
    Tabled,
    in_cell,
    points,
    tied,
    widths,
)
from appraisal.present.report_bank import bank_report
from appraisal.present.tables import Table
from appraisal.reports.pdf import markup
from appraisal.reports.word import word
from tests.papers.material_of import bare, material_of

DATE = "2026-11-26"


def tables(paper: Paper) -> dict[str, Table]:
    """Tables of a paper by the beginning of their titles."""
    return {block.table.title.split(",")[0]: block.table for block in paper.blocks if isinstance(block, Tabled)}


def test_a_plan_without_loan_shows_no_empty_table_and_no_loan_of_nothing() -> None:
    paper = bank_report(bare(), date=DATE)
    assert all(block.table.rows for block in paper.blocks if isinstance(block, Tabled))
    said = answers(bare())
    assert "loans of" not in said[0] and any("No loan falls due" in sentence for sentence in said)


@pytest.mark.parametrize("name", demos())
def test_findings_stand_once_and_concerns_with_the_bad_cases(name: str) -> None:
    found = material_of(name)
    register = tables(bank_report(found, date=DATE))["Risk register"]
    findings = {each.what for each in found.appraisal.findings}
    assert not findings & {row[0] for row in register.rows} and register.rows


@pytest.mark.parametrize("name", demos())
def test_the_balance_sheet_has_room_for_its_labels(name: str) -> None:
    balance = tables(bank_report(material_of(name), date=DATE))["Balance sheet at the year's end"]
    first, *others = widths(balance, page=170.0, char=0.19 * points(Tabled(balance)), pad=2.6)
    assert first > 25 and sum(others) + first < 170.01  # mm: two words a line at least


def test_cover_over_many_years_stands_in_smaller_letters() -> None:
    rows = tuple((str(year), "1.00") for year in range(SHORT + 1))
    table = Table("t", ("year", "cover"), rows)
    assert points(Tabled(table, small=True)) < points(Tabled(table))
    cover = next(
        block
        for block in bank_report(material_of("shared_plant_three_farms"), date=DATE).blocks
        if isinstance(block, Tabled)
    )
    assert cover.small == (len(cover.table.rows) > SHORT)


def test_a_new_page_begins_without_a_paragraph_of_its_own() -> None:
    """A paragraph that holds only the break falls on an empty page where the page before it is full."""
    paper = bank_report(bare(), date=DATE)
    body = docx.Document(BytesIO(word(paper))).element.body
    fresh = [each for each in body.iter(qn("w:p")) if each.find(f"{qn('w:pPr')}/{qn('w:pageBreakBefore')}") is not None]
    assert len(fresh) == sum(isinstance(block, PageBreak) for block in paper.blocks) == 1
    assert "".join(text.text or "" for text in fresh[0].iter(qn("w:t"))) == "Contents"
    assert not [each for each in body.iter(qn("w:br")) if each.get(qn("w:type")) == "page"]


def test_a_note_stays_with_its_list_and_a_remark_with_its_table() -> None:
    blocks = (Heading("h"), Note("n"), Points(("p",)), Tabled(Table("t", ("a",), (("1",),)), "remark of t"))
    assert [stays for _, stays in tied(blocks)] == [False, True, False, False]
    source = markup(replace(bank_report(bare(), date=DATE), blocks=blocks))
    figure = source[source.index("#figure(kind: table") :]
    assert "remark of t" in figure[: figure.index("))]")] and "#set table.cell(breakable: false)" in source


def test_a_minus_in_a_sentence_of_a_cell_keeps_to_its_number() -> None:
    assert in_cell("-1,234") == "-1,234" and in_cell("-3,600 +- 12") == "-3,600 \u00b112"
    assert "\u22121,234" in in_cell("At 7.0% a year the plant is worth -1,234 USD in today's money.")


def test_the_register_never_rounds_a_cover_up_to_its_target() -> None:
    found = material_of("heat_for_the_cheese_dairy")
    shown = {row[0]: row[2] for row in tables(bank_report(found, date=DATE))["Risk register"].rows}
    under = [each for each in found.stress.cases if each.least_cover is not None and each.least_cover < found.stress.target]
    assert under and all(float(shown[each.case.label]) < found.stress.target for each in under if each.case.label in shown)
