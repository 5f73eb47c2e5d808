"""One project year in a good, a middle and a bad future, month by month, and the cover when every bad case comes at once."""

from __future__ import annotations

from dataclasses import dataclass

import numpy as np
import numpy.typing as npt

from appraisal.lines.evaluate import MONTHS
from appraisal.lines.prepared import BLOCK
from appraisal.risk.changes import changed_scenario, changed_values, outcomes_of_cases
from appraisal.risk.draws import drawing
from appraisal.risk.futures import lines_of, prepared_model
from appraisal.risk.points import RiskError
from appraisal.risk.simulate import Simulation
from appraisal.risk.stress import StressTest

Array = npt.NDArray[np.float64]
SHARES = {"good": 0.9, "middle": 0.5, "bad": 0.1}
TOGETHER = "all_together"


@dataclass(frozen=True, eq=False)
class YearOfFuture:
    """One project year of one future.

    name: good, middle or bad. share: of the futures whose year brings less or the same [1]. draw: its number, from 0.
    opening: account before the year [money]. balance: account at the end of its twelve months (12,) [money].
    """

    name: str
    share: float
    draw: int
    opening: float
    balance: Array

    @property
    def gain(self) -> float:
        """What the year adds to the account [money]."""
        return float(self.balance[-1] - self.opening)


@dataclass(frozen=True, eq=False)
class ThreeYears:
    """The same project year in three futures, ranked by what that year adds to the account. futures: ranked."""

    year: int
    futures: int
    years: tuple[YearOfFuture, ...]


def three_years(found: Simulation, *, year: int) -> ThreeYears:
    """The futures at P90, P50 and P10 of what one project year adds to the account, run again month by month.

    year: project year from 1. Ranked are the futures of which the years are kept. Raises RiskError on a year outside.
    """
    kept = found.outcomes.cash_by_year.astype(np.float64)
    if not 1 <= year <= kept.shape[1]:
        raise RiskError(f"project year {year}: there are years 1 to {kept.shape[1]}")
    gains = kept[:, year - 1] - (kept[:, year - 2] if year > 1 else 0.0)
    ranked = np.argsort(gains, kind="stable")
    draws = drawing(found.loaded, found.settings)
    draws.cube.hold()
    case = prepared_model(found.loaded, draws.paths)
    made = []
    for name, share in SHARES.items():
        draw = int(ranked[round(share * (ranked.size - 1))])
        block = draws.block(draw // BLOCK)
        row = {path: column[[draw % BLOCK]] for path, column in block.items()}
        balance = lines_of(case, row)["bank_balance"][0]
        start = (year - 1) * MONTHS
        opening = float(balance[start - 1]) if start else 0.0
        made.append(YearOfFuture(name, share, draw, opening, np.array(balance[start : start + MONTHS])))
    return ThreeYears(year, int(ranked.size), tuple(made))


def combined_cover(found: StressTest) -> Array | None:
    """Cover by project year (years,) [1] when every ready-made bad case comes at once; None where that is impossible."""
    joint = next((each for each in found.cases if each.case.name == TOGETHER and each.npv is not None), None)
    if joint is None:
        return None
    reading = changed_scenario(found.loaded, changed_values(found.loaded, joint.case.changes))
    cover: Array = outcomes_of_cases(found.loaded, [reading]).cover_by_year[0].astype(np.float64)
    return cover
