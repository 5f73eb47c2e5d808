"""What is told of an engine, its power and its homes, held against each other. Common practice, no source.

An engine of 650 kW that feeds 250,000 kWh a month and 3,000,000 kWh a year to the grid, said to serve over 300 homes,
from a digester at 40 degC.
"""

from __future__ import annotations

from pathlib import Path

import pytest

from appraisal.appraise import Appraisal, appraise
from appraisal.errors import Fault, Finding, ScenarioError
from appraisal.scenario.load import loads
from appraisal.technical_yield import reconcile

TEXT = (Path(__file__).parent / "plants" / "engine_650_kw_as_told.toml").read_text("utf-8")
MONTHLY = 'power_sold_kwh_per_month = "250000 kWh per month"'
RATED_KW, MONTH_KWH, YEAR_KWH, HOMES = 650.0, 250_000.0, 3_000_000.0, 300.0


def told(old: str = "", new: str = "") -> Appraisal:
    """Appraise the plant as told, with one passage exchanged."""
    assert not old or TEXT.count(old) == 1
    return appraise(loads(TEXT.replace(old, new) if old else TEXT))


def at(appraisal: Appraisal, where: str) -> list[Finding]:
    """Findings about one line or input."""
    return [finding for finding in appraisal.findings if finding.where == where]


def refused(old: str, new: str) -> Fault:
    """The single fault of the scenario with one passage exchanged."""
    with pytest.raises(ScenarioError) as caught:
        told(old, new)
    (fault,) = caught.value.faults
    return fault


@pytest.mark.parametrize("year_kwh", [YEAR_KWH, 12 * MONTH_KWH])
def test_capacity_factor(year_kwh: float) -> None:
    assert reconcile.capacity_factor(RATED_KW, year_kwh) == pytest.approx(0.527, abs=0.0005)


@pytest.mark.parametrize("field", ["power_sold_kwh_per_year", "power_sold_kwh_per_month"])
def test_engine_is_called_oversized_or_short_of_gas(field: str) -> None:
    found = [finding for finding in at(told(), f"claims.{field}") if finding.unit == "share"]
    assert len(found) == 1 and found[0].severity == "warning"
    assert "52.7%" in found[0].what and "oversized, or short of gas" in found[0].what


@pytest.mark.parametrize(("factor", "word"), [
    (1.001, "impossible"), (0.98, "hardly any"), (0.9, None), (0.74, "short of gas"),
])
def test_words_change_at_the_limits(factor: float, word: str | None) -> None:
    """Over 1 impossible, over 0.97 said aloud, under 0.75 oversized; nothing between."""
    found = reconcile.engine_against_energy(
        rated_kw=RATED_KW, kwh_per_year=factor * RATED_KW * reconcile.HOURS_PER_YEAR, where="said", whose="said")
    assert (found is None) == (word is None)
    assert found is None or (word or "") in found.what


def test_homes_get_at_most_ten_thousand_kwh() -> None:
    (found,) = at(told(), "claims.homes")
    assert found.value == pytest.approx(YEAR_KWH / HOMES)
    assert "at most 10,000 kWh to each" in found.what
    assert found.severity == "note"


def test_far_too_many_homes_are_a_warning() -> None:
    assert [finding.severity for finding in at(told("homes = 300", "homes = 3000"), "claims.homes")] == ["warning"]


def test_kilowatts_a_month_are_refused_as_energy() -> None:
    fault = refused(MONTHLY, 'power_sold_kwh_per_month = "250000 kW per month"')
    assert fault.path == "claims.power_sold_kwh_per_month"
    assert "did you mean kWh?" in fault.text("") and "rate" in fault.text("")


def test_heat_in_btu_is_asked_for_its_time() -> None:
    fault = refused("homes = 300", 'heat_kw = "4.5 million Btu"')
    assert fault.path == "claims.heat_kw"
    assert "over which time?" in fault.text("") and "1.319 MW" in fault.text("")


def test_heat_in_btu_an_hour_is_read() -> None:
    loaded = loads(TEXT.replace("homes = 300", 'heat_kw = "4.5 million Btu/hour"'))
    assert loaded.scenario.claims.heat_kw == pytest.approx(1_319, abs=0.5)


def test_forty_degrees_are_no_finding() -> None:
    assert at(told(), "digester.temperature_degc") == []
    assert at(told("temperature_degc = 40", "temperature_degc = 45"), "digester.temperature_degc") != []


# The year's energy in one sentence, for every reader: heat rate by the engine's efficiency, homes by the kWh printed.


def test_every_reader_gets_the_energy_in_one_sentence() -> None:
    """1 kWh of power at 40 % takes 2.5 kWh of gas, 8,530 Btu; the homes follow from the power sold and the kWh printed."""
    plain = told()
    (found,) = at(plain, "energy_reconciliation")
    plant = plain.plant
    assert found.severity == "note" and found.unit == "kWh/kWh"
    assert found.value == pytest.approx(plant.methane_burned_nm3 * 9.97 / plant.power_gross_kwh)
    assert found.value == plant.heat_rate_kwh_per_kwh
    assert "Btu" not in found.what and f"{1 / found.value:.1%} of the gas as power" in found.what
    scenario = plain.loaded.scenario
    shown_in_us = scenario.model_copy(update={"project": scenario.project.model_copy(update={"display_units": "us"})})
    american = reconcile.in_short(shown_in_us, plant)
    assert american is not None and f"{found.value * 3412.14:,.0f} Btu" in american.what
    assert f"what {plant.power_sold_kwh / 10_500:,.0f} homes use at 10,500 kWh a year each" in found.what


def test_heat_rate_is_one_over_the_efficiency_at_full_load() -> None:
    always = told("rated_kw = 650", 'rated_kw = 650\nefficiency_full = 0.4\nefficiency_half = 0.36\nrunning = "full_load"')
    (found,) = at(always, "energy_reconciliation")
    assert found.value == pytest.approx(2.5, rel=1e-9) and "2.50 kWh of gas for each kWh" in found.what


@pytest.mark.parametrize(("heat_kw", "severity"), [(200, None), (470, "warning"), (1319, "stop and ask")])
def test_power_and_heat_said_together_against_the_gas(heat_kw: float, severity: str | None) -> None:
    """3,000,000 kWh of power leave 4,540,000 of 7,540,000 kWh of gas for heat at the most: 518 kW."""
    plain = told("homes = 300", f"homes = 300\nheat_kw = {heat_kw}")
    gas = plain.plant.methane_burned_nm3 * 9.97
    share = (YEAR_KWH + heat_kw * 8760) / gas
    assert (share > reconcile.TOGETHER_AT_MOST) == (severity is not None) and (share > 1) == (severity == "stop and ask")
    found = [each for each in at(plain, "claims.heat_kw") if each.unit == "share"]
    assert [each.severity for each in found] == ([severity] if severity else [])
    assert all(each.value == pytest.approx(share) and f"together {share:.0%}" in each.what for each in found)
