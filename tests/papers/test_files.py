"""Files: user text stays text, the same bytes for the same input, nothing overwritten, names from a fixed list."""

from __future__ import annotations

import csv
import io
import zipfile
from pathlib import Path

import docx
import openpyxl
import pytest
from click.testing import CliRunner

from appraisal.cli import main
from appraisal.demos import demos
from appraisal.errors import ScenarioError
from appraisal.present.blocks import Figure, Paper, Points, Tabled
from appraisal.present.decision import decide
from appraisal.present.every_table import every_table
from appraisal.present.grant_tables import grant_tables
from appraisal.present.report_bank import bank_report
from appraisal.present.report_family import family_report
from appraisal.present.report_grant import assumption_paper, grant_paper
from appraisal.present.tables import Table
from appraisal.reports import papers as made
from appraisal.reports import pdf as pdf_module
from appraisal.reports.csv_text import BOM, DANGEROUS, csv_bytes, number_of, safe, share_of
from appraisal.reports.pdf import PdfNotThereError, literal, markup, pdf
from appraisal.reports.table_book import LINE_HEIGHT, table_book
from appraisal.reports.word import word
from appraisal.scenario.load import with_values
from tests.papers.material_of import DEMOS, EVIL, STARTS, bare, evil, free_texts, material_of

DATE = "2026-11-26"
SMALL = "small_herd_manure_only"
EVIL_TABLE = Table(EVIL, ("=head", "+b"), tuple((start, "-5.2") for start in (*STARTS, EVIL, "#let x", "$x$", "\x07")))


@pytest.fixture(scope="module")
def evil_paper() -> Paper:
    return grant_paper(evil(), date=DATE)


def test_every_text_field_is_among_those_or_refuses_such_a_text() -> None:
    """No text field of a scenario escapes the tests below: what is not in their list does not load with a formula in it."""
    loaded = evil().loaded
    texts = [path for path, each in loaded.assumptions.items() if each.declaration.kind == "text"]
    others = [path for path in texts if path not in free_texts(loaded)]
    assert len(others) > 20 and len(texts) - len(others) > 20
    for path in others:
        with pytest.raises(ScenarioError):
            with_values(loaded, {path: "=1+1"})


def test_texts_that_look_like_formulas_stay_text_in_csv() -> None:
    for table in (EVIL_TABLE, *every_table(evil()).values()):
        rows = list(csv.reader(io.StringIO(csv_bytes(table).decode().removeprefix(BOM), newline="")))
        assert len(rows) == 1 + len(table.rows)
        for cell in (cell for row in rows for cell in row):
            assert (number_of(cell), share_of(cell)) != (None, None) or not cell.startswith(DANGEROUS), cell
        assert all(row[-1] == safe(table.title) for row in rows[1:]), "the title travels with every row"
        assert len(set(rows[0])) == len(rows[0]) and all(rows[0]), rows[0]
    assert safe("-5.2") == "-5.2" and safe("-1,234") == "-1234" and safe("+0.5") == "0.5" and safe("-") == "'-"


@pytest.mark.parametrize("demo", DEMOS)
def test_csv_files_have_heads_that_differ_numbers_that_are_numbers_and_name_the_currency(demo: str) -> None:
    """As somebody meets them who pastes them: no head twice or empty, no padded number, currency and year beside the rows."""
    found = material_of(demo)
    for name, table in every_table(found).items():
        rows = list(csv.reader(io.StringIO(csv_bytes(table).decode().removeprefix(BOM), newline="")))
        assert len(set(rows[0])) == len(rows[0]) and all(rows[0]), name
        assert all(cell == cell.strip(" ") for row in rows for cell in row[:-1]), name
    currency = found.loaded.scenario.project.currency
    for name in ("budget", "who_pays", "funding_match", "claims_and_cash", "economics", "risk_register"):
        assert f", {currency}" in grant_tables(found)[name].title, name


def test_texts_that_look_like_formulas_stay_text_in_the_workbook_of_tables() -> None:
    content = table_book({"evil": EVIL_TABLE, **grant_tables(evil())}, foot=EVIL, date=DATE)
    book = openpyxl.load_workbook(io.BytesIO(content))
    kinds = {cell.data_type for sheet in book for row in sheet.iter_rows() for cell in row}
    assert "f" not in kinds and {"s", "n"} <= kinds
    texts = {cell.value for row in book["evil"].iter_rows() for cell in row}
    assert set(STARTS[:4]) | {EVIL} <= texts
    with zipfile.ZipFile(io.BytesIO(content)) as parts:
        assert not [name for name in parts.namelist() if "externalLink" in name]
        assert not [name for name in parts.namelist() if name.endswith(".xml") and b"<f>" in parts.read(name)]


