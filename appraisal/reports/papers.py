"""All papers of one scenario as files: made in memory first, then put into the folder one whole file at a time."""

from __future__ import annotations

import os
from collections.abc import Callable, Iterator, Mapping
from datetime import date as day
from pathlib import Path

from appraisal.errors import AppraisalError
from appraisal.present.assumption_book import book_table, counts, entries
from appraisal.present.blocks import Paper
from appraisal.present.changes_page import changes_paper, inputs_table, items_table, results_table
from appraisal.present.every_table import every_table, tables_of_many_runs
from appraisal.present.grant_tables import grant_tables
from appraisal.present.report_bank import bank_report
from appraisal.present.report_family import family_report
from appraisal.present.report_grant import REMARKS, assumption_paper, grant_paper
from appraisal.present.report_parts import foot
from appraisal.reports.csv_text import csv_bytes
from appraisal.reports.export import workbook_bytes
from appraisal.reports.pdf import pdf, pdf_there
from appraisal.reports.table_book import table_book
from appraisal.reports.word import word
from appraisal.risk.differences import Differences
from appraisal.risk.material import Material
from appraisal.whole_files import write_together

PAPERS: Mapping[str, Callable[..., Paper]] = {
    "family_report": family_report,
    "bank_report": bank_report,
    "grant_tables": grant_paper,
    "assumption_book": assumption_paper,
}
CSV_FOLDER = "csv"
Progress = Callable[[str], None]


class PapersError(AppraisalError):
    """The papers cannot be written; the message says why and what to do, and nothing was written."""


def papers(found: Material, *, date: str, as_pdf: bool, progress: Progress = lambda name: None) -> dict[str, bytes]:
    """Every file by its fixed name within the folder; the same bytes for the same scenario and date.

    date: ISO, printed on every page. as_pdf: PDF beside each Word file, which needs the extra `pdf`. progress: told each
    name before it is made.
    """
    checked_date(date)
    return dict(_files(found, date=date, as_pdf=as_pdf, progress=progress))


def _files(found: Material, *, date: str, as_pdf: bool, progress: Progress) -> Iterator[tuple[str, bytes]]:
    for name, make in PAPERS.items():
        progress(name)
        content = make(found, date=date)
        yield f"{name}.docx", word(content)
        if as_pdf:
            yield f"{name}.pdf", pdf(content)
    progress("workbooks")
    yield "workbook.xlsx", workbook_bytes(found.appraisal, runs=tables_of_many_runs(found), date=date)
    below = foot(found, date=date)
    yield "grant_tables.xlsx", table_book(grant_tables(found), foot=below, date=date, remarks=REMARKS)
    book = {"assumption_book": book_table(found), "counts": counts(entries(found))}
    yield "assumption_book.xlsx", table_book(book, foot=below, date=date)
    yield from ((f"{CSV_FOLDER}/{name}.csv", csv_bytes(table)) for name, table in every_table(found).items())


def changes_papers(found: Differences, *, date: str) -> dict[str, bytes]:
    """What changed between two files: as Word, as PDF where the extra `pdf` is installed, and its tables as CSV."""
    content = changes_paper(found, date=date)
    made = {"what_changed.docx": word(content)}
    if pdf_there():
        made["what_changed.pdf"] = pdf(content)
    listed = {"results": results_table(found), "items": items_table(found), "inputs": inputs_table(found)}
    return made | {f"{CSV_FOLDER}/changed_{name}.csv": csv_bytes(table) for name, table in listed.items()}


def checked_date(date: str) -> str:
    """The date as given; raises PapersError when it is no date as 2026-11-26."""
    try:
        return day.fromisoformat(date).isoformat()
    except ValueError:
        raise PapersError(f"{date!r} is no date; write it as 2026-11-26") from None


def refuse_what_stands(folder: Path, *, replace: bool) -> None:
    """Raise PapersError, before long work begins, where a paper may not be replaced or no folder can be made."""
    try:
        there = next(each for each in (folder, *folder.parents) if each.exists() or each.is_symlink())
    except OSError as error:
        raise PapersError(f"{folder}: {error.strerror}; nothing was written") from None
    if not there.is_dir() or not os.access(there, os.W_OK | os.X_OK):
        raise PapersError(f"{there} is no folder that can be written to; nothing was written")
    if not replace and any((folder / f"{name}.docx").exists() for name in PAPERS):
        raise PapersError(f"{folder} holds papers already; nothing was written. Choose another folder or add --replace")


def write(files: Mapping[str, bytes], folder: Path, *, replace: bool) -> None:
    """Write all files once all of them are on the disk; raises PapersError where something stands in the way.

    files: name within the folder -> content. replace: False refuses before anything is written when one of them exists.
    """
    there = [name for name in files if (folder / name).exists()]
    if there and not replace:
        more = f" and {len(there) - 1} more" if len(there) > 1 else ""
        raise PapersError(
            f"{folder / there[0]}{more} exist; nothing was written. Choose another folder or add --replace"
        )
    try:
        write_together({folder / name: content for name, content in files.items()}, replace=replace)
    except FileExistsError as error:
        at = error.filename2 or error.filename
        raise PapersError(f"{at} was written by another while these papers were made; it was left as it was") from None
    except OSError as error:
        raise PapersError(f"{folder}: {error.strerror}; no file was written in part") from None
