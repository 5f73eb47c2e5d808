"""How was this figure made: one line of an appraisal, what went into it, and every input below it with its source.

Pure functions: the command line prints the tables, the dashboard shows the same record and walks down by name.
"""

from __future__ import annotations

import difflib
from collections.abc import Collection, Mapping
from dataclasses import dataclass
from functools import cache

from appraisal.appraise import Appraisal
from appraisal.constants import CONSTANTS
from appraisal.errors import AppraisalError
from appraisal.lines.explain import Figure, explain, leaves
from appraisal.lines.names import VIEWS
from appraisal.present.formulas import CONSTANT, equation, parted, source
from appraisal.present.numbers import Units
from appraisal.present.tables import units_of
from appraisal.timeline import MONTHS, SERIES_LABELS

SUMMARY = {
    "sum": "sum of the year",
    "mean": "mean of the months",
    "last": "at the year's end",
    "single": "one value",
}
VIEW_WORDS: Mapping[str, str] = {"same": "", **dict(VIEWS.values())}
ORIGIN = {
    "scenario": "stated in the scenario",
    "default": "default",
    "reference": "reference table",
    "computed": "worked out from other inputs",
}
CLOSE = 3  # likely spellings offered
OF_MEASURES = {  # a measure is no line; these lines it is made of
    **dict.fromkeys(
        ("npv", "irr", "mirr", "payback", "payback_years", "discounted_payback_years", "benefit_cost_ratio"),
        "project_cash and judging.discount_rate",
    ),
    **dict.fromkeys(
        ("dscr", "dscr_min", "dscr_average", "least_cover"), "cover, cash_available_for_debt_service and debt_service"
    ),
    **dict.fromkeys(("llcr", "plcr"), "cash_available_for_debt_service, interest_cost and loans_owed"),
    **dict.fromkeys(
        ("levelised_cost", "levelised_cost_per_kwh"),
        "investment, running_costs, overhauls_paid, disposals, power_sold and judging.discount_rate",
    ),
}


class UnknownLineError(AppraisalError):
    """There is no such line, input or project year; the message says which are likely or allowed."""


@dataclass(frozen=True)
class Origin:
    """Where a value that is no line comes from: kind (input, constant, time), source, how it is known."""

    kind: str
    source: str
    known: str


@dataclass(frozen=True)
class Part:
    """One value of an explanation, as the line above reads it.

    name, label: of the line or input. reading: which months are read, empty for the same month. months: its values in the
    project year [unit], or one that holds in all of them. value [value_unit]: one number for the year, summary: how it was
    made. origin: of an input, None for a line, which can be explained in turn.
    """

    name: str
    label: str
    unit: str
    reading: str
    months: tuple[float, ...]
    value: float
    value_unit: str
    summary: str
    origin: Origin | None


@dataclass(frozen=True)
class Explanation:
    """One figure, how it was made, and what it rests on.

    figure: the line itself. meaning: in words. equation: of names; empty for an input. source: of the relation. module: where
    it is defined. year: project year, from 1; months: names of the calendar months. parts: what the equation reads, in its
    order. inputs: everything below that is no line, the nearest first. units: those its reader is used to; all figures here are
    in the units that the equation reads.
    """

    figure: Part
    meaning: str
    equation: str
    source: str
    module: str
    year: int
    months: tuple[str, ...]
    parts: tuple[Part, ...]
    inputs: tuple[Part, ...]
    units: Units


def explainable(appraisal: Appraisal) -> Mapping[str, str]:
    """Full name -> label of every line that can be explained, in the order of the sheets."""
    return {name: node.label for name, node in appraisal.plan.nodes.items()}


def explanation(appraisal: Appraisal, name: str, *, year: int) -> Explanation:
    """How one line was made in one project year, from 1.

    name: full name of a line or input (`power_sales`, `substrate.milkers.manure`, `judging.discount_rate`). Raises
    UnknownLineError with the likely spelling, or with the years there are.
    """
    _known(appraisal, name, year)
    labels, origins = _labels(appraisal), _origins(appraisal)
    told = explain(appraisal.plan, appraisal.values, name, year=year, labels=labels)
    node = appraisal.plan.nodes.get(name)
    inputs = tuple(
        explain(appraisal.plan, appraisal.values, each, year=year, labels=labels)
        for each in leaves(appraisal.plan, name)
    )
    currency = appraisal.structure.currency
    first = (year - 1) * MONTHS
    return Explanation(
        figure=_part(told, origins, currency),
        meaning=parted(node.line)[0] if node else _help(appraisal, name),
        equation=equation(node.line) if node else "",
        source=source(node.line) if node else "",
        module=node.line.body.__module__.removeprefix("appraisal.") if node else "",
        year=year,
        months=tuple(appraisal.timeline.name(month) for month in range(first, first + MONTHS)),
        parts=tuple(_part(each, origins, currency) for each in told.parts),
        inputs=tuple(_part(each, origins, currency) for each in inputs),
        units=units_of(appraisal),
    )


