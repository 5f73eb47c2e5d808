"""What must hold for every herd and feed: tonnes and solids add up, nothing is negative, a lost feed is as if never there."""

from __future__ import annotations

import tomllib
from collections.abc import Mapping
from functools import cache
from itertools import pairwise
from typing import Any

import numpy as np
import numpy.typing as npt
import pytest

from appraisal import model
from appraisal.appraise import Appraisal, appraise
from appraisal.demos import demos
from appraisal.lines.evaluate import evaluate
from appraisal.scenario.load import loads
from appraisal.scenario.model import declared, sections
from tests.edges.scenario_text import toml
from tests.properties.cases import appraised
from tests.properties.cases import lines as demo_lines

Array = npt.NDArray[np.float64]
CLOSE = 1e-9  # of the row's largest value
DRAWS = 200
HERDS, FEEDS = ("milkers", "dry_cows"), ("whey", "bakery")
BARN = [1, 1, 1, 0.8, 0.6, 0.5, 0.5, 0.5, 0.6, 0.8, 1, 1]
EVERYTHING: Mapping[str, Mapping[str, Any]] = {
    "herd.milkers": {
        "manure_method": "by_milk", "milk_kg_per_head_day": 38, "flush_water_l_per_head_day": 30, "yard_area_m2": 3000,
        "bedding_like": "cereal_straw", "bedding_t_per_head_year": 0.4, "sand_t_per_head_year": 5, "sand_into_tank_share": 0.3,
        "pit_days": 6},
    "herd.dry_cows": {
        "manure_method": "measured", "measured_tonnes_per_year": 900, "housed_share": BARN, "collected_share": 1,
        "bedding_t_per_head_year": 2},
    "feed.whey": {"starts_after_months": 5, "truckload_t": 25, "delivery_days_per_week": 5, "buffer_m3": 15},
    "feed.bakery": {"truckload_t": 12, "delivery_days_per_week": 4, "buffer_m3": 40},
}


@cache
def rich() -> Appraisal:
    """A demo with every kind of manure, bedding, sand, water and delivery in it."""
    tables = tomllib.loads(demos()["dairy_with_leftovers"].read_text(encoding="utf-8"))
    for path, fields in EVERYTHING.items():
        table, name = path.split(".")
        given = {key: value for key, value in tables[table][name].items() if not key.startswith("bedding")}
        tables[table][name] = {**given, **fields}
    kept = {"schema_version", *(place.name for place in sections())}  # what stands beside the values is left out
    tables = {name: table for name, table in tables.items() if name in kept}
    return appraise(loads("\n".join(toml(tables))))


def at(**changed: float) -> dict[str, Array]:
    """All lines of that plant with some inputs changed; `herd__milkers__pit_days` stands for herd.milkers.pit_days."""
    case = rich()
    inputs = {**case.inputs, **{name.replace("__", "."): np.array([[value]]) for name, value in changed.items()}}
    return evaluate(case.plan, model.inputs(case.structure, inputs))


@cache
def inputs_of_batch() -> dict[str, Array]:
    """Every number of that plant moved by up to 40 % inside its limits."""
    rng, case = np.random.default_rng(5), rich()
    moved = dict(case.inputs)
    for pattern, item in declared().items():
        for path in model.paths(case.structure, pattern) if item.kind == "number" else ():
            moved[path] = np.clip(case.inputs[path] * rng.uniform(0.6, 1.4, (DRAWS, 1)), item.low, item.high)
    moved["project.build_months"] = np.round(moved["project.build_months"])
    return moved


@cache
def batch() -> dict[str, Array]:
    """All lines over those plants."""
    case = rich()
    return evaluate(case.plan, model.inputs(case.structure, inputs_of_batch()))


def close(left: Array, right: Array) -> None:
    """Equal to 1e-9 of the largest value."""
    np.testing.assert_allclose(*np.broadcast_arrays(left, right), rtol=0, atol=CLOSE * np.abs(right).max())


# Balances.


def test_what_goes_into_the_tank_is_what_animals_lorries_and_weather_bring() -> None:
    """Every tonne by name: manure, bedding, sand and water in; less what rotted, settled or was sorted out."""
    v, spread = batch(), model.inputs(rich().structure, inputs_of_batch())
    brought = sum(v[f"substrate.{name}.{part}"] for name in HERDS for part in ("manure", "bedding", "sand"))
    water = sum(v[f"substrate.{name}.{part}_water"] for name in HERDS for part in ("wash", "flush", "rain"))
    kept_out = sum(v[f"substrate.{name}.{part}"] for name in HERDS for part in ("lost_solids", "grit"))
    sorted_in = sum(
        v[f"substrate.{name}.delivered"] * (1 - spread[f"feed.{name}.reject_share"]) for name in FEEDS)
    close(v["tonnes_fed"], brought + water - kept_out + sorted_in)
    close(v["grit_settled"], sum(v[f"substrate.{name}.grit"] for name in HERDS))


