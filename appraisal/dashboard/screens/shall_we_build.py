"""Shall we build? The answer in sentences, what it rests on, what to ask about."""

from __future__ import annotations

from appraisal.dashboard import blocks
from appraisal.dashboard.seen import Seen
from appraisal.present import money_words, tables, words


def show(seen: Seen) -> None:
    """Draw the screen."""
    found = seen.appraisal
    said = {"family": words.family, "bank": words.bank, "grant": words.grant_office}[seen.reader]
    more = {"family": money_words.family_money, "bank": money_words.bank_money, "grant": money_words.grant_money}
    blocks.passage(said(found))
    blocks.passage(more[seen.reader](found))
    blocks.findings(found.findings)
    blocks.table(tables.farm_now_table(found))
    blocks.passage(words.cautions("screen"))
