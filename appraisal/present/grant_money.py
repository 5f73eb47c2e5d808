"""The money of a grant request in whole amounts that foot: uses by line, sources, who pays which line, quarters."""

from __future__ import annotations

from dataclasses import dataclass

import numpy as np
import numpy.typing as npt

from appraisal.appraise import Appraisal
from appraisal.present.footing import Whole, crossed, whole

Array = npt.NDArray[np.float64]
MONTHS_OF_QUARTER = 3
TINY = 0.005  # money; less than half a cent is nothing
OWN = "own money"
CAPITAL_COLUMN, FINANCE_COLUMN = "capital\npaid", "fees, interest,\nreserve"
LOANS_COLUMN, BRIDGE_COLUMN, OWN_COLUMN = "loans\ndrawn", "bridge loan\ndrawn, repaid", "own\nmoney"
FINANCE = (
    ("Loan fees", "fees_paid"),
    ("Interest while building", "interest_while_building"),
    ("Interest on the bridge loan while building", "bridge_cost_while_building"),
)


@dataclass(frozen=True)
class Use:
    """One line of the budget. capital: short name of the item, empty for costs of the funding."""

    label: str
    category: str
    capital: str
    cost: float
    eligible: float


@dataclass(frozen=True)
class Source:
    """One source. kind: grant, loan or own money; name: its short name; amount [money]."""

    kind: str
    name: str
    label: str
    amount: float


@dataclass(frozen=True, eq=False)
class Funds:
    """Uses and sources, whole and footing.

    costs, eligible (uses,), amounts (sources,), paid (uses, sources) [money]: rows of `paid` sum to costs, columns to amounts.
    """

    uses: tuple[Use, ...]
    sources: tuple[Source, ...]
    costs: Whole
    eligible: Whole
    amounts: Whole
    paid: Whole


def funds(appraisal: Appraisal) -> Funds:
    """Who pays which line: every grant in proportion to the cost it counts, loans and own money the rest alike."""
    uses, sources = _uses(appraisal), _sources(appraisal)
    exact = _shares(appraisal, uses, sources)
    costs, amounts = whole(np.array([use.cost for use in uses])), whole(np.array([s.amount for s in sources]))
    eligible = whole(np.array([use.eligible for use in uses]))
    return Funds(uses, sources, costs, eligible, amounts, crossed(exact, rows=costs, columns=amounts))


def _sum(appraisal: Appraisal, name: str) -> float:
    return float(appraisal.values[name][0].sum())


def _uses(appraisal: Appraisal) -> tuple[Use, ...]:
    made = [
        Use(
            item.label or name,
            item.category,
            name,
            -_sum(appraisal, f"capital.{name}.spend"),
            _sum(appraisal, f"capital.{name}.eligible"),
        )
        for name, item in appraisal.loaded.scenario.capital.items()
    ]
    made.sort(key=lambda use: use.category)
    made += [Use(label, "funding", "", -_sum(appraisal, name), 0.0) for label, name in FINANCE]
    reserve = sum(
        float(appraisal.values[f"loan.{name}.reserve_from_start"][0, 0]) for name in appraisal.loaded.scenario.loan
    )
    made.append(Use("Reserve for debt service", "funding", "", reserve, 0.0))
    return tuple(use for use in made if use.cost)


def _sources(appraisal: Appraisal) -> tuple[Source, ...]:
    scenario, values = appraisal.loaded.scenario, appraisal.values
    return (
        *(
            Source("grant", name, grant.label or name, _sum(appraisal, f"grant.{name}.received"))
            for name, grant in scenario.grant.items()
        ),
        *(
            Source("loan", name, loan.label or name, float(values[f"loan.{name}.sum"][0, 0]))
            for name, loan in scenario.loan.items()
        ),
        Source(OWN, "", _own_label(appraisal), float(values["own_money_needed"][0, 0])),
    )


def _own_label(appraisal: Appraisal) -> str:
    return "The partners' own money" if appraisal.loaded.scenario.partner else "The family's own money"


def _shares(appraisal: Appraisal, uses: tuple[Use, ...], sources: tuple[Source, ...]) -> Array:
    """Exact amounts (uses, sources) [money]."""
    left = np.array([use.cost for use in uses])
    columns = []
    for source in sources:
        if source.kind == "grant":
            counted = np.array([_counted(appraisal, use, source.name) for use in uses])
            part = counted * (source.amount / counted.sum()) if counted.sum() else np.zeros(len(uses))
            left = left - part
            columns.append(part)
    others = [source.amount for source in sources if source.kind != "grant"]
    rest = sum(others)
    columns += [left * (amount / rest if rest else 0.0) for amount in others]
    return np.column_stack(columns)


def _counted(appraisal: Appraisal, use: Use, grant: str) -> float:
    """Cost of one line that a grant counts: what is eligible and paid from its first month on [money]."""
    if not use.capital:
        return 0.0
    start = appraisal.loaded.scenario.grant[grant].eligible_from_month
    return float(appraisal.values[f"capital.{use.capital}.eligible"][0, start:].sum())