def test_dry_matter_is_volatile_solids_and_ash_in_and_out() -> None:
    """Ash neither comes nor goes: that of manure, bedding, feeds and carried sand is that of the digestate."""
    v, spread = batch(), model.inputs(rich().structure, inputs_of_batch())
    ash = sum(
        v[f"substrate.{name}.manure_dry_matter"] * (1 - spread[f"herd.{name}.vs_share_of_ts"])
        + v[f"substrate.{name}.bedding_dry_matter"] * (1 - spread[f"herd.{name}.bedding_vs_share_of_ts"])
        + v[f"substrate.{name}.sand_carried"] for name in HERDS)
    ash = ash + sum(v[f"substrate.{name}.dry_matter"] * (1 - spread[f"feed.{name}.vs_share_of_ts"]) for name in FEEDS)
    close(v["digestate_dry_matter"] - (v["volatile_solids_fed"] - v["volatile_solids_gone"]), ash)


def test_rain_and_measured_manure_add_up_to_their_year() -> None:
    v = at()
    year = slice(24, 36)
    assert v["substrate.milkers.rain_water"][0, year].sum() == pytest.approx(3000 * 1.07, rel=1e-9)  # 1,070 mm at the site
    assert v["substrate.dry_cows.manure"][0, year].sum() == pytest.approx(900, rel=1e-9)
    assert v["substrate.dry_cows.manure"][0, 24] != pytest.approx(v["substrate.dry_cows.manure"][0, 28], rel=0.1)


# Signs and bounds.


def test_nothing_is_less_than_nothing() -> None:
    v = batch()
    signed = {"months_coming"}  # counts down before a feed begins
    ours = [name for name, node in rich().plan.nodes.items()
            if node.line.sheet in ("herd", "bedding", "herd_water", "feed", "mix", "deliveries", "potential")]
    assert len(ours) > 100
    assert [name for name in ours if name.rpartition(".")[2] not in signed and (v[name] < 0).any()] == []
    assert all(np.isfinite(v[name]).all() for name in ours)


def test_solids_digested_never_exceed_those_fed() -> None:
    v = batch()
    assert (v["volatile_solids_gone"] <= v["volatile_solids_fed"] * (1 + CLOSE)).all()
    for name in (*HERDS, *FEEDS):
        assert (v[f"substrate.{name}.solids_gone"] <= v[f"substrate.{name}.volatile_solids"]).all()
    claimed = at(feed__whey__potential_nm3_per_t_vs=1100.0)
    assert (claimed["substrate.whey.solids_gone"] <= claimed["substrate.whey.volatile_solids"]).all()


def test_old_manure_never_gives_more_gas_and_more_milk_never_less_manure() -> None:
    days = [at(herd__milkers__pit_days=value) for value in (0.0, 5.0, 30.0, 365.0)]
    milk = [at(herd__milkers__milk_kg_per_head_day=value) for value in (15.0, 30.0, 50.0)]
    for line in ("substrate.milkers.manure_potential", "substrate.milkers.volatile_solids", "substrate.milkers.tonnes"):
        assert all((older[line] <= younger[line]).all() for younger, older in pairwise(days)), line
    assert days[-1]["substrate.milkers.manure_potential"].sum() < 0.1 * days[0]["substrate.milkers.manure_potential"].sum()
    for line in ("substrate.milkers.manure", "substrate.milkers.manure_dry_matter"):
        assert all((more[line] >= less[line]).all() for less, more in pairwise(milk)), line


def test_potential_and_rate_of_bedded_manure_lie_between_manure_and_straw() -> None:
    v = at(herd__milkers__pit_days=0.0)
    potential, rate = v["substrate.milkers.specific_potential"][0, -1], v["substrate.milkers.rate"][0, -1]
    assert 224 < potential < 240
    assert 0.03 < rate < 0.1
    plain = at(herd__milkers__pit_days=0.0, herd__milkers__bedding_t_per_head_year=0.0)
    assert plain["substrate.milkers.specific_potential"][0, -1] == pytest.approx(224, rel=1e-12)
    assert plain["substrate.milkers.rate"][0, -1] == pytest.approx(0.1, rel=1e-12)


def test_sand_that_settles_is_in_no_flow() -> None:
    settled, carried = (at(herd__milkers__sand_settles_share=share) for share in (1.0, 0.0))
    none = at(herd__milkers__sand_t_per_head_year=0.0)
    assert np.array_equal(settled["tonnes_fed"], none["tonnes_fed"])
    close(carried["tonnes_fed"] - none["tonnes_fed"], settled["grit_settled"])
    assert carried["grit_settled"].sum() == 0


# Peak day.


def test_a_peak_day_is_never_below_the_even_day_and_a_buffer_never_raises_it() -> None:
    v, days = batch(), batch()["timeline.days"]
    for name in (*HERDS, *FEEDS):
        assert (v[f"substrate.{name}.peak_day"] * days >= v[f"substrate.{name}.tonnes"] * (1 - CLOSE)).all()
    sizes = [at(feed__bakery__buffer_m3=size)["substrate.bakery.peak_day"] for size in (0.0, 5.0, 20.0, 1000.0)]
    assert all((more <= less).all() for less, more in pairwise(sizes))
    assert (sizes[0] > sizes[-1]).any()


