"""The loan and its cover by year, who pays for the building, and what is owed if it stops."""

from __future__ import annotations

from appraisal.dashboard import blocks
from appraisal.dashboard.asked import asked
from appraisal.dashboard.seen import Seen
from appraisal.dashboard.showing import picture
from appraisal.present import grant_tables_money, loan_tables, money_tables, money_words, tables, words
from appraisal.present.charts.cover import cover_by_year
from appraisal.present.loan_words import largest_loan
from appraisal.risk.material import Planned


def show(seen: Seen) -> None:
    """Draw the screen; with a lever moved the bad cases, which are those of the file, stay out of the picture."""
    found = seen.appraisal
    answers = asked(seen.loaded) if seen.plain is None else None
    picture(cover_by_year(found, combined=None if answers is None else answers.combined), key="cover")
    lender = (words.bank(found), money_words.bank_money(found))
    if seen.reader == "family":
        blocks.passage(money_words.family_money(found))
        blocks.passages(lender, behind="What a lender asks, and how it is counted")
    else:
        blocks.passages(lender)
    _who_pays(seen)
    blocks.table(loan_tables.loans_table(found))
    if seen.reader == "bank":
        blocks.table(money_tables.cover_table(found))
        blocks.table(loan_tables.order_table(found))
        loan = None if answers is None else largest_loan(answers.breaks, seen.loaded)
        if loan is not None:
            blocks.passage(loan)
    blocks.table(money_tables.stop_table(found))


def _who_pays(seen: Seen) -> None:
    """Sources and uses; to the grant office the match and the rules of the grants."""
    blocks.table(tables.funding_table(seen.appraisal))
    if seen.reader == "grant":
        for make in (grant_tables_money.funding_match, grant_tables_money.grant_rules):
            blocks.table(make(Planned(seen.appraisal)))
