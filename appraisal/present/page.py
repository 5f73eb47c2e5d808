"""The page that `run` prints: passages, tables, findings, cautions, as plain text."""

from __future__ import annotations

from collections.abc import Iterator
from textwrap import fill
from typing import Literal

from tabulate import tabulate

from appraisal.appraise import Appraisal
from appraisal.errors import Finding
from appraisal.present import (
    budget_tables,
    emission_tables,
    loan_tables,
    money_tables,
    money_words,
    partner_tables,
    tables,
    words,
)
from appraisal.present.blocks import plus_minus
from appraisal.present.decision import decide
from appraisal.present.design_sheet import design_tables
from appraisal.present.naming import place
from appraisal.present.tables import Table
from appraisal.present.words import Passage

WIDTH = 110
SAFETY_ON_TERMINAL = (
    "not_advice", "default_values", "market_prices", "permits", "h2s_smell", "agitation", "methane_explosion", "confined_space",
    "would_be_rescuer",
)  # fmt: skip
MORE_CAUTIONS = "Defer to local codes and licensed practice. More cautions stand in the README and in every paper."

Reader = Literal["family", "bank", "grant"]


def page(appraisal: Appraisal, *, monthly: bool = False, reader: Reader | None = None) -> str:
    """One text, the decision first: for one reader the few things that reader asks for, else a page for all three.

    monthly: adds the design sheet by month.
    """
    return "\n\n".join(_parts(appraisal, monthly=monthly, reader=reader)) + "\n"


def _parts(appraisal: Appraisal, *, monthly: bool, reader: Reader | None) -> Iterator[str]:
    project = appraisal.loaded.scenario.project
    yield f"{project.name}\n{'=' * len(project.name)}"
    if project.note:
        yield fill(project.note, WIDTH)
    yield from {"family": _family, "bank": _bank, "grant": _grant, None: _everybody}[reader](appraisal)
    if monthly:
        yield from (table(each) for each in design_tables(appraisal))
    yield findings(appraisal)
    careful = words.cautions_short(SAFETY_ON_TERMINAL)
    yield passage(Passage(careful.title, (*careful.sentences, words.whom_to_call(appraisal.loaded), MORE_CAUTIONS)))
    yield f"Scenario fingerprint {appraisal.loaded.fingerprint}. Figures are nominal; month 0 is {project.first_month}."


def _everybody(appraisal: Appraisal) -> Iterator[str]:
    yield from map(passage, _answer_and_family(appraisal))
    yield table(tables.money_table(appraisal))
    yield passage(words.bank(appraisal))
    yield table(money_tables.cover_table(appraisal))
    yield table(tables.funding_table(appraisal))
    yield passage(words.grant_office(appraisal))
    yield table(emission_tables.emissions_table(appraisal))
    yield table(emission_tables.emissions_by_year_table(appraisal))
    if emission_tables.tonnes_to_claim(appraisal):
        yield table(emission_tables.tonnes_table(appraisal))
    yield table(tables.feeds_table(appraisal))
    yield table(tables.plant_table(appraisal))
    yield table(tables.farm_now_table(appraisal))
    yield from map(table, partner_tables.partners_tables(appraisal))
    yield money_words.checks_line(appraisal)


def _family(appraisal: Appraisal) -> Iterator[str]:
    yield from map(passage, _answer_and_family(appraisal))
    yield passage(money_words.family_money(appraisal))
    yield table(tables.money_table(appraisal))
    yield table(money_tables.stop_table(appraisal))
    yield table(tables.farm_now_table(appraisal))
    yield table(tables.funding_table(appraisal))
    yield from map(table, partner_tables.partners_tables(appraisal))


def _bank(appraisal: Appraisal) -> Iterator[str]:
    yield passage(words.bank(appraisal))
    yield passage(money_words.bank_money(appraisal))
    yield table(tables.funding_table(appraisal))
    yield table(loan_tables.loans_table(appraisal))
    yield table(money_tables.cover_table(appraisal))
    yield table(loan_tables.order_table(appraisal))
    yield table(money_tables.income_table(appraisal))
    yield table(money_tables.profit_to_cash_table(appraisal))
    yield table(money_tables.balance_table(appraisal))
    yield table(money_tables.stop_table(appraisal))
    yield from map(table, partner_tables.partners_tables(appraisal))
    yield table(money_tables.views_table(appraisal))
    yield table(money_tables.checks_table(appraisal))


def _grant(appraisal: Appraisal) -> Iterator[str]:
    yield passage(words.grant_office(appraisal))
    yield passage(money_words.grant_money(appraisal))
    yield table(budget_tables.budget_table(appraisal))
    yield table(budget_tables.grants_table(appraisal))
    yield table(tables.funding_table(appraisal))
    yield table(emission_tables.emissions_table(appraisal))
    yield table(emission_tables.emissions_by_year_table(appraisal))
    yield table(emission_tables.tonnes_table(appraisal))
    yield table(tables.feeds_table(appraisal))
    yield table(tables.plant_table(appraisal))
    yield table(money_tables.unit_cost_table(appraisal))
    yield table(money_tables.views_table(appraisal))


def _answer_and_family(appraisal: Appraisal) -> tuple[Passage, Passage]:
    """The answer of the screens, then what else the family asks for; no sentence twice."""
    said, family = decide(appraisal).said, words.family(appraisal)
    return said, Passage(family.title, tuple(each for each in family.sentences if each not in said.sentences))


def passage(part: Passage) -> str:
    """A heading and its sentences, wrapped."""
    return "\n".join(
        (
            part.title,
            "-" * len(part.title),
            *(fill(plus_minus(s), WIDTH, initial_indent="- ", subsequent_indent="  ") for s in part.sentences),
        )
    )


def table(part: Table) -> str:
    """A titled table; empty tables say so."""
    if not part.rows:
        return f"{part.title}\n(nothing to show)"
    align = tuple("right" if _all_numbers(column) else "left" for column in zip(*part.rows, strict=True))
    rows = [[plus_minus(cell) for cell in row] for row in part.rows]
    return f"{plus_minus(part.title)}\n{tabulate(rows, part.head, disable_numparse=True, colalign=align)}"


def _all_numbers(column: tuple[str, ...]) -> bool:
    return all(cell.lstrip("-")[:1].isdigit() or not cell for cell in column) and any(column)


def findings(appraisal: Appraisal) -> str:
    """Every finding with its seriousness, place and source."""
    if not appraisal.findings:
        return "What to ask about\n-----------------\n- Nothing stands out."
    lines = [fill(_finding(appraisal, found), WIDTH, initial_indent="- ", subsequent_indent="  ") for found in appraisal.findings]
    return "\n".join(("What to ask about", "-----------------", *lines))


def _finding(appraisal: Appraisal, found: Finding) -> str:
    """One finding on a line: where it is, in words and as `explain` and the file call it, what it says, and its source."""
    word = "Source" if found.limit is None else "Limit"
    where = f"{place(appraisal, found.where)}, {found.where}"
    return f"[{found.severity}] {where}: {found.what}" + (f" {word}: {found.source}." if found.source else "")
