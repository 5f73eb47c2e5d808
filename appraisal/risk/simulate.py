"""Ten thousand futures of one scenario, and what they say of worth, cover and cash."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass
from math import ceil

import numpy as np
import numpy.typing as npt
import scipy

from appraisal import __version__
from appraisal.measures.returns import NONE
from appraisal.risk.draws import Draws, Settings, drawing
from appraisal.risk.events import BUILDING
from appraisal.risk.futures import Model, Outcomes, Progress, prepared_model, rows, run_blocks
from appraisal.risk.points import RiskError
from appraisal.risk.statistics import Estimate, Spread, chance, mean, spread
from appraisal.scenario.load import Loaded
from appraisal.scenario.quantity import MONTHS_PER_YEAR

Array = npt.NDArray[np.float64]
FAN_BLOCKS = 64  # of the first 65,536 draws the years are kept, so that a million futures stay small
FAN_SHARES = (0.1, 0.5, 0.9)
LEAST_RATE = -0.5  # under it a rate only says that late flows outweigh all others at an absurd discount (our choice)
STEPS = (16, 8, 4, 2, 1)  # the sample's parts that show how the figures settle


@dataclass(frozen=True)
class Settling:
    """What the first `draws` futures alone would have said: mean worth [money] and chance of a loss [1]."""

    draws: int
    mean_npv: float
    chance_of_loss: float


@dataclass(frozen=True, eq=False)
class Fan:
    """P10, P50 and P90 by project year (3, years); NaN in years without the figure in any future. draws: behind it."""

    draws: int
    cash: Array
    cover: Array


@dataclass(frozen=True)
class Happened:
    """One event over all futures.

    path: of the input that tells its time; words: what happens. chance: share of the futures that it hits [1].
    worth_hit, worth_spared: mean worth [money] of those and of the others, None where there are none. below_target: share
    of the futures hit [1] whose cover falls below the target in some year, None where none is hit.
    """

    path: str
    words: str
    chance: Estimate
    worth_hit: float | None
    worth_spared: float | None
    below_target: float | None


@dataclass(frozen=True, eq=False)
class Simulation:
    """All that is told of many futures of one scenario.

    paths: drawn values. idle: those that move nothing under the choices of the scenario.
    events: what hits some futures only, in file order. spreads: of npv [money], irr [1/year], least_cover [1], lowest_cash
    [money]. chances: by name, with errors.
    own_money: [money] that the family says it can put in. full_from_year: project year from which on every future is fed all
    twelve months. versions: of what the figures depend on.
    checks: name of each check -> futures in which it fails.
    """

    loaded: Loaded
    settings: Settings
    paths: tuple[str, ...]
    idle: tuple[str, ...]
    outcomes: Outcomes
    central: Outcomes
    spreads: Mapping[str, Spread | None]
    events: tuple[Happened, ...]
    chances: Mapping[str, Estimate]
    own_money: float
    full_from_year: int
    fan: Fan
    settling: tuple[Settling, ...]
    checks: Mapping[str, int]
    versions: Mapping[str, str]


def simulate(loaded: Loaded, settings: Settings, *, workers: int = 1, progress: Progress | None = None) -> Simulation:
    """Draw futures of a scenario and run every one through the whole model.

    The result is the same for the same settings, on one worker or on several. Raises RiskError when nothing carries a
    range.
    """
    draws = drawing(loaded, settings)
    case = prepared_model(loaded, draws.paths)
    made = outcomes_of(draws, case, workers=workers, progress=progress)
    return summed_up(loaded, draws, case, made)


def outcomes_of(draws: Draws, case: Model, *, workers: int = 1, progress: Progress | None = None) -> Outcomes:
    """Outcomes of every draw, in order."""
    draws.cube.hold()
    return run_blocks(
        case, draws.block, blocks=draws.cube.blocks, fan_blocks=FAN_BLOCKS, workers=workers, progress=progress
    )


def summed_up(loaded: Loaded, draws: Draws, case: Model, made: Outcomes) -> Simulation:
    """Sum up outcomes."""
    central = central_case(loaded, draws)
    own_money, building = loaded.scenario.judging.own_money_amount, loaded.scenario.project.build_months
    samples = {name: getattr(made, name) for name in ("npv", "irr", "least_cover", "lowest_cash")}
    samples["irr"] = np.where(no_rate(made), np.nan, made.irr)
    return Simulation(
        loaded=loaded,
        settings=draws.settings,
        paths=draws.paths,
        idle=case.idle,
        outcomes=made,
        central=central,
        spreads={name: spread(sample, float(getattr(central, name)[0])) for name, sample in samples.items()},
        events=happened(made, case, target=loaded.scenario.judging.least_cover),
        chances=chances(made, target=loaded.scenario.judging.least_cover, own_money=own_money),
        own_money=own_money,
        full_from_year=ceil((draws.curves[BUILDING].high if BUILDING in draws.curves else building) / MONTHS_PER_YEAR) + 1,
        fan=fan(made),
        settling=settling(made.npv),
        checks={check.name: int(count) for check, count in zip(case.checks, made.failed, strict=True)},
        versions=versions(),
    )


def central_case(loaded: Loaded, draws: Draws) -> Outcomes:
    """The scenario's own values as a batch of one."""
    return rows(loaded, draws.central)