@dataclass(frozen=True, eq=False)
class Quarters:
    """Money while building, by quarter from month 0: labels, and columns (quarters,) of whole amounts by heading.

    All flows of a quarter sum to nothing, own money included. No flows: `eligible`, what was paid that a grant may count, and
    `bridge_owed`, a balance at the quarter's end.
    """

    names: tuple[str, ...]
    flows: dict[str, Whole]
    eligible: Whole
    bridge_owed: Whole


def quarters(appraisal: Appraisal) -> Quarters:
    """Uses and sources of the budget by quarter, until the last of them has moved; inflow positive."""
    values, asked = appraisal.values, funds(appraisal)
    months = values["investment"][0].shape
    flows = {name: np.broadcast_to(flow, months) for name, flow in _flows(appraisal).items()}
    last = max((int(np.flatnonzero(np.abs(flow) > TINY).max(initial=0)) for flow in flows.values()), default=0)
    count = last // MONTHS_OF_QUARTER + 1
    totals = _totals(appraisal, asked)
    shown = {
        name: whole(_by_quarter(flow, count), total=totals[name])
        for name, flow in flows.items()
        if np.abs(flow).max() > 0
    }
    shown |= {
        _head(grant.label or name): _by_quarter(claims(appraisal, name).astype(np.float64), count).astype(np.int64)
        for name, grant in appraisal.loaded.scenario.grant.items()
        if _head(grant.label or name) in shown
    }
    eligible = np.broadcast_to(values["eligible_cost"][0], months)
    owed = np.broadcast_to(values["bridge_owed_in_books"][0], months)
    ends = np.minimum(np.arange(1, count + 1) * MONTHS_OF_QUARTER, owed.size) - 1
    return Quarters(
        tuple(_name(appraisal, number) for number in range(count)),
        {**shown, OWN_COLUMN: -np.sum([np.zeros(count, dtype=np.int64), *shown.values()], axis=0)},
        whole(_by_quarter(eligible, count), total=int(asked.eligible.sum())),
        np.rint(owed[ends]).astype(np.int64),
    )


def claims(appraisal: Appraisal, grant: str) -> Whole:
    """Whole amounts of one grant by month (months,), which sum to what the funding match shows [money]."""
    asked = funds(appraisal)
    pairs = zip(asked.sources, asked.amounts.tolist(), strict=True)
    amount = next(amount for source, amount in pairs if (source.kind, source.name) == ("grant", grant))
    return whole(appraisal.values[f"grant.{grant}.received"][0], total=int(amount))


def _flows(appraisal: Appraisal) -> dict[str, Array]:
    """Every column by month [money/month]; a reserve filled from the start is paid in as its loan is drawn."""
    values, scenario = appraisal.values, appraisal.loaded.scenario
    finance = sum((values[name][0] for _, name in FINANCE), np.zeros(1))
    for name in scenario.loan:
        lent = float(values[f"loan.{name}.sum"][0, 0])
        if lent:
            part = float(values[f"loan.{name}.reserve_from_start"][0, 0]) / lent
            finance = finance - part * values[f"loan.{name}.drawn"][0]
    grants = {_head(grant.label or name): values[f"grant.{name}.received"][0] for name, grant in scenario.grant.items()}
    return {
        CAPITAL_COLUMN: values["investment"][0],
        FINANCE_COLUMN: finance,
        **grants,
        LOANS_COLUMN: values["loans_drawn"][0],
        BRIDGE_COLUMN: values["bridge_moves"][0],
    }


def _head(label: str) -> str:
    return f"grant:\n{label}"


def _totals(appraisal: Appraisal, asked: Funds) -> dict[str, int]:
    """What every column must come to, from the budget [money]."""
    capital = sum(int(cost) for use, cost in zip(asked.uses, asked.costs, strict=True) if use.capital)
    by_kind = {
        _head(source.label) if source.kind == "grant" else source.name: int(amount)
        for source, amount in zip(asked.sources, asked.amounts, strict=True)
    }
    loans = sum(int(a) for source, a in zip(asked.sources, asked.amounts, strict=True) if source.kind == "loan")
    others = {CAPITAL_COLUMN: -capital, FINANCE_COLUMN: capital - int(asked.costs.sum()), LOANS_COLUMN: loans}
    return {**by_kind, **others, BRIDGE_COLUMN: 0}


def _by_quarter(flow: Array, count: int) -> Array:
    padded = np.zeros(count * MONTHS_OF_QUARTER)
    kept = flow[: padded.size]
    padded[: kept.size] = kept
    summed: Array = padded.reshape(count, MONTHS_OF_QUARTER).sum(axis=1)
    return summed


def _name(appraisal: Appraisal, number: int) -> str:
    first = number * MONTHS_OF_QUARTER
    last = min(first + MONTHS_OF_QUARTER, appraisal.timeline.months) - 1
    return f"{appraisal.timeline.name(first)} to {appraisal.timeline.name(last)}"
