"""What must hold in every single future: balances of gas and money, loans that end at zero."""

from __future__ import annotations

from collections.abc import Callable, Mapping
from dataclasses import dataclass

import numpy as np
import numpy.typing as npt

from appraisal.lines.plan import Plan

Array = npt.NDArray[np.float64]
Values = Mapping[str, Array]
CLOSE = 1e-9  # of the largest figure of the draw


@dataclass(frozen=True)
class Check:
    """One identity: its name in words, the lines it reads, and the two sides that must be equal."""

    name: str
    reads: tuple[str, ...]
    sides: Callable[[Values], tuple[Array, Array]]


GAS_GOES = ("methane_burned", "methane_to_upgrading", "methane_to_boiler", "methane_flared", "methane_leaked")


def checks_of(plan: Plan) -> tuple[Check, ...]:
    """The identities that the lines of a plan allow to check."""
    money = tuple(name for name, node in plan.nodes.items() if node.line.role)
    loans = tuple(name for name in plan.nodes if name.startswith("loan.") and name.endswith(".closing"))
    made = [
        Check(
            "methane made is burned, upgraded, flared or leaked",
            ("methane_made", *GAS_GOES),
            lambda v: (v["methane_made"], _added(v, GAS_GOES)),
        ),
        Check(
            "all money lines add up to the change of the account",
            (*money, "net_cash"),
            lambda v: (_added(v, money), v["net_cash"]),
        ),
        Check(
            "the account is the running total of the cash",
            ("net_cash", "bank_balance"),
            lambda v: (np.cumsum(v["net_cash"], axis=1), v["bank_balance"]),
        ),
        Check("loans end at zero", loans, lambda v: _loans(v, loans)),
    ]
    return tuple(check for check in made if check.reads and set(check.reads) <= set(plan.nodes))


def failing(check: Check, lines: Values) -> npt.NDArray[np.bool_]:
    """Draws in which a check does not hold; shape (draws,)."""
    left, right = check.sides(lines)
    size = np.maximum(np.abs(right).max(axis=1), np.abs(left).max(axis=1))
    return np.asarray(~(np.abs(left - right).max(axis=1) <= CLOSE * size))


def _added(lines: Values, names: tuple[str, ...]) -> Array:
    total = np.zeros((1, 1))
    for name in names:
        total = total + lines[name]
    return total


def _loans(lines: Values, names: tuple[str, ...]) -> tuple[Array, Array]:
    """The debt of every loan, and the same with nothing owed in the last month."""
    debt = np.concatenate([lines[name] for name in names], axis=1)
    months = lines[names[0]].shape[1]
    settled = debt.copy()
    settled[:, months - 1 :: months] = 0.0
    return debt, settled
