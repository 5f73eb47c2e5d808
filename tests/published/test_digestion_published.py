"""Published figures of digestion: the growth model's worked numbers, ideal reactors, and the open record of US dairies.

`us_dairy_digesters.csv`: US EPA AgSTAR, Livestock Anaerobic Digester Database, June 2024, dairy plants that report gas or
power, as archived with Wainer et al. 2025, doi 10.1007/s40572-025-00512-8; a work of the US government, public domain. State,
kind, year, cows, other feed, use of the gas, gas [ft3/day], power [kWh/year]; names are left out. The record is noisy, gas and
power of one plant often do not fit each other, so only medians and quartiles are held against the model.
"""

from __future__ import annotations

import csv
from functools import cache
from pathlib import Path
from typing import NamedTuple

import numpy as np
import pytest

from appraisal.appraise import appraise
from appraisal.constants import CONSTANTS
from appraisal.scenario.load import loads
from appraisal.scenario.reference import row
from appraisal.technical_yield import conversion, kinetics
from appraisal.technical_yield.limits.digestion import MODEL_OF_THE_RECORD

FOLDER = Path(__file__).parent
CONSTANT = {constant.name: float(constant.value) for constant in CONSTANTS}

# Chen and Hashimoto: the formula read in part (slope and range on slides by J. M. Triolo), from memory otherwise; the numbers
# are computed from it once by hand. Tolerance 0.1 %. B0 [m3/kg VS], S0 [kg VS/m3], T [degC], HRT [day] -> mu, K, B, gas rate.

WORKED = [
    ("cattle", 0.24, 80, 35, 20, 0.326, 0.994, 0.2034, 0.814),
    ("cattle", 0.24, 80, 25, 20, 0.196, 0.994, 0.1790, 0.716),
    ("swine", 0.45, 50, 35, 20, 0.326, 0.864, 0.3891, 0.973),
]


def growth(temperature: float) -> float:
    """Greatest growth rate by its line [1/day]."""
    return float(kinetics.growth_rate(np.array(float(temperature)), CONSTANT["growth_slope"], CONSTANT["growth_intercept"]))


def term(manure: str, solids: float) -> float:
    """Kinetic term by its line [1]."""
    line = getattr(kinetics, f"kinetic_term__{manure}")
    return float(line(np.array(float(solids)), *(CONSTANT[f"kinetic_{manure}_{letter}"] for letter in "abc")))


@pytest.mark.parametrize(("manure", "b0", "s0", "degc", "days", "mu", "k", "b", "rate"), WORKED)
def test_growth_model_gives_its_worked_numbers(
    manure: str, b0: float, s0: float, degc: float, days: float, mu: float, k: float, b: float, rate: float,
) -> None:
    assert growth(degc) == pytest.approx(mu, rel=0.001)
    assert term(manure, s0) == pytest.approx(k, rel=0.001)
    won = b0 * float(conversion.growth_conversion(growth(degc), days, term(manure, s0)))
    assert won == pytest.approx(b, rel=0.001)
    assert won * s0 / days == pytest.approx(rate, rel=0.001)


@pytest.mark.parametrize(("degc", "least"), [(25, 5.1), (35, 3.07), (55, 1.7)])
def test_microbes_are_washed_out_below_the_published_retention(degc: float, least: float) -> None:
    """Table kinetics, ch_mu_intercept: 5.1 d at 25, 3.07 d at 35, 1.7 d at 55 degC, printed with two or three figures."""
    assert 1 / growth(degc) == pytest.approx(least, rel=0.01)
    assert conversion.growth_conversion(growth(degc), least * 0.98, term("cattle", 80)) == 0
    assert conversion.growth_conversion(growth(degc), least * 1.02, term("cattle", 80)) > 0


def test_the_two_methods_are_a_fifth_apart() -> None:
    """Cattle, 80 kg VS/m3, 35 degC, 20 d: 0.160 m3/kg VS by first order at k = 0.10, 21 % below 0.2034."""
    first = 0.24 * (1 - float(conversion.substrate_left_in_one_pass__stirred_tank(0.10, 1.0, 20.0)))
    assert first == pytest.approx(0.160, rel=0.001)
    grown = 0.24 * float(conversion.growth_conversion(growth(35), 20, term("cattle", 80)))
    assert first / grown - 1 == pytest.approx(-0.21, abs=0.005)


# Ideal reactors: mass balances, textbook matter; values computed, as table kinetics and the method page have them.


@pytest.mark.parametrize(("id", "k"), [("cstr_k005", 0.05), ("cstr_k010", 0.10), ("cstr_k020", 0.20)])
def test_stirred_tank_rows_of_the_table(id: str, k: float) -> None:
    for side, days in (("low", 20.0), ("mid", 30.0), ("high", 60.0)):
        left = conversion.substrate_left_in_one_pass__stirred_tank(k, 1.0, days)
        assert 1 - left == pytest.approx(float(row("kinetics", id)[side]), rel=1e-5)


