"""Hours and upkeep that a plan leaves out: the figures said are those of the lines and of the table."""

from __future__ import annotations

import pytest

from appraisal.appraise import Appraisal, appraise
from appraisal.demos import demos
from appraisal.scenario.load import load, loads, with_values

SHARED = "shared_plant_three_farms"
SMALL = demos()["small_herd_manure_only"].read_text("utf-8")
NO_HOURS = "family_hours_per_week = 0"
HOURS = {"labour.hired_hours_per_week": 5.0, "labour.family_hours_per_week": 5.0}


def said(case: Appraisal, where: str) -> list[tuple[float | None, float | None]]:
    return [(finding.value, finding.limit) for finding in case.findings if finding.where == where]


@pytest.mark.parametrize("name", sorted(demos()))
def test_demos_reckon_with_work_and_upkeep(name: str) -> None:
    case = appraise(load(demos()[name]))
    assert said(case, "labour.family_hours_per_week") == said(case, "running_costs") == []


def test_hours_are_held_against_power_and_food_waste() -> None:
    """185 kW on average at 2 h a kW, and 2,400 t of canteen food at 0.05 h: by hand some 491 hours; ten a week are 521."""
    case = appraise(with_values(load(demos()[SHARED]), {**HOURS, "labour.family_hours_per_week": 4.0}))
    [(given, wanted)] = said(case, "labour.family_hours_per_week")
    assert given == pytest.approx(9 * 365 / 7, rel=1e-6)
    assert wanted == pytest.approx(case.plant.power_gross_kwh / 8760 * 2 + 2400 * 0.05, rel=1e-6)
    assert said(appraise(with_values(load(demos()[SHARED]), HOURS)), "labour.family_hours_per_week") == []


def test_a_pond_is_not_asked_for_the_hours_of_a_tank() -> None:
    lagoon = SMALL.replace('kind = "stirred_tank"', 'kind = "covered_lagoon"').replace("family_hours_per_week = 5.5", NO_HOURS)
    tank = SMALL.replace("family_hours_per_week = 5.5", NO_HOURS)
    assert said(appraise(loads(lagoon)), "labour.family_hours_per_week") == []
    assert len(said(appraise(loads(tank)), "labour.family_hours_per_week")) == 1
