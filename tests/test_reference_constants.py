"""Constants in the reference tables that follow from others are computed again here."""

from __future__ import annotations

import math

import pytest

from appraisal.scenario import reference


def near(got: float, expected: float, share: float) -> bool:
    return math.isclose(got, expected, rel_tol=share)


def constant(id: str, column: str = "mid") -> float:
    return reference.figure("kinetics", id, column).value


def vapour(celsius: float) -> float:
    """Saturation pressure [kPa] after Buck, with the constants of the table."""
    a, b, c, d = (constant(f"buck_{name}") for name in "abcd")
    return a * math.exp((b - celsius / c) * celsius / (d + celsius))


def free_ammonia(celsius: float, ph: float) -> float:
    return 1 / (1 + 10 ** (constant("nh3_pka_a") + constant("nh3_pka_b") / (celsius + 273.15) - ph))


def buswell(c: int, h: int, o: int, n: int) -> dict[str, float]:
    mass = 12.011 * c + 1.008 * h + 15.999 * o + 14.007 * n  # g/mol
    methane = c / 2 + h / 8 - o / 4 - 3 * n / 8
    return {"ch4": methane * 22.414 / mass, "cod": methane * 64 / mass, "carbon": 12.011 * c / mass}


FORMULAS = {"carb": (6, 10, 5, 0), "sugar": (6, 12, 6, 0), "fat": (57, 104, 6, 0), "protein": (5, 7, 2, 1)}


@pytest.mark.parametrize("name", FORMULAS)
def test_stoichiometry(name: str) -> None:
    for quantity, value in buswell(*FORMULAS[name]).items():
        assert near(constant(f"{quantity}_{name}"), value, 2e-3), quantity


@pytest.mark.parametrize(
    ("state", "kelvin", "kpa"),
    [
        ("0c", 273.15, 101.325),
        ("15c", 288.15, 101.325),
        ("60f", 288.7056, 14.696 * 6.894757),
        ("20c", 293.15, 101.325),
    ],
)
def test_methane_by_the_gas_law(state: str, kelvin: float, kpa: float) -> None:
    kmol_per_m3 = kpa / (8.314462618 * kelvin)
    for quantity, per_kmol in (("density", 16.0425), ("lhv", 802.3), ("hhv", 890.6)):
        assert near(constant(f"ch4_{quantity}_{state}"), kmol_per_m3 * per_kmol, 2e-4), quantity


def test_constants_computed_from_others() -> None:
    slope, intercept = constant("ch_mu_slope"), constant("ch_mu_intercept")
    growth = {celsius: slope * celsius + intercept for celsius in (20, 35, 40, 55)}
    gas = 273.15 / 311.15 * (101.325 + 0.5 - vapour(38)) / 101.325
    expected = {
        "lhv_over_hhv": 802.3 / 890.6,
        "ch4_lhv_mass": 802.3 / 16.0425,
        "ch4_hhv_mass": 890.6 / 16.0425,
        "biogas_density_55": 0.55 * constant("ch4_density_trade") + 0.45 * constant("co2_density"),
        "ch4_per_cod": 22.414 / 64,
        "cod_per_ch4_mass": 64 / 16.0425,
        "cod_per_ch4_volume": 64 / 22.414,
        "carbon_per_gas": 12.011 / 22.414,
        "gas_per_carbon": 22.414 / 12.011,
        "wet_to_dry_38": gas,
        "vapour_per_gas_38": vapour(38) / (101.325 - vapour(38)) * 18.015 / 22.414,
        "heat_feed_10_38": 1000 * 4.18 * 28 / 3600,
        "heat_per_ch4": (2803 - 3 * 890.6) / 3 / 22.414,
        "theta_ch_20_35": (growth[35] / growth[20]) ** (1 / 15),
        "theta_ch_40_55": (growth[55] / growth[40]) ** (1 / 15),
        "ceiling_energy_share": 10633 / 17760,
    }
    wrong = {id: (constant(id), value) for id, value in expected.items() if not near(constant(id), value, 1e-3)}
    assert wrong == {}
    assert near(constant("lhv_over_hhv"), 802.3 / 890.6, 1e-6)


def test_vapour_and_ammonia_rows() -> None:
    assert all(near(constant(f"p_sat_{celsius}"), vapour(celsius), 1e-3) for celsius in (20, 35, 38, 40, 55))
    points = {"25_80": (25, 8.0), "38_75": (38, 7.5), "38_78": (38, 7.8), "38_80": (38, 8.0), "38_82": (38, 8.2)}
    assert all(near(constant(f"nh3_share_{id}"), free_ammonia(*point), 1e-3) for id, point in points.items())
    assert near(free_ammonia(25, 8.0), 0.0537, 1e-3)  # printed with the formula's constants, Emerson et al. 1975


@pytest.mark.parametrize("feed", ["cattle_slurry", "pig_slurry", "solid_manure", "food", "straw"])
@pytest.mark.parametrize("column", ["low", "mid", "high"])
def test_share_reached_in_a_batch_test(feed: str, column: str) -> None:
    for days in (30, 60):
        reached = 1 - math.exp(-days * constant(f"k35_{feed}", column))
        assert near(constant(f"share{days}_{feed}", column), reached, 1e-5)


@pytest.mark.parametrize(("id", "k"), [("cstr_k005", 0.05), ("cstr_k010", 0.1), ("cstr_k020", 0.2)])
def test_share_reached_in_a_stirred_tank(id: str, k: float) -> None:
    for column, days in (("low", 20), ("mid", 30), ("high", 60)):
        assert near(constant(id, column), k * days / (1 + k * days), 1e-5)


def test_warming_factors() -> None:
    for row in reference.rows("gwp"):
        assert row["id"] == "_".join(row[name] for name in ("set", "gas", "kind", "horizon_years"))
        assert row["gas"] != "CO2" or row["value"] == "1", row["id"]
    published = {"AR4_CH4_all_100": 25, "AR5_CH4_all_100": 28, "AR6_CH4_non-fossil_100": 27, "AR6_N2O_all_100": 273}
    assert {id: reference.figure("gwp", id, "value").value for id in published} == published