def test_a_sheet_shows_a_total_with_its_decimals_and_rows_as_high_as_their_texts() -> None:
    table = Table("t", ("work", "a head that is far too long for so few numbers"), (("a", "0.15"), ("All", "0.34")))
    sheet = openpyxl.load_workbook(io.BytesIO(table_book({"t": table}, foot="", date=DATE)))["t"]
    total = sheet["B5"]
    assert total.value == 0.34 and "." in total.number_format and total.font.b
    assert sheet.row_dimensions[3].height == 2 * LINE_HEIGHT and sheet.row_dimensions[4].height in (None, LINE_HEIGHT)


def test_texts_that_look_like_formulas_or_markup_stay_text_in_word(evil_paper: Paper) -> None:
    document = docx.Document(io.BytesIO(word(evil_paper)))
    cells = {cell.text for table in document.tables for row in table.rows for cell in row.cells}
    assert "=1+1" in cells and "@SUM(1)" in " ".join(cells) and EVIL in " ".join(cells)
    codes = [node.text or "" for node in document.element.body.iter() if node.tag.endswith("instrText")]
    assert codes and all(code.split()[0] in ("SEQ", "PAGEREF") for code in codes)


# Order of children that the standard asks for (ECMA-376 part 1, 17.3 and 17.4; from memory, the parts used here).
ORDER = {
    "tblPr": ("tblStyle", "tblW", "jc", "tblInd", "tblBorders", "shd", "tblLayout", "tblCellMar", "tblLook"),
    "pPr": ("pStyle", "keepNext", "keepLines", "numPr", "pBdr", "shd", "tabs", "spacing", "ind", "jc", "rPr"),
    "rPr": ("rStyle", "rFonts", "b", "i", "color", "sz", "szCs"),
    "trPr": ("cantSplit", "tblHeader"),
    "tcPr": ("tcW", "shd"),
}


def test_word_files_keep_the_order_of_the_standard(evil_paper: Paper) -> None:
    document = docx.Document(io.BytesIO(word(evil_paper)))
    seen = set()
    for part in (document.element.body, document.sections[0].footer._element, document.sections[0].header._element):
        for node in part.iter():
            name = str(node.tag).rpartition("}")[2]
            if name in ORDER:
                places = [ORDER[name].index(str(child.tag).rpartition("}")[2]) for child in node]
                assert places == sorted(places), (name, [child.tag for child in node])
                seen.add(name)
    assert seen == set(ORDER)


def test_user_text_is_a_literal_in_typst() -> None:
    assert literal('a"#x\\ $y$\x07') == '"a\\"#x\\\\ $y$?"'
    paper = Paper("T", "#panic()", (("x", '"); #panic("'),), "*foot*", "a4", DATE, (Tabled(EVIL_TABLE, "$ #x"),))
    assert pdf(paper).startswith(b"%PDF")


@pytest.mark.parametrize("make", [family_report, bank_report, grant_paper, assumption_paper])
def test_same_input_and_date_same_bytes(make: object) -> None:
    assert callable(make)
    found = material_of(SMALL)
    first, second = (make(found, date=DATE) for _ in range(2))
    assert word(first) == word(second) and markup(first) == markup(second)
    assert markup(first) != markup(make(found, date="2026-11-27"))


@pytest.mark.parametrize("make", [family_report, bank_report, grant_paper, assumption_paper])
def test_a_plan_without_capital_grant_loan_or_range_has_papers_too(make: object) -> None:
    assert callable(make)
    paper = make(bare(), date=DATE)
    assert word(paper) and pdf(paper).startswith(b"%PDF")
    assert all(len(row) == len(table.head) for table in every_table(bare()).values() for row in table.rows)


@pytest.mark.parametrize("demo", DEMOS)
def test_the_familys_paper_gives_the_answer_of_the_screen(demo: str) -> None:
    found = material_of(demo)
    said = decide(found.appraisal, simulation=found.futures).said.sentences
    first = next(block for block in family_report(found, date=DATE).blocks if isinstance(block, Points))
    assert first.items == said and "it pays" not in said[0]


def test_pdf_has_the_same_bytes_too() -> None:
    paper = family_report(material_of(SMALL), date=DATE)
    assert pdf(paper) == pdf(paper)


