"""Tables of causes, bad cases and comparisons: titles, heads and rows of text."""

from __future__ import annotations

import numpy as np

from appraisal.present.naming import drawn_value, swing_value
from appraisal.present.numbers import rounded
from appraisal.present.risk_figures import (
    HALF,
    cover,
    difference,
    money,
    of_hundred_with_error,
    optional,
    times,
    with_error,
)
from appraisal.present.risk_words import units_of
from appraisal.present.stress_words import move_text
from appraisal.present.tables import Table
from appraisal.risk.compare import Comparison
from appraisal.risk.grids import Grid, Sizes
from appraisal.risk.rank import Ranking
from appraisal.risk.reverse import BREAKS, Break
from appraisal.risk.stress import StressTest
from appraisal.risk.swings import Swings
from appraisal.scenario.load import Loaded

SHOWN = 20  # rows of a long table


def swing_table(loaded: Loaded, swings: Swings) -> Table:
    """One input at a time, the widest swing first."""
    units, covered = units_of(loaded), cover(loaded.scenario.judging.least_cover)
    rows = tuple(
        (
            each.path,
            swing_value(each, each.low, units),
            swing_value(each, each.high, units) + (" (limit)" if each.cut else ""),
            money(each.npv_low),
            money(each.npv_high),
            money(abs(each.npv_width)),
            optional(each.cover_low, covered),
            optional(each.cover_high, covered),
        )
        for each in swings.swings[:SHOWN]
    )
    head = ("input", "from", "to", "worth\nfrom", "worth\nto", "swing", "cover\nfrom", "cover\nto")
    left = len(swings.swings) - len(rows)
    more = f"; {left} smaller ones are not shown" if left > 0 else ""
    return Table(
        f"One input at a time, each at {swings.by}, {loaded.scenario.project.currency}; the plan: "
        f"{money(swings.npv)}{more}",
        head,
        rows,
    )


def cause_table(found: Ranking) -> Table:
    """Rank correlations and variance shares, the largest total share first."""
    order = sorted(range(len(found.paths)), key=lambda k: -found.shares.total[k].value)
    rows = tuple(
        (
            found.paths[k],
            f"{found.causes.rank[k]:+.3f}",
            f"{found.causes.partial[k]:+.3f}",
            f"{found.causes.regression[k]:+.3f}",
            with_error(found.shares.first[k], times),
            with_error(found.shares.total[k], times),
        )
        for k in order[:SHOWN]
    )
    head = (
        "input",
        "rank\ncorrelation",
        "partial rank\ncorrelation",
        "straight-line\ncoefficient",
        "share of variance\nby itself",
        "share with\nothers",
    )
    return Table(f"What moves with the worth, over {found.settings.draws:,} futures", head, rows)


def grid_table(loaded: Loaded, found: Grid) -> Table:
    """A table of two inputs: worth, with the cover in brackets."""

    def cell(row: int, column: int) -> str:
        cover = float(found.cover[row, column])
        return money(float(found.npv[row, column])) + (f" ({cover:.2f})" if np.isfinite(cover) else "")

    rows = tuple(
        (drawn_value(loaded, found.first, float(value)), *(cell(row, column) for column in range(found.at_second.size)))
        for row, value in enumerate(found.at_first)
    )
    head = ("", *(drawn_value(loaded, found.second, float(value)) for value in found.at_second))
    title = f"Worth, {loaded.scenario.project.currency} (least cover): down {found.first}, across {found.second}"
    return Table(title, head, rows)


def size_table(loaded: Loaded, found: Sizes) -> Table:
    """Engine sizes against the worth."""
    rows = tuple(
        (
            rounded(each.rated_kw),
            money(each.capital) if found.priced_by else "",
            each.impossible or optional(each.npv, money),
            optional(each.cover, cover(loaded.scenario.judging.least_cover)),
        )
        for each in found.sizes
    )
    priced = (
        f"{', '.join(found.priced_by)} grows with size to the power {found.exponent:g}"
        if found.priced_by
        else "its price is left as it is: name the capital items that grow with it"
    )
    title = f"Engine {found.engine} in other sizes, {loaded.scenario.project.currency}; {priced}"
    return Table(title, ("rated kW", "those items", "worth", "least cover"), rows)


