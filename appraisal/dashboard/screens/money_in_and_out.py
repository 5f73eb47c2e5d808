"""Money in and out by year, and how income becomes cash."""

from __future__ import annotations

import streamlit as st

from appraisal.dashboard import blocks
from appraisal.dashboard.seen import Seen
from appraisal.dashboard.showing import picture
from appraisal.present import grant_tables_money, money_tables, money_words, tables
from appraisal.present.charts.income_to_net import income_to_net
from appraisal.present.charts.money_by_year import money_by_year
from appraisal.present.partner_tables import partners_tables
from appraisal.risk.material import Planned

ALL_YEARS = 0


def show(seen: Seen) -> None:
    """Draw the screen."""
    found = seen.appraisal
    picture(money_by_year(found), key="by_year", roomy=True)
    year = st.selectbox(
        "From income to what is left, in",
        [*range(1, found.timeline.years + 1), ALL_YEARS],
        index=found.plant.year - 1,
        format_func=lambda each: f"project year {each}" if each else "all years together",
        key="_year_of_steps",
    )
    picture(income_to_net(found, year=year), key="steps", roomy=True)
    family = seen.reader == "family"
    if family:
        blocks.passage(money_words.family_money(found))
        blocks.table(tables.farm_now_table(found))
    if seen.reader == "grant":
        for make in (grant_tables_money.budget, grant_tables_money.who_pays, grant_tables_money.claims_and_cash):
            blocks.table(make(Planned(found)))
    blocks.table(tables.money_table(found))
    for each in partners_tables(found):
        blocks.table(each)
    statements = (
        money_tables.income_table(found),
        money_tables.profit_to_cash_table(found),
        money_tables.balance_table(found),
        money_tables.views_table(found),
    )
    blocks.tables(statements, behind="For the accountant: profit, balance sheet, rates of return" if family else "")
    if seen.reader == "bank":
        blocks.table(money_tables.checks_table(found))