@pytest.mark.parametrize("make", [family_report, bank_report, grant_paper, assumption_paper])
def test_every_page_names_scenario_program_and_date_and_every_table_is_captioned(make: object) -> None:
    assert callable(make)
    found = material_of(SMALL)
    paper: Paper = make(found, date=DATE)
    document = docx.Document(io.BytesIO(word(paper)))
    foot = document.sections[0].footer.paragraphs[0].text
    assert found.loaded.fingerprint in foot and "appraisal" in foot and DATE in foot
    captions = [p.text for p in document.paragraphs if p.style.name == "Caption"]
    tabled = [block for block in paper.blocks if isinstance(block, Tabled)]
    assert len([c for c in captions if c.startswith("Table")]) == len(tabled)
    figures = [block for block in paper.blocks if isinstance(block, Figure)]
    texts = [node.get("descr") for node in document.element.body.iter() if str(node.tag).endswith("}docPr")]
    assert texts == [figure.alt for figure in figures] and all(texts)
    assert len([c for c in captions if c.startswith("Figure")]) == len(figures)
    assert any("Defer to local codes" in p.text for p in document.paragraphs)
    heads = [table._tbl.tr_lst[0] for table in document.tables]
    assert heads and all("tblHeader" in head.xml for head in heads)


def test_without_the_extra_a_clear_sentence(monkeypatch: pytest.MonkeyPatch, tmp_path: Path) -> None:
    monkeypatch.setattr(pdf_module, "pdf_there", lambda: False)
    with pytest.raises(PdfNotThereError, match="pip install 'appraisal\\[pdf\\]'"):
        pdf(family_report(material_of(SMALL), date=DATE))
    run = CliRunner().invoke(main, ["papers", "--demo", SMALL, "--to", str(tmp_path), "--pdf"])
    assert run.exit_code == 2 and "extra `pdf`" in run.output and not list(tmp_path.iterdir())


def test_the_command_writes_all_papers_and_overwrites_nothing(tmp_path: Path) -> None:
    folder, file = tmp_path / "papers", tmp_path / "short.toml"
    text = demos()[SMALL].read_text(encoding="utf-8")
    file.write_text(
        text.replace("\nyears = 21", "\nyears = 5").replace("\nyears = 15", "\nyears = 5"), encoding="utf-8"
    )
    arguments = ["papers", str(file), "--to", str(folder), "--date", DATE, "--no-pdf"]
    run = CliRunner().invoke(main, arguments)
    assert run.exit_code == 0, run.output
    names = {str(path.relative_to(folder)) for path in folder.rglob("*") if path.is_file()}
    assert {f"{name}.docx" for name in made.PAPERS} <= names
    assert {"workbook.xlsx", "grant_tables.xlsx", "assumption_book.xlsx", "csv/grant_budget.csv"} <= names
    assert {f"csv/{name}.csv" for name in every_table(material_of(SMALL))} == {n for n in names if n.startswith("csv/")}
    before = {path: path.read_bytes() for path in folder.rglob("*") if path.is_file()}
    (folder / "family_report.docx").write_bytes(b"mine")
    again = CliRunner().invoke(main, arguments)
    assert again.exit_code == 2 and "nothing was written" in again.output and "--replace" in again.output
    assert (folder / "family_report.docx").read_bytes() == b"mine"
    replaced = CliRunner().invoke(main, [*arguments, "--replace"])
    assert replaced.exit_code == 0, replaced.output
    assert {path: path.read_bytes() for path in folder.rglob("*") if path.is_file()} == before


def test_one_file_in_the_way_stops_all(tmp_path: Path) -> None:
    (tmp_path / "b.txt").write_bytes(b"mine")
    with pytest.raises(made.PapersError, match="nothing was written"):
        made.write({"a.txt": b"1", "b.txt": b"2"}, tmp_path, replace=False)
    assert [path.name for path in tmp_path.iterdir()] == ["b.txt"]


def test_a_failed_write_leaves_the_old_file(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    (tmp_path / "a.txt").write_bytes(b"old")

    def fail(number: int) -> None:
        raise OSError(28, "No space left on device")

    monkeypatch.setattr("os.fsync", fail)
    with pytest.raises(made.PapersError, match="No space left"):
        made.write({"a.txt": b"new"}, tmp_path, replace=True)
    assert [(path.name, path.read_bytes()) for path in tmp_path.iterdir()] == [("a.txt", b"old")]


def test_a_date_that_is_none_is_refused(tmp_path: Path) -> None:
    run = CliRunner().invoke(main, ["papers", "--demo", SMALL, "--to", str(tmp_path / "x"), "--date", "soon"])
    assert run.exit_code == 2 and "no date" in run.output and not (tmp_path / "x").exists()
