"""Money: from income to what is left, step by step."""

from __future__ import annotations

from collections.abc import Mapping

import altair as alt

from appraisal.appraise import Appraisal
from appraisal.present.charts.picture import (
    BLUE,
    INK,
    VERMILION,
    Chart,
    Picture,
    Rows,
    data,
    hues_of,
    money_axis,
    rule_at,
    sized,
    whole,
)
from appraisal.present.tables import BUILDING, MOVED, Table, units_of
from appraisal.present.years import by_year

STEPS: tuple[tuple[str, tuple[str, ...]], ...] = (
    ("Income", ("cash_income",)),
    ("Bills saved", ("evidenced_savings",)),
    ("Other savings", ("modelled_savings",)),
    ("Running costs", ("running_costs",)),
    ("Overhauls", ("overhauls_paid",)),
    ("Tax", ("taxes", "tax_credits_paid_out")),
    ("Moved in time", MOVED),
    ("Building, grants, loans", BUILDING),
    ("To the bank", ("debt_service", "loans_prepaid")),
)
LEFT = "Left"
HUES = {"in": BLUE, "out": VERMILION, "left": INK}
OUT_FOR = {"To the bank": "interest and repayment", "Moved in time": "what is moved in time"}
NOTHING = 0.5  # money below which a step is not shown


def income_to_net(appraisal: Appraisal, *, year: int | None = None) -> Picture:
    """From income to what is left, step by step, in one project year (the first full one) or over all years (year=0)."""
    currency, chosen = units_of(appraisal).currency, appraisal.plant.year if year is None else year
    steps = steps_of(appraisal, chosen)
    when = f"In project year {chosen}" if chosen else f"Over all {appraisal.timeline.years} years"
    title = _finding(steps, when=when, currency=currency)
    span = f"{currency} a year" if chosen else f"{currency}, all years"
    bars, words = _layers(_rows(steps), title=span, currency=currency)
    return Picture(
        title,
        f"Steps from income down to what is left. {title}. {_largest(steps, currency)}",
        sized(alt.layer(bars, rule_at(0.0), words), height=320),
        _table(steps, when=when, currency=currency),
    )


def steps_of(appraisal: Appraisal, year: int) -> dict[str, float]:
    """Steps from income to what is left [money] in a project year, 0 for all years; they add up to the last."""
    sums = {name: by_year(appraisal, *lines) for name, lines in STEPS}
    picked = {name: float(column[year - 1] if year else column.sum()) for name, column in sums.items()}
    net = by_year(appraisal, "net_cash")
    shown = {name: amount for name, amount in picked.items() if abs(amount) >= NOTHING}
    return {**shown, LEFT: float(net[year - 1] if year else net.sum())}


def _rows(steps: Mapping[str, float]) -> Rows:
    rows: Rows = []
    at = 0.0
    for number, (name, amount) in enumerate(steps.items(), start=1):
        last = name == LEFT
        begin = 0.0 if last else at
        at = begin + amount
        rows.append({
            "step": name, "from": begin, "to": at, "high": max(begin, at), "next": number, "amount": amount,
            "kind": "left" if last else "in" if amount >= 0 else "out",
            "text": f"{amount:,.0f}" if last else f"{amount:+,.0f}",
        })  # fmt: skip
    return rows


def _layers(rows: Rows, *, title: str, currency: str) -> tuple[Chart, Chart]:
    names = [row["step"] for row in rows]
    step = alt.X("step:N", sort=names, title=None, axis=alt.Axis(labelExpr="split(datum.label, ' ')", labelLimit=90))
    bars = (
        alt.Chart(data(rows))
        .mark_bar(size=38)
        .encode(
            x=step,
            y=alt.Y("from:Q", axis=money_axis(title)),
            y2="to:Q",
            color=hues_of("kind", HUES, legend=None),
            tooltip=["step:N", whole("amount", title=currency)],
        )
    )
    return bars, alt.Chart(data(rows)).mark_text(dy=-8).encode(x=step, y="high:Q", text="text:N")


def _finding(steps: Mapping[str, float], *, when: str, currency: str) -> str:
    gained, left = sum(amount for name, amount in steps.items() if amount > 0 and name != LEFT), steps[LEFT]
    if left >= 0 and gained > 0:
        return f"{when}, {left / gained:.0%} of all money in is left: {left:,.0f} of {gained:,.0f} {currency}"
    return f"{when}, {-left:,.0f} {currency} are missing after {gained:,.0f} {currency} came in"


def _largest(steps: Mapping[str, float], currency: str) -> str:
    out = {name: amount for name, amount in steps.items() if amount < 0 and name != LEFT}
    if not out:
        return "No money goes out."
    name = min(out, key=lambda each: out[each])
    return f"Most goes out for {OUT_FOR.get(name, name.lower())}: {-out[name]:,.0f} {currency}."


def _table(steps: Mapping[str, float], *, when: str, currency: str) -> Table:
    return Table(
        f"From income to what is left, {currency}, {when[0].lower() + when[1:]}",
        ("step", currency),
        tuple((name, f"{amount + 0.0:,.0f}") for name, amount in steps.items()),
    )
