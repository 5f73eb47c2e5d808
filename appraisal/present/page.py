"""The page that `run` prints: passages, tables, findings, cautions, as plain text."""

from __future__ import annotations

from collections.abc import Iterator
from textwrap import fill

from tabulate import tabulate

from appraisal.appraise import Appraisal
from appraisal.present import tables, words
from appraisal.present.tables import Table
from appraisal.present.words import Passage

WIDTH = 110
SAFETY_ON_TERMINAL = ("not_advice", "default_values", "permits", "h2s_smell", "confined_space")


def page(appraisal: Appraisal) -> str:
    """All of it as one text, the decision first."""
    return "\n\n".join(_parts(appraisal)) + "\n"


def _parts(appraisal: Appraisal) -> Iterator[str]:
    project = appraisal.loaded.scenario.project
    yield f"{project.name}\n{'=' * len(project.name)}"
    if project.note:
        yield fill(project.note, WIDTH)
    yield passage(words.family(appraisal))
    yield table(tables.money_table(appraisal))
    yield passage(words.bank(appraisal))
    yield table(tables.loan_table(appraisal))
    yield table(tables.funding_table(appraisal))
    yield passage(words.grant_office(appraisal))
    yield table(tables.feeds_table(appraisal))
    yield table(tables.plant_table(appraisal))
    yield table(tables.farm_now_table(appraisal))
    yield findings(appraisal)
    yield passage(words.cautions_short(SAFETY_ON_TERMINAL))
    yield f"Scenario fingerprint {appraisal.loaded.fingerprint}. Figures are nominal; month 0 is {project.first_month}."


def passage(part: Passage) -> str:
    """A heading and its sentences, wrapped."""
    return "\n".join(
        (
            part.title,
            "-" * len(part.title),
            *(fill(s, WIDTH, initial_indent="- ", subsequent_indent="  ") for s in part.sentences),
        )
    )


def table(part: Table) -> str:
    """A titled table; empty tables say so."""
    if not part.rows:
        return f"{part.title}\n(nothing to show)"
    align = tuple("right" if _all_numbers(column) else "left" for column in zip(*part.rows, strict=True))
    return f"{part.title}\n{tabulate(part.rows, part.head, disable_numparse=True, colalign=align)}"


def _all_numbers(column: tuple[str, ...]) -> bool:
    return all(cell.lstrip("-")[:1].isdigit() or not cell for cell in column) and any(column)


def findings(appraisal: Appraisal) -> str:
    """Every finding with its seriousness, place and source."""
    if not appraisal.findings:
        return "What to ask about\n-----------------\n- Nothing stands out."
    lines = [
        fill(
            f"[{f.severity}] {f.where}: {f.what}" + (f" Limit: {f.source}." if f.source else ""),
            WIDTH,
            initial_indent="- ",
            subsequent_indent="  ",
        )
        for f in appraisal.findings
    ]
    return "\n".join(("What to ask about", "-----------------", *lines))
