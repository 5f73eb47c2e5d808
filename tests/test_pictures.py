"""Pictures: each says its finding, shows the numbers of the appraisal in the reader's units, and its table adds up."""

from __future__ import annotations

from dataclasses import replace
from functools import cache

import numpy as np
import pytest
import vl_convert

from appraisal.appraise import Appraisal, appraise
from appraisal.demos import demos
from appraisal.lines.evaluate import MONTHS, year_sum
from appraisal.measures.headline import full_years
from appraisal.present.charts import gas_energy as energy
from appraisal.present.charts import income_to_net as net
from appraisal.present.charts.account_fan import account_fan
from appraisal.present.charts.air import with_and_without
from appraisal.present.charts.cover import CENTRAL, COMBINED, cover_by_year
from appraisal.present.charts.gas_by_feed import gas_by_feed
from appraisal.present.charts.heat import heat_by_month
from appraisal.present.charts.land import nutrients_against_land
from appraisal.present.charts.money_by_year import groups_by_year, money_by_year
from appraisal.present.charts.picture import Picture
from appraisal.present.charts.ranked_swings import ranked_swings
from appraisal.present.charts.three_years import how_chosen, three_years_side_by_side
from appraisal.present.charts.two_way import two_way
from appraisal.present.charts.worth_spread import bars_of, worth_spread
from appraisal.present.naming import name_of
from appraisal.risk.draws import Settings
from appraisal.risk.futures import rows
from appraisal.risk.grids import Grid, grid
from appraisal.risk.simulate import Simulation, simulate
from appraisal.risk.stress import stress_test
from appraisal.risk.swings import Swings, swings_to_quantiles
from appraisal.risk.three_years import ThreeYears, combined_cover, three_years
from appraisal.scenario.load import load
from appraisal.scenario.units import shown
from appraisal.technical_yield.plant_year import METHANE_KWH_PER_NM3, months_of

DRAWS = 256
SYSTEMS = ("metric", "us")
PLAIN = {
    "heat": heat_by_month,
    "gas": energy.gas_energy,
    "feeds": gas_by_feed,
    "money": money_by_year,
    "net": net.income_to_net,
    "cover": cover_by_year,
    "air": with_and_without,
    "land": nutrients_against_land,
}


@cache
def appraised(demo: str) -> Appraisal:
    return appraise(load(demos()[demo]))


def in_units(demo: str, system: str) -> Appraisal:
    found = appraised(demo)
    project = found.loaded.scenario.project.model_copy(update={"display_units": system})
    scenario = found.loaded.scenario.model_copy(update={"project": project})
    return replace(found, loaded=replace(found.loaded, scenario=scenario))


@cache
def simulated(demo: str) -> Simulation:
    return simulate(load(demos()[demo]), Settings(draws=DRAWS, seed=3))


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


@pytest.mark.parametrize("system", SYSTEMS)
@pytest.mark.parametrize("name", PLAIN)
@pytest.mark.parametrize("demo", demos())
def test_every_picture_has_title_alternative_and_table_and_can_be_drawn(demo: str, name: str, system: str) -> None:
    picture = PLAIN[name](in_units(demo, system))
    assert " " in picture.title
    assert picture.title in picture.alt or picture.title.split(";")[0] in picture.alt
    assert len(picture.alt) > len(picture.title)
    assert picture.table.rows
    assert all(len(row) == len(picture.table.head) for row in picture.table.rows)
    assert "nan" not in (picture.title + picture.alt + str(picture.table)).lower().split()
    svg = vl_convert.vegalite_to_svg(picture.chart.to_json())
    assert svg.count("<path") > 3


@pytest.mark.parametrize("demo", demos())
def test_heat_is_that_of_the_lines_and_its_table_adds_up(demo: str) -> None:
    found = appraised(demo)
    picture = heat_by_month(found)
    drawn = rows_with(picture, "use", "amount")
    digester = [row["amount"] for row in drawn if row["use"] == "the digester"]
    assert digester == pytest.approx(
        months_of(found.values, "heat_to_digester", year=found.plant.year) / 1000, rel=1e-12
    )
    columns = list(zip(*picture.table.rows, strict=True))[1:]
    for column in columns:
        assert sum(map(number, column[:MONTHS])) == pytest.approx(number(column[-1]), abs=0.05 * (MONTHS + 1))
    given = of_year(found, "heat_recoverable") + of_year(found, "heat_from_boiler")
    assert f"{of_year(found, 'heat_dumped') / given:.0%} of the heat from the gas goes unused" in picture.title


@pytest.mark.parametrize("demo", demos())
def test_gas_energy_is_the_same_at_every_stage(demo: str) -> None:
    found = appraised(demo)
    parts = energy.energy_parts(found)
    made = found.plant.methane_nm3 * METHANE_KWH_PER_NM3 / 1000
    for stage in energy.STAGES:
        assert sum(part.amount for part in parts if part.stage == stage) == pytest.approx(made, rel=1e-9)
    assert all(part.amount > 0 for part in parts)


