"""The report for the family, in plain words: should we build, what must come true, what if not."""

from __future__ import annotations

from appraisal.present import money_tables, money_words, risk_tables, stress_words, tables
from appraisal.present.assumption_book import open_table
from appraisal.present.blocks import Block, Contents, Heading, Paper, Paragraph, Points, Tabled, passage
from appraisal.present.citing import without
from appraisal.present.decision import Decision, decide
from appraisal.present.house_rules import rules_table
from appraisal.present.partner_tables import partners_tables
from appraisal.present.report_parts import findings_for_family, futures_blocks, last_part, meaning, paper, swings
from appraisal.present.report_pictures import pictures
from appraisal.risk.material import Material

OPEN_ROWS = 15


def family_report(found: Material, *, date: str) -> Paper:
    """The family's paper."""
    told = decide(
        found.appraisal, simulation=found.futures, breaks=found.breaks, swings=found.by_range or found.by_share
    )
    blocks = (
        *_decision(found, told),
        *_month_by_month(found, told),
        *_what_must_hold(found, told),
        *_farm(found),
        *_if_it_goes_wrong(found, told),
        *meaning(found),
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
        *pictures(found, "money"),
        *pictures(found, "net"),
        Tabled(
            tables.money_table(found.appraisal),
            "The last column is what is in the family's account at the end of the year when nothing else is taken out.",
        ),
        *passage(told.work),
        *(Paragraph(sentence) for sentence in money_words.whole_farm(found.appraisal)),
        Heading("Where the money for building comes from", 2),
        Tabled(tables.funding_table(found.appraisal)),
        *(Tabled(table) for table in partners_tables(found.appraisal)),
    )


def _what_must_hold(found: Material, told: Decision) -> tuple[Block, ...]:
    plan = found.stress.plan
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
        Tabled(swings(found)),
        Tabled(
            risk_tables.break_table(found.loaded, found.breaks, plan_cover=plan.least_cover, plan_npv=plan.npv or 0.0)
        ),
        Tabled(
            without(open_table(found, most=OPEN_ROWS), "path"),
            "Rank 1 moves the worth most when each input moves by a tenth. What is not explained was given without a source.",
        ),
    )


def _farm(found: Material) -> tuple[Block, ...]:
    return (
        Heading("The farm as it is and with the plant"),
        *pictures(found, "plant"),
        Tabled(tables.farm_now_table(found.appraisal)),
        Tabled(tables.feeds_table(found.appraisal)),
        Tabled(tables.plant_table(found.appraisal)),
    )


def _if_it_goes_wrong(found: Material, told: Decision) -> tuple[Block, ...]:
    return (
        Heading("If it goes wrong"),
        Points(stress_words.stressed(found.stress).sentences),
        Tabled(risk_tables.stress_table(found.stress)),
        *passage(told.if_stopped),
        Tabled(money_tables.stop_table(found.appraisal)),
    )
