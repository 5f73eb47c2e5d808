"""The loan and its cover by year, who pays for the building, and what is owed if it stops."""

from __future__ import annotations

from appraisal.dashboard import blocks
from appraisal.dashboard.seen import Seen
from appraisal.present import money_tables, money_words, tables, words


def show(seen: Seen) -> None:
    """Draw the screen."""
    blocks.passage(words.bank(seen.appraisal))
    blocks.passage(money_words.bank_money(seen.appraisal))
    blocks.table(money_tables.cover_table(seen.appraisal))
    blocks.table(tables.funding_table(seen.appraisal))
    blocks.table(money_tables.stop_table(seen.appraisal))
