"""Inputs of heat that are left out, and the findings about heat: each is raised where it should be, and only there."""

from __future__ import annotations

from functools import cache

import pytest

from appraisal.appraise import Appraisal, appraise
from appraisal.demos import demos
from appraisal.errors import Finding, ScenarioError
from appraisal.scenario.load import loads
from appraisal.technical_yield.limits.heat import ColdestDay, coldest_day

SMALL = demos()["small_herd_manure_only"].read_text("utf-8")
CLIMATE = 'climate = "us_vermont_burlington"'
LOSS = "heat_loss_w_per_k = 127"
Swap = tuple[str, str]


def changed(*swaps: Swap) -> str:
    text = SMALL
    for old, new in swaps:
        assert text.count(old) == 1, old
        text = text.replace(old, new)
    return text


@cache
def case(*swaps: Swap) -> Appraisal:
    return appraise(loads(changed(*swaps)))


def at(where: str, *swaps: Swap) -> list[Finding]:
    return [finding for finding in case(*swaps).findings if finding.where == where]


def day(*swaps: Swap) -> ColdestDay:
    found = case(*swaps)
    return coldest_day(found.loaded.scenario, found.values, found.plant)


# Inputs.


def test_a_scenario_without_a_climate_still_loads_and_reckons_with_a_cold_day() -> None:
    loaded = case((CLIMATE, "air_temperature_degc = 8")).loaded
    assert loaded.scenario.site.coldest_day_degc == -20
    assert loaded.assumptions["site.coldest_day_degc"].origin == "default"


def test_soil_ground_and_coldest_day_come_with_the_climate() -> None:
    site, known = case().loaded.scenario.site, case().loaded.assumptions
    assert site.coldest_day_degc == -19.6 and site.ground_temperature_degc == [10.6] * 12
    assert min(site.soil_temperature_degc) == site.soil_temperature_degc[1] == 4.47
    assert known["site.soil_temperature_degc"].origin == "reference" and "climates" in known["site.soil_temperature_degc"].source


@pytest.mark.parametrize(("field", "build", "says"), [
    ("wall", "floor_dry_0", "a wall against air"), ("wall", "wall_concrete_soil_80", "a wall against air"),
    ("roof", "wall_steel_air_60", "a roof or membrane against air"), ("floor", "roof_steel_0", "a floor against soil"),
])
def test_a_build_must_fit_its_place(field: str, build: str, says: str) -> None:
    sizes = 'areas = "given"\nwall_area_m2 = 150\nroof_area_m2 = 62\nfloor_area_m2 = 58\n'
    shell = f'heat_loss_method = "from_walls"\n\n[shell]\n{sizes}{field}_construction = "{build}"'
    with pytest.raises(ScenarioError) as caught:
        loads(changed((LOSS, shell)))
    assert [fault.path for fault in caught.value.faults] == [f"shell.{field}_construction"]
    assert caught.value.faults[0].allowed == says


def test_areas_that_are_missing_are_asked_for_one_by_one() -> None:
    with pytest.raises(ScenarioError) as caught:
        loads(changed((LOSS, 'heat_loss_method = "from_walls"\n\n[shell]\nroof_area_m2 = 62')))
    assert [fault.path for fault in caught.value.faults] == ["shell.wall_area_m2", "shell.floor_area_m2"]


def test_a_covered_lagoon_takes_no_heat_but_for_what_is_pasteurised() -> None:
    lagoon = ('kind = "stirred_tank"', 'kind = "covered_lagoon"')
    cold = case(lagoon, (LOSS, "")).values
    assert cold["heat_to_digester"].sum() == cold["heat_first_warming"].sum() == cold["coldest_day_need"].sum() == 0
    hot = case(lagoon, (LOSS, ""), ("[pasteuriser]", '[pasteuriser]\ntreats = "everything"')).values
    month = hot["timeline.month_number"].shape[1] - 12  # a January to look at, any will do
    kwh = hot["tonnes_fed"][0, month] * 4.1 / 3.6 * (70 - hot["feed_temperature"][0, month]) * 0.5
    assert hot["heat_to_digester"][0, month] == pytest.approx(kwh, rel=1e-12) and kwh > 0


