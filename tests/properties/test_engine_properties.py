"""What must hold for every engine: its curve, hours, stops, overhauls and wear, over random plants with all choices made."""

from __future__ import annotations

import numpy as np
import numpy.testing as npt
import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from appraisal.lines.evaluate import year_sum
from appraisal.technical_yield import engine, part_load
from tests.properties import cases
from tests.properties.adding_up import equal
from tests.properties.cases import DEMOS
from tests.properties.gas_choices import NAMES, batch, chosen, evaluated, moved

CLOSE = 1e-9  # of the row's largest value
POINTS = {"three_quarter_load": 0.75, "half_load": 0.5}
Array = np.ndarray


# The part-load curve.

curve = st.builds(
    lambda full, middle, low: (full, full * middle, full * middle * low),
    st.floats(0.2, 0.5), st.floats(0.8, 1.1), st.floats(0.7, 1.1),
)


def load_of(rate: Array, full: float, middle: float, half: float) -> Array:
    """Load whose fuel rate is `rate` on a curve through three points."""
    meeting = part_load.engine_fuel_rate_at_three_quarters(full, middle, POINTS["three_quarter_load"])
    found: Array = engine.engine_load_by_gas(rate, meeting, full, middle, half, *POINTS.values())
    return found


@settings(deadline=None, max_examples=200)
@given(curve)
def test_the_load_found_from_the_fuel_burns_that_fuel_again(points: tuple[float, float, float]) -> None:
    rate = np.linspace(0.05, 1, 97)
    load = load_of(rate, *points)
    npt.assert_allclose(load * points[0] / part_load.on_curve(load, *points, **POINTS), rate, rtol=1e-12)
    assert (np.diff(load) > 0).all()
    assert load[-1] == pytest.approx(1, rel=1e-12)


def test_the_curve_passes_through_its_three_points_and_joins_where_its_lines_meet() -> None:
    points = (0.408, 0.396, 0.373)
    assert part_load.on_curve(np.array([1, 0.75, 0.5]), *points, **POINTS) == pytest.approx(points)
    near = load_of(0.75 * points[0] / points[1] + np.array([-1e-9, 1e-9]), *points)
    assert near == pytest.approx([0.75, 0.75], abs=1e-8)


# Two ways to the energy of a year.


def engines(name: str) -> tuple[str, ...]:
    """Engines of a case."""
    return chosen(name).structure.items["engine"]


@pytest.mark.parametrize("name", NAMES)
def test_yearly_energy_by_hours_and_load_is_that_by_fuel_and_efficiency(name: str) -> None:
    """Rated power at this height x mean load x hours, against fuel x efficiency at that load; both less wear."""
    v, inputs = batch(name), moved(name)
    for item in engines(name):
        path = f"engine.{item}"
        hours, load = v[f"{path}.hours"], v[f"{path}.load"] * v[f"{path}.wear_kept"]
        year_hours = year_sum(hours)
        mean_load = year_sum(hours * load) / np.where(year_hours > 0, year_hours, 1)
        by_hours = v[f"{path}.site_kw"] * mean_load * year_hours
        points = (inputs[f"{path}.efficiency_full"], v[f"{path}.efficiency_at_three_quarters"], v[f"{path}.efficiency_at_half"])
        efficiency = part_load.on_curve(v[f"{path}.load"], *points, **POINTS) * v[f"{path}.wear_kept"]
        by_fuel = year_sum(v[f"{path}.fuel"] * 9.97 * efficiency)
        equal(by_hours, by_fuel)
        equal(year_sum(v[f"{path}.power"]), by_fuel)
        assert (by_fuel.max(axis=1) > 0).any()


@pytest.mark.parametrize("name", NAMES)
def test_hours_stay_within_the_hours_available(name: str) -> None:
    v = batch(name)
    for item in engines(name):
        ready, available = v[f"engine.{item}.ready_hours"], v[f"engine.{item}.available_hours"]
        assert (v[f"engine.{item}.hours"] <= available * (1 + CLOSE)).all()
        assert (available <= ready).all() and (available >= 0).all()
        assert (ready <= v["timeline.hours"]).all()


@pytest.mark.parametrize("name", NAMES)
def test_energy_out_of_engines_and_boiler_is_below_energy_in(name: str) -> None:
    """Of plants whose data sheet does not promise more than the gas holds."""
    v, inputs = batch(name), moved(name)
    sane = np.ones((v["power_gross"].shape[0], 1), dtype=bool)
    for item in engines(name):
        path = f"engine.{item}"
        points = [
            power + heat for power, heat in (
                (inputs[f"{path}.efficiency_full"], inputs[f"{path}.heat_efficiency_full"]),
                (v[f"{path}.efficiency_at_three_quarters"], v[f"{path}.heat_at_three_quarters"]),
                (v[f"{path}.efficiency_at_half"], inputs[f"{path}.heat_efficiency_half"]))
        ]
        loads = np.linspace(0, 1, 21)  # 0.5 and 0.75 among them
        whole = np.stack([part_load.on_curve(at, *points, **POINTS) for at in loads])
        sane &= (whole <= 1).all(axis=0)
    fuel = (v["methane_burned"] + v["methane_to_boiler"]) * 9.97
    made = v["power_gross"] + v["heat_recoverable"] + v["heat_from_boiler"]
    assert sane.any()
    assert ((made <= fuel * (1 + CLOSE)) | ~sane).all()


# More gas.


