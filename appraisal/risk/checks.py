"""What must hold in every single future: balances of gas and money, loans that end at zero."""

from __future__ import annotations

from collections.abc import Callable, Mapping
from dataclasses import dataclass, field

import numpy as np
import numpy.typing as npt

from appraisal.lines.plan import Plan
from appraisal.lines.trace import total

Array = npt.NDArray[np.float64]
Values = Mapping[str, Array]
CLOSE = 1e-9  # of the largest figure of the draw


@dataclass(frozen=True)
class Check:
    """One identity: its name in words, the lines it reads, and the two sides that must be equal.

    sums: lines that it reads only together, by the name of their sum.
    """

    name: str
    reads: tuple[str, ...]
    sides: Callable[[Values], tuple[Array, Array]]
    sums: Mapping[str, tuple[str, ...]] = field(default_factory=dict)

    @property
    def rests_on(self) -> set[str]:
        """Every line it needs."""
        return {*self.reads, *(name for names in self.sums.values() for name in names)}


GAS_GOES = ("methane_burned", "methane_to_upgrading", "methane_to_boiler", "methane_flared", "methane_leaked")


def checks_of(plan: Plan) -> tuple[Check, ...]:
    """The identities that the lines of a plan allow to check."""
    money = tuple(name for name, node in plan.nodes.items() if node.line.role)
    loans = tuple(name for name in plan.nodes if name.startswith("loan.") and name.endswith(".closing"))
    made = [
        Check(
            "methane made is burned, upgraded, flared or leaked",
            ("methane_made",),
            lambda v: (v["methane_made"], v["methane that goes"]),
            {"methane that goes": GAS_GOES},
        ),
        Check(
            "all money lines add up to the change of the account",
            ("net_cash",),
            lambda v: (v["money lines"], v["net_cash"]),
            {"money lines": money},
        ),
        Check(
            "the account is the running total of the cash",
            ("net_cash", "bank_balance"),
            lambda v: (np.cumsum(v["net_cash"], axis=1), v["bank_balance"]),
        ),
        Check("loans end at zero", loans, lambda v: _loans(v, loans)),
    ]
    return tuple(check for check in made if check.reads and check.rests_on <= set(plan.nodes))


def failing(check: Check, lines: dict[str, Array]) -> npt.NDArray[np.bool_]:
    """Draws in which a check does not hold; shape (draws,)."""
    left, right = check.sides(lines | _summed(check, lines))
    size = np.maximum(np.abs(right).max(axis=1), np.abs(left).max(axis=1))
    return np.asarray(~(np.abs(left - right).max(axis=1) <= CLOSE * size))


def _summed(check: Check, lines: Values) -> dict[str, Array]:
    """The sums of a check that are not among the lines."""
    missing = (name for name in check.sums if name not in lines)
    return {name: np.asarray(total([lines[each] for each in check.sums[name]])) for name in missing}


def _loans(lines: Values, names: tuple[str, ...]) -> tuple[Array, Array]:
    """The debt of every loan, and the same with nothing owed in the last month."""
    debt = np.concatenate([lines[name] for name in names], axis=1)
    months = lines[names[0]].shape[1]
    settled = debt.copy()
    settled[:, months - 1 :: months] = 0.0
    return debt, settled
