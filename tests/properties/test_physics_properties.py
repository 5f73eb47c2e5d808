"""What must hold for the physics of every plant: balances close, no flow is negative, no energy comes from nowhere."""

from __future__ import annotations

import numpy as np
import pytest

from appraisal import model
from appraisal.measures.headline import headline
from appraisal.technical_yield.part_load import on_curve
from tests.properties.adding_up import equal, overhauls_by_hand
from tests.properties.cases import DEMOS, appraised, batch, drawn, lines


@pytest.mark.parametrize("name", DEMOS)
def test_methane_is_accounted_for_every_month(name: str) -> None:
    v = batch(name)
    used = v["methane_burned"] + v["methane_to_upgrading"] + v["methane_to_boiler"] + v["methane_flared"]
    equal(v["methane_leaked"] + used, v["methane_made"])


@pytest.mark.parametrize("name", DEMOS)
def test_mass_and_nutrients_balance(name: str) -> None:
    v, items = batch(name), model.items(appraised(name).structure)["substrate"]
    equal(v["digestate_mass"] + v["dry_gas_mass"] + v["vapour_mass"], v["tonnes_fed"])
    equal(v["digestate_nitrogen"] + v["nitrogen_lost"], v["nitrogen_fed"])
    for line, per_tonne in (("digestate_phosphorus", "p_kg_per_t"), ("digestate_potassium", "k_kg_per_t")):
        moved = drawn(name)
        brought = [
            v[f"substrate.{item}.{part}"] * moved[f"{table}.{item}.{prefix}{per_tonne}"]
            for table, item in items
            for part, prefix in ((("manure", ""), ("bedding", "bedding_")) if table == "herd" else (("tonnes", ""),))
        ]
        equal(sum(brought), v[line])


@pytest.mark.parametrize("name", DEMOS)
def test_power_and_heat_balance(name: str) -> None:
    v = batch(name)
    equal(v["power_sold"] + v["power_to_farm"] + v["power_own_use"], v["power_gross"])
    equal(v["heat_used"] + v["heat_dumped"], v["heat_recoverable"])
    equal(v["heat_digester_met"] + v["heat_shortfall"], v["heat_to_digester"])


@pytest.mark.parametrize("name", DEMOS)
def test_energy_out_never_exceeds_energy_in(name: str) -> None:
    v, moved = batch(name), drawn(name)
    fuel = v["methane_burned"] * 9.97
    sane = np.ones((v["power_gross"].shape[0], 1), dtype=bool)
    for engine in appraised(name).structure.items["engine"]:
        known, path = {**moved, **v}, f"engine.{engine}"
        full, middle, half = (
            known[f"{path}.{power}"] + known[f"{path}.{heat}"]
            for power, heat in (
                ("efficiency_full", "heat_efficiency_full"),
                ("efficiency_at_three_quarters", "heat_at_three_quarters"),
                ("efficiency_at_half", "heat_efficiency_half"),
            )
        )
        least = on_curve(known[f"{path}.minimum_load"], full, middle, half, three_quarter_load=0.75, half_load=0.5)
        sane &= (full <= 1) & (middle <= 1) & (least <= 1)
    assert sane.any()
    assert ((v["power_gross"] + v["heat_recoverable"] <= fuel * (1 + 1e-9)) | ~sane).all()


@pytest.mark.parametrize("name", DEMOS)
def test_flows_are_never_negative_and_conversion_stays_below_one(name: str) -> None:
    v = batch(name)
    for line in (
        "methane_made",
        "biogas_made",
        "methane_flared",
        "power_gross",
        "power_sold",
        "power_bought",
        "heat_dumped",
        "heat_shortfall",
        "heat_sold",
        "run_hours",
        "credit_tonnes",
        "tonnes_fed",
    ):
        assert (v[line] >= 0).all(), line
    conversions = [array for line, array in v.items() if line.endswith(".conversion")]
    assert conversions
    assert all((array >= 0).all() and (array < 1).all() for array in conversions)


@pytest.mark.parametrize("name", DEMOS)
def test_overhauls_fall_in_the_month_where_the_hours_cross_also_for_round_numbers(name: str) -> None:
    case = appraised(name)
    for place, engine in enumerate(case.structure.items["engine"]):
        top_end, major = (
            np.array([[8000.0], [10000.0], [12345.6]]) + 500 * place,
            np.array([[40000.0], [30000.0], [50001.0]]),
        )
        intervals = {f"engine.{engine}.top_end_interval_hours": top_end, f"engine.{engine}.major_interval_hours": major}
        v = lines(name, {**case.inputs, **intervals, f"engine.{engine}.availability": np.array([[0.9], [1.0], [0.8]])})
        for row in range(3):
            hours = np.broadcast_to(v[f"engine.{engine}.hours"], (3, case.timeline.months))[row]
            want = overhauls_by_hand(hours, top_end=float(top_end[row, 0]), major=float(major[row, 0]))
            got = [np.flatnonzero(v[f"engine.{engine}.{kind}_due"][row]).tolist() for kind in ("top_ends", "majors")]
            assert got == list(want)
            assert all(got)


def test_a_contract_that_ends_runs_through_the_physics_like_a_plant_without_that_feed() -> None:
    case = appraised("dairy_with_leftovers")
    ends = lines(
        "dairy_with_leftovers",
        {
            **case.inputs,
            "feed.bakery.contract_years": np.array([[4.0]]),
            "feed.bakery.share_after_contract": np.array([[0.0]]),
        },
    )
    never = lines("dairy_with_leftovers", {**case.inputs, "feed.bakery.tonnes_per_year": np.array([[0.0]])})
    last = int(case.inputs["project.build_months"][0, 0]) + 48
    for line in (
        "methane_made",
        "retention",
        "power_gross",
        "heat_dumped",
        "digestate_mass",
        "digestate_nitrogen",
        "loading_rate",
    ):
        assert np.array_equal(ends[line][0, last:], never[line][0, last:]), line
        assert not np.array_equal(ends[line][0, :last], never[line][0, :last]), line
    assert (ends["substrate.bakery.tipping_fee"][0, last:] == 0).all()
    assert (ends["substrate.bakery.tipping_fee"][0, last - 1] > 0).all()


def test_no_head_and_no_feed_is_a_plant_without_gas_and_not_an_error() -> None:
    case = appraised("dairy_with_leftovers")
    nothing = {path: 0 * case.inputs[path] for path in case.inputs if path.endswith((".head", ".tonnes_per_year"))}
    v = lines("dairy_with_leftovers", {**case.inputs, **nothing})
    assert all(np.isfinite(array).all() for array in v.values())
    assert v["power_gross"].sum() == 0
    assert headline(v).npv[0] < 0
