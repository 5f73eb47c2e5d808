"""What must hold for the heat of every plant: more cold never needs less, insulation never needs more, nothing is lost."""

from __future__ import annotations

import numpy as np
import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from appraisal import model
from tests.properties.adding_up import equal
from tests.properties.cases import DEMOS, appraised, batch
from tests.properties.warm_plant import FLOWS, KINDS, USES, full, lines, no_less, shifted

MONTH = st.integers(0, 11)
EASED = settings(max_examples=40, deadline=None)


@pytest.mark.parametrize("name", DEMOS)
def test_no_heat_flow_is_negative_and_all_heat_is_accounted_for(name: str) -> None:
    """Over random plants: engine heat is used or dumped, digester heat is met or bought."""
    v = batch(name)
    for line in FLOWS:
        assert (v[line] >= 0).all(), line
    equal(v["heat_used"] + v["heat_dumped"], v["heat_recoverable"])
    equal(sum(v[line] for line in USES), v["heat_used"])
    equal(v["heat_sold"] + v["heat_lost_in_main"], v["heat_into_main"])
    equal(v["heat_digester_met"] + v["heat_from_boiler"] + v["heat_shortfall"], v["heat_to_digester"])


@pytest.mark.parametrize(("main", "drying"), KINDS)
def test_the_balance_holds_with_every_use_switched_on(main: str, drying: str) -> None:
    v = full(main, drying).values
    for line in FLOWS:
        assert (v[line] >= 0).all(), line
        assert line in ("heat_to_pasteurise", "heat_lost_in_main", "heat_shortfall") or v[line].sum() > 0, line
    equal(v["heat_used"] + v["heat_dumped"], v["heat_recoverable"])
    assert (v["heat_lost_in_main"].sum() > 0) == (main != "none")
    assert (v["heat_sold"] <= 4000 * (1 + 1e-12)).all()
    parts = ("wall", "buried_wall", "roof", "floor")
    equal(sum(v[f"heat_lost_by_{part}"] for part in parts), v["heat_lost_by_tank"])


@pytest.mark.parametrize(("main", "drying"), KINDS)
def test_where_heat_is_dumped_the_buyer_got_all_he_takes(main: str, drying: str) -> None:
    v = full(main, drying).values
    left_over = (v["heat_dumped"] > 1) & (v["heat_left_to_sell"] > 4000)  # else the main by length stays cold
    assert left_over.sum() > 24
    assert v["heat_sold"][left_over] == pytest.approx(4000, rel=1e-12)
    lost = {"none": 0.0, "share": 4000 * 0.15 / 0.85, "by_length": 120 * 25 / 1000 * v["timeline.hours"][left_over]}[main]
    assert v["heat_lost_in_main"][left_over] == pytest.approx(lost, rel=1e-9, abs=1e-9)


def test_the_digesters_need_by_hand() -> None:
    """Feed as warm as the air but not under 4 degC, wells at 10, ice 92.8 kWh/t, 30 % won back, 0.2 kWh per Nm3 of methane."""
    case, spread = full(), model.inputs(full().structure, full().inputs)
    v, warm, air = case.values, case.inputs["digester.temperature_degc"], spread["site.air_temperature_degc"]
    fed = sum(v[f"substrate.{name}.tonnes"] for name in ("milkers", "dry_cows"))
    wash = sum(v[f"substrate.{name}.water"] for name in ("milkers", "dry_cows"))
    arrives = np.where(air > 4, air, 4.0)
    assert (air < 4).any() and (air > 4).any() and wash.sum() > 0
    warming = (fed * (warm - arrives) + wash * (warm - 10)) * 4.1 / 3.6
    ice = (fed - v["dry_matter_fed"]) * spread["site.frozen_share"] * 334 / 3.6
    equal(v["heat_to_digester"], warming * 0.7 + ice + v["heat_lost_by_tank"] - 0.2 * v["methane_made"])


def test_a_use_gets_heat_only_after_the_ones_before_it_are_full() -> None:
    case = full()
    v, spread = case.values, model.inputs(case.structure, case.inputs)
    wants = [v["heat_to_digester"], spread["heat.house_kwh"], spread["heat.barn_kwh"], spread["heat.drying_kwh"]]
    for before, (want, got) in enumerate(zip(wants, USES, strict=False)):
        later = sum(v[line] for line in USES[before + 1 :])
        assert ((later == 0) | (v[got] >= want * (1 - 1e-12))).all(), got


@EASED
@given(month=MONTH, colder=st.floats(0, 25), place=st.sampled_from(["air", "soil", "ground"]))
def test_a_colder_month_never_needs_less_heat(month: int, colder: float, place: str) -> None:
    """Feed as warm as the air gets colder with it; other months stay as they are."""
    case, path = full(), f"site.{place}_temperature_degc"
    cold = lines(case, **{path: shifted(case.inputs[path], month, -colder)})
    for line in ("heat_to_digester", "heat_lost_by_tank", "heat_shortfall", "coldest_day_need"):
        assert no_less(cold[line], case.values[line]), line
    others = cold["timeline.calendar_month"][0] != month + 1
    assert np.array_equal(cold["heat_to_digester"][:, others], case.values["heat_to_digester"][:, others])