def stress_table(found: StressTest) -> Table:
    """Every bad case; what a scenario cannot have says why."""
    rows = tuple(
        (
            each.case.label + (f": not here, {each.case.impossible}" if each.case.impossible else ""),
            optional(each.npv, money),
            optional(each.npv_change, difference),
            optional(each.least_cover, cover(found.target)),
            optional(each.lowest_cash, money),
        )
        for each in (found.plan, *found.cases)
    )
    head = ("case", "worth", "change", "least cover", "lowest account")
    sides = "worth of the project before loans and after tax; account at its lowest month, from nothing at the start"
    return Table(f"Bad cases, {found.loaded.scenario.project.currency}; {sides}", head, rows)


def break_table(loaded: Loaded, found: tuple[Break, ...], *, plan_cover: float | None, plan_npv: float) -> Table:
    """How far each driver may move before cover meets its target, worth is nothing, and the family pays in again."""
    by_driver: dict[str, dict[str, Break]] = {}
    for each in found:
        by_driver.setdefault(each.driver.label, {})[each.measure] = each
    target = found[0].limit
    cover_head = f"cover meets {target:.2f} at"
    if plan_cover is not None and plan_cover < target:
        cover_head = f"cover, {plan_cover:.2f} now,\nwould meet {target:.2f} at"
    worth_head = "worth is nothing at" if plan_npv >= 0 else "worth would come\nto nothing at"
    running = next((each.now for each in found if each.measure == "cash_once_running"), None)
    short = running is not None and running < -HALF
    cash_head = "once it runs, nothing\nwould be paid in at" if short else "once it runs, the family\nmust pay in again at"
    rows = tuple(
        (label, *(move_text(pair[name], loaded) if name in pair else "" for name in BREAKS))
        for label, pair in by_driver.items()
    )
    return Table("How far each may move by itself", ("", cover_head, worth_head, cash_head), rows)


def common_table(found: Comparison) -> Table:
    """Each plan less the first over common futures: how often it is worth more, and the spread of the difference."""
    rows = []
    for case, against in zip(found.cases[1:], found.against, strict=True):
        if against.beats is None or against.difference is None:
            continue
        spread, beats = against.difference, " ".join(of_hundred_with_error(against.beats)).rstrip()
        figures = (with_error(figure, money) for figure in (spread.p10, spread.p50, spread.p90, spread.mean))
        rows.append((case.loaded.scenario.project.name, beats, *figures))
    currency = found.cases[0].loaded.scenario.project.currency
    first = found.cases[0].loaded.scenario.project.name
    head = ("", "beats it in,\nof 100", "P10", "P50", "P90", "mean")
    return Table(f"Worth less that of {first} over common futures, {currency}, with standard errors", head, tuple(rows))


def difference_table(found: Comparison) -> Table:
    """Money lines of all plans in today's money, the largest difference first."""
    names = [case.loaded.scenario.project.name for case in found.cases]

    def widest(present: tuple[float, ...]) -> float:
        return max(abs(value - present[0]) for value in present[1:])

    moved = sorted(
        (line for line in found.lines if widest(line.present) >= HALF), key=lambda line: -widest(line.present)
    )
    rows = tuple(
        (
            line.label,
            *(money(value) for value in line.present),
            *(difference(value - line.present[0]) for value in line.present[1:]),
        )
        for line in moved
    )
    currency = found.cases[0].loaded.scenario.project.currency
    head = ("", *names, *(f"{name}\nless the first" for name in names[1:]))
    return Table(f"Where the plans differ, today's money at {found.rate:.1%}, {currency}, inflow positive", head, rows)
