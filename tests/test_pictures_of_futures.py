"""Pictures of many futures and of causes: every future is counted, every bar and cell is that of the numbers behind it."""

from __future__ import annotations

from dataclasses import replace
from functools import cache

import numpy as np
import pytest
import vl_convert

from appraisal.demos import demos
from appraisal.lines.evaluate import MONTHS
from appraisal.present.charts.account_fan import account_fan
from appraisal.present.charts.ranked_swings import ranked_swings
from appraisal.present.charts.three_years import how_chosen, three_years_side_by_side
from appraisal.present.charts.two_way import two_way
from appraisal.present.charts.worth_spread import bars_of, worth_spread
from appraisal.present.naming import name_of
from appraisal.risk.draws import Settings
from appraisal.risk.futures import rows
from appraisal.risk.grids import Grid, grid
from appraisal.risk.simulate import Simulation, simulate
from appraisal.risk.swings import Swings, swings_to_quantiles
from appraisal.risk.three_years import ThreeYears, three_years
from appraisal.scenario.load import load
from tests.pictures import SYSTEMS, appraised, in_units, rows_with, spec_data

DRAWS = 256


@cache
def simulated(demo: str) -> Simulation:
    return simulate(load(demos()[demo]), Settings(draws=DRAWS, seed=3))


@pytest.mark.parametrize("demo", demos())
def test_pictures_of_futures_are_small_and_count_every_future(demo: str) -> None:
    found = simulated(demo)
    made = (account_fan(found), worth_spread(found))
    for picture in made:
        assert len(picture.chart.to_json()) < 60_000
        assert vl_convert.vegalite_to_svg(picture.chart.to_json()).count("<path") > 3
    drawn = rows_with(made[1], "share", "from")
    assert sum(float(str(row["share"])) for row in drawn) == pytest.approx(1, abs=1e-12)
    losing = sum(float(str(row["share"])) for row in drawn if row["kind"] == "loses money")
    assert losing == pytest.approx(found.chances["npv_below_zero"].value, abs=1e-12)
    band = rows_with(made[0], "low", "high")
    assert [row["middle"] for row in band] == pytest.approx(found.fan.cash[1])


def test_bars_hold_a_sample_of_one_value() -> None:
    edges, counts = bars_of(np.full(10, 5.0))
    assert counts.sum() == 10
    assert edges[0] <= 5 <= edges[-1]


@cache
def chosen_years(demo: str) -> ThreeYears:
    return three_years(simulated(demo), year=appraised(demo).plant.year)


@pytest.mark.parametrize("demo", demos())
def test_three_years_are_futures_of_the_sample_and_ranked(demo: str) -> None:
    found, told, year = simulated(demo), chosen_years(demo), appraised(demo).plant.year
    good, middle, bad = told.years
    assert good.gain >= middle.gain >= bad.gain
    assert good.gain > bad.gain
    kept = found.outcomes.cash_by_year
    gains = kept[:, year - 1].astype(float) - kept[:, year - 2]
    for one in told.years:
        assert one.balance[-1] == pytest.approx(float(kept[one.draw, year - 1]), rel=1e-6)
        assert (gains < one.gain - 1).mean() == pytest.approx(one.share, abs=1.5 / DRAWS)


def test_three_years_in_a_picture_start_where_the_year_began() -> None:
    demo = "shared_plant_three_farms"
    told = chosen_years(demo)
    picture = three_years_side_by_side(told, timeline=appraised(demo).timeline, currency="EUR")
    for one in told.years:
        drawn = next(d for d in spec_data(picture) if len(d) == MONTHS and d[0]["year"] == f"{one.name} year")
        assert [row["gain"] for row in drawn] == pytest.approx(one.balance - one.opening)
        assert f"{one.gain:+,.0f}" in picture.title
    assert how_chosen(told) in picture.alt


@cache
def moved(demo: str) -> Swings:
    return swings_to_quantiles(load(demos()[demo]))


@pytest.mark.parametrize("system", SYSTEMS)
@pytest.mark.parametrize("demo", demos())
def test_swings_are_drawn_from_the_plan_and_the_widest_is_named(demo: str, system: str) -> None:
    loaded = in_units(demo, system).loaded
    picture = ranked_swings(loaded, moved(demo))
    first = moved(demo).swings[0]
    name = name_of(loaded, first.path)
    assert picture.title.startswith(f"Nothing moves the worth more than {name[0].lower()}{name[1:]}: from ")
    assert picture.table.rows[0][0] == name
    drawn = rows_with(picture, "end", "to")
    assert drawn[0]["to"] == first.npv_low
    assert drawn[1]["to"] == first.npv_high
    assert {row["from"] for row in drawn} == {moved(demo).npv}
    assert vl_convert.vegalite_to_svg(picture.chart.to_json()).count("<path") > 3


def table_of_two() -> Grid:
    loaded = load(demos()["dairy_with_leftovers"])
    return grid(loaded, *list(loaded.scenario.range)[:2])


def test_two_way_table_shows_every_cell_and_counts_the_losing_ones() -> None:
    loaded, found = load(demos()["dairy_with_leftovers"]), table_of_two()
    picture = two_way(loaded, found)
    drawn = rows_with(picture, "down", "across")
    assert len({(row["down"], row["across"]) for row in drawn}) == found.npv.size
    assert [row["amount"] for row in drawn] == pytest.approx(found.npv.ravel())
    assert f"in {(found.npv < 0).sum()} of {found.npv.size} cells" in picture.title
    one = rows(loaded, {found.first: found.at_first[:1, None], found.second: found.at_second[:1, None]})
    assert drawn[0]["amount"] == pytest.approx(float(one.npv[0]))


def test_two_way_table_shows_the_cover_beside_the_one_wanted() -> None:
    loaded, found = load(demos()["dairy_with_leftovers"]), table_of_two()
    wanted = loaded.scenario.judging.least_cover
    picture = two_way(loaded, found, cover=True)
    drawn = rows_with(picture, "down", "across")
    assert [row["amount"] for row in drawn] == pytest.approx(found.cover.ravel())
    count = "all 25" if (found.cover < wanted).all() else f"{(found.cover < wanted).sum()} of 25"
    assert picture.title.startswith(f"The least cover is under the wanted {wanted:.2f} in {count} cells: ")
    assert vl_convert.vegalite_to_svg(picture.chart.to_json()).count("<path") > 3
    bare = replace(found, cover=np.full_like(found.cover, np.nan))
    assert {row["text"] for row in rows_with(two_way(loaded, bare, cover=True), "down", "across")} == {"no loan due"}
