"""Money: in and out by year with the cash that gathers, and how income becomes what is left."""

from __future__ import annotations

from collections.abc import Mapping

import altair as alt
import numpy as np
import numpy.typing as npt

from appraisal.appraise import Appraisal
from appraisal.lines.evaluate import MONTHS, year_sum
from appraisal.present.charts.picture import (
    BLUE,
    DASH,
    INK,
    LIGHT_GREEN,
    PALE,
    VERMILION,
    Picture,
    Rows,
    data,
    money_axis,
    rule_at,
    sized,
)
from appraisal.present.tables import BUILDING, MOVED, Table, units_of

Array = npt.NDArray[np.float64]
GROUPS: tuple[tuple[str, tuple[str, ...], str], ...] = (
    ("income and savings", ("cash_income", "evidenced_savings", "modelled_savings"), BLUE),
    ("running costs, overhauls, tax", ("running_costs", "overhauls_paid", "taxes", "tax_credits_paid_out"), VERMILION),
    ("debt service", ("debt_service",), INK),
    ("building, less grants and loans", BUILDING, LIGHT_GREEN),
    ("moved in time: reserves, sales tax, unpaid bills", MOVED, PALE),
)
STEPS: tuple[tuple[str, tuple[str, ...]], ...] = (
    ("Income", ("cash_income",)),
    ("Bills saved", ("evidenced_savings",)),
    ("Other savings", ("modelled_savings",)),
    ("Running costs", ("running_costs",)),
    ("Overhauls", ("overhauls_paid",)),
    ("Tax", ("taxes", "tax_credits_paid_out")),
    ("Moved in time", MOVED),
    ("Building, grants, loans", BUILDING),
    ("Debt service", ("debt_service",)),
)
LEFT = "Left"
NOTHING = 0.5  # money below which a step is not shown


def money_by_year(appraisal: Appraisal) -> Picture:
    """Money in and out by project year as bars, the family's cash so far as a line."""
    currency, sums = units_of(appraisal).currency, groups_by_year(appraisal)
    years, balance = appraisal.timeline.years, appraisal.values["bank_balance"][0, MONTHS - 1 :: MONTHS]
    rows: Rows = [
        {"year": year + 1, "what": name, "amount": float(amounts[year])}
        for name, amounts in sums.items()
        for year in range(years)
    ]
    hues = [hue for name, _, hue in GROUPS if name in sums]
    year_at = alt.X("year:O", title="project year", axis=alt.Axis(labelOverlap=True))
    bars = (
        alt.Chart(data(rows))
        .mark_bar(stroke="white", strokeWidth=0.5)
        .encode(
            x=year_at,
            y=alt.Y(
                "amount:Q",
                stack="zero",
                title=f"{currency} a year, and {currency} so far",
                axis=alt.Axis(format=",.0f"),
            ),
            color=alt.Color(
                "what:N", scale=alt.Scale(domain=list(sums), range=hues), legend=alt.Legend(title=None, columns=2)
            ),
            tooltip=["year:O", "what:N", alt.Tooltip("amount:Q", format=",.0f", title=currency)],
        )
    )
    path: Rows = [{"year": year + 1, "cash": float(cash), "name": ""} for year, cash in enumerate(balance)]
    path[-1]["name"] = "family's cash so far"
    line = (
        alt.Chart(data(path))
        .mark_line(
            color=INK,
            strokeWidth=3,
            strokeDash=DASH["long"],
            point=alt.OverlayMarkDef(color=INK, shape="diamond", size=50),
        )
        .encode(x=year_at, y="cash:Q")
    )
    halo = alt.Chart(data(path)).mark_line(color="white", strokeWidth=7, opacity=0.8).encode(x=year_at, y="cash:Q")
    named = (
        alt.Chart(data(path[-1:]))
        .mark_text(align="right", dy=-14, fontWeight="bold")
        .encode(x=year_at, y="cash:Q", text="name:N")
    )
    title = _money_finding(balance, currency)
    table = tuple(
        (str(year + 1), *(f"{column[year] + 0.0:,.0f}" for column in (*sums.values(), balance)))
        for year in range(years)
    )
    return Picture(
        title,
        f"Bars of money in and out for {years} project years, with a dashed line of the family's cash so far. {title}.",
        sized(alt.layer(bars, rule_at(0.0), halo, line, named), height=340),
        Table(
            f"Money in and out by project year, {currency}, inflow positive",
            ("year", *sums, "family's cash\nso far"),
            table,
        ),
    )