def test_two_tanks_and_a_plug_flow() -> None:
    """k = 0.10: two tanks of 20 d each 0.889; at 16 d a stirred tank 0.61 and a plug flow 0.80."""
    two = conversion.substrate_left_in_one_pass__tanks_in_series(0.10, 1.0, 20.0, 1.0, 20.0)
    assert 1 - two == pytest.approx(0.889, abs=5e-4)
    assert 1 - conversion.substrate_left_in_one_pass__stirred_tank(0.10, 1.0, 16.0) == pytest.approx(0.61, abs=0.006)
    assert 1 - conversion.substrate_left_in_one_pass__plug_flow(0.10, 1.0, 16.0) == pytest.approx(0.80, abs=0.005)


# The open record.

KINDS = {
    "Complete Mix": "stirred_tank", "Complete Mix Mini Digester": "stirred_tank",
    "Anaerobic Sequencing Batch Reactor": "stirred_tank", "Horizontal Plug Flow": "plug_flow", "Mixed Plug Flow": "plug_flow",
}
FEET_PER_NM3 = 37.33  # cubic feet at 60 degF for a cubic metre at 0 degC: gas law
KW_PER_COW = 0.3


class Pair(NamedTuple):
    """What a plant reports and what the model gives for its cows, per cow and day, None where nothing is reported."""

    said_kwh: float | None
    model_kwh: float
    said_feet: float | None
    model_feet: float


def per_cow(text: str, cows: float) -> float | None:
    return float(text) / cows if text else None


def modelled(kind: str, cows: float) -> tuple[float, float]:
    """Power [kWh] and gas [ft3] per cow and day of the first full year, for the cows of one plant of the record."""
    text = (FOLDER / "plants" / "us_dairy_by_the_cow.toml").read_text(encoding="utf-8")
    for old, new in (
        ('kind = "stirred_tank"', f'kind = "{kind}"'), ("head = 850", f"head = {0.85 * cows}"),
        ("head = 150", f"head = {0.15 * cows}"), ("rated_kw = 300", f"rated_kw = {KW_PER_COW * cows}"),
    ):
        assert text.count(old) == 1
        text = text.replace(old, new)
    plant = appraise(loads(text, file="us_dairy_by_the_cow.toml")).plant
    assert plant.methane_flared_nm3 < 0.001 * plant.methane_nm3
    return plant.power_gross_kwh / cows / 365, plant.biogas_nm3 * FEET_PER_NM3 / cows / 365


@cache
def record() -> tuple[Pair, ...]:
    """Every plant of the record with a heated tank on manure alone, beside the model."""
    pairs = []
    with (FOLDER / "us_dairy_digesters.csv").open(encoding="utf-8", newline="") as file:
        for line in csv.DictReader(file):
            if line["digester_type"] in KINDS and line["co_feed"] == "none":
                cows = float(line["cows"])
                kwh, feet = modelled(KINDS[line["digester_type"]], cows)
                said = per_cow(line["kwh_per_year"], cows * 365), per_cow(line["biogas_ft3_per_day"], cows)
                pairs.append(Pair(said[0], kwh, said[1], feet))
    return tuple(pairs)


@pytest.mark.parametrize(("what", "plants"), [("kwh", 28), ("feet", 19)])
def test_the_model_stands_between_the_quartiles_of_the_record(what: str, plants: int) -> None:
    both = [(getattr(pair, f"said_{what}"), getattr(pair, f"model_{what}")) for pair in record()]
    said, model = np.array([pair for pair in both if pair[0] is not None]).T
    low, high = np.percentile(said, [25, 75])
    assert said.size == plants
    assert low < np.median(model) < high
    assert np.median(model) == pytest.approx(MODEL_OF_THE_RECORD[what], rel=0.03)


@pytest.mark.parametrize(("what", "id"), [("kwh", "record_power_per_cow"), ("feet", "record_gas_per_cow")])
def test_the_spread_quoted_to_users_is_that_of_the_record(what: str, id: str) -> None:
    said = [said for pair in record() if (said := getattr(pair, f"said_{what}")) is not None]
    facts = row("kinetics", id)
    assert np.percentile(said, [25, 50, 75]) == pytest.approx([float(facts[side]) for side in ("low", "mid", "high")], rel=0.002)


def test_the_record_of_ponds_quoted_to_users_is_that_of_the_record() -> None:
    """Covered lagoons on manure alone that report power: nine."""
    with (FOLDER / "us_dairy_digesters.csv").open(encoding="utf-8", newline="") as file:
        ponds = [line for line in csv.DictReader(file) if line["digester_type"] == "Covered Lagoon"]
    plants = [line for line in ponds if line["co_feed"] == "none" and line["kwh_per_year"]]
    said = [float(line["kwh_per_year"]) / float(line["cows"]) / 365 for line in plants]
    facts = row("kinetics", "record_power_per_cow_pond")
    assert len(said) == 9
    assert np.percentile(said, [25, 50, 75]) == pytest.approx([float(facts[side]) for side in ("low", "mid", "high")], rel=0.002)


def test_users_of_manure_are_told_the_spread() -> None:
    text = (FOLDER / "plants" / "us_dairy_by_the_cow.toml").read_text(encoding="utf-8")
    said = [finding.what for finding in appraise(loads(text, file="x.toml")).findings if finding.where == "methane_made"]
    assert any("75% to 126%" in what and "4.44 kWh per cow and day" in what for what in said)
    assert any("120% of that power" in what and "95% of that gas" in what for what in said)
