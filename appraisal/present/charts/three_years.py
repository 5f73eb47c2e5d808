"""One project year in three futures: the account month by month in a good, a middle and a bad one."""

from __future__ import annotations

from collections.abc import Iterable

import altair as alt

from appraisal.present.charts.picture import (
    BLUE,
    DASH,
    GREEN,
    HALO,
    VERMILION,
    Chart,
    Picture,
    Rows,
    data,
    money_axis,
    month_names,
    rule_at,
    sized,
    whole,
)
from appraisal.present.tables import Table
from appraisal.risk.three_years import ThreeYears, YearOfFuture
from appraisal.timeline import Timeline

LOOKS = {
    "good": (GREEN, "solid", "circle"),
    "middle": (BLUE, "long", "square"),
    "bad": (VERMILION, "short", "triangle-up"),
}
ONE_OF = {
    "good": "one year in ten is better",
    "middle": "half of the years are better",
    "bad": "one year in ten is worse",
}
NEAR_NOTHING = 0.001  # of the largest move: a smaller dip is not told
UNDER_WORDS = 5  # months that the value at the end stands over
ROOM = 0.12  # of the span of the lines, left above and below for the values


def three_years_side_by_side(found: ThreeYears, *, timeline: Timeline, currency: str) -> Picture:
    """The account month by month through one project year in a good, a middle and a bad future, from where the year began."""
    names = month_names(timeline)
    panels, title = [_rows(one, names) for one in found.years], _finding(found, names=names, currency=currency)
    span = _span(panels)
    charts = [
        _panel(rows, one.name, span=span, currency=currency) for one, rows in zip(found.years, panels, strict=True)
    ]
    return Picture(
        title,
        f"Three lines of the account through the months of project year {found.year}. {title}. {how_chosen(found)}",
        alt.hconcat(*charts, spacing=12).resolve_scale(y="shared"),
        _table(found, names=names, currency=currency),
    )


def how_chosen(found: ThreeYears) -> str:
    """How the three years were chosen."""
    return (
        f"Of {found.futures:,} futures, ranked by what project year {found.year} adds to the account: one in ten is better than "
        "the good year, half are better than the middle one, one in ten is worse than the bad one. Each is one future as it was "
        "worked out, month by month."
    )


def _rows(one: YearOfFuture, names: list[str]) -> Rows:
    rows: Rows = [
        {"year": f"{one.name} year", "place": month, "month": name, "gain": float(one.balance[month] - one.opening),
         "balance": float(one.balance[month]), "text": ""}
        for month, name in enumerate(names)
    ]  # fmt: skip
    rows[-1]["text"] = f"{one.gain:+,.0f}"
    rows[-1]["above"] = max(float(row["gain"]) for row in rows[-UNDER_WORDS:])
    return rows


def _span(panels: Iterable[Rows]) -> list[float]:
    """The lowest and the highest gain of all panels with room for words [money]."""
    gains = [0.0, *(float(row["gain"]) for rows in panels for row in rows)]
    low, high = min(gains), max(gains)
    room = ROOM * ((high - low) or 1.0)
    return [low - room, high + room]


def _panel(rows: Rows, name: str, *, span: list[float], currency: str) -> Chart:
    title = f"account since the year began, {currency}" if name == "good" else ""
    at = alt.X("month:N", sort=[row["month"] for row in rows], title=None, axis=alt.Axis(labelAngle=-90))
    gain = alt.Y("gain:Q", axis=money_axis(title), scale=alt.Scale(domain=span, nice=False))
    hue, dash, shape = LOOKS[name]
    line = alt.Chart(data(rows)).mark_line(color=hue, strokeDash=DASH[dash], strokeWidth=3).encode(x=at, y=gain)
    points = alt.Chart(data(rows)).mark_point(color=hue, shape=shape, size=45, filled=True, opacity=1)
    tips = ["month:N", whole("gain"), whole("balance", title="family's cash so far")]
    halo, words = (
        alt.Chart(data(rows[-1:]))
        .mark_text(align="right", dy=-14, fontWeight="bold", **look)
        .encode(
            x=at, y=alt.Y("above:Q", axis=money_axis(title), scale=alt.Scale(domain=span, nice=False)), text="text:N"
        )
        for look in (HALO, {})
    )
    layers = (line, points.encode(x=at, y=gain, tooltip=tips), halo, words)
    head = alt.TitleParams(f"{name.capitalize()} year", subtitle=ONE_OF[name], anchor="start", fontSize=13)
    return sized(alt.layer(rule_at(0.0), *layers), width=200, height=230).properties(title=head)


def _finding(found: ThreeYears, *, names: list[str], currency: str) -> str:
    bad, middle, good = (next(one for one in found.years if one.name == name) for name in ("bad", "middle", "good"))
    title = (
        f"In project year {found.year} the account moves by {good.gain:+,.0f} in a good year, by {middle.gain:+,.0f} in a middle "
        f"one and by {bad.gain:+,.0f} {currency} in a bad one"
    )
    gains = bad.balance - bad.opening
    highest = max(float(abs(one.balance - one.opening).max()) for one in found.years) or 1.0
    if gains.min() >= -NEAR_NOTHING * highest:
        return title
    return f"{title}; the bad year is at its lowest in {names[int(gains.argmin())]}: {float(gains.min()):,.0f}"


def _table(found: ThreeYears, *, names: list[str], currency: str) -> Table:
    heads = [head for one in found.years
             for head in (f"{one.name}: since the\nyear began", f"{one.name}: family's\ncash so far")]  # fmt: skip
    columns = [column + 0.0 for one in found.years for column in (one.balance - one.opening, one.balance)]
    rows = tuple((name, *(f"{column[month]:,.0f}" for column in columns)) for month, name in enumerate(names))
    return Table(f"The account by month of project year {found.year}, {currency}", ("month", *heads), rows)
