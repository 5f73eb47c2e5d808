"""The loan: cover by year against the limits, with the part of the income that is signed for beneath."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass

import altair as alt
import numpy as np
import numpy.typing as npt

from appraisal.appraise import Appraisal
from appraisal.measures.headline import full_years
from appraisal.present.charts.picture import (
    BLUE,
    DASH,
    INK,
    VERMILION,
    Chart,
    Picture,
    Rows,
    data,
    layered,
    rule_at,
    sized,
)
from appraisal.present.numbers import percent, times
from appraisal.present.tables import Table

Array = npt.NDArray[np.float64]
CENTRAL, LENDER, COMBINED = "as planned", "signed contracts only", "all bad cases together"
BESIDE_PLAN = {LENDER: "on signed contracts only", COMBINED: "with all bad cases together"}  # as told after the plan
NO_DEBT, PART_YEAR = "no loan due", "part year"


@dataclass(frozen=True)
class Look:
    """How one case is drawn: hue, dash and shape."""

    hue: str
    dash: str
    shape: str


LOOKS: Mapping[str, Look] = {
    CENTRAL: Look(BLUE, "solid", "circle"),
    LENDER: Look(INK, "long", "square"),
    COMBINED: Look(VERMILION, "short", "triangle-up"),
}
LENDER_CASE = "signed_contracts_only"


def cover_by_year(appraisal: Appraisal, *, combined: Array | None = None) -> Picture:
    """Cover of debt service by project year against the least wanted and against one, the signed share beneath.

    combined: cover (years,) [1] of all bad cases together, NaN where no debt is due; None where they were not run.
    """
    covers = covers_of(appraisal, combined)
    wanted, signed = appraisal.loaded.scenario.judging.least_cover, appraisal.money.bank.signed_share[0]
    due, full = np.flatnonzero(np.isfinite(covers[CENTRAL])), full_years(appraisal.values)[0]
    title = _finding({case: np.where(full, column, np.nan) for case, column in covers.items()}, wanted)
    chart = _chart(covers, wanted, signed, full=full)
    rows = tuple(
        (
            f"{year + 1}" if full[year] else f"{year + 1} ({PART_YEAR})",
            *(f"{column[year]:z.2f}" if np.isfinite(column[year]) else NO_DEBT for column in covers.values()),
            percent(float(signed[year])) if np.isfinite(signed[year]) else "no income",
        )
        for year in due
    )
    return Picture(
        title,
        f"Lines of cover by project year for {len(covers)} cases with the limits {wanted:.2f} and 1; hollow points are years of "
        f"start-up. Bars beneath show the part of the income that is signed for. {title}.",
        chart,
        Table(
            f"Cover: cash for the loan over what falls due, times; {wanted:.2f} is wanted",
            ("year", *covers, "income\nsigned for"),
            rows,
        ),
    )


def covers_of(appraisal: Appraisal, combined: Array | None) -> dict[str, Array]:
    """Cover by case and project year [1], NaN where no debt is due."""
    bank = appraisal.money.bank.covers
    found = {CENTRAL: bank["as_assumed"].value[0], LENDER: bank[LENDER_CASE].value[0]}
    return found if combined is None else {**found, COMBINED: combined}


def _chart(covers: Mapping[str, Array], wanted: float, signed: Array, *, full: npt.NDArray[np.bool_]) -> Chart:
    due = np.flatnonzero(np.isfinite(covers[CENTRAL]))
    years = [int(year) + 1 for year in due] or [1]
    rows: Rows = [
        {"year": int(year) + 1, "case": case, "cover": float(column[year]), "full": bool(full[year])}
        for case, column in covers.items()
        for year in np.flatnonzero(np.isfinite(column))
    ]
    limits = (
        rule_at(0.0),
        rule_at(1.0, label="1.00 just pays", dash="short"),
        rule_at(wanted, label=f"{wanted:.2f} wanted", dash="long"),
    )
    top = sized(layered(*limits, *_lines(rows, list(covers), years)), height=240)
    return alt.vconcat(top, _signed(signed, due, years), spacing=10)


def _lines(rows: Rows, names: list[str], years: list[int]) -> tuple[Chart, Chart, Chart]:
    """The lines through full years, their points, and hollow points for years of building and start-up."""
    at = alt.X("year:O", title=None, scale=alt.Scale(domain=years))
    looks = [LOOKS[name] for name in names]
    legend = alt.Legend(columns=3, symbolSize=90, symbolStrokeWidth=0)  # a dashed outline would fray the sign
    hue = alt.Color(
        "case:N", title=None, scale=alt.Scale(domain=names, range=[look.hue for look in looks]), legend=legend
    )
    dashes = alt.Scale(domain=names, range=[DASH[look.dash] for look in looks])
    shape = alt.Shape(
        "case:N", title=None, scale=alt.Scale(domain=names, range=[look.shape for look in looks]), legend=legend
    )
    cover = alt.Y("cover:Q", title="cover, times", scale=alt.Scale(zero=True, padding=8))
    tips = ["year:O", "case:N", alt.Tooltip("cover:Q", format=".2f")]
    in_full, in_part = [row for row in rows if row["full"]], [row for row in rows if not row["full"]]
    dash = alt.StrokeDash("case:N", title=None, scale=dashes, legend=legend)
    line = alt.Chart(data(in_full)).mark_line(strokeWidth=2.5).encode(x=at, y=cover, color=hue, strokeDash=dash)
    points = alt.Chart(data(in_full)).mark_point(size=60, filled=True, opacity=1)
    hollow = alt.Chart(data(in_part)).mark_point(size=60, filled=False, opacity=1)
    return line, *(each.encode(x=at, y=cover, color=hue, shape=shape, tooltip=tips) for each in (points, hollow))


def _signed(signed: Array, due: npt.NDArray[np.int64], years: list[int]) -> Chart:
    """Bars of the signed part of the income."""
    rows: Rows = [
        {"year": int(year) + 1, "share": float(signed[year]), "text": f"{signed[year]:.0%}"}
        for year in due
        if np.isfinite(signed[year])
    ]
    percents = alt.Axis(format="%", values=[0, 0.5, 1])
    share = alt.Y("share:Q", title="signed, %", axis=percents, scale=alt.Scale(domain=[0, 1.15], nice=False))
    at = alt.X("year:O", title="project year", scale=alt.Scale(domain=years))
    bars = alt.Chart(data(rows)).mark_bar(color=BLUE).encode(x=at, y=share)
    words = alt.Chart(data(rows)).mark_text(dy=-7, fontSize=10).encode(x=at, y="share:Q", text="text:N")
    return sized(alt.layer(bars, words), height=70)


def _finding(covers: Mapping[str, Array], wanted: float) -> str:
    central = covers[CENTRAL]
    if not np.isfinite(central).any():
        return "No loan falls due in a full year, so there is nothing to cover"
    due = int(np.isfinite(central).sum())
    short, under = int((central < 1).sum()), int((central < wanted).sum())
    least = int(np.nanargmin(central))
    said = f"cover is least in year {least + 1}: {times(float(central[least]), wanted)}"
    if short:
        head = f"In {short} of {due} full years the cash does not pay the loan; {said}"
    elif under:
        head = (
            f"The cash pays the loan every full year, but in {under} of {due} it is less than the wanted "
            f"{wanted:.2f} times what falls due; {said}"
        )
    else:
        head = f"In every full year the cash is at least {wanted:.2f} times what falls due on the loan; {said}"
    lows = {case: float(np.nanmin(column)) for case, column in covers.items() if np.isfinite(column).any()}
    others = [f"{told} {lows[case]:z.2f}" for case, told in BESIDE_PLAN.items() if case in lows]
    if others and f"{lows.get(LENDER, lows[CENTRAL]):z.2f}" == f"{lows[CENTRAL]:z.2f}":
        others = others[1:]
    return "; ".join((head, *others))
