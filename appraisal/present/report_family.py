"""The report for the family, in plain words: should we build, what must come true, what if not."""

from __future__ import annotations

from collections.abc import Iterable
from dataclasses import replace

from appraisal.present import money_tables, money_words, risk_tables, stress_words, tables, ways_words
from appraisal.present.assumption_book import open_table
from appraisal.present.blocks import Block, Contents, Heading, Paper, Paragraph, Points, Tabled, passage
from appraisal.present.citing import filled, without
from appraisal.present.decision import Decision, decide
from appraisal.present.house_rules import rules_table
from appraisal.present.numbers import percent
from appraisal.present.partner_tables import partners_tables
from appraisal.present.report_parts import findings_for_family, futures_blocks, last_part, paper, swings
from appraisal.present.report_pictures import pictures
from appraisal.present.stress_words import NO_DEBT
from appraisal.present.tables import Table
from appraisal.risk.material import Material

OPEN_ROWS, FEW = 15, 4  # rows of what is still a guess; values of a series that are told one by one
WORDS = (  # what shows that a word stands in the paper, the word, its meaning
    (
        "cover",
        "Cover",
        "Cash of a year for the bank over what the bank is owed that year; under 1 the cash does not reach.",
    ),
    ("debt\\nservice", "Debt service", "Interest and repayment of the loans in a year."),
    ("project year", "Project year", "Twelve months, the first of them the month that counts as today."),
    (
        "stop and ask",
        "Stop and ask",
        "A limit is passed at which a plant of this kind may fail; clear it before signing.",
    ),
    (
        "bills\\nsaved",
        "Bills saved",
        "Bills the farm pays today and would no longer pay; other savings are worked out and no bill proves them.",
    ),
    (" VS", "VS (volatile solids)", "The part of the dry matter that can turn into gas."),
    ("scf", "scf", "A cubic foot of gas at 60 °F and ordinary pressure."),
    ("Nm3", "Nm3", "A cubic metre of dry gas at 0 °C and ordinary pressure."),
    ("digestate", "Digestate", "What leaves the digester: the manure and feed without the gas."),
    (" points", "Points", "Per cent added or taken away: 5% and 2 points more make 7%."),
)


def family_report(found: Material, *, date: str) -> Paper:
    """The family's paper."""
    told = decide(
        found.appraisal, simulation=found.futures, breaks=found.breaks, swings=found.by_range or found.by_share
    )
    blocks: tuple[Block, ...] = (
        *_decision(found, told),
        *_month_by_month(found, told),
        *_what_must_hold(found, told),
        *_other_ways(found),
        *_farm(found),
        *_if_it_goes_wrong(found, told),
    )
    blocks = (
        *blocks,
        *_meaning(found, blocks),
        *last_part(found),
    )
    return paper(found, "Should we build it? For the family", blocks, date=date)


def _decision(found: Material, told: Decision) -> tuple[Block, ...]:
    """The same answer as on the screen, the family's rules, and what to ask first."""
    return (
        Heading(told.said.title),
        Points(told.said.sentences),
        Tabled(rules_table(told.rules)),
        Contents(depth=1),
        Heading("Ask first", 2),
        *findings_for_family(found.appraisal),
    )


def _month_by_month(found: Material, told: Decision) -> tuple[Block, ...]:
    return (
        Heading("Money in and out"),
        *pictures(found, "three_years"),
        Tabled(
            tables.money_table(found.appraisal),
            "The last column is what is in the family's account at the end of the year when nothing else is taken out.",
        ),
        *pictures(found, "money"),
        *pictures(found, "net"),
        *passage(told.work),
        *(Paragraph(sentence) for sentence in money_words.whole_farm(found.appraisal)),
        Heading("Where the money for building comes from", 2),
        Tabled(tables.funding_table(found.appraisal)),
        *(Tabled(table) for table in partners_tables(found.appraisal)),
    )


def _what_must_hold(found: Material, told: Decision) -> tuple[Block, ...]:
    return (
        Heading("What must come true"),
        *passage(told.must_hold),
        *passage(told.hurts),
        *futures_blocks(found),
        Heading("One at a time", 2),
        Paragraph(
            "Each line moves one assumption by itself and leaves the others as planned: find out more about the top ones first."
        ),
        *pictures(found, "swings"),
        Tabled(swings(found, plain=True)),
        Tabled(filled(_breaks(found), NO_DEBT)),
        Tabled(
            _spans(without(open_table(found, most=OPEN_ROWS), "path")),
            "Rank 1 moves the worth most when each input moves by a tenth. What is not explained was given without a source.",
        ),
    )


def _spans(table: Table) -> Table:
    """The table with a series of more than a few values as its least and its largest."""

    def span(cell: str) -> str:
        parts = sorted(cell.split(", "), key=lambda part: float(part.replace(",", ""))) if cell.count(", ") >= FEW else []
        return f"{parts[0]} to {parts[-1]}" if parts else cell

    place = table.head.index("value")
    return replace(table, rows=tuple((*row[:place], span(row[place]), *row[place + 1 :]) for row in table.rows))


def _breaks(found: Material) -> Table:
    plan = found.stress.plan
    return risk_tables.break_table(found.loaded, found.breaks, plan_cover=plan.least_cover, plan_npv=plan.npv or 0.0)


def _other_ways(found: Material) -> tuple[Block, ...]:
    """What else the farm could do, with the same figures, before anybody signs."""
    return (
        Heading("What else the farm could do"),
        Paragraph(
            "The plan is changed in one thing and worked out anew. Doing nothing is the yardstick: every worth in this paper is "
            "counted against the farm as it is."
        ),
        Tabled(ways_words.others_table(found), "Every way is counted from its own first month."),
        Points(ways_words.others_said(found)),
    )


def _farm(found: Material) -> tuple[Block, ...]:
    return (
        Heading("The farm as it is and with the plant"),
        Tabled(tables.farm_now_table(found.appraisal)),
        *pictures(found, "feeds"),
        Tabled(tables.feeds_table(found.appraisal)),
        *pictures(found, "plant"),
        Tabled(tables.plant_table(found.appraisal)),
        *pictures(found, "heat"),
    )


def _if_it_goes_wrong(found: Material, told: Decision) -> tuple[Block, ...]:
    return (
        Heading("If it goes wrong"),
        Points(stress_words.stressed(found.stress).sentences),
        Tabled(risk_tables.stress_table(found.stress)),
        *passage(told.if_stopped),
        Tabled(
            money_tables.stop_table(found.appraisal),
            "Where the last row is below nothing, so much is left over after all is paid.",
        ),
    )


def _meaning(found: Material, before: Iterable[Block]) -> tuple[Block, ...]:
    """What the words and units mean that stand in this paper, and where its figures come from."""
    said, judging = repr(before), found.loaded.scenario.judging
    told = (
        (
            "worth",
            "Worth, worth in today's money",
            f"All money in and out over the years added up, later money counted for less, by {percent(judging.discount_rate)} a "
            "year: that is what the family asks of money put in. It is counted for the plant as if there were no loan, after the "
            "tax that would then fall due, in the money of each year.",
        ),
        *WORDS,
    )
    points = tuple(f"{word}: {meaning}" for mark, word, meaning in told if mark in said)
    return (
        Heading("What the words mean", 2),
        Points(points),
        Paragraph(
            "Amounts are rounded for the eye only. The workbook that goes with this paper follows every figure to its inputs."
        ),
    )