def test_the_stated_buffer_makes_the_week_even_and_less_does_not() -> None:
    v = at(feed__bakery__buffer_m3=0.0)
    month = 40
    needed = float(v["substrate.bakery.even_buffer"][0, month])
    even = v["substrate.bakery.tonnes"][0, month] / v["timeline.days"][0, month]
    assert at(feed__bakery__buffer_m3=needed)["substrate.bakery.peak_day"][0, month] == pytest.approx(even, rel=1e-9)
    assert at(feed__bakery__buffer_m3=0.9 * needed)["substrate.bakery.peak_day"][0, month] > even * 1.01


def test_the_buffer_of_a_week_by_hand() -> None:
    """2 t a day in loads of 7 t on up to 4 days: two loads a week; 5 t stay of each, 10 t after the second."""
    v = at(feed__bakery__tonnes_per_year=730.0, feed__bakery__truckload_t=7.0, feed__bakery__bulk_t_per_m3=0.5)
    month = 40
    assert v["substrate.bakery.delivery_day"][0, month] == pytest.approx(7, rel=1e-9)
    assert v["substrate.bakery.deliveries"][0, month] == pytest.approx(2, rel=1e-9)
    assert v["substrate.bakery.even_buffer"][0, month] == pytest.approx(20, rel=1e-9)


# Contract window.

PHYSICS = ("herd", "bedding", "herd_water", "mix", "retention", "kinetics", "conversion", "gas", "digestate", "feed_balance")
EVERY_FEED = [(name, feed) for name in sorted(demos()) for feed in appraised(name).structure.items["feed"]]


@pytest.mark.parametrize(("name", "feed"), EVERY_FEED)
def test_a_feed_lost_from_a_month_on_is_from_then_a_plant_without_it(name: str, feed: str) -> None:
    """Every physical line and the peak day, exactly; what it earns and costs is nothing from the same month."""
    case, years = appraised(name), 4.0
    end = {f"feed.{feed}.contract_years": np.array([[years]]), f"feed.{feed}.share_after_contract": np.array([[0.0]])}
    ends = demo_lines(name, {**case.inputs, **end})
    never = demo_lines(name, {**case.inputs, f"feed.{feed}.tonnes_per_year": np.array([[0.0]])})
    last = int(case.inputs["project.build_months"][0, 0] + years * 12)
    compared = [line for line, node in case.plan.nodes.items() if node.line.sheet in PHYSICS or "peak_day" in line]
    assert len(compared) > 60
    for line in compared:
        if ends[line].shape[1] > 1:
            assert np.array_equal(ends[line][0, last:], never[line][0, last:]), line
    for line in ("methane_made", "retention", "digestate_mass", "digestate_nitrogen", "loading_rate", "peak_day_tonnes"):
        assert not np.array_equal(ends[line][0, :last], never[line][0, :last]), line
    for line in ("tipping_fee", "haul", "reject_disposal"):
        assert (ends[f"substrate.{feed}.{line}"][0, last:] == 0).all(), line
    assert ends[f"substrate.{feed}.tonnes"][0, last - 1] > 0


@pytest.mark.parametrize(("name", "feed"), EVERY_FEED)
def test_a_feed_that_begins_later_is_absent_before_and_whole_after(name: str, feed: str) -> None:
    case, wait = appraised(name), 7
    sure = {f"feed.{feed}.contract_years": np.array([[60.0]])}
    late = demo_lines(name, {**case.inputs, **sure, f"feed.{feed}.starts_after_months": np.array([[float(wait)]])})
    soon = demo_lines(name, {**case.inputs, **sure})
    never = demo_lines(name, {**case.inputs, f"feed.{feed}.tonnes_per_year": np.array([[0.0]])})
    first = int(case.inputs["project.build_months"][0, 0]) + wait
    for line in ("methane_made", "tonnes_fed", "digestate_nitrogen"):
        assert np.array_equal(late[line][0, :first], never[line][0, :first]), line
        assert np.array_equal(late[line][0, first:], soon[line][0, first:]), line
    assert late[f"substrate.{feed}.tonnes"][0, first] > 0 == late[f"substrate.{feed}.tonnes"][0, first - 1]


def test_the_fee_of_the_contract_is_counted_from_the_first_month_of_the_feed() -> None:
    v = at(feed__whey__starts_after_months=12.0, feed__whey__contract_years=3.0, feed__whey__gate_fee_escalation=0.0)
    fee, first = v["substrate.whey.fee_per_t"][0], int(rich().inputs["project.build_months"][0, 0]) + 12
    paid, after = (rich().inputs[f"feed.whey.gate_fee{which}_per_t"][0, 0] for which in ("", "_after"))
    assert (fee[first:first + 36] == paid).all() and (fee[first + 36:] == after).all()
