"""The money of a grant request by quarter, in whole amounts that tie to the budget and its sources."""

from __future__ import annotations

from dataclasses import dataclass

import numpy as np
import numpy.typing as npt

from appraisal.appraise import Appraisal
from appraisal.present.footing import Whole, whole
from appraisal.present.grant_money import FINANCE, TINY, Funds, claims, funds, source_labels

Array = npt.NDArray[np.float64]
MONTHS_OF_QUARTER = 3
CAPITAL_COLUMN, FINANCE_COLUMN = "capital\npaid", "fees, interest,\nreserve"
LOANS_COLUMN, BRIDGE_COLUMN, OWN_COLUMN = "loans\ndrawn", "bridge loan\ndrawn, repaid", "own\nmoney"


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
    totals, labels = _totals(appraisal, asked), source_labels(appraisal)
    shown = {
        name: whole(_by_quarter(flow, count), total=totals[name])
        for name, flow in flows.items()
        if np.abs(flow).max() > 0
    }
    shown |= {
        _head(labels["grant", name]): _by_quarter(claims(appraisal, name).astype(np.float64), count).astype(np.int64)
        for name in appraisal.loaded.scenario.grant
        if _head(labels["grant", name]) in shown
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


def _flows(appraisal: Appraisal) -> dict[str, Array]:
    """Every column by month [money/month]; a reserve filled from the start is paid in as its loan is drawn."""
    values, scenario = appraisal.values, appraisal.loaded.scenario
    finance = sum((values[name][0] for _, name in FINANCE), np.zeros(1))
    for name in scenario.loan:
        lent = float(values[f"loan.{name}.sum"][0, 0])
        if lent:
            part = float(values[f"loan.{name}.reserve_from_start"][0, 0]) / lent
            finance = finance - part * values[f"loan.{name}.drawn"][0]
    labels = source_labels(appraisal)
    grants = {_head(labels["grant", name]): values[f"grant.{name}.received"][0] for name in scenario.grant}
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