# Findings.


def test_enough_heat_on_the_coldest_day_is_no_finding() -> None:
    assert at("coldest_day_need") == []
    assert day().need_kw < day().month_kw < day().full_load_kw and day().cooling_k_per_day == 0


def test_short_on_the_coldest_day_says_what_is_needed_and_what_there_is() -> None:
    """1,000 W/K lose 57.9 kW at -19.6 degC in a tank at 38.3 degC; the engine has 42.3 kW of heat at full load."""
    (found,) = at("coldest_day_need", (LOSS, "heat_loss_w_per_k = 1000"))
    need = day((LOSS, "heat_loss_w_per_k = 1000")).need_kw
    assert found.severity == "warning" and found.unit == "kW"
    assert found.limit == pytest.approx(25 / 0.31 * 0.525)
    assert found.value == need > (38.33 + 19.6) * 1.0
    for figure in ("-3.28 °F", f"{need:,.0f} kW", "42 kW at full load", "cools by 3.23 °F/day"):
        assert figure in found.what


def test_short_at_the_mean_load_only_is_a_note() -> None:
    more = 127 + ((day().month_kw + day().full_load_kw) / 2 - day().need_kw) * 1000 / (38.33 + 19.6)
    (found,) = at("coldest_day_need", (LOSS, f"heat_loss_w_per_k = {more}"))
    assert found.severity == "note" and "more gas than the month has" in found.what


def test_a_gas_boiler_counts_on_the_coldest_day() -> None:
    boiler = ("[heat]\n", '[boiler]\nfuel = "biogas"\nrated_kw = 60\n\n[heat]\n')
    assert at("coldest_day_need", (LOSS, "heat_loss_w_per_k = 1000"))[0].severity == "warning"
    assert at("coldest_day_need", (LOSS, "heat_loss_w_per_k = 1000"), boiler)[0].severity == "note"


@pytest.mark.parametrize(("loss", "word"), [(0, None), (127, None), (300, "more")])
def test_an_unusual_share_of_engine_heat_is_said(loss: int, word: str | None) -> None:
    about_heat = at("heat_to_digester", (LOSS, f"heat_loss_w_per_k = {loss}"))
    found = [f for f in about_heat if "of the engine's heat in a year" in f.what]
    assert [word] == [("more" if "more than" in f.what else "less") for f in found] if word else found == []


def test_a_digester_that_takes_hardly_any_heat_is_said() -> None:
    warm = ("feed_temperature_degc = [9, 9, 10, 12, 15, 18, 20, 20, 18, 15, 12, 10]", "feed_temperature_degc = 35")
    (found,) = [f for f in at("heat_to_digester", warm, (LOSS, "heat_loss_w_per_k = 10")) if "in a year" in f.what]
    assert "less than the usual 20%" in found.what and found.limit == 0.2


def test_a_main_that_loses_too_much_is_said() -> None:
    sold = ("[heat]\n", '[heat]\nsold_kwh = 3000\nmain_losses = "by_length"\nmain_length_m = {}\n')
    for length, said in ((20, False), (400, True)):
        assert bool(at("heat_lost_in_main", (sold[0], sold[1].format(length)))) == said, length


def test_feed_far_warmer_than_the_air_of_the_place_is_questioned() -> None:
    """12 degC all year, as the default has it, is far over Red Deer's mean air of some 3 degC, and not far over Vermont's."""
    given = "feed_temperature_degc = [9, 9, 10, 12, 15, 18, 20, 20, 18, 15, 12, 10] # from a pit under the barn"
    cold, left_out = (CLIMATE, 'climate = "ca_alberta_red_deer"'), (given, "")
    assert not at("site.feed_temperature_degc", left_out)
    [found] = at("site.feed_temperature_degc", cold, left_out)
    air = case(cold, left_out).values["site.air_temperature_degc"].mean()
    assert found.value == pytest.approx(12 - air)
    assert not at("site.feed_temperature_degc", cold)  # twelve months of its own
    assert not at("site.feed_temperature_degc", cold, (given, 'feed_temperature = "as_air"'))
