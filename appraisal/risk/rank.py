"""Which assumption decides: swings, rank correlations and variance shares of one scenario, the strongest first."""

from __future__ import annotations

from dataclasses import dataclass, replace

import numpy as np
import numpy.typing as npt

from appraisal.lines.prepared import BLOCK
from appraisal.risk.draws import Draws, Settings, drawing
from appraisal.risk.futures import Model, Progress, outcomes, prepared_model, run_blocks
from appraisal.risk.points import RiskError
from appraisal.risk.ranks import Together, together
from appraisal.risk.shares import CORRELATED, Shares, variance_shares
from appraisal.risk.swings import Swings, swings_by_share, swings_to_quantiles
from appraisal.scenario.load import Loaded

Array = npt.NDArray[np.float64]
SHARE_DRAWS = 1024  # of each of the two base samples of the variance shares


@dataclass(frozen=True, eq=False)
class Ranking:
    """Causes of one scenario.

    paths: ranges in file order and movements of prices, as in `causes` and `shares`. idle: drawn values that move nothing.
    swings: at P10 and P90, or by a share. warning: on correlated inputs, empty when there are none.
    """

    loaded: Loaded
    settings: Settings
    paths: tuple[str, ...]
    idle: tuple[str, ...]
    swings: Swings
    causes: Together
    shares: Shares
    warning: str


def rank(
    loaded: Loaded,
    settings: Settings,
    *,
    by_share: float | None = None,
    workers: int = 1,
    progress: Progress | None = None,
) -> Ranking:
    """Rank what moves the net present value.

    by_share: move each input by this share [1] for the swings, not to its P10 and P90. Raises RiskError when nothing
    is drawn, or nothing that is drawn moves the worth.
    """
    draws = drawing(loaded, settings)
    case = prepared_model(loaded, draws.paths)
    draws.cube.hold()
    made = run_blocks(case, draws.block, blocks=draws.cube.blocks, fan_blocks=0, workers=workers, progress=progress)
    if np.ptp(made.npv) == 0:
        raise RiskError(f"the worth is the same in every future; what is drawn moves nothing: {', '.join(draws.causes)}")
    inputs = np.concatenate([stand_ins(draws, draws.cube.shares(number)) for number in range(draws.cube.blocks)])
    return Ranking(
        loaded=loaded,
        settings=settings,
        paths=tuple(draws.causes),
        idle=case.idle,
        swings=swings_to_quantiles(loaded) if by_share is None else swings_by_share(loaded, by_share),
        causes=together(inputs, made.npv),
        shares=shares_of(draws, case),
        warning=CORRELATED if draws.cube.joined else "",
    )


def stand_ins(draws: Draws, shares: Array) -> Array:
    """One column for each cause (rows, causes): shares of futures below of a range; of a movement its mean over the years."""
    walks = {walk.name: walk for walk in draws.walks}
    columns = [
        walks[name].logarithms(shares[:, list(places)])[:, : walks[name].years].mean(axis=1)
        if name in walks
        else shares[:, places[0]]
        for name, places in draws.causes.items()
    ]
    return np.column_stack(columns)


def shares_of(draws: Draws, case: Model) -> Shares:
    """Variance shares of the net present value, every drawn value by itself and with the others."""

    def worth(cube: Array) -> Array:
        parts = (cube[start : start + BLOCK] for start in range(0, cube.shape[0], BLOCK))
        return np.concatenate([outcomes(case, draws.at(part)).npv for part in parts])

    base = replace(draws.settings, draws=SHARE_DRAWS)
    return variance_shares(
        worth,
        dimensions=len(draws.cube.paths),
        draws=base.draws,
        seed=base.seed,
        method=base.method,
        groups=tuple(draws.causes.values()),
    )
