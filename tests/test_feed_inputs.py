"""Herds and feeds as a farmer enters them: worked-out fields, and the findings on figures that do not fit one another."""

from __future__ import annotations

from collections.abc import Mapping

import pytest

from appraisal.appraise import appraise
from appraisal.errors import Finding
from appraisal.scenario.load import Loaded, loads
from appraisal.scenario.reference import figure
from appraisal.stoichiometry import methane_share, of_make_up
from tests.edges.scenario_text import changed

WHEY, COWS = 'like = "sweet_whey"', 'animal = "dairy_lactating"'
LAB = 'potential_from = "lab_and_table"\nlab_mean_nm3_per_t_vs = {mean}\nlab_sd_nm3_per_t_vs = 20\nlab_tests = {tests}'


def loaded(*swaps: tuple[str, str]) -> Loaded:
    """The starter with some passages exchanged."""
    return loads(changed(*swaps))


def with_whey(text: str) -> Loaded:
    """The starter with lines added to its whey."""
    return loaded((WHEY, f"{WHEY}\n{text}"))


def with_cows(text: str) -> Loaded:
    """The starter with lines added to its cows."""
    return loaded((COWS, f"{COWS}\n{text}"))


def test_a_laboratory_result_moves_the_potential_and_narrows_its_range() -> None:
    table = figure("feedstocks", "sweet_whey", "bmp_mid")
    found = with_whey(LAB.format(mean=400, tests=4)).assumptions["feed.whey.potential_nm3_per_t_vs"]
    assert table.low is not None and table.high is not None and found.low is not None and found.high is not None
    assert isinstance(found.value, float) and table.value < found.value < 400
    assert found.high - found.low < table.high - table.low
    assert found.origin == "computed" and "4 laboratory tests" in found.source and "row sweet_whey" in found.source
    more = with_whey(LAB.format(mean=400, tests=40)).assumptions["feed.whey.potential_nm3_per_t_vs"]
    assert more.low is not None and more.low > found.low


def test_the_weighed_potential_makes_the_gas() -> None:
    used = with_whey(LAB.format(mean=400, tests=4))
    written = with_whey(f"potential_nm3_per_t_vs = {used.scenario.feed['whey'].potential_nm3_per_t_vs!r}")
    assert appraise(used).plant.methane_nm3 == appraise(written).plant.methane_nm3


def test_a_methane_share_is_taken_from_the_composition() -> None:
    own = with_whey('composition = "make_up"\nfat_share_of_vs = 0.3\nprotein_share_of_vs = 0.2\ncarbohydrate_share_of_vs = 0.5\n'
                    'methane_share_from = "composition"')
    by_hand = methane_share(of_make_up(fat=0.3, protein=0.2, carbohydrate=0.5))
    assert own.scenario.feed["whey"].methane_share == pytest.approx(by_hand, rel=1e-12)
    assert own.assumptions["feed.whey.methane_share"].origin == "computed"
    row = with_whey('methane_share_from = "composition"')
    assert row.scenario.feed["whey"].methane_share == pytest.approx(
        methane_share(of_make_up(fat=0.05, protein=0.129, carbohydrate=0.821)), rel=1e-12)
    glucose = with_whey('composition = "elements_by_mol"\ncarbon_parts = 6\nhydrogen_parts = 12\noxygen_parts = 6\n'
                        'methane_share_from = "composition"\npotential_nm3_per_t_vs = 340')
    assert glucose.scenario.feed["whey"].methane_share == pytest.approx(0.5, rel=1e-12)


def test_a_composition_of_ones_own_needs_no_row_for_its_methane_share() -> None:
    """Everything that the row would give is written, the methane share worked out."""
    given = {"ts_share": 0.06, "vs_share_of_ts": 0.9, "potential_nm3_per_t_vs": 340, "n_kg_per_t": 1, "p_kg_per_t": 0.4,
             "k_kg_per_t": 1.4, "ammonium_share": 0, "rate_per_day": 0.5}
    lines = "\n".join(f"{name} = {value}" for name, value in given.items())
    elements = 'composition = "elements_by_mass"\ncarbon_parts = 72\nhydrogen_parts = 12.1\noxygen_parts = 96'
    whey = loaded((WHEY, f'{lines}\n{elements}\nmethane_share_from = "composition"')).scenario.feed["whey"]
    assert whey.methane_share == pytest.approx(0.5, abs=0.001)


def test_what_nobody_enters_is_as_before() -> None:
    plain = loaded()
    feed, herd = plain.scenario.feed["whey"], plain.scenario.herd["cows"]
    assert (feed.potential_from, feed.composition, feed.methane_share_from) == ("own", "table", "own")
    assert (feed.starts_after_months, feed.buffer_m3, feed.truckload_t, feed.renewal_chance) == (0, 0, 0, 1)
    assert (herd.manure_method, herd.bedding_t_per_head_year, herd.pit_days, herd.yard_area_m2) == ("per_animal", 0, 0, 0)


# The starter shows US units: 15 and 50 kg of milk, 125 t of manure, 455 and 150 Nm3/t VS are said in them.
CASES: Mapping[str, tuple[Loaded, str, str]] = {
    "lorries on one day a week": (
        with_whey("truckload_t = 25\ndelivery_days_per_week = 1"), "peak_day_over_even_day", "US gal for whey"),
    "renewal counted on without a chance": (
        with_whey("renewal_chance = 0.2"), "feed.whey.renewal_chance", "given as 20%; after it the figures count on 50%"),
    "milk beyond the equations": (
        with_cows('manure_method = "by_milk"\nmilk_kg_per_head_day = 12'), "herd.cows.milk_kg_per_head_day", "33.1 lb to 110 lb"),
    "measured manure and wash water": (
        with_cows('manure_method = "measured"\nmeasured_tonnes_per_year = 5000'),
        "herd.cows.measured_tonnes_per_year", "wash water is counted besides"),
    "five times the manure that animals give": (
        with_cows('manure_method = "measured"\nmeasured_tonnes_per_year = 25000'),
        "herd.cows.measured_tonnes_per_year", "138 short tons of manure for each animal"),
    "potential above the row": (
        with_whey("potential_nm3_per_t_vs = 440"), "feed.whey.potential_nm3_per_t_vs", "15,407 scf/short ton VS at most"),
    "laboratory far from the row": (
        with_whey(LAB.format(mean=150, tests=6)), "feed.whey.lab_mean_nm3_per_t_vs", "found 5,079 scf/short ton VS"),
}


def about(case: Loaded, where: str) -> list[Finding]:
    """The findings of one scenario about one place."""
    return [found for found in appraise(case).findings if found.where == where]


@pytest.mark.parametrize("name", CASES)
def test_a_figure_that_does_not_fit_is_questioned(name: str) -> None:
    case, where, words = CASES[name]
    found = about(case, where)
    assert [finding.severity for finding in found].count("warning") >= 1
    assert any(words in finding.what for finding in found), found
    assert about(loaded(), where) == []


def test_a_chance_that_covers_what_is_counted_on_is_only_told() -> None:
    assert [found.severity for found in about(with_whey("renewal_chance = 0.9"), "feed.whey.renewal_chance")] == ["note"]
