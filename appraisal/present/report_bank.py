"""The report for the bank: one page first, then funding, statements, stress, what is owed if it stops, risks, assumptions."""

from __future__ import annotations

import numpy as np

from appraisal.appraise import Appraisal
from appraisal.measures.cover import Cover, LeastCover
from appraisal.present import loan_tables, money_tables, money_words, risk_tables, stress_words, tables, words
from appraisal.present.assumption_book import counts, entries, open_table
from appraisal.present.bank_answers import answers, together
from appraisal.present.blocks import SHORT, Block, Contents, Heading, PageBreak, Paper, Paragraph, Points, Tabled
from appraisal.present.citing import without
from appraisal.present.grant_tables_case import risk_register
from appraisal.present.grant_tables_money import funding_match
from appraisal.present.partner_tables import partners_tables
from appraisal.present.report_parts import findings_blocks, futures_blocks, last_part, meaning, paper, swings
from appraisal.present.report_pictures import pictures
from appraisal.present.tables import Table
from appraisal.risk.material import Material

OPEN_ROWS = 25
LENDER = "signed_contracts_only"
YEARS = (
    "The first five years, that of the least cover, every fifth and the last; all years stand in the workbook. Amounts are whole "
    "and rounded together, so that every statement adds up and all tie; the workbook rounds nothing and may differ by some units."
)
BALANCE = (
    "Cash: what the plant has brought so far with what the family paid in. Nothing is taken out in this plan, so cash gathers. "
    "The family's cash in the money by year is this cash less what the family paid in."
)
ELSEWHERE = (
    "Not in this paper, and to be asked for: security for the loans, the past accounts and other debts of the borrower, the "
    "signed contracts themselves, permits, and the supplier's warranty."
)


def bank_report(found: Material, *, date: str) -> Paper:
    """The bank's paper."""
    blocks = (
        *_one_page(found),
        *_funding(found),
        *_statements(found),
        *_stress(found),
        *_stopping(found),
        *_risks(found),
        *_assumptions(found),
        *last_part(found),
    )
    there = tuple(block for block in blocks if not isinstance(block, Tabled) or block.table.rows)
    return paper(found, "For the bank", there, date=date)


def _one_page(found: Material) -> tuple[Block, ...]:
    """Answers and the cover; over many years in smaller letters, so that one page holds them."""
    cover = cover_in_three(found)
    return (
        Heading("One page first"),
        Points(answers(found)),
        Tabled(
            cover,
            "Cover: cash of the year after running costs, overhauls and tax over interest and principal due. Lender's case: only "
            f"income under signed contracts, all costs. Downside: {together(found)}. Income signed for: share of the cash income "
            "as assumed. Least: of full operating years.",
            small=len(cover.rows) > SHORT,
        ),
        PageBreak(),
        Contents(),
        Heading("Cover in pictures and words"),
        *pictures(found, "cover"),
        Points(words.bank(found.appraisal).sentences[-2:]),
        *passage_of(found),
    )


def passage_of(found: Material) -> tuple[Block, ...]:
    """What a lender asks, in sentences."""
    spoken = money_words.bank_money(found.appraisal)
    return (Heading(spoken.title, 2), Points(spoken.sentences), Tabled(money_tables.cover_table(found.appraisal)),
            Tabled(loan_tables.order_table(found.appraisal), _order_remark(found.appraisal)))


def _order_remark(appraisal: Appraisal) -> str:
    """What the order of payments leaves out."""
    if appraisal.loaded.scenario.funding.lock_up == "held":
        return "From the first full operating year on."
    return (
        "From the first full operating year on, each year by itself: the plan holds nothing back, so what would be held in one "
        "year pays nothing in another."
    )


def cover_in_three(found: Material) -> Table:
    """Cover by loan year in three columns: as assumed, lender's case, combined downside; then the signed share of the income."""
    bank = found.appraisal.money.bank
    bad = found.downside
    columns: list[tuple[Cover, LeastCover] | None] = [
        (bank.covers["as_assumed"], bank.least["as_assumed"]),
        (bank.covers[LENDER], bank.least[LENDER]),
        (bad.money.bank.covers["as_assumed"], bad.money.bank.least["as_assumed"]) if bad else None,
    ]
    years = np.flatnonzero(np.isfinite(bank.covers["as_assumed"].value[0]))
    shares = bank.signed_share[0]
    signed = [f"{share:.0%}" if np.isfinite(share) else "-" for share in shares[years]]
    rows = [(str(y + 1), *(_at(column, int(y)) for column in columns), part) for y, part in zip(years, signed, strict=True)]
    rows.append(("least", *(_least(column) for column in columns), ""))
    head = ("project\nyear", "central, as\nassumed", "lender's\ncase", "combined\ndownside", "income\nsigned for")
    wanted = found.loaded.scenario.judging.least_cover
    return Table(f"Cover of debt service by year; {wanted:.2f} is wanted", head, tuple(rows))


