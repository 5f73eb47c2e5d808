"""Tables of many futures: measures, chances, what happens in some of them only, years, and how the figures settle."""

from __future__ import annotations

from appraisal.present.risk_figures import money, of_hundred_with_error, optional, rate, times, with_error
from appraisal.present.risk_words import of_hundred
from appraisal.present.tables import Table
from appraisal.risk.simulate import LEAST_RATE, Simulation


def spread_table(found: Simulation) -> Table:
    """The four measures over all futures, with standard errors."""
    currency = found.loaded.scenario.project.currency
    rows = []
    for name, label, shown in (
        ("npv", f"Worth today, {currency}", money),
        ("irr", "Rate of return a year", rate),
        ("least_cover", "Least cover", times),
        ("lowest_cash", f"Lowest account, {currency}", money),
    ):
        spread = found.spreads[name]
        if spread is None:
            continue
        place = "" if spread.below_central is None else f"{spread.below_central:.0%}"
        figures = (spread.p10, spread.p50, spread.p90, spread.mean, spread.worst)
        cells = (with_error(figure, shown) for figure in figures)
        rows.append((label, *cells, optional(spread.central, shown), place, f"{spread.known:.1%}"))
    head = ("", "P10", "P50", "P90", "mean", "mean of the\nworst 5 %", "plan", "futures under\nthe plan", "exists in")
    return Table("Measures over all futures, with standard errors of the drawing", head, tuple(rows))


def chance_table(found: Simulation) -> Table:
    """How often something goes wrong, in futures out of a hundred, with standard errors."""
    judging, currency = found.loaded.scenario.judging, found.loaded.scenario.project.currency
    further = f" by more than the own money, {found.own_money:,.0f} {currency}" if found.own_money else ""
    labels = {
        "npv_below_zero": f"Worth less than nothing at {judging.discount_rate:.1%} a year",
        "npv_below_zero_at_loan_rate": "Worth less than nothing at the rate of the loans",
        "cover_below_target_in_some_year": f"Cover under {judging.least_cover:.2f} in some full year",
        "cover_below_one_in_some_year": "Cash under the debt service in some full year",
        "cash_below_own_money": f"Account falls below zero{further}",
        "no_rate_of_return": f"No rate of return, or one under {LEAST_RATE:.0%} a year",
    }
    told = ((label, found.chances[name]) for name, label in labels.items())
    rows = tuple((label, *of_hundred_with_error(chance)) for label, chance in told)
    return Table("How often it goes wrong", ("", "of 100\nfutures", "standard\nerror"), rows)


def event_table(found: Simulation, *, paths: bool = True) -> Table:
    """What hits some futures only: how often, and what such futures are worth beside the others.

    paths: name the input that tells the time of each, for who wants to change it.
    """
    rows = tuple(
        (
            f"{each.words[:1].upper()}{each.words[1:]}" + (f" ({each.path})" if paths else ""),
            of_hundred(each.chance.value).removesuffix(" of 100"),
            optional(each.worth_hit, money),
            optional(each.worth_spared, money),
            "" if each.below_target is None or found.spreads["least_cover"] is None else f"{each.below_target:.0%}",
        )
        for each in found.events
    )
    target = found.loaded.scenario.judging.least_cover
    head = (
        "",
        "of 100\nfutures",
        "mean worth\nif so",
        "mean worth\nif not",
        f"if so: cover under\n{target:.2f} some year",
    )
    return Table(f"What happens in some futures only, {found.loaded.scenario.project.currency}", head, rows)


def fan_table(found: Simulation) -> Table:
    """Account and cover by project year in a bad, a middle and a good future of that year."""
    cash, cover = found.fan.cash, found.fan.cover
    rows = tuple(
        (
            str(year + 1),
            *(optional(float(cash[row, year]), money) for row in range(3)),
            *(optional(float(cover[row, year]), times) for row in range(3)),
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


def settling_table(found: Simulation) -> Table:
    """How the figures settle as draws are added."""
    rows = tuple((f"{s.draws:,}", money(s.mean_npv), f"{s.chance_of_loss:.2%}") for s in found.settling)
    return Table("How the figures settle", ("futures", "mean worth", "chance of a loss"), rows)
