"""The eight sides a worth is told from: project or owner, before or after tax, nominal or real."""

from __future__ import annotations

from dataclasses import dataclass

from appraisal.measures.views import CASH


@dataclass(frozen=True)
class Side:
    """One side: short name used before its lines, words for people, line of its cash, whether in real money."""

    key: str
    words: str
    cash: str
    real: bool


SIDES = tuple(
    Side(
        f"{whose}_{tax.split()[0]}_{money}",
        f"{whose}, {tax}, {money}",
        cash,
        money == "real",
    )
    for (whose, tax), cash in CASH.items()
    for money in ("nominal", "real")
)
RATES = ("discount", "finance", "reinvest")