def _known(appraisal: Appraisal, name: str, year: int) -> None:
    known = {*appraisal.plan.nodes, *appraisal.values}
    if name in OF_MEASURES:
        raise UnknownLineError(f"{name!r} is a measure, not a line: it is made of {OF_MEASURES[name]}, which can be explained")
    if name not in known:
        raise UnknownLineError(_no_number(appraisal, name) or f"no line {name!r} in this scenario{_hint(appraisal, name, known)}")
    if not 1 <= year <= appraisal.timeline.years:
        raise UnknownLineError(f"no project year {year}: the scenario has years 1 to {appraisal.timeline.years}")


def _no_number(appraisal: Appraisal, name: str) -> str:
    """What to say of an input that is a choice or a text; empty for any other name."""
    each = appraisal.loaded.assumptions.get(name)
    if each is None:
        return ""
    said = each.source or ORIGIN[each.origin]
    return f"{name!r} is a {each.declaration.kind}, not a figure: {each.declaration.label.lower()} is {each.value!r} ({said})"


def _hint(appraisal: Appraisal, name: str, known: Collection[str]) -> str:
    tidy = "_".join(name.lower().split())
    of_items = [each for each in appraisal.plan.nodes if each.startswith(tidy.partition("_")[0] + ".")]
    same = [each for each in of_items if each.rpartition(".")[2] == tidy.partition("_")[2]]
    labelled = [each for each, label in explainable(appraisal).items() if label.lower() == name.strip().lower()]
    alike = labelled or same or difflib.get_close_matches(tidy, known, CLOSE) or [each for each in known if tidy in each]
    likely = alike[:CLOSE] if tidy else []
    return f"; did you mean {' or '.join(likely)}?" if likely else "; `appraisal formulas` lists them all"


def _part(figure: Figure, origins: Mapping[str, Origin], currency: str) -> Part:
    unit = figure.unit.replace("money", currency)
    whole_year = figure.summary == "sum" or figure.view == "year_sum"
    unit = unit.removesuffix("/month") if figure.view in ("life_sum", "cumulative") else unit
    year_unit = unit.removesuffix("/month") + "/year" if whole_year and unit.endswith("/month") else unit
    reading = VIEW_WORDS[figure.view]
    return Part(
        figure.name,
        figure.label,
        unit,
        reading,
        figure.periods,
        figure.value,
        year_unit,
        SUMMARY[figure.summary],
        origins.get(figure.name),
    )


def _labels(appraisal: Appraisal) -> dict[str, tuple[str, str]]:
    declared = {
        path: (_item_label(path, each.declaration.label), each.declaration.unit)
        for path, each in appraisal.loaded.assumptions.items()
    }
    fixed = {f"constant.{each.name}": (each.meaning, each.unit) for each in CONSTANTS}
    return {**declared, **fixed, **{f"timeline.{name}": facts for name, facts in SERIES_LABELS.items()}}


def _item_label(path: str, label: str) -> str:
    """Label of an input, with the item of a table in front: `feed.bakery.ts_share` is of the bakery."""
    parts = path.split(".")
    return f"{parts[1]}: {label}" if len(parts) > 2 else label


def _origins(appraisal: Appraisal) -> dict[str, Origin]:
    inputs = {
        path: Origin("input", each.source or ORIGIN[each.origin], each.known or "nobody said")
        for path, each in appraisal.loaded.assumptions.items()
    }
    return {**inputs, **_fixed_origins()}


@cache
def _fixed_origins() -> Mapping[str, Origin]:
    fixed = {f"constant.{name}": Origin("constant", each.source, each.basis) for name, each in CONSTANT.items()}
    return {**fixed, **{f"timeline.{name}": Origin("time", "the calendar", "arithmetic") for name in SERIES_LABELS}}


def _help(appraisal: Appraisal, name: str) -> str:
    each = appraisal.loaded.assumptions.get(name)
    return each.declaration.help if each else CONSTANT[name.rpartition(".")[2]].meaning if "constant." in name else ""
