"""Clean-outs, poor first years and a soured tank: they cost what they should, where they should, and pass."""

from __future__ import annotations

import numpy as np
import numpy.testing as npt
import pytest

from tests.properties.cases import DEMOS
from tests.properties.tanks import EVENTS, Array, lines, plant, with_values


def without(case_inputs: dict[str, Array]) -> dict[str, Array]:
    return with_values(case_inputs, upset__month=0)


@pytest.mark.parametrize("name", DEMOS)
def test_a_sour_tank_loses_gas_and_fees_and_is_then_as_it_was(name: str) -> None:
    case = plant(name, "stirred_tank", "", EVENTS.replace("every_years = 6", "every_years = 0"))
    sour, well = lines(case, case.inputs), lines(case, without(case.inputs))
    build = int(case.inputs["project.build_months"][0, 0])
    start, low, back = build + 39, 3, 2
    gas = [sour["methane_made"][0], well["methane_made"][0]]
    assert np.array_equal(gas[0][:start], gas[1][:start])
    assert np.array_equal(gas[0][start + low + back :], gas[1][start + low + back :])
    assert (gas[0][start : start + low + back] < gas[1][start : start + low + back]).all()
    share = gas[0][start : start + low + back] / gas[1][start : start + low + back]
    if not case.structure.items["feed"]:
        npt.assert_allclose(share, [0.2, 0.2, 0.2, 1 - 0.8 * 2 / 3, 1 - 0.8 / 3], rtol=1e-12)
    for feed in case.structure.items["feed"]:
        fee = [v[f"substrate.{feed}.tipping_fee"][0] for v in (sour, well)]
        assert (fee[0][start : start + low] == 0).all() and (fee[1][start : start + low] != 0).any()
        assert np.array_equal(np.delete(fee[0], range(start, start + low)), np.delete(fee[1], range(start, start + low)))
    paid = np.flatnonzero(sour["upset_paid"][0])
    assert paid.tolist() == [start] and (well["upset_paid"] == 0).all()
    money = 9000 + 150 * 12
    assert sour["upset_paid"][0, start] == pytest.approx(-money * sour["inflation_index"][0, start], rel=1e-12)
    assert sour["power_gross"].sum() < well["power_gross"].sum()


def test_the_month_of_a_sour_tank_can_be_drawn() -> None:
    """A draw between two months counts from the next whole one, a draw of 0 never, and each loses gas by itself."""
    case = plant("dairy_with_leftovers", "stirred_tank", "", EVENTS)
    months = np.array([[0.0], [0.4], [24.0], [24.3], [25.0], [720.0]])
    v = lines(case, with_values(case.inputs, upset__month=months))
    first = [np.flatnonzero(row).tolist() for row in v["upset_begins"]]
    build = int(case.inputs["project.build_months"][0, 0])
    assert first == [[], [build], [build + 23], [build + 24], [build + 24], []]
    assert np.array_equal(v["upset"][3], v["upset"][4])
    assert v["upset_low"].sum(axis=1).tolist() == [0, 3, 3, 3, 3, 0]


@pytest.mark.parametrize("weeks", [0.0, 3.0, 5.0, 13.0, 52.0])
def test_clean_outs_come_by_age_stop_the_feed_for_their_weeks_and_restore_the_volume(weeks: float) -> None:
    events = EVENTS.replace("off_weeks = 5", f"off_weeks = {weeks}").replace("\nmonth = 40", "\nmonth = 0")
    case = plant("dairy_with_leftovers", "stirred_tank", "grit_share_per_year = 0.02", events)
    v = case.values
    build, begins = int(case.inputs["project.build_months"][0, 0]), np.flatnonzero(v["clean_out_begins"][0])
    assert begins.tolist() == list(range(build + 72, case.timeline.months, 72))
    after = v["clean_out_off"][0, begins[0] : begins[0] + 72]
    assert after.sum() * 365 / 12 == pytest.approx(weeks * 7, rel=1e-12)
    grit = v["grit_share"][0]
    assert grit[begins[0] - 1] == pytest.approx(0.02 * 71 / 12, rel=1e-12) and (grit[begins] == 0).all()
    assert (v["tank_volume"][0, begins] == v["clean_volume"][0, 0]).all()
    stands = v["clean_out_off"][0] == 1
    assert (v["tonnes_fed"][0, stands] == 0).all() and (v["methane_made"][0, stands] == 0).all()
    assert (v["hired_labour"][0, build:] < 0).all()
    paid = -(30000 + 200 * 12) * v["inflation_index"][0, begins]
    npt.assert_allclose(v["clean_out_paid"][0, begins], paid, rtol=1e-12)
    assert np.flatnonzero(v["clean_out_paid"][0]).tolist() == begins.tolist()
    npt.assert_allclose(v["overhauls_paid"][0], sum(v[name][0] for name, node in case.plan.nodes.items()
                                                    if node.line.role == "overhaul"), rtol=1e-12)


def test_gas_rises_again_after_a_clean_out_and_is_then_as_before() -> None:
    events = EVENTS.replace("\nmonth = 40", "\nmonth = 0").replace("off_weeks = 5", "off_weeks = 5\nramp_months = 4")
    case = plant("small_herd_manure_only", "stirred_tank", "", events)
    never = plant("small_herd_manure_only", "stirred_tank", "", events.replace("every_years = 6", "every_years = 0"))
    month = int(case.inputs["project.build_months"][0, 0]) + 72
    assert case.values["reseeding"][0, month - 1 : month + 6].tolist() == [1, 0, 0.25, 0.5, 0.75, 1, 1]
    for line in ("methane_made", "retention", "digestate_mass"):
        with_it, without_it = case.values[line][0], never.values[line][0]
        assert np.array_equal(with_it[month + 5 : month + 72], without_it[month + 5 : month + 72]), line
        assert np.array_equal(with_it[:month], without_it[:month]), line
    assert (case.values["heat_to_refill"][0, month] > 0) and (never.values["heat_to_refill"] == 0).all()


def test_poor_first_years_follow_the_first_feeding_not_the_calendar() -> None:
    case = plant("small_herd_manure_only", "stirred_tank", "", "\n[start_up]\ngas_share_by_year = [0.8, 0.9, 1]\n")
    for build in (0, 7, 12, 20):
        v = lines(case, with_values(case.inputs, project__build_months=build))
        assert (v["settling"][0, build : build + 12] == 0.8).all()
        assert (v["settling"][0, build + 12 : build + 24] == 0.9).all()
        assert (v["settling"][0, build + 24 :] == 1).all()


def test_a_meter_tells_of_a_plant_that_runs_well() -> None:
    """Measured gas stands for the mature plant: poor years and a sour tank come on top of it."""
    measured = 'gas_method = "measured"\nmeasured_gas_nm3_per_day = 240'
    calm, poor = (plant("small_herd_manure_only", "stirred_tank", measured, more) for more in ("", EVENTS))
    assert poor.values["measured_over_modelled"] == calm.values["measured_over_modelled"]
    months = slice(24, 36)
    assert poor.values["methane_made"][0, months].sum() < calm.values["methane_made"][0, months].sum()
