"""Many cases of one scenario through the whole model: blocks of draws in, a few numbers a draw out.

Row i of a batch is exactly what the single run of the same values gives; a test holds that for every demo.
"""

from __future__ import annotations

from collections.abc import Callable, Iterator, Mapping
from dataclasses import dataclass, fields

import numpy as np
import numpy.typing as npt

from appraisal import model
from appraisal.lines.evaluate import MONTHS
from appraisal.lines.prepared import BLOCK, Prepared, evaluate_block, prepare
from appraisal.measures.cover import NO_DEBT_DUE, least_cover
from appraisal.measures.discounting import npv
from appraisal.measures.headline import full_years, yearly_cover
from appraisal.measures.returns import Rates, irr
from appraisal.measures.worst_months import least_in_full
from appraisal.risk.checks import Check, checks_of, failing
from appraisal.risk.events import Happening, happenings, hit
from appraisal.risk.points import RiskError
from appraisal.risk.workers import in_order
from appraisal.scenario.load import Loaded
from appraisal.scenario.quantity import SERIES
from appraisal.scenario.values import Structure, structure, values
from appraisal.timeline import Timeline

Array = npt.NDArray[np.float64]
Columns = Mapping[str, Array]
Progress = Callable[[int, int], None]
KEEP = (
    *("project_cash", "cash_available_for_debt_service", "debt_service", "feeding", "closed", "bank_balance"),
    *("reserves_held", "first_full_year"),
)
YARDSTICKS = ("judging.discount_rate", "judging.least_cover")


@dataclass(frozen=True, eq=False)
class Model:
    """One scenario made ready for many cases.

    drawn: paths whose values change from case to case. rates: names of the loan inputs that make the loan rate.
    idle: drawn paths that nothing reads under the choices of this scenario, so that they move no result. events: whose
    time is drawn, and read.
    """

    loaded: Loaded
    structure: Structure
    timeline: Timeline
    prepared: Prepared
    drawn: tuple[str, ...]
    rates: tuple[tuple[str, str], ...]
    idle: tuple[str, ...]
    checks: tuple[Check, ...]
    events: tuple[Happening, ...]


@dataclass(frozen=True, eq=False)
class Outcomes:
    """What is kept of each draw.

    npv, npv_at_loan_rate (draws,) [money] at the discount rate and at the mean rate of the loans; irr (draws,) [1/year],
    NaN where there is none, irr_status as `Rates`; least_cover (draws,) [1], NaN where no debt is due in a full year;
    lowest_cash (draws,) [money] of the account; lowest_month (draws,) [month]; cash_once_running (draws,) [money]: the lowest
    that account and reserves come to against the start of the first full year, below zero where the family pays in again, NaN
    where no full year comes.
    cash_by_year [money] at year ends and cover_by_year [1] (draws, years), single precision.
    happened (draws, events): whether each event of the model hit.
    failed (checks,) number of draws in which each check fails.
    """

    npv: Array
    npv_at_loan_rate: Array
    irr: Array
    irr_status: npt.NDArray[np.int8]
    least_cover: Array
    lowest_cash: Array
    lowest_month: npt.NDArray[np.int16]
    cash_once_running: Array
    cash_by_year: npt.NDArray[np.float32]
    cover_by_year: npt.NDArray[np.float32]
    happened: npt.NDArray[np.bool_]
    failed: npt.NDArray[np.int64]

    @property
    def draws(self) -> int:
        """Number of draws."""
        return int(self.npv.shape[0])

    @property
    def bytes_per_draw(self) -> float:
        """Memory kept [bytes/draw]."""
        held = sum(int(getattr(self, each.name).nbytes) for each in fields(self) if each.name != "failed")
        return held / self.draws


def prepared_model(loaded: Loaded, drawn: tuple[str, ...]) -> Model:
    """A scenario ready for cases in which the values at `drawn` differ; raises RiskError on what is no number and no series."""
    shape, flat = structure(loaded.scenario), values(loaded.scenario)
    unknown = [path for path in drawn if path not in flat or flat[path].shape[1] not in (1, *SERIES.values())]
    if unknown:
        raise RiskError(f"{', '.join(unknown)}: no single number of this scenario, and no value by month or project year")
    plan = model.plan_of(shape)
    rates = tuple((f"loan.{name}.rate", f"loan.{name}.amount") for name in shape.items["loan"])
    checks = checks_of(plan)
    keep = dict.fromkeys((*KEEP, *YARDSTICKS, *(name for pair in rates for name in pair)))
    for check in checks:
        keep |= dict.fromkeys(check.reads)
    sums = {name: names for check in checks for name, names in check.sums.items()}
    prepared = prepare(plan, model.inputs(shape, flat), drawn=drawn, keep=tuple(keep), sums=sums)
    read = {ref.name for step in prepared.steps for node in step.nodes for ref in node.refs()} | set(YARDSTICKS)
    idle = tuple(path for path in drawn if path not in read)
    events = happenings(loaded, tuple(path for path in drawn if path not in idle))
    return Model(loaded, shape, model.timeline(shape), prepared, drawn, rates, idle, checks, events)


