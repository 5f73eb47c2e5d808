"""What findings say, in the reader's own units: no tonne on a page of gallons and no gallon on a page of tonnes."""

from __future__ import annotations

import re
from collections.abc import Iterable

import pytest

from appraisal.appraise import Appraisal, appraise, said_anew
from appraisal.dashboard.seen import System, in_units, loaded_in_units
from appraisal.demos import demos
from appraisal.errors import Finding
from appraisal.scenario.load import load
from appraisal.scenario.said import said
from tests.limit_cases import CASES, judged

METRIC = re.compile(r"\b(t|tonnes?|ha|hectares?|m3|m2|Nm3|litres?|L|kg|km|mm|degC|K)\b|°C")
US = re.compile(r"\b(short tons?|acres?|US gal|gallons?|ft3|ft2|scf|lb|pounds?|miles?|inch|degF|Btu)\b|°F")
AS_TESTED = re.compile(r"g per litre|g N/L|t CO2e")  # laboratories and credits count so everywhere
FOREIGN = {"metric": US, "us": METRIC}
SYSTEMS: tuple[System, ...] = ("metric", "us")


def foreign(found: Iterable[Finding], system: str) -> list[str]:
    """What findings say with a unit of the other system in it."""
    return [each.what for each in found if FOREIGN[system].search(AS_TESTED.sub("", each.what))]


def shown(name: str, system: System) -> Appraisal:
    """A demo as its reader looks at it in one unit system."""
    return in_units(appraise(load(demos()[name])), system)


@pytest.mark.parametrize("system", SYSTEMS)
@pytest.mark.parametrize("name", demos())
def test_findings_of_every_demo_speak_the_units_of_the_page(name: str, system: System) -> None:
    found = shown(name, system).findings
    assert found and foreign(found, system) == []
    assert [each.what for each in found if "_" in each.what] == []


@pytest.mark.parametrize("system", SYSTEMS)
def test_findings_on_every_operating_limit_speak_the_units_of_the_page(system: System) -> None:
    """Each band moved to both of its sides, so that sentences that no demo shows are read too."""
    asked = ("years = 3", f'years = 3\ndisplay_units = "{system}"')
    cases = [case._replace(swaps=(*case.swaps, asked)) for case in CASES]
    found = [each for case in cases for value in (case.low, case.high) for each in judged(case, value)]
    assert len({each.where for each in found}) > 20 and foreign(found, system) == []
    assert [each.what for each in found if "_" in each.what] == []


def test_another_unit_system_moves_no_figure() -> None:
    """Where, how grave, value and limit stay; only the sentence follows the reader."""
    plan = appraise(load(demos()["leftovers_outgrow_land"]))
    other = said_anew(plan, loaded_in_units(plan.loaded, "metric"))
    bare = [[(f.where, f.severity, f.value, f.limit, f.unit) for f in each.findings] for each in (plan, other)]
    assert bare[0] == bare[1]
    acres, hectares = (next(f.what for f in each.findings if f.where == "land_missing") for each in (plan, other))
    assert "acres are missing" in acres and "ha are missing" in hectares and acres != hectares


def test_a_quantity_in_a_sentence() -> None:
    scenario = load(demos()["leftovers_outgrow_land"]).scenario
    assert said(scenario, 100.0, "ha") == "247 acres"  # 2.471 acres to the hectare
    assert said(scenario, 38.0, "degC") == "100 °F"
    assert said(scenario, 0.5, "g N/L", "g") == "0.5 g N/L"
    assert said(scenario, 15.0, "d", "g") == "15 days"
