"""Which rows stand on the yearly sheets: statements, every line of money, loans, tax, the plant."""

from __future__ import annotations

from collections.abc import Iterable, Iterator
from dataclasses import dataclass

from appraisal.appraise import Appraisal
from appraisal.lines.names import Ref
from appraisal.measures.checks import BRIDGE
from appraisal.present.money_tables import BALANCE_ROWS, INCOME_ROWS
from appraisal.present.tables import YEAR_COLUMNS
from appraisal.reports import subjects as where
from appraisal.reports.sheets import Book
from appraisal.reports.subjects import module_of

Term = tuple[Ref, int]


@dataclass(frozen=True)
class Row:
    """One row of a yearly sheet: what it is, its unit, the terms that are added, and where the first line has its name."""

    label: str
    unit: str
    terms: tuple[Term, ...]
    name: str = ""


@dataclass(frozen=True)
class Block:
    """Rows below a heading."""

    words: str
    rows: tuple[Row, ...]


def flow(label: str, *names: str, signs: Iterable[int] = ()) -> Row:
    """A row that adds up the months of one or more lines of money."""
    marks = tuple(signs) or (1,) * len(names)
    terms = tuple((Ref(name, "year_sum"), sign) for name, sign in zip(names, marks, strict=True))
    return Row(
        label[:1].upper() + label[1:], "money/year", terms, names[0] if len(names) == 1 and marks == (1,) else ""
    )


def stand(label: str, name: str, sign: int = 1) -> Row:
    """A row of what a line stands at when the year ends."""
    return Row(label, "money", ((Ref(name, "year_end"), sign),), name)


def statement_blocks() -> Iterator[Block]:
    """Cash, income statement, the way from profit to cash, and the balance sheet with its check."""
    yield Block(
        "Cash of the year, inflow positive",
        (
            *(flow(head.replace("\n", " "), *names) for head, names in YEAR_COLUMNS),
            stand("Family's cash so far, at the year's end", "bank_balance"),
        ),
    )
    yield Block("Income statement", tuple(flow(label, name) for label, name in INCOME_ROWS))
    steps = tuple(
        flow(label, *(name for name, _ in parts), signs=[sign for _, sign in parts]) for label, parts in BRIDGE
    )
    yield Block("From profit to cash", (*steps, flow("Net cash", "net_cash")))
    yield Block(
        "Balance sheet at the year's end",
        tuple(stand(label, name, -1 if label.startswith("Less") else 1) for label, name in BALANCE_ROWS),
    )


def money_blocks(book: Book) -> Iterator[Block]:
    """Every line of money that is counted in a total, a block a module; then the totals."""
    found: dict[str, list[Row]] = {}
    for name, node in book.plot.plan.nodes.items():
        if node.line.role:
            found.setdefault(module_of(node), []).append(flow(node.label, name))
    for subject in (*where.SUBJECTS, where.OTHER_MONEY):
        rows = [row for module in (subject.modules or _others(found)) for row in found.get(module, ())]
        if rows:
            yield Block(subject.title, tuple(rows))
    totals = ("cash_income", "evidenced_savings", "modelled_savings", "running_costs", "overhauls_paid", "investment")
    more = ("grants", "debt_service", "taxes", "cash_available_for_debt_service", "project_cash", "net_cash")
    yield Block("Totals", tuple(flow(book.plot.plan.nodes[name].line.label, name) for name in (*totals, *more)))


def _others(found: Iterable[str]) -> list[str]:
    return sorted(set(found) - set(where.HOME))


def loan_blocks(book: Book, paper: Appraisal) -> Iterator[Block]:
    """For every loan what it opens with, what comes in and goes out, and what it closes with."""
    for name, loan in paper.loaded.scenario.loan.items():
        of = f"loan.{name}."
        moves = ((f"{of}drawn", 1), (f"{of}capitalised", 1), (f"{of}principal", 1), (f"{of}prepaid", 1))
        opening = Row("Owed when the year begins", "money", ((Ref(f"{of}closing", "year_end"), 1),), "opening")
        rows = (
            opening,
            flow("Drawn", f"{of}drawn"),
            flow("Interest added to the loan", f"{of}capitalised"),
            flow("Principal paid back", f"{of}principal"),
            flow("Prepaid by a sweep", f"{of}prepaid"),
            stand("Owed when the year ends", f"{of}closing"),
            flow("Opening + in - out - closing", *(each for each, _ in moves), signs=[sign for _, sign in moves]),
            flow("Interest paid", f"{of}interest"),
            flow("Fee paid", f"{of}fee_paid"),
            flow("Interest as a cost", f"{of}interest_cost"),
        )
        yield Block(loan.label or f"Loan {name}", rows)
    yield Block(
        "All loans and reserves",
        (
            stand("Owed, all loans", "loans_owed"),
            stand("Bridge loan until grants come", "bridge_owed_in_books"),
            flow("Debt service", "debt_service"),
            flow("Prepaid by a sweep", "loans_prepaid"),
            stand("Reserves held", "reserves_held"),
        ),
    )


def own_blocks(book: Book, modules: Iterable[str], *, words: str) -> Iterator[Block]:
    """Every line of some modules that has a meaning by year: sums of flows, balances at the year's end, yearly lines."""
    rows = []
    for module in modules:
        for node in (each for each in book.plot.plan.nodes.values() if module_of(each) == module):
            unit = node.line.unit
            if node.grid == "year":
                rows.append(Row(node.label, unit, ((Ref(node.name), 1),), node.name))
            elif node.grid == "month" and unit.endswith("/month"):
                by_year = unit.removesuffix("/month") + "/year"
                rows.append(Row(node.label, by_year, ((Ref(node.name, "year_sum"), 1),), node.name))
            elif node.grid == "month" and unit == "money":
                rows.append(Row(node.label, unit, ((Ref(node.name, "year_end"), 1),), node.name))
    if rows:
        yield Block(words, tuple(rows))


def plant_blocks(book: Book) -> Iterator[Block]:
    """Flows of the plant by year, a block a subject."""
    for subject in where.SUBJECTS:
        modules = [name for name in subject.modules if name.startswith("technical_yield.")]
        yield from own_blocks(book, modules, words=subject.title)
