"""Two or more plans side by side: their differences line by line, and how often each beats the first over common draws."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from dataclasses import dataclass
from functools import partial

import numpy as np
import numpy.typing as npt

from appraisal.appraise import Appraisal, appraise
from appraisal.lines.evaluate import MONTHS
from appraisal.measures.discounting import npv
from appraisal.measures.returns import irr
from appraisal.risk.draws import Settings, coordinates, cube_of, curves_of, pairs_of
from appraisal.risk.futures import Progress, prepared_model, run_blocks
from appraisal.risk.points import RiskError
from appraisal.risk.shapes import Curve
from appraisal.risk.statistics import Estimate, Spread, chance, spread
from appraisal.risk.walks import Walk, moved, planned, walks_of
from appraisal.scenario.beside import Pair
from appraisal.scenario.correlations import culprit
from appraisal.scenario.load import Loaded

Array = npt.NDArray[np.float64]
RATE = "judging.discount_rate"


@dataclass(frozen=True, eq=False)
class Line:
    """One kind of money, summed over the project: of each plan, in months' money and in today's [money]."""

    name: str
    label: str
    sums: tuple[float, ...]
    present: tuple[float, ...]


@dataclass(frozen=True)
class Against:
    """One plan against the first.

    npv_difference [money] at the first plan's discount rate and its date. rate, status: rate of return of the difference
    of the two cash flows [1/year]. beats: share of common futures in which it is worth more, None where nothing is drawn.
    difference: spread of the difference in worth over them [money].
    """

    npv_difference: float
    rate: float | None
    status: str
    beats: Estimate | None
    difference: Spread | None


@dataclass(frozen=True, eq=False)
class Comparison:
    """Several plans, the first being the one compared with.

    offsets: months from the earliest month 0 of all to that of each plan. npv: of each at the common date [money].
    drawn: paths drawn in common. settings: of the draws.
    """

    cases: tuple[Appraisal, ...]
    offsets: tuple[int, ...]
    rate: float
    npv: tuple[float, ...]
    lines: tuple[Line, ...]
    against: tuple[Against, ...]
    drawn: tuple[str, ...]
    settings: Settings


def compare(
    plans: Sequence[Loaded], settings: Settings, *, workers: int = 1, progress: Progress | None = None
) -> Comparison:
    """Compare plans of one currency; raises RiskError where that cannot be done.

    Cash flows are laid on one calendar, so that a plan that starts two years later is discounted two years more; the
    discount rate is that of the first plan.
    """
    if len(plans) < 2:
        raise RiskError("a comparison needs two plans at least")
    if len({plan.scenario.project.currency for plan in plans}) > 1:
        raise RiskError("the plans count in different currencies")
    cases = tuple(appraise(plan) for plan in plans)
    starts = [case.timeline.first_year * MONTHS + case.timeline.first_month for case in cases]
    offsets = tuple(start - min(starts) for start in starts)
    length = max(offset + case.timeline.months for offset, case in zip(offsets, cases, strict=True))
    rate = plans[0].scenario.judging.discount_rate
    flows = [
        shifted(case.values["project_cash"][:1], offset, length) for case, offset in zip(cases, offsets, strict=True)
    ]
    worth = tuple(float(npv(flow, rate)[0]) for flow in flows)
    sampled, drawn = common_worth(plans, settings, rate=rate, offsets=offsets, workers=workers, progress=progress)
    against = tuple(_against(flows, worth, place, sampled) for place in range(1, len(plans)))
    return Comparison(cases, offsets, rate, worth, _lines(cases, offsets, rate), against, drawn, settings)


def shifted(flow: Array, offset: int, length: int) -> Array:
    """A monthly flow (draws, months) [money] laid `offset` months later on a calendar of `length` months."""
    out = np.zeros((flow.shape[0], length))
    out[:, offset : offset + flow.shape[1]] = flow
    return out


def _against(flows: list[Array], worth: tuple[float, ...], place: int, sampled: list[Array] | None) -> Against:
    found = irr(flows[place] - flows[0], MONTHS)
    rate = float(found.value[0])
    gap = worth[place] - worth[0]
    known = rate if np.isfinite(rate) else None
    if sampled is None:
        return Against(gap, known, found.words[0], None, None)
    difference = sampled[place] - sampled[0]
    return Against(gap, known, found.words[0], chance(difference > 0), spread(difference, gap))


def _lines(cases: Sequence[Appraisal], offsets: Sequence[int], rate: float) -> tuple[Line, ...]:
    """Every money line that some plan has, in sheet order; 0 where a plan has none."""
    names: dict[str, str] = {}
    for case in cases:
        names |= {name: node.label for name, node in case.plan.nodes.items() if node.line.role and name not in names}
    made = []
    for name, label in names.items():
        rows = [case.values[name][:1] if name in case.values else np.zeros((1, 1)) for case in cases]
        present = [
            float(npv(shifted(row, offset, offset + row.shape[1]), rate)[0])
            for row, offset in zip(rows, offsets, strict=True)
        ]
        made.append(Line(name, label, tuple(float(row.sum()) for row in rows), tuple(present)))
    return tuple(made)


def common_worth(
    plans: Sequence[Loaded],
    settings: Settings,
    *,
    rate: float,
    offsets: Sequence[int],
    workers: int,
    progress: Progress | None,
) -> tuple[list[Array] | None, tuple[str, ...]]:
    """Worth of each plan (draws,) [money] at the common date over common draws, and the paths drawn.

    A value that carries a range in several plans is drawn once: every plan reads its own curve at the same share, and its
    own movement of prices of the same name at the same shares, project year by project year.
    """
    own = [curves_of(plan) for plan in plans]
    walks = [walks_of(plan) for plan in plans]
    both = list(zip(own, walks, strict=True))
    paths = tuple(dict.fromkeys(name for curves, walked in both for name in coordinates(curves, walked)))
    if not paths:
        return None, ()
    cube = cube_of(paths, settings, pairs=_pairs(plans))
    cube.hold()
    place = {path: number for number, path in enumerate(paths)}

    def columns(
        curves: Mapping[str, Curve], walked: tuple[Walk, ...], plan: Mapping[str, Array], number: int
    ) -> dict[str, Array]:
        """What one plan draws in the block of that number: each value at the share that all plans have in common."""
        shares = cube.shares(number)
        made = {path: curve.at(shares[:, [place[path]]]) for path, curve in curves.items()}
        steps = {walk.name: shares[:, [place[each] for each in walk.coordinates]] for walk in walked}
        return {**made, **moved(plan, walked, steps), RATE: np.full((shares.shape[0], 1), rate)}

    worth = []
    for plan, (curves, walked), offset in zip(plans, both, offsets, strict=True):
        own_path = planned(plan, walked)
        case = prepared_model(plan, tuple(dict.fromkeys((*curves, *own_path, RATE))))
        block = partial(columns, curves, walked, own_path)
        made = run_blocks(case, block, blocks=cube.blocks, fan_blocks=0, workers=workers, progress=progress)
        worth.append(made.npv * (1 + rate) ** (-offset / MONTHS))
    return worth, paths


def _pairs(plans: Sequence[Loaded]) -> list[Pair]:
    """The correlations of all plans together; raises RiskError where two plans contradict each other."""
    found: dict[frozenset[str], Pair] = {}
    for plan in plans:
        for pair in pairs_of(plan):
            both = frozenset((pair.first, pair.second))
            if both in found and found[both].rank != pair.rank:
                raise RiskError(f"the plans correlate {pair.first} and {pair.second} differently")
            found[both] = pair
    pairs = list(found.values())
    paths = list(dict.fromkeys(path for pair in pairs for path in (pair.first, pair.second)))
    if pairs and culprit(paths, pairs) is not None:
        raise RiskError("the correlations of the plans contradict each other")
    return pairs