@EASED
@given(name=st.sampled_from(DEMOS), month=MONTH, colder=st.floats(0, 20))
def test_colder_air_and_feed_never_need_less_heat_in_any_demo(name: str, month: int, colder: float) -> None:
    case = appraised(name)
    moved = {
        path: shifted(case.inputs[path], month, -colder)
        for path in ("site.air_temperature_degc", "site.feed_temperature_degc", "site.soil_temperature_degc")
    }
    assert no_less(lines(case, **moved)["heat_to_digester"], case.values["heat_to_digester"])


@EASED
@given(part=st.sampled_from(["wall", "buried", "roof", "floor"]), kept=st.floats(0.05, 1))
def test_more_insulation_never_needs_more_heat(part: str, kept: float) -> None:
    case, path = full(), f"shell.{part}_u_w_per_m2_k"
    warm = lines(case, **{path: case.inputs[path] * kept})
    for line in ("heat_to_digester", "heat_lost_by_tank", "heat_shortfall", "coldest_day_need"):
        assert no_less(case.values[line], warm[line]), line
    if kept < 0.9:
        assert warm["heat_lost_by_tank"].sum() < case.values["heat_lost_by_tank"].sum()


@EASED
@given(colder=st.floats(0, 30), share=st.floats(0, 0.7))
def test_a_colder_coldest_day_moves_the_check_and_no_money(colder: float, share: float) -> None:
    case = full()
    cold = lines(case, site__coldest_day_degc=case.inputs["site.coldest_day_degc"] - colder)
    assert no_less(cold["coldest_day_need"], case.values["coldest_day_need"])
    assert np.array_equal(cold["net_cash"], case.values["net_cash"])
    saved = lines(case, digester__digestate_heat_recovery_share=np.array([[share]]))["heat_to_digester"]
    none = lines(case, digester__digestate_heat_recovery_share=np.array([[0.0]]))["heat_to_digester"]
    assert no_less(none, saved)


@EASED
@given(more=st.floats(0, 1), length=st.floats(1, 3000))
def test_a_longer_main_never_sells_more_and_a_larger_need_never_less_to_that_use(more: float, length: float) -> None:
    case = full()
    long = lines(case, heat__main_length_m=case.inputs["heat.main_length_m"] + length)
    assert no_less(case.values["heat_sold"], long["heat_sold"])
    assert (long["heat_used"] <= long["heat_recoverable"] * (1 + 1e-12)).all()
    larger = lines(case, heat__house_kwh=case.inputs["heat.house_kwh"] * (1 + more))
    assert no_less(larger["heat_to_house"], case.values["heat_to_house"])


def test_the_first_filling_is_warmed_once_and_paid() -> None:
    """340 m3 from the temperature of the feed in the first month of feeding; 1.139 kWh per tonne and kelvin."""
    case = full()
    v, first = case.values, int(case.inputs["project.build_months"][0, 0])
    tank, warm = case.inputs["digester.active_volume_m3"][0, 0], case.inputs["digester.temperature_degc"][0, 0]
    kwh = tank * 4.1 / 3.6 * (warm - v["feed_temperature"][0, first])
    assert np.flatnonzero(v["heat_first_warming"][0]).tolist() == [first]
    assert v["heat_first_warming"][0, first] == pytest.approx(kwh, rel=1e-12)
    assert v["fillings_warmed"][0, first] == pytest.approx(-kwh / 0.88 * 0.09 * v["fuel_index"][0, first], rel=1e-12)


def test_a_clean_out_warms_a_whole_filling_again() -> None:
    case = full()
    again = lines(case, clean_out__every_years=np.array([[6.0]]))
    begins = np.flatnonzero(again["clean_out_begins"][0])
    assert begins.size > 1 and (case.values["heat_to_refill"] == 0).all()
    assert np.flatnonzero(again["heat_to_refill"][0]).tolist() == begins.tolist()
    for month in begins:  # as much as the first filling would have taken in the same calendar month
        assert again["heat_to_refill"][0, month] == again["heat_of_filling"][0, month] > 0
        assert again["fillings_warmed"][0, month] < 0


@pytest.mark.parametrize("kind", [k for k, _ in KINDS])
def test_circulation_is_paid_where_heat_is_sent(kind: str) -> None:
    case = full(kind, dict(KINDS)[kind])
    v = case.values
    equal(v["circulation_power"], 0.015 * v["heat_into_main"])
    equal(v["circulation_paid"], -v["circulation_power"] * case.inputs["power.bought_price_per_kwh"] * v["bought_power_index"])


@pytest.mark.parametrize(("main", "drying"), KINDS)
def test_drying_is_counted_in_one_place(main: str, drying: str) -> None:
    """Paid by a customer, saved on the fuel bill up to that bill, or worth something that no bill proves."""
    case = full(main, drying)
    v, spread = case.values, model.inputs(case.structure, case.inputs)
    dry = v["heat_to_dryer"]
    assert dry.sum() > 0
    assert [name for name in ("drying_sales", "drying_worth") if name in v] == {
        "paid": ["drying_sales"], "worth": ["drying_worth"], "fuel_saved": []}[drying]
    heat = v["heat_to_house"] + v["heat_to_barn"] + (dry if drying == "fuel_saved" else 0)
    fuel = np.minimum(heat / case.inputs["farm_now.boiler_efficiency"], spread["farm_now.heating_fuel_kwh"])
    equal(v["fuel_replaced"], fuel)
    assert (v["fuel_bill_saved"] <= spread["farm_now.heating_fuel_bill"] * v["fuel_index"] * (1 + 1e-9)).all()
