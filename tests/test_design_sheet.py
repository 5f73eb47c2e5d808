"""The design sheet by month: its figures are those of the plant's year, and the star stands at the worst month alone."""

from __future__ import annotations

import json

import numpy as np
import pytest
from click.testing import CliRunner

from appraisal.appraise import Appraisal, appraise
from appraisal.cli import main
from appraisal.demos import demos
from appraisal.present.charts.heat import heat_by_month
from appraisal.present.design_sheet import GAS, TANK, Column, design_months, design_tables, worst_month
from appraisal.present.page import page
from appraisal.present.result import result
from appraisal.scenario.load import load, loads
from appraisal.technical_yield.plant_year import months_of

NAMES = sorted(demos())
COLUMNS = {column.key: column for column in (*TANK, *GAS)}
DAYS = np.array([31, 28, 31, 30, 31, 30, 31, 31, 30, 31, 30, 31], dtype=float)


def demo(name: str) -> Appraisal:
    return appraise(load(demos()[name]))


@pytest.mark.parametrize("name", NAMES)
def test_twelve_months_add_up_to_the_plants_year(name: str) -> None:
    appraisal = demo(name)
    months, plant = design_months(appraisal), appraisal.plant
    assert len(months) == 12
    for key, whole in (
        ("fed_t", plant.tonnes_fed), ("methane_nm3", plant.methane_nm3), ("biogas_nm3", plant.biogas_nm3),
        ("methane_flared_nm3", plant.methane_flared_nm3), ("power_gross_kwh", plant.power_gross_kwh),
        ("heat_needed_kwh", plant.heat_to_digester_kwh), ("heat_bought_kwh", plant.heat_shortfall_kwh),
        ("digestate_t", plant.digestate_t),
    ):  # fmt: skip
        assert sum(month[key] for month in months) == pytest.approx(whole, rel=1e-9, abs=1e-9), key


@pytest.mark.parametrize("name", NAMES)
def test_figures_that_follow_from_others(name: str) -> None:
    """Retention is volume over flow, load is power over rated power and hours, dry matter is solids over mass."""
    appraisal = demo(name)
    scenario, year = appraisal.loaded.scenario, appraisal.plant.year
    days = months_of(appraisal.values, "timeline.days", year=year)
    power = months_of(appraisal.values, "power_gross", year=year)
    solids = months_of(appraisal.values, "dry_matter_fed", year=year)
    full = sum(
        months_of(appraisal.values, f"engine.{engine}.hours", year=year) * facts.rated_kw
        for engine, facts in scenario.engine.items()
    )
    for m, month in enumerate(design_months(appraisal)):
        fed = month["fed_t"]
        assert month["retention_days"] == pytest.approx(scenario.digester.active_volume_m3 * days[m] / fed, rel=1e-9)
        assert month["dry_matter_fed_share"] == pytest.approx(solids[m] / fed, rel=1e-9)
        assert month["engine_load_share"] == pytest.approx(power[m] / np.asarray(full)[m], rel=1e-9)
        assert 0 < month["free_ammonia_low_kg_per_m3"] < month["free_ammonia_high_kg_per_m3"] < month["ammonium_n_kg_per_m3"]


@pytest.mark.parametrize("name", NAMES)
def test_the_worst_month_is_the_worst(name: str) -> None:
    """No month lies on the worse side of the marked one, by day for what adds up over a month."""
    appraisal = demo(name)
    months = design_months(appraisal)
    days = months_of(appraisal.values, "timeline.days", year=appraisal.plant.year)
    marked = {key: m for m, month in enumerate(months) for key in month["worst"]}
    assert sum(len(month["worst"]) for month in months) == len(marked) > 5
    for key, worst in marked.items():
        values = np.array([month[key] for month in months]) / (days if COLUMNS[key].flow else 1)
        top = values.max() if COLUMNS[key].worst == "high" else values.min()
        assert values[worst] == pytest.approx(top, rel=1e-9), key
        assert np.ptp(values) > 0