@pytest.mark.parametrize("name", DEMOS)
@pytest.mark.parametrize("factor", [1.02, 1.3, 3.0])
def test_more_gas_never_gives_less_power(name: str, factor: float) -> None:
    """Without wear and overhaul stops, which come earlier with more gas."""
    inputs = cases.drawn(name, draws=100)
    for item in cases.appraised(name).structure.items["engine"]:
        for field in ("efficiency_drift_share", "top_end_stop_hours", "major_stop_hours"):
            inputs[f"engine.{item}.{field}"] = np.array([[0.0]])
    richer = {
        path: array * factor if path.endswith((".potential_nm3_per_t_vs", ".achieved_nm3_per_t")) else array
        for path, array in inputs.items()
    }
    less, more = cases.lines(name, inputs), cases.lines(name, richer)
    assert (more["methane_made"] >= less["methane_made"]).all() and (more["methane_made"] > less["methane_made"]).any()
    assert (more["power_gross"] >= less["power_gross"] * (1 - CLOSE)).all()
    assert (more["power_gross"] > less["power_gross"] * (1 + CLOSE)).any()


# Stops, overhauls, wear.


def test_planned_stops_add_up_to_their_weeks_and_fall_in_their_month() -> None:
    v, year = chosen("throttled").values, chosen("throttled").plant.year - 1
    stop = v["engine.one.planned_stop"][0, 12 * year : 12 * year + 12]
    assert stop.sum() == pytest.approx(168)
    assert v["timeline.calendar_month"][0, 12 * year + stop.argmax()] == 6 and (stop > 0).sum() == 1


def test_an_overhaul_takes_its_hours_from_the_month_in_which_it_falls_due() -> None:
    """Two engines with different intervals, so their overhauls fall in different months; the other engine takes the gas."""
    v = chosen("throttled").values
    for item in ("one", "two"):
        path = f"engine.{item}"
        top_ends, majors = v[f"{path}.top_ends_due"][0], v[f"{path}.majors_due"][0]
        lost = v[f"{path}.ready_hours"][0] - v[f"{path}.available_hours"][0]
        npt.assert_allclose(lost, 72 * top_ends + 240 * majors, atol=1e-9)
        assert top_ends.sum() > 3 and majors.sum() >= 3
    assert not np.array_equal(v["engine.one.majors_due"], v["engine.two.majors_due"])
    alone = (v["engine.two.majors_due"][0] > 0) & (v["engine.one.overhaul_stop"][0] == 0)
    assert alone.any()
    assert (v["fuel_fraction"][0, alone] >= v["clock_fuel_fraction"][0, alone]).all()
    assert (v["fuel_fraction"][0, alone] > v["clock_fuel_fraction"][0, alone]).any() or (v["fuel_fraction"][0, alone] == 1).all()


@pytest.mark.parametrize("item", ["one", "two"])
def test_the_overhaul_clock_parts_from_the_hour_meter_only_by_what_overhauls_took(item: str) -> None:
    v, path = chosen("throttled").values, f"engine.{item}"
    clock, run = (v[f"{path}.{line}"][0].cumsum() for line in ("clock_hours", "hours"))
    stops = sum(v[f"engine.{each}.overhaul_stop"][0].cumsum() for each in ("one", "two"))
    assert (np.abs(clock - run) <= stops + 1e-6).all()
    assert clock[-1] != run[-1] and abs(clock[-1] / run[-1] - 1) < 0.02


def test_wear_grows_with_the_hours_and_ends_with_the_major_overhaul() -> None:
    inputs = dict(chosen("throttled").inputs)
    path = "engine.one"
    for recovery in (0.0, 0.5, 1.0):
        inputs[f"{path}.top_end_recovery_share"] = np.array([[recovery]])
        v = evaluated("throttled", inputs)
        kept, since = v[f"{path}.wear_kept"][0], v[f"{path}.hours_since_major"][0]
        tops, every = v[f"{path}.top_ends_since_major"][0], float(inputs[f"{path}.top_end_interval_hours"][0, 0])
        npt.assert_allclose(1 - kept, 0.01 * (since - recovery * tops * every) / 10000, atol=1e-12)
        major = v[f"{path}.majors_due"][0] > 0
        before = np.flatnonzero(major) - 1
        assert (kept[major] > kept[before]).all()
        assert (1 - kept[major] < 0.01 * 744 / 10000).all()
        if recovery == 1.0:
            assert (1 - kept).max() <= 0.01 * (every + 744) / 10000


def test_a_worn_engine_burns_the_same_and_gives_less_power_and_no_less_heat() -> None:
    case = chosen("throttled")
    fresh = evaluated("throttled", {
        **case.inputs, **{f"engine.{e}.efficiency_drift_share": np.array([[0.0]]) for e in ("one", "two")},
        "grid.export_limit_kw": np.array([[1e6]])})
    worn = evaluated("throttled", {**case.inputs, "grid.export_limit_kw": np.array([[1e6]])})
    assert np.array_equal(fresh["methane_burned"], worn["methane_burned"])
    assert np.array_equal(fresh["run_hours"], worn["run_hours"])
    assert np.array_equal(fresh["heat_recoverable"], worn["heat_recoverable"])
    fed = worn["power_gross"] > 0
    assert (worn["power_gross"][fed] < fresh["power_gross"][fed]).all()


def test_height_takes_power_and_fuel_alike_above_its_threshold() -> None:
    heights = np.array([[0.0], [500.0], [900.0]])
    case = cases.appraised("dairy_with_leftovers")
    v = cases.lines("dairy_with_leftovers", {**case.inputs, "site.elevation_m": heights})
    assert v["engine.main.site_kw"][:, 0] == pytest.approx([300, 300, 300 * (1 - 4 * 0.01)])
    assert v["fuel_capacity"][2, -1] / v["fuel_capacity"][0, -1] == pytest.approx(0.96)
    assert (np.diff(v["air_pressure"][:, 0]) < 0).all()
    assert (np.diff(v["stored_gas_dry_share"][:, 0]) < 0).all()
