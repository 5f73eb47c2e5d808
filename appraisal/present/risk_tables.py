"""Tables of many futures, causes, bad cases and comparisons: titles, heads and rows of text."""

from __future__ import annotations

from collections.abc import Callable

import numpy as np

from appraisal.present.naming import drawn_value, swing_value
from appraisal.present.numbers import rounded
from appraisal.present.risk_words import of_hundred, units_of
from appraisal.present.stress_words import move_text
from appraisal.present.tables import Table
from appraisal.risk.compare import Comparison
from appraisal.risk.grids import Grid, Sizes
from appraisal.risk.rank import Ranking
from appraisal.risk.reverse import Break
from appraisal.risk.simulate import Simulation
from appraisal.risk.statistics import Estimate
from appraisal.risk.stress import StressTest
from appraisal.risk.swings import Swings
from appraisal.scenario.load import Loaded

HALF = 0.5  # of a unit of money, under which nothing is shown
SHOWN = 20  # rows of a long table


def _money(value: float) -> str:
    return f"{value:,.0f}" if abs(value) >= HALF else "0"


def _difference(value: float) -> str:
    return f"{value:+,.0f}" if abs(value) >= HALF else "0"


def _of_hundred_with_error(chance: Estimate) -> tuple[str, str]:
    """Futures of a hundred and their standard error; none is told where all futures agree, for it would read as certainty."""
    agree = chance.error is None or chance.value in (0.0, 1.0)
    return f"{chance.value * 100:.1f}", "" if agree else f"+- {(chance.error or 0.0) * 100:.2g}"


def _times(value: float) -> str:
    return f"{value:.3f}"


def _rate(value: float) -> str:
    return f"{value:.2%}"


def _error(estimate: Estimate, shown: Callable[[float], str]) -> str:
    """A figure and its standard error; the error with two digits, however small."""
    if estimate.error is None:
        return shown(estimate.value)
    error = f"{estimate.error * 100:.2g}%" if shown is _rate else f"{estimate.error:,.0f}" if shown is _money else ""
    return f"{shown(estimate.value)} +- {error or f'{estimate.error:.2g}'}"


def _optional(value: float | None, shown: Callable[[float], str]) -> str:
    return "" if value is None or not np.isfinite(value) else shown(value)


def spread_table(found: Simulation) -> Table:
    """The four measures over all futures, with standard errors."""
    currency = found.loaded.scenario.project.currency
    rows = []
    for name, label, shown in (
        ("npv", f"Worth today, {currency}", _money),
        ("irr", "Rate of return a year", _rate),
        ("least_cover", "Least cover", _times),
        ("lowest_cash", f"Lowest account, {currency}", _money),
    ):
        spread = found.spreads[name]
        if spread is None:
            continue
        place = "" if spread.below_central is None else f"{spread.below_central:.0%}"
        figures = (spread.p10, spread.p50, spread.p90, spread.mean, spread.worst)
        cells = (_error(figure, shown) for figure in figures)
        rows.append((label, *cells, _optional(spread.central, shown), place, f"{spread.known:.1%}"))
    head = ("", "P10", "P50", "P90", "mean", "mean of the\nworst 5 %", "plan", "futures under\nthe plan", "exists in")
    return Table("Measures over all futures, with standard errors of the drawing", head, tuple(rows))


def fan_table(found: Simulation) -> Table:
    """Account and cover by project year in a bad, a middle and a good future of that year."""
    cash, cover = found.fan.cash, found.fan.cover
    rows = tuple(
        (
            str(year + 1),
            *(_optional(float(cash[row, year]), _money) for row in range(3)),
            *(_optional(float(cover[row, year]), _times) for row in range(3)),
        )
        for year in range(cash.shape[1])
    )
    title = (
        f"By project year: account at year end, {found.loaded.scenario.project.currency}, and cover; each column is a "
        f"quantile of its year, not one future ({found.fan.draws:,} futures)"
    )
    return Table(
        title, ("year", *(f"account\nP{p}" for p in (10, 50, 90)), *(f"cover\nP{p}" for p in (10, 50, 90))), rows
    )


def chance_table(found: Simulation) -> Table:
    """How often something goes wrong, in futures out of a hundred, with standard errors."""
    judging, currency = found.loaded.scenario.judging, found.loaded.scenario.project.currency
    short = f"lack more than the {found.own_money:,.0f} {currency} of own money" if found.own_money else "fall below zero"
    labels = {
        "npv_below_zero": f"worth less than nothing at {judging.discount_rate:.1%} a year",
        "npv_below_zero_at_loan_rate": "worth less than nothing at the rate of the loans",
        "cover_below_target_in_some_year": f"cover under {judging.least_cover:.2f} in some full year",
        "cover_below_one_in_some_year": "cash under the debt service in some full year",
        "cash_below_own_money": f"let the account {short}",
        "no_rate_of_return": "have no rate of return",
    }

    told = ((label, found.chances[name]) for name, label in labels.items())
    rows = tuple((label, *_of_hundred_with_error(chance)) for label, chance in told)
    return Table("Of 100 futures so many are or do", ("", "of 100", "standard error"), rows)


