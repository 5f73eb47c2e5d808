"""What can be taken away, as bytes: each paper is made when it is asked for, from results that are worked out once."""

from __future__ import annotations

import io
import json
import zipfile
from collections.abc import Callable, Mapping
from dataclasses import dataclass
from datetime import date

import streamlit as st

from appraisal.dashboard.jobs import Tell
from appraisal.dashboard.seen import Reader
from appraisal.present.every_table import tables_of_many_runs
from appraisal.present.page import page
from appraisal.present.result import result
from appraisal.reports import papers
from appraisal.reports.export import workbook_bytes
from appraisal.reports.pdf import pdf, pdf_there
from appraisal.reports.table_book import table_book
from appraisal.reports.word import word
from appraisal.risk.material import Material, material
from appraisal.scenario.load import Loaded

KEPT = 6
WORD = "application/vnd.openxmlformats-officedocument.wordprocessingml.document"
SHEET = "application/vnd.openxmlformats-officedocument.spreadsheetml.sheet"
EPOCH = (1980, 1, 1, 0, 0, 0)
Made = Callable[[Loaded], bytes]


@dataclass(frozen=True)
class Form:
    """One form of a paper: what to call it, the ending of its file, its kind, and how its bytes are made."""

    called: str
    ending: str
    mime: str
    made: Made


@dataclass(frozen=True)
class Take:
    """One paper: its key, title, what it is for, the reader who asks for it first, and its forms."""

    key: str
    title: str
    meant_for: str
    reader: Reader | None
    forms: tuple[Form, ...]


def worked_out(loaded: Loaded) -> Material:
    """All results that papers show; texts that say the same share them."""
    return _worked_out(loaded.fingerprint, loaded.scenario.project.display_units, loaded)


@st.cache_resource(max_entries=KEPT, show_spinner=False)
def _worked_out(fingerprint: str, units: str, _loaded: Loaded) -> Material:
    return material(_loaded)


def today() -> str:
    """The date printed on papers."""
    return date.today().isoformat()


def _word(name: str) -> Form:
    return Form("Word", "docx", WORD, lambda loaded: word(papers.PAPERS[name](worked_out(loaded), date=today())))


def _reports(name: str) -> tuple[Form, ...]:
    """A report for Word, and as PDF where that is installed."""
    if not pdf_there():
        return (_word(name),)
    as_pdf = Form(
        "PDF", "pdf", "application/pdf", lambda loaded: pdf(papers.PAPERS[name](worked_out(loaded), date=today()))
    )
    return _word(name), as_pdf


def _grant_sheets(loaded: Loaded) -> bytes:
    from appraisal.present.grant_tables import grant_tables
    from appraisal.present.report_grant import REMARKS
    from appraisal.present.report_parts import foot

    found = worked_out(loaded)
    return table_book(grant_tables(found), foot=foot(found, date=today()), date=today(), remarks=REMARKS)


def _plain_page(loaded: Loaded) -> bytes:
    return page(worked_out(loaded).appraisal, monthly=True).encode("utf-8")


def _data(loaded: Loaded) -> bytes:
    return json.dumps(result(worked_out(loaded).appraisal), indent=1, allow_nan=False).encode("utf-8")


def _workbook(loaded: Loaded) -> bytes:
    found = worked_out(loaded)
    return workbook_bytes(found.appraisal, runs=tables_of_many_runs(found), date=today())


def takes() -> tuple[Take, ...]:
    """Every paper, in the order in which the readers stand."""
    return (
        Take("family_report", "Report for the family", "The answer, what must be true for it, what hurts most, the hours.",
             "family", _reports("family_report")),
        Take("bank_report", "Report for the bank", "Cover by year and in bad times, who pays, statements, what backs the loan.",
             "bank", _reports("bank_report")),
        Take("workbook", "Workbook", "Live formulas: change an input and it works itself out anew.", "bank",
             (Form("Excel", "xlsx", SHEET, _workbook),)),
        Take("grant_tables", "Tables for the grant office", "Budget, funding, energy, tonnes, jobs, steps, risks.", "grant",
             (*_reports("grant_tables"), Form("Excel", "xlsx", SHEET, _grant_sheets))),
        Take("assumption_book", "Book of assumptions", "Every value in use with its source and how it is known.", "grant",
             _reports("assumption_book")),
        Take("page", "Plain text", "The whole result as text, for any screen or printer.", None,
             (Form("Text", "txt", "text/plain", _plain_page),)),
        Take("result", "All results as data", "One JSON object in SI units, for another program.", None,
             (Form("JSON", "json", "application/json", _data),)),
        Take("scenario", "The scenario file", "Everything assumed here, with your comments. It opens here again.", None,
             (Form("File", "toml", "application/toml", lambda loaded: loaded.text.encode("utf-8")),)),
    )  # fmt: skip


def everything(loaded: Loaded, tell: Tell) -> bytes:
    """All papers and the table of every screen as CSV, in one ZIP file; the same bytes for the same case and day."""
    whole = len(papers.PAPERS) + 3
    done = iter(range(1, whole + 1))
    tell(0, whole)
    found = material(loaded)
    tell(next(done), whole)
    files = papers.papers(found, date=today(), as_pdf=pdf_there(), progress=lambda name: tell(next(done), whole))
    tell(whole, whole)
    return _zipped({**files, "scenario.toml": loaded.text.encode("utf-8")})


def _zipped(files: Mapping[str, bytes]) -> bytes:
    out = io.BytesIO()
    with zipfile.ZipFile(out, "w", zipfile.ZIP_DEFLATED) as packed:
        for name, content in files.items():
            packed.writestr(zipfile.ZipInfo(name, EPOCH), content, zipfile.ZIP_DEFLATED)
    return out.getvalue()
