"""The report for the family, in plain words: should we build, what must come true, what if not."""

from __future__ import annotations

from appraisal.present import money_tables, money_words, risk_tables, risk_words, tables, words
from appraisal.present.assumption_book import open_table
from appraisal.present.blocks import Block, Contents, Heading, Paper, Paragraph, Points, Tabled
from appraisal.present.partner_tables import partners_tables
from appraisal.present.report_parts import findings_for_family, futures_blocks, last_part, meaning, paper
from appraisal.present.report_pictures import pictures
from appraisal.risk.material import Material

OPEN_ROWS = 15


def family_report(found: Material, *, date: str) -> Paper:
    """The family's paper."""
    blocks = (
        *_decision(found),
        *_month_by_month(found),
        *_what_must_hold(found),
        *_farm(found),
        *_if_it_goes_wrong(found),
        *meaning(found),
        *last_part(),
    )
    return paper(found, "Should we build it? For the family", blocks, date=date)


def _decision(found: Material) -> tuple[Block, ...]:
    return (
        Heading("Should we build it?"),
        Points(words.family(found.appraisal).sentences),
        Contents(),
        Heading("Ask first", 2),
        *findings_for_family(found.appraisal),
    )


def _month_by_month(found: Material) -> tuple[Block, ...]:
    spoken = money_words.family_money(found.appraisal)
    return (
        Heading("Money in and out"),
        Points(spoken.sentences),
        *pictures(found, "three_years"),
        *pictures(found, "money"),
        *pictures(found, "net"),
        Tabled(
            tables.money_table(found.appraisal),
            "The last column is what is in the family's account at the end of the year when nothing else is taken out.",
        ),
        Heading("Where the money for building comes from", 2),
        Tabled(tables.funding_table(found.appraisal)),
        *(Tabled(table) for table in partners_tables(found.appraisal)),
    )


def _what_must_hold(found: Material) -> tuple[Block, ...]:
    plan = found.stress.plan
    by = found.by_range or found.by_share
    return (
        Heading("What must come true"),
        Paragraph(
            "Each line below moves one assumption by itself and leaves the others as planned. The top lines are those on which "
            "the answer hangs: find out more about them first."
        ),
        *futures_blocks(found),
        *pictures(found, "swings"),
        Tabled(risk_tables.swing_table(found.loaded, by)),
        Tabled(
            risk_tables.break_table(found.loaded, found.breaks, plan_cover=plan.least_cover, plan_npv=plan.npv or 0.0),
            "Each moves by itself.",
        ),
        Tabled(
            open_table(found, most=OPEN_ROWS),
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


def _if_it_goes_wrong(found: Material) -> tuple[Block, ...]:
    return (
        Heading("If it goes wrong"),
        Points(risk_words.stressed(found.stress).sentences),
        Tabled(risk_tables.stress_table(found.stress)),
        Heading("If it stops", 2),
        Points((money_words.owed(found.appraisal), money_words.stop_rule(found.appraisal))),
        Tabled(money_tables.stop_table(found.appraisal)),
    )
