"""Statements as shown foot and tie, for the demos and every choice about money; and lie close to the exact amounts."""

from __future__ import annotations

from functools import cache

import numpy as np
import pytest

from appraisal.appraise import Appraisal, appraise
from appraisal.demos import demos
from appraisal.present import loan_tables, money_tables, tables
from appraisal.present.partner_tables import partners_tables
from appraisal.present.tables import Table
from appraisal.present.whole_years import RUNNING, STOCKS, whole_years
from appraisal.present.years import at_year_end, by_year
from appraisal.scenario.load import load
from tests.money_cases import CASES, appraised

SHOWN = sorted((*demos(), *CASES))
FAR = 4  # whole units by which an amount may stand off, so that all foot; a line of the statements holds up to a dozen


@cache
def of(name: str) -> Appraisal:
    """A demo or a case about money, appraised."""
    return appraise(load(demos()[name])) if name in demos() else appraised(name)


def amount(cell: str) -> int:
    """A cell as a whole number."""
    return int(cell.replace(",", ""))


def lines(table: Table) -> dict[str, np.ndarray]:
    """Rows by their label."""
    return {label: np.array([amount(cell) for cell in cells]) for label, *cells in table.rows}


def columns(table: Table) -> dict[str, np.ndarray]:
    """Columns of whole numbers by their head, on one line."""
    made = zip(table.head, zip(*table.rows, strict=True), strict=True) if table.rows else ()
    return {head.replace("\n", " "): np.array([amount(cell) for cell in cells]) for head, cells in made}


def same(one: np.ndarray, other: np.ndarray) -> None:
    """Both are equal to the last unit."""
    assert one.tolist() == other.tolist()


def above(rows: dict[str, np.ndarray], last: str, after: str = "") -> np.ndarray:
    """Sum of the rows above `last`, below `after`."""
    labels = list(rows)
    chosen = labels[labels.index(after) + 1 if after else 0 : labels.index(last)]
    return sum((rows[label] for label in chosen), np.zeros_like(rows[last]))


@pytest.mark.parametrize("name", SHOWN)
def test_every_statement_adds_up_as_shown(name: str) -> None:
    income, steps = lines(money_tables.income_table(of(name))), lines(money_tables.profit_to_cash_table(of(name)))
    balance, stop = lines(money_tables.balance_table(of(name))), lines(money_tables.stop_table(of(name)))
    same(above(income, "Profit before tax"), income["Profit before tax"])
    same(
        above(income, "Profit after tax", "Profit before tax") + income["Profit before tax"], income["Profit after tax"]
    )
    same(above(steps, "Net cash"), steps["Net cash"])
    same(above(balance, "Assets"), balance["Assets"])
    same(above(balance, "Debts", "Assets"), balance["Debts"])
    same(above(balance, "The family's part", "Debts"), balance["The family's part"])
    same(balance["Debts"] + balance["The family's part"], balance["Assets"])
    same(above(stop, "Still owed"), stop["Still owed"])
    owed = np.broadcast_to(of(name).values["owed_if_stopped"][0], (of(name).timeline.years,))
    assert np.abs(owed[list(money_tables.years_shown(of(name)))] - stop["Still owed"]).max() < FAR


@pytest.mark.parametrize("name", SHOWN)
def test_years_add_up_along_the_row_and_run_on(name: str) -> None:
    money = columns(tables.money_table(of(name)))
    parts = [
        column
        for head, column in money.items()
        if head not in ("year", "left for the family", "family's cash at year end")
    ]
    same(np.sum(parts, axis=0), money["left for the family"])
    same(np.cumsum(money["left for the family"]), money["family's cash at year end"])
    order = columns(loan_tables.order_table(of(name)))
    if order:
        handed = [
            column
            for head, column in order.items()
            if head not in ("year", "free for the family", "loans owed at year end")
        ]
        same(np.sum(handed, axis=0), order["free for the family"])


@pytest.mark.parametrize("name", SHOWN)
def test_one_amount_is_the_same_in_every_table(name: str) -> None:
    found = of(name)
    chosen = list(money_tables.years_shown(found))
    money, income = columns(tables.money_table(found)), lines(money_tables.income_table(found))
    balance, steps = lines(money_tables.balance_table(found)), lines(money_tables.profit_to_cash_table(found))
    for label, head in (("Cash income", "income"), ("Bills saved", "bills saved"), ("Running costs", "running costs")):
        if label in income:
            same(income[label], money[head][chosen])
    same(steps["Net cash"], money["left for the family"][chosen])
    same(steps["Profit after tax"], income["Profit after tax"])
    nothing = np.zeros(len(chosen), dtype=np.int64)
    same(
        balance.get("Cash", nothing) - balance.get("Paid in by the family", nothing),
        money["family's cash at year end"][chosen],
    )
    cover = {row[0]: (amount(row[1]), amount(row[2])) for row in money_tables.cover_table(found).rows}
    assert all(-cover[str(year)][1] == money["debt service"][year - 1] for year in map(int, cover))
    order = columns(loan_tables.order_table(found))
    if order:
        assert [cover[str(year)][0] for year in order["year"]] == order["cash available"].tolist()


@pytest.mark.parametrize("name", SHOWN)
def test_what_is_shown_is_close_to_the_exact_amounts(name: str) -> None:
    found = of(name)
    for line, made in whole_years(found).items():
        if line in ("profit_so_far", "balance_difference"):
            continue
        at_end = line in (*STOCKS, "cash_held", "assets", "debts", "equity")
        exact = at_year_end(found, line) if at_end else by_year(found, line)
        assert np.abs(made - exact).max() < (0.5 + 1e-6 if line in STOCKS else FAR), line
        if line in RUNNING or line in STOCKS:
            assert not made[np.abs(exact) < 1e-6].any(), line


@pytest.mark.parametrize("name", SHOWN)
def test_sources_are_uses_and_partners_add_up(name: str) -> None:
    rows = tables.funding_table(of(name)).rows
    uses, sources = ([amount(row[2]) for row in rows if row[0] == side] for side in ("Uses", "Sources"))
    assert sum(uses[:-1]) == uses[-1] == sources[-1] == sum(sources[:-1])
    for table in partners_tables(of(name)):
        for label, *cells in table.rows:
            if label != "Part of the plant":
                *parts, whole = [amount(cell.split()[0]) for cell in cells]
                assert sum(parts) == whole, label
