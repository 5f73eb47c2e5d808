"""Parts that the reports share: the first page, findings with their sources, what words mean, where each figure comes from."""

from __future__ import annotations

import re
from dataclasses import replace
from typing import Literal

from appraisal import __version__
from appraisal.appraise import Appraisal
from appraisal.measures.headline import VIEW
from appraisal.present import future_tables, risk_tables, risk_words, words
from appraisal.present.bank_answers import case_beside_futures
from appraisal.present.blocks import Block, Heading, Note, Paper, Paragraph, Points, Tabled, cautions
from appraisal.present.citing import filled
from appraisal.present.naming import name_of
from appraisal.present.report_pictures import pictures
from appraisal.present.tables import Table
from appraisal.risk.material import Material
from appraisal.risk.simulate import Simulation
from appraisal.timeline import said_month

WORDS = (
    (
        "Worth today (net present value)",
        "All money in and out over the years, later money counted less at the discount rate.",
    ),
    ("Rate of return", "The discount rate at which the worth would be nothing."),
    ("Cover", "Cash of a year for the bank over what the bank is owed that year; under 1 the cash does not reach."),
    ("Stop and ask", "A limit is passed at which a plant of this kind may fail; clear it before signing."),
    (
        "Bill saved",
        "A bill the farm pays today and would no longer pay; other savings are worked out and no bill proves them.",
    ),
    ("Eligible cost", "The part of the cost that a grant programme counts."),
)


def paper(found: Material, title: str, blocks: tuple[Block, ...], *, date: str) -> Paper:
    """A paper about one scenario, with its fingerprint, program version and date on every page.

    date: ISO, of the paper; the same scenario and date give the same paper.
    """
    project = found.loaded.scenario.project
    fingerprint = found.loaded.fingerprint
    today = said_month(project.first_month)
    facts = (
        ("Date, scenario, program", f"{date}, fingerprint {fingerprint}, appraisal {__version__}"),
        ("Money", f"{project.currency}, in the money of each year (nominal); {today} counts as today (month 0)"),
        *((("Note", project.note),) if project.note else ()),
    )
    page: Literal["a4", "letter"] = "letter" if project.display_units == "us" else "a4"
    return Paper(title, project.name, facts, foot(found, date=date), page, date, blocks)


def foot(found: Material, *, date: str) -> str:
    """What stands at the foot of every page."""
    return f"scenario {found.loaded.fingerprint}, appraisal {__version__}, {date}"


def findings_blocks(appraisal: Appraisal) -> tuple[Block, ...]:
    """Every finding, the gravest first, each with what it is held against."""
    if not appraisal.findings:
        return (Paragraph("Nothing stands out."),)
    rows = tuple((each.severity, each.what, each.source) for each in appraisal.findings)
    table = Table("What to ask about, the gravest first", ("how serious", "finding", "limit or source"), rows)
    return (Tabled(table),)


def findings_for_family(appraisal: Appraisal) -> tuple[Block, ...]:
    """Every finding in its own words only, the gravest first."""
    if not appraisal.findings:
        return (Paragraph("Nothing stands out."),)
    rows = tuple((each.severity, each.what) for each in appraisal.findings)
    return (Tabled(Table("What to ask about, the gravest first", ("how serious", "finding"), rows)),)


def futures_blocks(found: Material, *, measures: bool = False) -> tuple[Block, ...]:
    """How often it pays and carries its loan, over many futures; a sentence where no value carries a range.

    measures: with the table of all measures and their standard errors, and with those in the sentences.
    """
    if found.futures is None:
        return (Paragraph("No value of this scenario carries a range, so nothing is said about futures."),)
    events = (Tabled(filled(future_tables.event_table(found.futures, paths=False))),) if found.futures.events else ()
    spoken = (risk_words.futures(found.futures, plain=not measures), risk_words.cover_and_cash(found.futures))
    sentences = tuple(sentence for part in spoken for sentence in part.sentences)
    return (
        Heading(spoken[0].title, 2),
        Points(sentences if measures else tuple(_ERROR.sub("", each) for each in sentences)),
        *(Note(each) for each in case_beside_futures(found)),
        *pictures(found, "account"),
        *events,
        *pictures(found, "worth"),
        *((Tabled(measures_across(found.futures), MARGIN),) if measures else ()),
    )


MARGIN = "Behind ± stands the standard error of drawing so many futures, not of the assumptions."
_ERROR = re.compile(r" \(\+- [\d.,]+\)")
MEANT = {"P10": "one in ten lies below (P10)", "P50": "middle (P50)", "P90": "one in ten lies above (P90)"}


def measures_across(futures: Simulation) -> Table:
    """The four measures over all futures as columns, which fit a page with their standard errors."""
    table = future_tables.spread_table(futures)
    columns = zip(table.head[1:], *(row[1:] for row in table.rows), strict=True)
    rows = tuple((MEANT.get(head, head.replace("\n", " ")), *cells) for head, *cells in columns)
    return Table(table.title, ("", *(row[0] for row in table.rows)), rows)


ENDS_PLAIN = "the low and the high end of its range (of ten futures one lies beyond each end)"


def swings(found: Material, *, plain: bool = False) -> Table:
    """One input at a time, each by the name that a reader knows. plain: without names of statistics."""
    table = risk_tables.swing_table(found.loaded, found.by_range or found.by_share)
    title = table.title.replace(found.by_range.by, ENDS_PLAIN) if plain and found.by_range else table.title
    return filled(
        replace(table, title=title, rows=tuple((name_of(found.loaded, path), *cells) for path, *cells in table.rows))
    )


def meaning(found: Material) -> tuple[Block, ...]:
    """What the words mean and how the figures were made."""
    return (
        Heading("What the words mean", 2),
        Points(tuple(f"{word}: {meaning}" for word, meaning in WORDS)),
        Paragraph(
            f"Measures are those of the {VIEW}, unless a table says otherwise. Amounts are rounded for the eye only. Every "
            "figure can be followed to its inputs in the workbook that goes with this paper."
        ),
    )


def last_part(found: Material) -> tuple[Block, ...]:
    """The cautions that stand in every paper, and whom to call."""
    careful, call = words.cautions("paper"), words.whom_to_call(found.appraisal.loaded)
    return cautions(words.Passage(careful.title, (call, *careful.sentences)))