def limits_hold(loaded: Loaded, columns: Columns) -> None:
    """Check every column against its field's own limits; raises RiskError with the path, the value and what is allowed.

    Prices that wander are bounded by their own spread (`walks.FURTHEST`), not by the limits for what is typed.
    """
    for path, column in columns.items():
        item = loaded.assumptions[path].declaration
        if item.kind == "path":
            continue
        low, high = float(column.min()), float(column.max())
        for value in (low, high):
            if (
                not np.isfinite(value)
                or (item.low is not None and value < item.low)
                or (item.high is not None and value > item.high)
            ):
                raise RiskError(f"{path}: {value:.10g} {item.unit} lies outside the allowed {item.allowed()}")


def outcomes(case: Model, columns: Columns) -> Outcomes:
    """Run one block of cases.

    columns: path -> (cases, 1), or (cases, 60) by year, for every path in `case.drawn`. Raises RiskError where a value
    breaks its field's limits.
    """
    limits_hold(case.loaded, columns)
    lines = lines_of(case, columns)
    cash, balance = np.ascontiguousarray(lines["project_cash"]), lines["bank_balance"]
    cover = yearly_cover(lines)
    least = least_cover(cover, full_years=full_years(lines))
    rate: Rates = irr(cash, MONTHS)
    return Outcomes(
        npv=npv(cash, lines["judging.discount_rate"]),
        npv_at_loan_rate=npv(cash, _loan_rate(case, lines)),
        irr=rate.value,
        irr_status=rate.status.astype(np.int8),
        least_cover=np.where(least.status == NO_DEBT_DUE, np.nan, least.value),
        lowest_cash=balance.min(axis=1),
        lowest_month=balance.argmin(axis=1).astype(np.int16),
        cash_once_running=least_in_full(lines),
        cash_by_year=balance[:, MONTHS - 1 :: MONTHS].astype(np.float32),
        cover_by_year=cover.value.astype(np.float32),
        happened=_happened(case, columns, cash.shape[0]),
        failed=np.array([int(failing(check, lines).sum()) for check in case.checks], dtype=np.int64),
    )


def _happened(case: Model, columns: Columns, count: int) -> npt.NDArray[np.bool_]:
    held = np.empty((count, len(case.events)), dtype=np.bool_)
    for place, event in enumerate(case.events):
        held[:, place] = hit(event, columns)
    return held


def lines_of(case: Model, columns: Columns) -> dict[str, Array]:
    """The lines kept of one block of cases; columns as for `outcomes`."""
    return evaluate_block(case.prepared, model.by_month(case.timeline, columns))


def _loan_rate(case: Model, lines: Columns) -> Array:
    """Mean rate of the loans, weighted with their amounts (draws, 1) [1/year]; the discount rate where there is no loan."""
    borrowed = sum((lines[amount] for _, amount in case.rates), np.zeros((1, 1)))
    interest = sum((lines[rate] * lines[amount] for rate, amount in case.rates), np.zeros((1, 1)))
    own = lines["judging.discount_rate"]
    return np.where(borrowed > 0, interest / np.where(borrowed > 0, borrowed, 1.0), own)


def rows(loaded: Loaded, columns: Columns) -> Outcomes:
    """Run cases given as columns, alike in length, at least one: path -> (cases, 1), by month (.., 12) or by year (.., 60)."""
    case = prepared_model(loaded, tuple(columns))
    count = max(column.shape[0] for column in columns.values())
    full = {path: np.broadcast_to(column, (count, column.shape[1])) for path, column in columns.items()}
    parts = (
        outcomes(case, {path: column[start : start + BLOCK] for path, column in full.items()})
        for start in range(0, count, BLOCK)
    )
    return joined(parts)


def run_blocks(
    case: Model,
    block: Callable[[int], Columns],
    *,
    blocks: int,
    fan_blocks: int,
    workers: int = 1,
    progress: Progress | None = None,
) -> Outcomes:
    """Run block after block, in order, on one worker or on several forked ones; the result is the same to the last bit.

    block: columns of a block by its number. fan_blocks: only of that many first blocks the years are kept.
    progress: called with the blocks done and the blocks in all.
    """

    def one(number: int) -> Outcomes:
        made = outcomes(case, block(number))
        return made if number < fan_blocks else _without_years(made)

    def told() -> Iterator[Outcomes]:
        for done, made in enumerate(in_order(one, blocks, workers=workers), start=1):
            if progress is not None:
                progress(done, blocks)
            yield made

    return joined(told())


def _without_years(made: Outcomes) -> Outcomes:
    kept = {each.name: getattr(made, each.name) for each in fields(made)}
    years = {name: kept[name][:0] for name in ("cash_by_year", "cover_by_year")}
    return Outcomes(**{**kept, **years})


def part(made: Outcomes, row: int) -> Outcomes:
    """The outcomes of one draw by itself."""
    kept = {each.name: getattr(made, each.name)[row : row + 1] for each in fields(made) if each.name != "failed"}
    return Outcomes(**kept, failed=made.failed)


def joined(parts: Iterator[Outcomes]) -> Outcomes:
    """Blocks of outcomes put end to end; counts of failed checks added."""
    held = list(parts)
    names = [each.name for each in fields(Outcomes) if each.name != "failed"]
    failed = np.sum([one.failed for one in held], axis=0)
    return Outcomes(**{name: np.concatenate([getattr(one, name) for one in held]) for name in names}, failed=failed)
