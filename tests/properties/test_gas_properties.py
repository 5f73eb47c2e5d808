"""What must hold of gas, grid limit, upgrading, cleaning and own use, over random plants with all choices made."""

from __future__ import annotations

import numpy as np
import pytest

from appraisal.present.tables import plant_table
from appraisal.risk.checks import checks_of, failing
from tests.properties.adding_up import TOTALS, equal
from tests.properties.gas_choices import NAMES, batch, chosen, evaluated, moved

CLOSE = 1e-9  # of the row's largest value
LIMITED = ("throttled", "flared", "cold")


# Balances.


@pytest.mark.parametrize("name", NAMES)
def test_methane_is_accounted_for_every_month(name: str) -> None:
    v = batch(name)
    used = v["methane_burned"] + v["methane_to_upgrading"] + v["methane_to_boiler"] + v["methane_flared"]
    equal(v["methane_leaked"] + used, v["methane_made"])
    for line in ("methane_to_upgrading", "methane_to_boiler", "methane_flared", "methane_slipped", "power_sold", "power_bought",
                 "heat_shortfall", "oxygen_left", "sulphide_clean"):
        assert (v[line] >= 0).all(), line
    assert (v["methane_slipped"] <= v["methane_to_use"] * (1 + CLOSE)).all()


@pytest.mark.parametrize("name", NAMES)
def test_power_and_heat_balance(name: str) -> None:
    v = batch(name)
    equal(v["power_sold"] + v["power_to_farm"] + v["power_own_use"], v["power_gross"])
    equal(v["heat_digester_met"] + v["heat_from_boiler"] + v["heat_shortfall"], v["heat_to_digester"])


@pytest.mark.parametrize("name", NAMES)
def test_each_money_line_is_in_exactly_one_total(name: str) -> None:
    nodes = chosen(name).plan.nodes
    counted = [ref.name for total in TOTALS.values() for ref in nodes[total].refs()]
    assert sorted(counted) == sorted(full for full, node in nodes.items() if node.line.role)


@pytest.mark.parametrize("name", NAMES)
def test_a_batch_row_is_exactly_the_single_run(name: str) -> None:
    whole, inputs = batch(name), moved(name)
    for row in (0, 3, 27, 59):
        single = evaluated(name, {path: x[row : row + 1] if x.shape[0] > 1 else x for path, x in inputs.items()})
        for line, array in whole.items():
            assert np.array_equal(array[row : row + 1] if array.shape[0] > 1 else array, single[line]), line


# The limit of the grid.


@pytest.mark.parametrize("name", LIMITED)
def test_sold_and_curtailed_are_what_would_be_sold_without_a_limit(name: str) -> None:
    v, inputs = batch(name), moved(name)
    free = evaluated(name, {**inputs, "grid.export_limit_kw": np.array([[1e6]])})
    equal(v["power_sold"] + v["power_curtailed"], free["power_sold"])
    equal(v["power_gross"] + v["power_curtailed"], free["power_gross"])
    assert (free["power_curtailed"] == 0).all() and (free["hours_at_limit"] == 0).all()
    assert (v["power_sold"] <= inputs["grid.export_limit_kw"] * v["running_share"] * v["timeline.hours"] * (1 + CLOSE)).all()
    assert ((v["hours_at_limit"] > 0) == (v["power_curtailed"] > 0)).all()
    assert (v["methane_burned"] <= free["methane_burned"] * (1 + CLOSE)).all()
    assert 0.05 < (v["power_curtailed"] > 0).mean() < 0.99


def test_without_a_binding_limit_every_line_is_that_of_a_grid_without_limit() -> None:
    case, free = chosen("flared"), {**chosen("flared").inputs, "grid.export_limit_kw": np.array([[1e6]])}
    limited = evaluated("flared", free)
    for item in case.structure.items["engine"]:
        assert np.array_equal(limited[f"engine.{item}.fuel"], limited[f"engine.{item}.fuel_offered"])
        assert np.array_equal(limited[f"engine.{item}.power"], limited[f"engine.{item}.power_possible"])
    assert (limited["methane_freed"] == 0).all()


def test_gas_a_limit_leaves_reaches_the_boiler_only_when_throttled() -> None:
    throttled, flared = batch("cold"), batch("flared")
    assert (throttled["methane_freed"] > 0).any() and (flared["methane_freed"] > 0).any()
    freed = (throttled["methane_over_capacity"] == 0) & (throttled["methane_to_boiler"] > 0)
    assert freed.any() and (throttled["methane_freed"][freed] > 0).all()
    assert (flared["methane_to_boiler"] <= flared["methane_over_capacity"]).all()


# Upgrading.


def test_more_sent_to_upgrading_sells_more_gas_and_less_power() -> None:
    shares = np.array([[0.0], [0.2], [0.4], [0.6]])
    v = evaluated("upgraded", {**chosen("upgraded").inputs, "upgrading.share_of_gas": shares})
    gas, power = v["gas_sold"].sum(axis=1), v["power_gross"].sum(axis=1)
    assert gas[0] == 0 and (np.diff(gas) > 0).all() and (np.diff(power) < 0).all()
    assert (v["gas_sales"][0] == 0).all() and (v["gas_sales"][1:, -1] > 0).all()
    assert (v["methane_sold"] + v["upgrading_slip"] <= v["methane_to_upgrading"] * (1 + CLOSE)).all()


