"""Money in and out by year, and how income becomes cash."""

from __future__ import annotations

from appraisal.dashboard import blocks
from appraisal.dashboard.seen import Seen
from appraisal.present import money_tables, tables


def show(seen: Seen) -> None:
    """Draw the screen."""
    blocks.table(tables.money_table(seen.appraisal))
    blocks.table(money_tables.income_table(seen.appraisal))
    blocks.table(money_tables.profit_to_cash_table(seen.appraisal))
    blocks.table(money_tables.balance_table(seen.appraisal))
    blocks.table(money_tables.views_table(seen.appraisal))