def event_table(found: Simulation) -> Table:
    """What hits some futures only: how often, and what such futures are worth beside the others."""
    rows = tuple(
        (
            f"{each.words} ({each.path})",
            of_hundred(each.chance.value).removesuffix(" of 100"),
            _optional(each.worth_hit, _money),
            _optional(each.worth_spared, _money),
            "" if each.below_target is None else f"{each.below_target:.0%}",
        )
        for each in found.events
    )
    target = found.loaded.scenario.judging.least_cover
    head = ("", "of 100\nfutures", "mean worth\nif so", "mean worth\nif not", f"if so: cover under\n{target:.2f} some year")
    return Table(f"What happens in some futures only, {found.loaded.scenario.project.currency}", head, rows)


def settling_table(found: Simulation) -> Table:
    """How the figures settle as draws are added."""
    rows = tuple((f"{s.draws:,}", _money(s.mean_npv), f"{s.chance_of_loss:.2%}") for s in found.settling)
    return Table("How the figures settle", ("futures", "mean worth", "chance of a loss"), rows)


def swing_table(loaded: Loaded, swings: Swings) -> Table:
    """One input at a time, the widest swing first."""
    units = units_of(loaded)
    rows = tuple(
        (
            each.path,
            swing_value(each, each.low, units),
            swing_value(each, each.high, units) + (" (limit)" if each.cut else ""),
            _money(each.npv_low),
            _money(each.npv_high),
            _money(abs(each.npv_width)),
            _optional(each.cover_low, _times),
            _optional(each.cover_high, _times),
        )
        for each in swings.swings[:SHOWN]
    )
    head = ("input", "from", "to", "worth\nfrom", "worth\nto", "swing", "cover\nfrom", "cover\nto")
    left = len(swings.swings) - len(rows)
    more = f"; {left} smaller ones are not shown" if left > 0 else ""
    return Table(
        f"One input at a time, each at {swings.by}, {loaded.scenario.project.currency}; the plan: "
        f"{_money(swings.npv)}{more}",
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
            _error(found.shares.first[k], _times),
            _error(found.shares.total[k], _times),
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
        return _money(float(found.npv[row, column])) + (f" ({cover:.2f})" if np.isfinite(cover) else "")

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
            _money(each.capital) if found.priced_by else "",
            each.impossible or _optional(each.npv, _money),
            _optional(each.cover, _times),
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
            each.case.label,
            (each.case.impossible and f"not here: {each.case.impossible}") or _optional(each.npv, _money),
            _optional(each.npv_change, _difference),
            _optional(each.least_cover, _times),
            _optional(each.lowest_cash, _money),
        )
        for each in (found.plan, *found.cases)
    )
    head = ("case", "worth", "change", "least cover", "lowest account")
    return Table(f"Bad cases, {found.loaded.scenario.project.currency}", head, rows)


def break_table(loaded: Loaded, found: tuple[Break, ...], *, plan_cover: float | None, plan_npv: float) -> Table:
    """How far each driver may move before cover meets its target and worth is nothing."""
    by_driver: dict[str, dict[str, Break]] = {}
    for each in found:
        by_driver.setdefault(each.driver.label, {})[each.measure] = each
    target = found[0].limit
    cover_head = f"cover meets {target:.2f} at"
    if plan_cover is not None and plan_cover < target:
        cover_head = f"cover, {plan_cover:.2f} now,\nwould meet {target:.2f} at"
    worth_head = "worth is nothing at" if plan_npv >= 0 else "worth would come\nto nothing at"
    broken = {"least_cover": plan_cover is not None and plan_cover < target, "npv": plan_npv < 0}
    rows = tuple(
        (label, *(move_text(pair[name], loaded, broken=broken[name]) if name in pair else "" for name in broken))
        for label, pair in by_driver.items()
    )
    return Table("How far each may move by itself", ("", cover_head, worth_head), rows)


def common_table(found: Comparison) -> Table:
    """Each plan less the first over common futures: how often it is worth more, and the spread of the difference."""
    rows = []
    for case, against in zip(found.cases[1:], found.against, strict=True):
        if against.beats is None or against.difference is None:
            continue
        spread, beats = against.difference, " ".join(_of_hundred_with_error(against.beats)).rstrip()
        figures = (_error(figure, _money) for figure in (spread.p10, spread.p50, spread.p90, spread.mean))
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
            *(_money(value) for value in line.present),
            *(_difference(value - line.present[0]) for value in line.present[1:]),
        )
        for line in moved
    )
    currency = found.cases[0].loaded.scenario.project.currency
    head = ("", *names, *(f"{name}\nless the first" for name in names[1:]))
    return Table(f"Where the plans differ, today's money at {found.rate:.1%}, {currency}, inflow positive", head, rows)
