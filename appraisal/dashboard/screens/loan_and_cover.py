"""The loan and its cover by year, who pays for the building, and what is owed if it stops."""

from __future__ import annotations

from appraisal.dashboard import blocks
from appraisal.dashboard.asked import asked
from appraisal.dashboard.seen import Seen
from appraisal.dashboard.showing import picture
from appraisal.present import money_tables, money_words, tables, words
from appraisal.present.charts.cover import cover_by_year


def show(seen: Seen) -> None:
    """Draw the screen; with a lever moved the bad cases, which are those of the file, stay out of the picture."""
    found = seen.appraisal
    answers = asked(seen.loaded) if seen.plain is None else None
    picture(cover_by_year(found, combined=None if answers is None else answers.combined), key="cover")
    blocks.passage(words.bank(found))
    blocks.passage(money_words.bank_money(found))
    if seen.reader != "bank":
        blocks.passage(money_words.family_money(found))
    blocks.table(tables.funding_table(found))
    blocks.table(money_tables.stop_table(found))
