"""Farms to draw pictures of, and what a picture draws."""

from __future__ import annotations

from dataclasses import replace
from functools import cache

from appraisal.appraise import Appraisal, appraise
from appraisal.demos import demos
from appraisal.lines.evaluate import year_sum
from appraisal.present.charts.picture import Picture
from appraisal.scenario.load import load

SYSTEMS = ("metric", "us")


@cache
def appraised(demo: str) -> Appraisal:
    return appraise(load(demos()[demo]))


def in_units(demo: str, system: str) -> Appraisal:
    found = appraised(demo)
    project = found.loaded.scenario.project.model_copy(update={"display_units": system})
    scenario = found.loaded.scenario.model_copy(update={"project": project})
    return replace(found, loaded=replace(found.loaded, scenario=scenario))


def spec_data(picture: Picture) -> list[list[dict[str, object]]]:
    """All rows drawn, data set by data set."""
    spec = picture.chart.to_dict()
    return list(spec.get("datasets", {}).values()) or _inline(spec)


def _inline(part: object) -> list[list[dict[str, object]]]:
    found: list[list[dict[str, object]]] = []
    if isinstance(part, dict):
        if isinstance(part.get("data"), dict) and "values" in part["data"]:
            found.append(part["data"]["values"])
        for value in part.values():
            found += _inline(value)
    elif isinstance(part, list):
        for value in part:
            found += _inline(value)
    return found


def rows_with(picture: Picture, *keys: str) -> list[dict[str, object]]:
    """The first drawn data set whose rows have these keys."""
    return next(data for data in spec_data(picture) if data and set(keys) <= set(data[0]))


def number(text: str) -> float:
    return float(text.replace(",", "").rstrip("%"))


def of_year(found: Appraisal, line: str) -> float:
    return float(year_sum(found.values[line][:1])[0, found.plant.year - 1])