def chances(made: Outcomes, *, target: float, own_money: float) -> Mapping[str, Estimate]:
    """Shares of the futures [1] in which something goes wrong.

    target: least cover wanted [1]. own_money: how far the account may fall below zero [money].
    """
    no_debt = np.isnan(made.least_cover)
    cover = np.where(no_debt, np.inf, made.least_cover)
    return {
        "npv_below_zero": chance(made.npv < 0),
        "npv_below_zero_at_loan_rate": chance(made.npv_at_loan_rate < 0),
        "cover_below_target_in_some_year": chance(cover < target),
        "cover_below_one_in_some_year": chance(cover < 1),
        "cash_below_own_money": chance(made.lowest_cash < -own_money),
        "no_rate_of_return": chance(no_rate(made)),
    }


def no_rate(made: Outcomes) -> npt.NDArray[np.bool_]:
    """Futures (draws,) without a rate of return, or with one under `LEAST_RATE` only."""
    return np.asarray((made.irr_status == NONE) | ~(made.irr >= LEAST_RATE))


def happened(made: Outcomes, case: Model, *, target: float) -> tuple[Happened, ...]:
    """How often each event hit, and what the futures are worth that it hit. target: least cover wanted [1]."""

    def of(sample: Array) -> float | None:
        return mean(sample) if sample.size else None

    short = (made.least_cover < target).astype(np.float64)
    return tuple(
        Happened(
            each.path, each.words, chance(hits), of(made.npv[hits]), of(made.npv[~hits]), of(short[hits])
        )
        for each, hits in zip(case.events, made.happened.T, strict=True)
    )


def fan(made: Outcomes) -> Fan:
    """Quantiles by project year of the account and of the cover."""
    return Fan(made.cash_by_year.shape[0], _by_year(made.cash_by_year), _by_year(made.cover_by_year))


def _by_year(sample: npt.NDArray[np.float32]) -> Array:
    out = np.full((len(FAN_SHARES), sample.shape[1]), np.nan)
    for year in range(sample.shape[1]):
        column = sample[:, year].astype(np.float64)
        column = column[np.isfinite(column)]
        if column.size:
            out[:, year] = np.quantile(column, FAN_SHARES)
    return out


def settling(npv: Array) -> tuple[Settling, ...]:
    """The mean worth and the chance of a loss after a sixteenth, an eighth ... and all of the draws."""
    counts = dict.fromkeys(max(npv.size // part, 1) for part in STEPS)
    return tuple(Settling(count, mean(npv[:count]), float((npv[:count] < 0).mean())) for count in counts)


def versions() -> Mapping[str, str]:
    """Versions of the program and of the libraries that decide on the digits."""
    return {"appraisal": __version__, "numpy": np.__version__, "scipy": scipy.__version__}


__all__ = ["RiskError", "Simulation", "simulate"]