def groups_by_year(appraisal: Appraisal) -> dict[str, Array]:
    """Money by group and project year [money/year]; every money line is in one group, groups without money are left out."""
    sums = {name: _summed(appraisal, lines) for name, lines, _ in GROUPS}
    return {name: amounts for name, amounts in sums.items() if np.abs(amounts).max() >= NOTHING}


def _summed(appraisal: Appraisal, lines: tuple[str, ...]) -> Array:
    total = np.zeros(appraisal.timeline.years)
    for name in lines:
        total = total + year_sum(appraisal.values[name][:1])[0]
    return total


def _money_finding(balance: Array, currency: str) -> str:
    lowest, last = int(balance.argmin()), float(balance[-1])
    behind = np.flatnonzero(balance < 0)
    end = f"the plan ends with {last:,.0f} {currency}" if last >= 0 else f"the plan ends {-last:,.0f} {currency} short"
    if not behind.size:
        return f"The family's cash is never below zero at a year's end; {end}"
    deepest = f"The family is out of pocket by up to {-balance[lowest]:,.0f} {currency} (end of year {lowest + 1})"
    if behind[-1] + 1 < balance.size:
        return f"{deepest} and has it all back for good in year {behind[-1] + 2}; {end}"
    return f"{deepest} and never has it all back for good; {end}"


def income_to_net(appraisal: Appraisal, *, year: int | None = None) -> Picture:
    """From income to what is left, step by step, in one project year (the first full one) or over all years (year=0)."""
    currency, chosen = units_of(appraisal).currency, appraisal.plant.year if year is None else year
    steps = steps_of(appraisal, chosen)
    rows, at = [], 0.0
    for number, (name, amount) in enumerate(steps.items()):
        begin = 0.0 if name == LEFT else at
        at = begin + amount
        kind = "left" if name == LEFT else "in" if amount >= 0 else "out"
        rows.append({
            "step": name, "from": begin, "to": at, "amount": amount, "kind": kind, "high": max(begin, at), "next": number + 1,
            "text": f"{amount:+,.0f}" if name != LEFT else f"{amount:,.0f}",
        })  # fmt: skip
    names = list(steps)
    step = alt.X("step:N", sort=names, title=None, axis=alt.Axis(labelExpr="split(datum.label, ' ')", labelLimit=90))
    colours = alt.Scale(domain=["in", "out", "left"], range=[BLUE, VERMILION, INK])
    bars = (
        alt.Chart(data(rows))
        .mark_bar(size=38)
        .encode(
            x=step,
            y=alt.Y("from:Q", axis=money_axis(f"{currency} a year" if chosen else f"{currency}, all years")),
            y2="to:Q",
            color=alt.Color("kind:N", scale=colours, legend=None),
            tooltip=["step:N", alt.Tooltip("amount:Q", format=",.0f", title=currency)],
        )
    )
    words = alt.Chart(data(rows)).mark_text(dy=-8).encode(x=step, y="high:Q", text="text:N")
    gained, left = sum(amount for name, amount in steps.items() if amount > 0 and name != LEFT), steps[LEFT]
    when = f"In project year {chosen}" if chosen else f"Over all {appraisal.timeline.years} years"
    title = (
        f"{when} {left / gained:.0%} of all money in is left: {left:,.0f} of {gained:,.0f} {currency}"
        if left >= 0 and gained > 0
        else f"{when} {-left:,.0f} {currency} are missing after {gained:,.0f} {currency} came in"
    )
    return Picture(
        title,
        f"Steps from income down to what is left. {title}. {_largest(steps, currency)}",
        sized(alt.layer(bars, rule_at(0.0), words), height=320),
        Table(
            f"From income to what is left, {currency}, {when[0].lower() + when[1:]}",
            ("step", currency),
            tuple((name, f"{amount + 0.0:,.0f}") for name, amount in steps.items()),
        ),
    )


def steps_of(appraisal: Appraisal, year: int) -> dict[str, float]:
    """Steps from income to what is left [money] in a project year, 0 for all years; they add up to the last."""
    sums = {name: _summed(appraisal, lines) for name, lines in STEPS}
    picked = {name: float(column[year - 1] if year else column.sum()) for name, column in sums.items()}
    net = _summed(appraisal, ("net_cash",))
    shown = {name: amount for name, amount in picked.items() if abs(amount) >= NOTHING}
    return {**shown, LEFT: float(net[year - 1] if year else net.sum())}


def _largest(steps: Mapping[str, float], currency: str) -> str:
    out = {name: amount for name, amount in steps.items() if amount < 0 and name != LEFT}
    if not out:
        return "No money goes out."
    name = min(out, key=lambda each: out[each])
    return f"Most goes to {name.lower()}: {-out[name]:,.0f} {currency}."
