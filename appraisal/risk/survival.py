"""How long such plants ran elsewhere: a survival curve from plants of which some still run (Kaplan and Meier 1958).

With n(t) plants still under watch just before t years and d(t) shut in year t,

    S(t) = product over s <= t of (1 - d(s) / n(s)),

and its standard error after Greenwood 1926: S(t) sqrt(sum d / (n (n - d))). A plant that still runs leaves the watch at its
age when the record was made. A shut plant whose year nobody wrote down cannot be placed: it is left out, which flatters the
curve; counting all of them as shut in the first year gives the other end, and both are told.
"""

from __future__ import annotations

from collections.abc import Iterable
from dataclasses import dataclass
from math import sqrt

from appraisal.scenario.reference import rows

TABLE = "us_farm_digester_lifetimes"
RECORD_YEAR = 2024  # the record is of June 2024
COHORT_FROM = 1998
FEWEST = 20  # plants under watch, or no curve is offered (common practice, no source)
KINDS = {
    "stirred_tank": ("Complete Mix",),
    "tanks_in_series": ("Complete Mix",),
    "plug_flow": (
        "Horizontal Plug Flow",
        "Mixed Plug Flow",
        "Modular Plug Flow",
        "Plug Flow - Unspecified",
        "Vertical Plug Flow",
    ),
    "covered_lagoon": ("Covered Lagoon",),
}


@dataclass(frozen=True)
class Life:
    """One plant: years it ran, or has run so far [year], and whether it shut. Years under 1 count as 1."""

    years: float
    shut: bool


@dataclass(frozen=True)
class Step:
    """One year in which plants shut.

    years: since the start. running, error: share still running after it and its standard error [1]. watched: plants.
    """

    years: float
    running: float
    error: float
    watched: int


@dataclass(frozen=True)
class Record:
    """A survival curve and what it rests on: plants, shut-downs, and shut plants of unknown year, left out of the curve."""

    label: str
    plants: int
    shut: int
    unknown: int
    steps: tuple[Step, ...]
    pessimistic: tuple[Step, ...]

    def running_after(self, years: float, *, pessimistic: bool = False) -> tuple[float, float]:
        """Share still running after so many years and its standard error [1]."""
        steps = self.pessimistic if pessimistic else self.steps
        past = [step for step in steps if step.years <= years]
        return (past[-1].running, past[-1].error) if past else (1.0, 0.0)

    def closings(self, *, never: float) -> list[tuple[float, float]]:
        """Years until closing with the share of plants that close then; the rest close at `never` [year]."""
        before, made = 1.0, []
        for step in self.steps:
            made.append((step.years, before - step.running))
            before = step.running
        return [*made, (never, before)]

    def words(self) -> str:
        """What the curve rests on, its spread and how unknown years are treated, in one reason."""
        running, error = self.running_after(12)
        worst, _ = self.running_after(12, pessimistic=True)
        return (
            f"{self.label} that began since {COHORT_FROM}: {self.plants} plants, {self.shut} shut. {running:.0%} (+- "
            f"{2 * error:.0%}) still ran after 12 years; {self.unknown} shut plants of unknown year are left out, taken as shut "
            f"in the first year they make it {worst:.0%}. Plants that still run count up to their age in {RECORD_YEAR} (Kaplan "
            f"and Meier). Source: "
            f"{rows(TABLE)[0]['source']}"
        )


def survival(lives: Iterable[Life]) -> tuple[Step, ...]:
    """The curve of Kaplan and Meier with Greenwood's error, a step for every year in which a plant shut.

    A plant that shut and one that leaves the watch in the same year: the shut one counts first.
    """
    known = sorted((max(life.years, 1.0), life.shut) for life in lives)
    running, spread, made = 1.0, 0.0, []
    for years in sorted({years for years, shut in known if shut}):
        watched = sum(each >= years for each, _ in known)
        shut = sum(each == years and ended for each, ended in known)
        running *= 1 - shut / watched
        spread += shut / (watched * (watched - shut)) if watched > shut else 0.0
        made.append(Step(years, running, running * sqrt(spread), watched))
    return tuple(made)


def record_for(kind: str, *, dairy: bool) -> Record | None:
    """The record of plants of this kind of digester, dairies only where the farm is one; None where too few are known."""
    types = KINDS.get(kind, ())
    found = [
        line
        for line in rows(TABLE)
        if line["digester_type"] in types
        and int(line["year_started"]) >= COHORT_FROM
        and (not dairy or line["animals"] == "Dairy")
    ]
    unknown = sum(line["status"] == "shut" and not line["year_shut"] for line in found)
    lives = [_life(line["year_started"], line["year_shut"]) for line in found if line["status"] != "shut" or line["year_shut"]]
    if len(lives) < FEWEST:
        return None
    worst = survival((*lives, *(Life(1.0, True),) * unknown))
    label = f"US {'dairy ' if dairy else 'farm '}digesters ({', '.join(types)})"
    return Record(label, len(found), sum(life.shut for life in lives) + unknown, unknown, survival(lives), worst)


def _life(started: str, shut: str) -> Life:
    return Life(float(int(shut or RECORD_YEAR) - int(started)), bool(shut))