COLUMN = dict(key="x", head="x", unit="t", months=lambda appraisal: None)


def test_a_short_month_is_not_the_worst_for_its_length() -> None:
    even, short = 10 * DAYS, 10 * DAYS
    short[6] -= 5
    flow = Column(**COLUMN, worst="low", flow=True)
    assert worst_month(flow, even, days=DAYS) is None
    assert worst_month(flow, short, days=DAYS) == 6


@pytest.mark.parametrize(("worst", "month"), [("high", 3), ("low", 8), (None, None)])
def test_the_first_of_several_worst_months_is_marked(worst: str | None, month: int | None) -> None:
    values = np.ones(12)
    values[[3, 5]], values[[8, 9]] = 2, 0.5
    values[5] += 1e-13
    assert worst_month(Column(**COLUMN, worst=worst), values, days=DAYS) == month


def test_months_alike_have_no_worst() -> None:
    assert worst_month(Column(**COLUMN, worst="high"), np.full(12, 7.0), days=DAYS) is None


@pytest.mark.parametrize("name", NAMES)
def test_tables_hold_the_figures_and_one_star_a_column(name: str) -> None:
    appraisal = demo(name)
    months = design_months(appraisal)
    for part in design_tables(appraisal):
        assert "star marks the worst month" in part.title
        assert [row[0] for row in part.rows] == [month["month"] for month in months]
        for place in range(1, len(part.head)):
            stars = [m for m, row in enumerate(part.rows) if row[place].endswith(" *")]
            assert len(stars) <= 1
    starred = sum(cell.endswith(" *") for part in design_tables(appraisal) for row in part.rows for cell in row)
    assert starred == sum(len(month["worst"]) for month in months)


@pytest.mark.parametrize("name", ["dairy_with_leftovers", "heat_for_the_cheese_dairy"])
def test_heat_after_the_digester_ties_to_the_picture_of_heat(name: str) -> None:
    """The column stands before house, barn, dryer and buyers: what the picture gives them and leaves unused adds up to it."""
    appraisal = demo(name)
    assert any(head.startswith("heat after\ndigester") for head in design_tables(appraisal)[1].head)
    table = heat_by_month(appraisal).table
    others = [name for name in table.head if name.startswith("taken by") and name != "taken by the digester"]
    for month, cells in zip(design_months(appraisal), table.rows[:12], strict=True):  # then the year
        row = dict(zip(table.head, cells, strict=True))
        shown = sum(float(row[name]) for name in (*others, "left unused")) - float(row["bought"])
        assert month["heat_from_gas_left_kwh"] / 1000 == pytest.approx(shown, abs=0.21)  # four figures of one decimal


def test_two_tanks_show_a_retention_time_each() -> None:
    text = demos()["dairy_with_leftovers"].read_text(encoding="utf-8")
    one = 'kind = "stirred_tank"'
    assert text.count(one) == 1
    two = appraise(loads(text.replace(one, 'kind = "tanks_in_series"\nsecond_volume_m3 = 1000')))
    for month in design_months(two):
        parts = month["first_tank_retention_days"] + month["second_tank_retention_days"]
        assert parts == pytest.approx(month["retention_days"], rel=1e-9)
    assert "first_tank_retention_days" not in design_months(demo("dairy_with_leftovers"))[0]


def test_json_holds_the_sheet_and_the_page_shows_it_when_asked() -> None:
    appraisal = demo("dairy_with_leftovers")
    assert json.loads(json.dumps(result(appraisal), allow_nan=False))["design_months"] == design_months(appraisal)
    titles = [part.title for part in design_tables(appraisal)]
    assert all(title in page(appraisal, monthly=True) and title not in page(appraisal) for title in titles)
    shown = CliRunner().invoke(main, ["run", "--demo", "dairy_with_leftovers", "--monthly"])
    assert shown.exit_code == 0 and all(title in shown.output for title in titles)
