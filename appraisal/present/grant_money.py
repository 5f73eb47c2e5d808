"""The money of a grant request in whole amounts that foot: uses by line, sources, who pays which line."""

from __future__ import annotations

from dataclasses import dataclass

import numpy as np
import numpy.typing as npt

from appraisal.appraise import Appraisal
from appraisal.present.footing import Whole, crossed, whole

Array = npt.NDArray[np.float64]
TINY = 0.005  # money; less than half a cent is nothing
OWN = "own money"
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
    labels = source_labels(appraisal)
    return (
        *(
            Source("grant", name, labels["grant", name], _sum(appraisal, f"grant.{name}.received"))
            for name in scenario.grant
        ),
        *(
            Source("loan", name, labels["loan", name], float(values[f"loan.{name}.sum"][0, 0]))
            for name in scenario.loan
        ),
        Source(OWN, "", _own_label(appraisal), float(values["own_money_needed"][0, 0])),
    )


def source_labels(appraisal: Appraisal) -> dict[tuple[str, str], str]:
    """What each grant and loan is called, by kind and short name; where two are called alike, the short name stands behind."""
    scenario = appraisal.loaded.scenario
    items = [("grant", name, item.label) for name, item in scenario.grant.items()]
    items += [("loan", name, item.label) for name, item in scenario.loan.items()]
    called = [_plain(label or name) for _, name, label in items]
    return {
        (kind, name): (label or name)
        if called.count(_plain(label or name)) == 1
        else f"{label or name} ({kind} {name})"
        for kind, name, label in items
    }


def _plain(label: str) -> str:
    """A label as it looks in a head."""
    return " ".join(label.split()).lower()


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


def claims(appraisal: Appraisal, grant: str) -> Whole:
    """Whole amounts of one grant by month (months,), which sum to what the funding match shows [money]."""
    asked = funds(appraisal)
    pairs = zip(asked.sources, asked.amounts.tolist(), strict=True)
    amount = next(amount for source, amount in pairs if (source.kind, source.name) == ("grant", grant))
    return whole(appraisal.values[f"grant.{grant}.received"][0], total=int(amount))
