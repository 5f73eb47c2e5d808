"""The smallest grant with which the plan reaches its targets, found in the whole model.

For worth nothing is at least needed, all else as planned: worth counts no loan. For cover a larger grant takes the place of loans
and a smaller one is made up by them, so that the family's own money stays as planned: beside unchanged loans a grant would only
save own money, and never debt service.
"""

from __future__ import annotations

from dataclasses import dataclass
from typing import Literal

import numpy as np
import numpy.typing as npt

from appraisal.appraise import Appraisal, appraise
from appraisal.risk.changes import changed_scenario
from appraisal.risk.futures import outcomes, prepared_model
from appraisal.risk.reverse import Measure, break_even
from appraisal.scenario.load import Loaded

NO_CEILING = 1e9  # money; the widest limit of the field
STEPS, ROUNDS = 100, 3  # a hundredth of the last step each round: to a millionth of the eligible cost
Status = Literal["none needed", "found", "no grant reaches it", "not asked"]
Array = npt.NDArray[np.float64]


@dataclass(frozen=True)
class Least:
    """One target. share [share of eligible cost] and amount [money] of the smallest grant; None where the status says why.

    loans: what is lent beside it [money], where the grant takes the place of loans.
    """

    measure: Measure
    limit: float
    status: Status
    share: float | None
    amount: float | None
    loans: float | None = None


@dataclass(frozen=True)
class LeastGrant:
    """The smallest grant in place of the one called `grant`, all others as planned, its ceiling lifted.

    grant: short name, empty where the plan has no grant: then nothing was searched. targets: worth at least nothing, and
    cover at least the one wanted.
    """

    grant: str
    targets: tuple[Least, ...]


def without_grants(loaded: Loaded) -> Appraisal | None:
    """The same plan with every grant at nothing, loans and all else as they are; None where there is no grant."""
    names = loaded.scenario.grant
    return appraise(changed_scenario(loaded, {path(name): 0.0 for name in names})) if names else None


def path(name: str) -> str:
    """Path of a grant's share of the eligible cost."""
    return f"grant.{name}.share_of_eligible"


def least_grant(loaded: Loaded) -> LeastGrant:
    """Search for the grant asked for, the first public one of the scenario; shares up to all of the eligible cost."""
    grants = loaded.scenario.grant
    name = next((each for each, grant in grants.items() if grant.public == "yes"), "")
    if not name:
        return LeastGrant("", ())
    lifted = changed_scenario(loaded, {f"grant.{name}.at_most": NO_CEILING, path(name): 0.0})
    start = appraise(lifted)
    counted = float(start.values[f"grant.{name}.counts_from"][0].sum())
    stated = {n: loan.amount for n, loan in loaded.scenario.loan.items() if loan.size == "amount" and loan.amount > 0}
    wanted = loaded.scenario.judging.least_cover
    if start.headline.dscr_min.words[0] == "no debt due":
        cover = Least("least_cover", wanted, "not asked", None, None)
    elif stated and counted > 0:
        planned = float(appraise(loaded).values[f"grant.{name}.received"][0].sum())
        cover = _for_cover(lifted, name, stated, counted=counted, planned=planned)
    else:
        cover = _crossing(lifted, start, name, counted, "least_cover", wanted)
    return LeastGrant(name, (_crossing(lifted, start, name, counted, "npv", 0.0), cover))


def _crossing(lifted: Loaded, start: Appraisal, name: str, counted: float, measure: Measure, limit: float) -> Least:
    """The nearest share at which a measure meets its limit, all else as planned."""
    head = start.headline
    now = float(head.npv[0]) if measure == "npv" else float(head.dscr_min.value[0])
    if now >= limit:
        return Least(measure, limit, "none needed", 0.0, 0.0)
    found = break_even(lifted, path(name), measure=measure, limit=limit)
    if found.value is None or found.status != "meets":
        return Least(measure, limit, "no grant reaches it", None, None)
    return Least(measure, limit, "found", found.value, found.value * counted)


def _for_cover(lifted: Loaded, name: str, stated: dict[str, float], *, counted: float, planned: float) -> Least:
    """The smallest share at which cover meets the one wanted, loans of a stated amount giving way to the grant.

    counted: eligible cost [money]; planned: the grant as planned [money]. A plan without any loan left has cover enough.
    """
    lent, limit = sum(stated.values()), lifted.scenario.judging.least_cover
    amounts = {f"loan.{each}.amount": amount for each, amount in stated.items()}
    model = prepared_model(lifted, (path(name), *amounts))

    def loans(shares: Array) -> Array:
        return np.clip(lent + planned - shares * counted, 0.0, None)

    def enough(shares: Array) -> npt.NDArray[np.bool_]:
        """Whether the least cover [1] reaches its limit at each share [1] of the grant; without debt it does."""
        factor = loans(shares) / lent
        columns = {path(name): shares, **{where: amount * factor for where, amount in amounts.items()}}
        cover = outcomes(model, {where: column[:, None] for where, column in columns.items()}).least_cover
        return np.where(np.isnan(cover), np.inf, cover) >= limit

    low, high = 0.0, 1.0
    for _ in range(ROUNDS):
        shares = np.linspace(low, high, STEPS + 1)
        met = enough(shares)
        if met[0]:
            return Least("least_cover", limit, "none needed", 0.0, 0.0, lent + planned)
        if not met.any():
            return Least("least_cover", limit, "no grant reaches it", None, None)
        first = int(np.argmax(met))
        low, high = float(shares[first - 1]), float(shares[first])
    return Least("least_cover", limit, "found", high, high * counted, float(loans(np.array([high]))[0]))