@pytest.mark.parametrize("demo", demos())
def test_gas_of_feeds_is_all_gas_and_the_share_that_may_end_is_the_plants(demo: str) -> None:
    found = appraised(demo)
    picture = gas_by_feed(found)
    drawn = rows_with(picture, "feed", "share")
    assert sum(float(str(row["share"])) for row in drawn) == pytest.approx(1, rel=1e-12)
    ends = sum(float(str(row["share"])) for row in drawn if "may end" in str(row["text"]))
    assert ends == pytest.approx(found.plant.contract_gas_share, rel=1e-9)
    assert (f"{ends:.1%} of the gas hangs on" in picture.title) == (ends > 0)


@pytest.mark.parametrize("demo", demos())
def test_money_by_year_is_every_flow_and_nothing_twice(demo: str) -> None:
    found = appraised(demo)
    drawn = np.sum(list(groups_by_year(found).values()), axis=0)
    assert drawn == pytest.approx(year_sum(found.values["net_cash"][:1])[0], rel=1e-9, abs=0.5)
    picture = money_by_year(found)
    assert number(picture.table.rows[-1][-1]) == pytest.approx(found.values["bank_balance"][0, -1], abs=0.5)


@pytest.mark.parametrize("demo", demos())
def test_steps_from_income_to_net_add_up(demo: str) -> None:
    found = appraised(demo)
    for year in (0, found.plant.year, found.timeline.years):
        steps = net.steps_of(found, year)
        assert sum(amount for name, amount in steps.items() if name != net.LEFT) == pytest.approx(
            steps[net.LEFT], abs=1.0
        )
        shown_left = f"{abs(steps[net.LEFT]):,.0f}"
        title = net.income_to_net(found, year=year).title
        assert shown_left in title
        assert ("missing" in title) == (steps[net.LEFT] < 0)


@pytest.mark.parametrize("demo", demos())
def test_cover_is_that_of_the_bank_view_and_the_finding_counts_full_years(demo: str) -> None:
    found = appraised(demo)
    combined = combined_cover(stress_test(found.loaded))
    picture = cover_by_year(found, combined=combined)
    drawn = rows_with(picture, "case", "cover")
    central = found.money.bank.covers["as_assumed"].value[0]
    full = full_years(found.values)[0]
    in_full = {row["year"]: row["cover"] for row in drawn if row["case"] == CENTRAL}
    assert in_full == {int(k) + 1: central[k] for k in np.flatnonzero(full & np.isfinite(central))}
    least = found.headline.dscr_min
    assert f"cover is least in year {int(least.year[0])}: {float(least.value[0]):.2f}" in picture.title
    short = int((central[full & np.isfinite(central)] < 1).sum())
    assert ("does not pay the loan" in picture.title) == (short > 0)
    assert combined is not None
    assert COMBINED in picture.table.head


def test_combined_cover_is_that_of_the_stress_test() -> None:
    loaded = load(demos()["dairy_with_leftovers"])
    found = stress_test(loaded)
    joint = next(each for each in found.cases if each.case.name == "all_together")
    combined = combined_cover(found)
    assert combined is not None
    known = np.flatnonzero(np.isfinite(combined))[1:]
    assert joint.least_cover == pytest.approx(combined[known].min(), rel=1e-5)


@pytest.mark.parametrize("demo", demos())
def test_emissions_are_those_of_the_lines(demo: str) -> None:
    found = appraised(demo)
    drawn = [row for row in rows_with(with_and_without(found), "source", "tonnes") if row["source"] == "All"]
    wanted = [of_year(found, "emissions_without"), of_year(found, "emissions_with")]
    assert [row["tonnes"] for row in drawn] == pytest.approx(wanted, rel=1e-9)
    title = with_and_without(found).title
    assert ("stay out of the air" in title) == (wanted[0] >= wanted[1])


@pytest.mark.parametrize("system", SYSTEMS)
def test_land_is_shown_in_the_readers_unit(system: str) -> None:
    found = in_units("leftovers_outgrow_land", system)
    picture = nutrients_against_land(found)
    there, unit = shown(
        float(found.values["land_in_all"].ravel()[0]), "ha", system=found.loaded.scenario.project.display_units
    )
    need = float(found.values["land_needed"][0, found.plant.year - 1])
    shown_need, _ = shown(need, "ha", system=found.loaded.scenario.project.display_units)
    assert f"{shown_need:,.0f} {unit}" in picture.title
    assert f"{shown_need - there:,.0f} {unit} are missing" in picture.title
    drawn = rows_with(picture, "what", "amount")
    assert max(float(str(row["amount"])) for row in drawn if row["what"] != "land there is") == pytest.approx(
        shown_need
    )


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
    assert picture.title.startswith(name_of(loaded, first.path))
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
    assert [row["worth"] for row in drawn] == pytest.approx(found.npv.ravel())
    assert f"in {(found.npv < 0).sum()} of {found.npv.size} cells" in picture.title
    one = rows(loaded, {found.first: found.at_first[:1, None], found.second: found.at_second[:1, None]})
    assert drawn[0]["worth"] == pytest.approx(float(one.npv[0]))