def _at(column: tuple[Cover, LeastCover] | None, year: int) -> str:
    if column is None:
        return ""
    value = float(column[0].value[0, year])
    return f"{value:z.2f}" if np.isfinite(value) else ""


def _least(column: tuple[Cover, LeastCover] | None) -> str:
    if column is None:
        return ""
    value = float(column[1].value[0])
    return f"{value:z.2f}" if np.isfinite(value) else column[1].words[0]


def signed_share(appraisal: Appraisal) -> Table:
    """Part of the cash income that is under signed contracts, by loan year, years across."""
    bank = appraisal.money.bank
    years = np.flatnonzero(np.isfinite(bank.covers["as_assumed"].value[0]))
    shares = bank.signed_share[0]
    cells = tuple(f"{shares[year]:.0%}" if np.isfinite(shares[year]) else "-" for year in years)
    head = ("project year", *(str(year + 1) for year in years))
    return Table("Income that is signed for, by the same years", head, (("share", *cells),) if len(cells) else ())


def _funding(found: Material) -> tuple[Block, ...]:
    return (
        Heading("Sources and uses"),
        Tabled(tables.funding_table(found.appraisal)),
        Tabled(loan_tables.loans_table(found.appraisal)),
        Tabled(funding_match(found)),
        *(Tabled(table) for table in partners_tables(found.appraisal)),
        Heading("The whole farm", 2),
        Points(money_words.whole_farm(found.appraisal)),
    )


def _statements(found: Material) -> tuple[Block, ...]:
    appraisal = found.appraisal
    return (
        Heading("Statements"),
        *pictures(found, "money"),
        Tabled(tables.money_table(appraisal)),
        Tabled(money_tables.income_table(appraisal), YEARS),
        Tabled(money_tables.profit_to_cash_table(appraisal)),
        Tabled(money_tables.balance_table(appraisal), BALANCE),
        Tabled(money_tables.views_table(appraisal)),
        Tabled(money_tables.unit_cost_table(appraisal)),
        Tabled(money_tables.checks_table(appraisal), "Checked in every month of this scenario."),
    )


def _stress(found: Material) -> tuple[Block, ...]:
    plan = found.stress.plan
    return (
        Heading("Stress"),
        Points(stress_words.stressed(found.stress).sentences),
        Tabled(risk_tables.stress_table(found.stress)),
        *futures_blocks(found, measures=True),
        Tabled(
            risk_tables.break_table(found.loaded, found.breaks, plan_cover=plan.least_cover, plan_npv=plan.npv or 0.0)
        ),
        *pictures(found, "swings"),
        Tabled(swings(found)),
    )


def _stopping(found: Material) -> tuple[Block, ...]:
    return (
        Heading("What is owed if it stops"),
        Points((money_words.owed(found.appraisal), money_words.stop_rule(found.appraisal))),
        Tabled(money_tables.stop_table(found.appraisal), _stop_remark(found.appraisal)),
    )


def _stop_remark(appraisal: Appraisal) -> str:
    """What the table of stopping counts, and what nobody has stated."""
    capital = appraisal.loaded.scenario.capital.values()
    stated = {"resale": any(each.resale_share for each in capital), "removal": any(each.removal_cost for each in capital)}
    missing = [what for what, there in stated.items() if not there]
    left_out = f" The plan states no {' and no '.join(missing)}, so none is counted." if missing else ""
    return f"Loans, and what grants, credits and contracts then ask back, less reserves and resale.{left_out}"


def _risks(found: Material) -> tuple[Block, ...]:
    return (
        Heading("Risks"),
        *findings_blocks(found.appraisal),
        Tabled(risk_register(found, findings=False), "Bad cases as under Stress, and the applicant's own concerns."),
    )


def _assumptions(found: Material) -> tuple[Block, ...]:
    return (
        Heading("Assumptions"),
        Paragraph(
            "The assumption book that goes with this paper lists every input; here is what it rests on, and what is open. "
            f"{ELSEWHERE}"
        ),
        Tabled(counts(entries(found))),
        Tabled(without(open_table(found, most=OPEN_ROWS), "path")),
        *meaning(found),
    )
