"""Findings about how the gas is worked out: each fires with its figure where it should, and is silent where it should be."""

from __future__ import annotations

import numpy as np
import pytest

from appraisal.appraise import Appraisal
from appraisal.errors import Finding
from appraisal.scenario.said import said
from tests.properties.tanks import EVENTS, lines, plant

HERD, MIXED = "small_herd_manure_only", "dairy_with_leftovers"
GROWTH = 'kinetics = "chen_hashimoto"'
THIN = '\n[recirculation]\namount = "share_of_feed"\nreturned_share = 0.3\n'  # 86 kg VS/m3 becomes 66


def at(case: Appraisal, where: str, words: str = "") -> list[Finding]:
    return [finding for finding in case.findings if finding.where == where and words in finding.what]


def test_the_growth_method_says_when_it_leaves_its_range() -> None:
    thick, mixed = plant(HERD, "stirred_tank", GROWTH), plant(MIXED, "stirred_tank", GROWTH)
    [over] = at(thick, "digester.kinetics", "only guesses")
    assert over.value == pytest.approx(thick.values["solids_in_flow"].max(), rel=1e-12)
    assert over.severity == "warning" and over.limit == 80
    assert not at(thick, "digester.kinetics", "no manure")
    [other] = at(mixed, "digester.kinetics", "no manure")
    assert other.value is not None and 0 < other.value < 1 and other.severity == "warning"
    assert not at(plant(HERD, "stirred_tank", GROWTH, THIN), "digester.kinetics", "only guesses")


def test_microbes_that_are_washed_out_stop_everything() -> None:
    case = plant(HERD, "stirred_tank", f"{GROWTH}\nactive_volume_m3 = 20")
    [out] = at(case, "retention", "faster than they grow")
    assert out.severity == "stop and ask" and case.values["methane_made"].sum() == 0
    assert out.limit == pytest.approx(1 / float(case.values["growth_rate"][0, 0]), rel=1e-12)


def test_the_difference_between_the_two_methods_is_shown_with_both_figures() -> None:
    first, grown = plant(HERD, "stirred_tank", "", THIN), plant(HERD, "stirred_tank", GROWTH, THIN)
    notes = [at(case, "digester.kinetics", "By first-order rates")[0] for case in (first, grown)]
    assert (notes[0].value, notes[0].limit) == (notes[1].value, notes[1].limit)
    year = slice(12 * (first.plant.year - 1), 12 * first.plant.year)
    made = [case.values["methane_made"][0, year].sum() for case in (first, grown)]
    assert [notes[0].limit, notes[0].value] == pytest.approx(made, rel=1e-9)
    assert made[1] > made[0]
    assert not at(plant(HERD, "stirred_tank"), "digester.kinetics")  # too thick: the other method would only guess
    assert not at(plant(HERD, "plug_flow"), "digester.kinetics")


def test_a_sized_tank_says_its_size_and_questions_another_volume() -> None:
    tank = 'volume_from = "sized"\nwanted_retention_days = 30'
    case = plant(MIXED, "stirred_tank", f"{tank}\nactive_volume_m3 = 0")
    [size] = at(case, "clean_volume")
    assert size.value == case.values["clean_volume"][0, 0] and said(case.loaded.scenario, size.value, "m3") in size.what
    assert not at(case, "digester.active_volume_m3")
    [other] = at(plant(MIXED, "stirred_tank", f"{tank}\nactive_volume_m3 = 1500"), "digester.active_volume_m3")
    assert other.value == 1500 and other.limit == size.value
    assert not at(plant(MIXED, "stirred_tank", f"{tank}\nactive_volume_m3 = {size.value:.0f}"), "digester.active_volume_m3")


@pytest.mark.parametrize(("share", "severity"), [(0.005, None), (0.01, "note"), (0.03, "warning")])
def test_grit_is_told_by_what_it_takes_before_it_is_cleaned_out(share: float, severity: str | None) -> None:
    events = EVENTS.replace("every_years = 6", "every_years = 12")
    found = at(plant(MIXED, "stirred_tank", f"grit_share_per_year = {share}", events), "grit_share")
    assert [finding.severity for finding in found] == ([severity] if severity else [])
    if found:
        assert found[0].value == pytest.approx(share * 143 / 12, rel=1e-12)


def test_a_plan_without_clean_outs_is_questioned() -> None:
    assert at(plant(MIXED, "stirred_tank"), "clean_out.every_years")
    assert not at(plant(MIXED, "stirred_tank", "", EVENTS), "clean_out.every_years")


def test_sand_that_settles_takes_the_volume_until_it_is_cleaned_out() -> None:
    """Sand bedding of 0.4 t a cow and year, added up here month by month since the last clean-out, over 1.5 t/m3."""
    case = plant(MIXED, "stirred_tank", "", EVENTS.replace("every_years = 6", "every_years = 3"))
    v = lines(case, {**case.inputs, "herd.milkers.sand_t_per_head_year": np.array([[0.4]])})
    settled, volume = v["grit_settled"][0], v["clean_volume"][0, 0]
    sandy = np.zeros_like(settled)
    lies = 0.0
    for month, begins in enumerate(case.values["clean_out_begins"][0]):
        lies = (0.0 if begins else lies) + settled[month]
        sandy[month] = lies
    np.testing.assert_allclose(v["grit_in_tank"][0], sandy, rtol=1e-12)
    np.testing.assert_allclose(v["grit_share"][0], sandy / 1.5 / volume, rtol=1e-12)
    assert 0.01 < v["grit_share"].max() < 0.5


def test_a_pond_tells_of_its_cold_months_and_of_its_stay() -> None:
    pond = plant(MIXED, "covered_lagoon", "active_volume_m3 = 9000")
    [cold] = at(pond, "digester_temperature")
    assert cold.value is not None and 0 < cold.value < 0.8
    assert not at(pond, "retention")
    [short] = at(plant(MIXED, "covered_lagoon"), "retention", "days in the pond")
    assert short.limit == 40 and short.severity == "note"
    assert (pond.values["heat_to_digester"] == 0).all()
    heated = plant(MIXED, "stirred_tank", "active_volume_m3 = 9000")
    assert pond.values["methane_made"].sum() < heated.values["methane_made"].sum()


def test_a_soured_tank_says_what_it_loses() -> None:
    sour, well = (plant(HERD, "stirred_tank", "", EVENTS.replace("month = 40", f"month = {month}")) for month in (40, 0))
    [lost] = at(sour, "upset.month")
    assert lost.value == pytest.approx(well.values["methane_made"].sum() - sour.values["methane_made"].sum(), rel=1e-9)
    assert not at(well, "upset.month")


def test_the_spread_of_working_plants_is_told_where_manure_carries_the_plant() -> None:
    for name, kind, told in ((HERD, "stirred_tank", 1), (MIXED, "plug_flow", 1), (HERD, "covered_lagoon", 0)):
        assert len(at(plant(name, kind), "methane_made", "How sure is the gas of manure?")) == told


def test_a_pond_is_held_against_what_ponds_report() -> None:
    case = plant(HERD, "covered_lagoon")
    [found] = at(case, "methane_made", "covered pond")
    assert found.value == pytest.approx(case.plant.power_gross_kwh / 120 / 365)
    assert not at(plant(HERD, "stirred_tank"), "methane_made", "covered pond")
    assert not at(plant(MIXED, "covered_lagoon"), "methane_made", "covered pond")  # its leftovers make gas too
