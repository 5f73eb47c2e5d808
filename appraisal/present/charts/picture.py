"""What a picture is, and the one theme of all: dark ink on white, four hues, a second mark beside every hue."""

from __future__ import annotations

from collections.abc import Iterable, Mapping
from dataclasses import dataclass
from typing import Any

import altair as alt

from appraisal.present.tables import Table
from appraisal.timeline import MONTH_NAMES, MONTHS, Timeline

BLUE, VERMILION, GREEN, INK = "#0072B2", "#D55E00", "#009E73", "#222222"
GREY, PALE, PALEST = "#6b6b6b", "#c9c9c9", "#e6e6e6"
LIGHT_GREEN = "#8ed6bf"  # for areas only, beside blue and vermilion: in grey print it stays lighter than both
DASH: dict[str, list[int]] = {"solid": [1, 0], "long": [8, 4], "short": [2, 3]}
PALE_VERMILION = "#fbe0cf"  # for areas only, inside an outline of vermilion: in grey print nearly white beside blue
MIDDLE_VERMILION = "#f0a36b"  # for shades behind numbers in ink
HALO: dict[str, Any] = {"stroke": "white", "strokeWidth": 4}  # behind words that a line may cross
WIDTH, HEIGHT = 640, 300
FONT = "DejaVu Sans, Verdana, sans-serif"
TEXT_SIZE = 12
WHOLE = ",.0f"  # how a whole number is written: thousands parted
BESIDE, LEAST_TOP = 1.15, 1e-9  # width over that of the longest bar; the axis of bars that are all nought
Rows = list[dict[str, Any]]
Chart = Any  # an Altair chart: plain, layered or joined


@dataclass(frozen=True, eq=False)
class Picture:
    """One picture of a result.

    title: what it shows, as a sentence. alt: the same for people who cannot see it. chart: an Altair chart without a title of
    its own, of pre-aggregated numbers in the reader's units. table: the same numbers with their units.
    """

    title: str
    alt: str
    chart: Chart
    table: Table


@alt.theme.register("appraisal", enable=True)
def theme() -> alt.theme.ThemeConfig:
    """The theme of every picture, on screen and paper."""
    words: dict[str, Any] = {
        "labelColor": INK,
        "titleColor": INK,
        "labelFontSize": TEXT_SIZE,
        "titleFontSize": TEXT_SIZE,
        "labelFont": FONT,
        "titleFont": FONT,
    }
    lines = {"domainColor": GREY, "tickColor": GREY, "gridColor": PALEST, "titleFontWeight": "normal"}
    config: Any = {
        "background": "white",
        "font": FONT,
        "axis": {**words, **lines},
        "axisX": {"grid": False, "labelAngle": 0},
        "header": {**words, "labelFontWeight": "bold"},
        "legend": {**words, "labelLimit": 320, "orient": "top", "symbolStrokeWidth": 2},
        "text": {"color": INK, "font": FONT, "fontSize": TEXT_SIZE},
        "view": {"continuousWidth": WIDTH, "continuousHeight": HEIGHT, "discreteWidth": WIDTH, "stroke": None},
    }
    return alt.theme.ThemeConfig(config=config)


def data(rows: Iterable[Mapping[str, Any]]) -> Any:
    """Rows as data inside the picture; a tuple, which is not copied when charts are put together."""
    return alt.InlineData(values=tuple(dict(row) for row in rows))


def rule_at(value: float, *, label: str = "", axis: str = "y", dash: str = "solid") -> Chart:
    """A line across the picture at a value, named at its end outside the plot; without a name, the zero line."""
    rows = data([{"at": value, "label": label}])
    line = alt.Chart(rows).mark_rule(color=INK, strokeDash=DASH[dash], strokeWidth=1).encode(**{axis: "at:Q"})
    if not label:
        return line
    aside: dict[str, Any] = {"x": "width", "dx": 5, "align": "left"} if axis == "y" else {"y": -8, "align": "center"}
    words = alt.Chart(rows).mark_text(baseline="middle", **aside).encode(text="label:N", **{axis: "at:Q"})
    return alt.layer(line, words)


def layered(*charts: Chart) -> Chart:
    """Charts on top of each other as one flat layer: every nesting would be copied once more, which costs time on a screen."""
    return alt.layer(*(each for chart in charts for each in _flat(chart)))


def _flat(chart: Chart) -> list[Chart]:
    """The charts of a layer, each with the data that Altair had moved up from them."""
    found = [each.copy(deep=False) for each in getattr(chart, "layer", [])]
    for each in found:
        each.data = chart.data if each.data is alt.Undefined else each.data
    return found or [chart]


def words_on_lines(letters: int) -> str:
    """An expression for labels of an axis: the words of a label on lines of about so many letters, two lines as a rule."""
    broken = f"replace(datum.label, /(.{{1,{letters}}})( +|$)/g, '$1|')"
    return f"split(replace({broken}, /[|]$/, ''), '|')"


def money_axis(title: str) -> alt.Axis:
    """An axis of money: whole numbers with thousands parted."""
    return alt.Axis(title=title, format=WHOLE)


def amounts_beside(rows: Iterable[Mapping[str, Any]], *, look: Mapping[str, Any] | None = None, **at: Any) -> Chart:
    """The words of every row at the right of its bar; they stand in the column `text`."""
    mark = {"align": "left", "dx": 4, **(look or {})}
    return alt.Chart(data(rows)).mark_text(**mark).encode(text="text:N", **at)


def from_nought(rows: Rows, title: str) -> alt.X:
    """An axis of the column `amount` from nought to a little beyond the longest bar, so that the words beside it fit."""
    top = max(*(float(row["amount"]) for row in rows), LEAST_TOP)
    return alt.X(
        "amount:Q", title=title, axis=alt.Axis(format=WHOLE, tickCount=8), scale=alt.Scale(domain=[0, BESIDE * top], nice=False)
    )


def whole(name: str, **more: Any) -> alt.Tooltip:
    """What the pointer is told of an amount: a whole number with thousands parted."""
    return alt.Tooltip(f"{name}:Q", format=WHOLE, **more)


def hues_of(name: str, hues: Mapping[str, str], **more: Any) -> alt.Color:
    """The hue of every kind that stands in a column of the rows."""
    return alt.Color(f"{name}:N", scale=alt.Scale(domain=list(hues), range=list(hues.values())), **more)


def outlined(name: str, hues: Mapping[str, str], **more: Any) -> dict[str, Any]:
    """Fill and outline of areas by the kind in a column: what is vermilion is pale inside, so that grey print tells it too."""
    fills = {kind: PALE_VERMILION if hue == VERMILION else hue for kind, hue in hues.items()}
    scales = {"fill": fills, "stroke": hues}
    return {
        channel: shade(f"{name}:N", scale=alt.Scale(domain=list(of), range=list(of.values())), **more)
        for (channel, of), shade in zip(scales.items(), (alt.Fill, alt.Stroke), strict=True)
    }


def month_names(timeline: Timeline) -> list[str]:
    """Short names of the twelve months of a project year, in its order."""
    return [MONTH_NAMES[(timeline.first_month - 1 + month) % MONTHS] for month in range(MONTHS)]


def sized(chart: Any, *, width: int = WIDTH, height: int = HEIGHT) -> Any:
    """A chart of the house's size."""
    return chart.properties(width=width, height=height)
