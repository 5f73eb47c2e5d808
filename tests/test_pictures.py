"""Pictures: each says its finding, shows the numbers of the appraisal in the reader's units, and its table adds up."""

from __future__ import annotations

import numpy as np
import pytest
import vl_convert

from appraisal.demos import demos
from appraisal.lines.evaluate import MONTHS, year_sum
from appraisal.measures.headline import full_years
from appraisal.present.charts import gas_energy as energy
from appraisal.present.charts import income_to_net as net
from appraisal.present.charts.air import with_and_without
from appraisal.present.charts.cover import CENTRAL, COMBINED, cover_by_year
from appraisal.present.charts.gas_by_feed import gas_by_feed
from appraisal.present.charts.heat import heat_by_month
from appraisal.present.charts.land import nutrients_against_land
from appraisal.present.charts.money_by_year import groups_by_year, money_by_year
from appraisal.risk.stress import stress_test
from appraisal.risk.three_years import combined_cover
from appraisal.scenario.load import load
from appraisal.scenario.units import shown
from appraisal.technical_yield.plant_year import METHANE_KWH_PER_NM3, months_of
from tests.pictures import SYSTEMS, appraised, in_units, number, of_year, rows_with

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
    digester = [row["amount"] for row in drawn if row["use"] == "taken by the digester"]
    assert digester == pytest.approx(
        months_of(found.values, "heat_to_digester", year=found.plant.year) / 1000, rel=1e-12
    )
    columns = list(zip(*picture.table.rows, strict=True))[1:]
    for column in columns:
        assert sum(map(number, column[:MONTHS])) == pytest.approx(number(column[-1]), abs=0.05 * (MONTHS + 1))
    given = of_year(found, "heat_recoverable") + of_year(found, "heat_from_boiler")
    unused = of_year(found, "heat_dumped") / given
    assert f"{f'{unused:.0%}' if unused else 'none'} of the heat from the gas goes unused" in picture.title


def test_heat_that_is_wanted_and_not_there_stands_in_the_picture() -> None:
    found = appraised("heat_for_the_cheese_dairy")
    wanted = sum(of_year(found, f"heat.{name}") for name in ("house_kwh", "barn_kwh", "drying_kwh", "sold_kwh"))
    served = sum(of_year(found, f"heat_{name}") for name in ("to_house", "to_barn", "to_dryer", "sold"))
    picture = heat_by_month(found)
    assert f"{(wanted - served) / 1000:,.0f} thousand kWh a year more than there is" in picture.title
    drawn = [float(str(row["amount"])) for row in rows_with(picture, "use", "amount") if "there is none" in str(row["use"])]
    assert sum(drawn) == pytest.approx((wanted - served) / 1000)


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
    assert [row["tonnes"] for row in drawn] == [round(amount) for amount in wanted]
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
    assert f"{shown_need - there:,.0f} {'acres' if unit == 'acre' else unit} are missing" in picture.title
    drawn = rows_with(picture, "what", "amount")
    assert max(float(str(row["amount"])) for row in drawn if row["what"] != "land there is") == pytest.approx(
        shown_need
    )


@pytest.mark.parametrize("demo", demos())
def test_limits_of_the_cover_and_the_land_there_is_are_drawn_with_their_names(demo: str) -> None:
    found = appraised(demo)
    svg = vl_convert.vegalite_to_svg(cover_by_year(found).chart.to_json())
    assert "1.00 just pays" in svg
    assert f"{found.loaded.scenario.judging.least_cover:.2f} wanted" in svg
    if "acre" in nutrients_against_land(found).title or " ha " in nutrients_against_land(found).title:
        assert "all the land there is" in vl_convert.vegalite_to_svg(nutrients_against_land(found).chart.to_json())
