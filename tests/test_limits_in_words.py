"""What is said about a limit, when nothing is said, and findings that stand in no band."""

from __future__ import annotations

from typing import NamedTuple

import pytest

from appraisal.appraise import appraise
from appraisal.scenario.reference import row
from tests.limit_cases import CASES, COWS, FOOD, GAS, IRON, MEASURED, NITROGEN, TANK, Case, base, judged


def test_a_comfortable_plant_has_no_finding_on_its_running() -> None:
    """Nothing fires by itself: a slurry plant with clean gas, and straw for carbon, passes every band."""
    straw = '[feed.straw]\nlike = "cereal_straw"\ntonnes_per_year = 700\nhandling = "finely_ground"\nsupply_by = "own"\n'
    cleaned = '[cleaning]\niron = "yes"\niron_price_per_kg = 1\nair = "yes"\nair_share = 0.01\n[pasteuriser]'
    swaps = (
        ("[pasteuriser]", cleaned),
        (TANK, f"{TANK}\nleak_share = 0.002\nph_low = 7.5\nph_high = 7.9"),
        ("active_volume_m3 = 1000", "active_volume_m3 = 1700"),
        ("rated_kw = 150", "rated_kw = 110"),
        ("[power]", "[power]\nplant_use_kwh_per_t = 6"),
    )
    loaded, *_ = base(f"{COWS}wash_water_l_per_head_day = 15\n{straw}", swaps)
    appraisal = appraise(loaded)
    units = {(case.where, row("digester_limits", case.limit)["unit"]) for case in CASES}
    assert [f.what for f in appraisal.findings if (f.where, f.unit) in units] == []
    assert appraisal.cautious is None


def graded(case: Case, value: float) -> list[str]:
    """How serious the findings are where a case looks, with its input at a value."""
    return [finding.severity for finding in judged(case, value) if finding.where == case.where]


def test_nitrogen_of_manure_alone_is_judged_by_its_ammonia() -> None:
    """Up to the stop-and-ask limit little carbon is told only of feed that makes it worse than the farm's own manure."""
    manure = Case("c_to_n", "carbon_to_nitrogen", NITROGEN, 0, 0)
    assert graded(manure, 6) == [] and graded(manure, 12) == ["stop and ask"]
    fed = Case("c_to_n", "carbon_to_nitrogen", "feed.food.n_kg_per_t", 0, 0, fed=COWS + FOOD)
    assert graded(fed, 3) == [] and graded(fed, 25) == ["warning"]


def test_averages_of_published_plants_alone_are_no_warning_about_losses() -> None:
    said = Case("methane_loss", "methane_lost", "digester.leak_share", 0, 0)
    assert graded(said, 0.025) == ["note"] and graded(said, 0.026) == ["warning"] and graded(said, 0.2) == ["stop and ask"]
    (finding,) = (each for each in judged(said, 0.025) if each.where == "methane_lost")
    assert "2.5% leaks" in finding.what and "average of published plants" in finding.what


def test_a_plan_without_cleaning_is_asked_for_one_and_told_its_cost() -> None:
    """It lacks a choice: no gas is cut for it. With iron in the plan the same gas is stop and ask."""
    none = Case("h2s_engine", "h2s_at_engine", "herd.cows.s_kg_per_t", 0, 0)
    assert graded(none, 5) == ["warning"] and graded(none._replace(swaps=(IRON,)), 5) == ["stop and ask"]
    (finding,) = (each for each in judged(none, 5) if each.where == "h2s_at_engine")
    assert "No gas cleaning is in the plan" in finding.what and "1.5 to 6 EUR of 2022" in finding.what


class Other(NamedTuple):
    """A finding that stands in no band: where, the input moved, a value without it, a value with it, how serious."""

    where: str
    path: str
    without: float
    with_it: float
    severity: str
    fed: str = COWS
    swaps: tuple[tuple[str, str], ...] = ()


FLARE = ("[pasteuriser]", "[gas]\nflare_nm3_per_hour = 60\n[pasteuriser]")
OTHERS = (
    Other("claims.retention_days", "claims.retention_days", 36, 50, "warning"),
    Other("methane_made", "herd.cows.potential_nm3_per_t_vs", 200, 0, "stop and ask"),
    Other("digester.measured_gas_nm3_per_day", GAS, 650, 1300, "warning", swaps=(MEASURED,)),
    Other("engine.main.minimum_load", "engine.main.rated_kw", 100, 1000, "warning"),
    Other("flare_reach", "gas.flare_nm3_per_hour", 45, 20, "stop and ask", swaps=(FLARE,)),
    Other("flare_reach", "gas.peak_over_mean", 1, 3, "warning", swaps=(FLARE,)),
)


@pytest.mark.parametrize("other", OTHERS, ids=[f"{other.where} by {other.path}" for other in OTHERS])
def test_findings_outside_the_bands(other: Other) -> None:
    case = Case("", other.where, other.path, 0, 0, other.fed, other.swaps)
    severities = [
        [each.severity for each in judged(case, value) if each.where == other.where and each.severity != "note"]
        for value in (other.without, other.with_it)
    ]
    assert severities == [[], [other.severity]]


def test_a_feed_that_must_be_pasteurised_is_asked_for_its_pasteuriser() -> None:
    must = FOOD + 'regulated = "yes"\n'
    for fed, treats, want in ((must, "nothing", ["stop and ask"]), (must, "regulated_feeds", []), (FOOD, "nothing", [])):
        loaded, *_ = base(fed, (("[pasteuriser]", f'[pasteuriser]\ntreats = "{treats}"'),))
        found_there = [each for each in appraise(loaded).findings if each.where == "pasteuriser.treats"]
        assert [each.severity for each in found_there] == want
        assert all("must be pasteurised" in each.what and "3,000 t" in each.what for each in found_there)