def test_a_plant_that_sells_all_its_gas_is_not_told_that_it_makes_no_power() -> None:
    sells = chosen("all_gas_sold")
    assert sells.plant.power_gross_kwh == 0 and sells.values["gas_sold"].sum() > 0
    assert [found for found in sells.findings if found.where in ("methane_made", "power_per_cow")
            and found.severity == "stop and ask"] == []
    assert "power_gross" not in {found.where for found in sells.findings}  # no engine "oversized" that nobody runs
    assert (sells.values["power_bought"][0, -12:] > 0).all() and (sells.values["heat_shortfall"][0, -12:] > 0).all()


def test_a_plant_that_sells_all_its_gas_is_not_cut_for_the_heat_it_buys() -> None:
    """The heat is in its costs: a warning with the amount, and no second sum with less gas."""
    case = chosen("all_gas_sold")
    [found] = [each for each in case.findings if each.where == "heat_to_digester" and "worst month" in each.what]
    assert found.severity == "warning" and f"{case.plant.heat_shortfall_kwh:,.0f} kWh" in found.what
    assert case.plant.heat_shortfall_kwh > 0 and case.cautious is None


def test_upgrading_never_takes_more_than_its_capacity() -> None:
    small = {**chosen("upgraded").inputs, "upgrading.capacity_nm3_per_hour": np.array([[20.0]])}
    v = evaluated("upgraded", small)
    assert v["upgrading_load"].max() == pytest.approx(float(small["upgrading.availability"][0, 0]))
    assert v["upgrading_gas"].max() <= 20 * 744


# Gas cleaning.


def test_sulphur_and_air_are_accounted_for() -> None:
    v, inputs = batch("throttled"), moved("throttled")
    parts = v["sulphide_to_iron"] + v["sulphide_to_air"] + v["sulphide_to_carbon"] + v["sulphide_clean"]
    equal(parts, v["sulphide_raw"])
    assert (v["sulphide_raw"] <= v["sulphur_fed"] * 34.08 / 32.06 * inputs["cleaning.sulphide_share"] * (1 + CLOSE)).all()
    equal(v["oxygen_used"] + v["oxygen_left"], v["air_dosed"] * 0.2095)
    equal(v["oxygen_in_gas"] + v["nitrogen_in_gas"] + v["biogas_made"] / np.where(v["gas_with_air"] > 0, v["gas_with_air"], 1),
          np.where(v["gas_with_air"] > 0, 1.0, 0.0))
    assert (v["h2s_at_engine"] <= v["h2s_raw"] * (1 + CLOSE)).all()


def test_little_air_takes_out_only_what_its_oxygen_reaches() -> None:
    v = evaluated("throttled", {**chosen("throttled").inputs, "cleaning.air_share": np.array([[0.0], [0.0005], [0.03]])})
    taken = v["sulphide_to_air"].sum(axis=1)
    assert taken[0] == 0 and 0 < taken[1] < taken[2]
    assert (v["oxygen_left"][:2] == 0).all() and (v["oxygen_left"][2, -1] > 0).all()
    assert v["carbon_bought"][0].sum() < v["carbon_bought"][2].sum() < 0


@pytest.mark.parametrize("field", ["iron_removal_share", "air_removal_share", "carbon_removal_share"])
def test_cleaning_better_leaves_less(field: str) -> None:
    shares = np.array([[0.2], [0.5], [0.9]])
    v = evaluated("throttled", {**chosen("throttled").inputs, f"cleaning.{field}": shares})
    assert (np.diff(v["h2s_at_engine"][:, -12:], axis=0) < 0).all()


def test_own_use_by_consumer_is_the_sum_of_its_consumers() -> None:
    v = batch("throttled")
    names = ("stirring_power", "feeding_power", "digestate_power", "pasteuriser_power", "gas_blower_power", "standing_power",
             "circuit_power", "upgrading_power")
    equal(np.sum([v[name] for name in names], axis=0), v["process_power"])
    assert all((v[name] >= 0).all() for name in names)
    equal(v["power_bought"] + v["power_own_use"],
          v["process_power"] + sum(v[f"engine.{item}.auxiliaries"] for item in ("one", "two")))


@pytest.mark.parametrize("name", [*NAMES, "all_gas_sold"])
def test_every_check_holds_and_no_reader_is_told_that_the_sum_does_not_add_up(name: str) -> None:
    """Gas that goes to a boiler or is upgraded is neither burned in an engine nor lost."""
    case = chosen(name)
    assert [each.name for each in case.money.checks if not each.passed] == []
    for check in checks_of(case.plan):
        assert not failing(check, case.values).any(), check.name


def test_readers_see_where_gas_and_heat_go_beside_the_engine() -> None:
    """Methane made is what the rows of the plant say it became, leaks and engines apart; heat needed has its givers."""
    for name in ("upgraded", "throttled"):
        plant = chosen(name).plant
        shown = {row[0] for row in plant_table(chosen(name)).rows}
        for label, amount in (
            ("Methane sold to the gas grid", plant.methane_sold_nm3),
            ("Methane burned in the boiler", plant.methane_to_boiler_nm3),
            ("Heat from the biogas boiler", plant.heat_from_boiler_kwh),
        ):
            assert (label in shown) == (amount > 0), (name, label)
