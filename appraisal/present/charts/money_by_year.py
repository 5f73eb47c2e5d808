"""Money in and out by project year, with the cash that gathers."""

from __future__ import annotations

import altair as alt
import numpy as np
import numpy.typing as npt

from appraisal.appraise import Appraisal
from appraisal.present.charts.picture import (
    BLUE,
    DASH,
    INK,
    LIGHT_GREEN,
    PALE,
    VERMILION,
    WHOLE,
    Chart,
    Picture,
    Rows,
    data,
    hues_of,
    rule_at,
    sized,
    whole,
)
from appraisal.present.tables import BUILDING, MOVED, Table, units_of
from appraisal.present.years import at_year_end, by_year

Array = npt.NDArray[np.float64]
GROUPS: tuple[tuple[str, tuple[str, ...], str], ...] = (
    ("income and savings", ("cash_income", "evidenced_savings", "modelled_savings"), BLUE),
    ("running costs, overhauls, tax", ("running_costs", "overhauls_paid", "taxes", "tax_credits_paid_out"), VERMILION),
    ("to the bank", ("debt_service", "loans_prepaid"), INK),
    ("building, less grants and loans", BUILDING, LIGHT_GREEN),
    ("moved in time: reserves, sales tax, unpaid bills", MOVED, PALE),
)
NOTHING = 0.5  # money below which a group is not shown


def money_by_year(appraisal: Appraisal) -> Picture:
    """Money in and out by project year as bars, the family's cash so far as a line."""
    currency, groups = units_of(appraisal).currency, groups_by_year(appraisal)
    balance = at_year_end(appraisal, "bank_balance")
    title = _finding(balance, currency)
    year = alt.X("year:O", title="project year", axis=alt.Axis(labelOverlap=True))
    layers = (_bars(_rows(groups), list(groups), year=year, currency=currency), rule_at(0.0), *_lines(balance, year))
    return Picture(
        title,
        f"Bars of money in and out for {balance.size} project years, with a dashed line of the family's cash so far. {title}.",
        sized(alt.layer(*layers), height=340),
        _table(groups, balance, currency=currency),
    )


def groups_by_year(appraisal: Appraisal) -> dict[str, Array]:
    """Money by group and project year [money/year]; every money line is in one group, groups without money are left out."""
    sums = {name: by_year(appraisal, *lines) for name, lines, _ in GROUPS}
    return {name: amounts for name, amounts in sums.items() if np.abs(amounts).max() >= NOTHING}


def _rows(groups: dict[str, Array]) -> Rows:
    return [
        {"year": year, "what": name, "amount": float(amount)}
        for name, amounts in groups.items()
        for year, amount in enumerate(amounts, start=1)
    ]


def _bars(rows: Rows, names: list[str], *, year: alt.X, currency: str) -> Chart:
    title = f"{currency} a year, and {currency} so far"
    hues = {name: hue for name, _, hue in GROUPS if name in names}
    return (
        alt.Chart(data(rows))
        .mark_bar(stroke="white", strokeWidth=0.5)
        .encode(
            x=year,
            y=alt.Y("amount:Q", stack="zero", title=title, axis=alt.Axis(format=WHOLE)),
            color=hues_of("what", hues, legend=alt.Legend(title=None, columns=2)),
            tooltip=["year:O", "what:N", whole("amount", title=currency)],
        )
    )


def _lines(balance: Array, year: alt.X) -> tuple[Chart, Chart, Chart]:
    """The cash so far: a pale border that parts it from the bars, the line, and its name."""
    path: Rows = [{"year": at, "cash": float(cash), "name": ""} for at, cash in enumerate(balance, start=1)]
    path[-1]["name"] = "family's cash so far"
    border = alt.Chart(data(path)).mark_line(color="white", strokeWidth=7, opacity=0.8)
    points = alt.OverlayMarkDef(color=INK, shape="diamond", size=50)
    line = alt.Chart(data(path)).mark_line(color=INK, strokeWidth=3, strokeDash=DASH["long"], point=points)
    named = alt.Chart(data(path[-1:])).mark_text(align="right", dy=-14, fontWeight="bold")
    at = {"x": year, "y": "cash:Q"}
    return border.encode(**at), line.encode(**at), named.encode(**at, text="name:N")


def _finding(balance: Array, currency: str) -> str:
    lowest, last = int(balance.argmin()), float(balance[-1])
    behind = np.flatnonzero(balance < 0)
    end = f"the plan ends with {last:,.0f} {currency}" if last >= 0 else f"the plan ends {-last:,.0f} {currency} short"
    if not behind.size:
        return f"The family's cash is never below zero at a year's end; {end}"
    depth = f"{-balance[lowest]:,.0f} {currency} at a year's end (year {lowest + 1})"
    deepest = f"Loans counted, the family is out of pocket by up to {depth}"
    if behind[-1] + 1 < balance.size:
        return f"{deepest} and has it all back for good in year {behind[-1] + 2}; {end}"
    return f"{deepest} and never has it all back for good; {end}"


def _table(groups: dict[str, Array], balance: Array, *, currency: str) -> Table:
    columns = (*groups.values(), balance)
    return Table(
        f"Money in and out by project year, {currency}; what goes out carries a minus",
        ("year", *groups, "family's cash\nso far"),
        tuple((str(year + 1), *(f"{column[year] + 0.0:,.0f}" for column in columns)) for year in range(balance.size)),
    )
