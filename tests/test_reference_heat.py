"""Heat tables: U-values computed again from their layers, and soil temperatures that follow from the climates' columns."""

from __future__ import annotations

import math

import numpy as np
import pytest

from appraisal.scenario import reference
from appraisal.scenario.reference.soil import MONTHS, coldest_day, soil_temperatures

# Layers as the rows state them: 0.2 m of concrete at 2.3 W/(m K), insulation at 0.036, 0.04 and 0.005 m2 K/W for the films,
# 5 % added. Towards soil the row's soil path stands in the place of the outside film; a roof has gas beneath, 0.13.
LAYERS = {"wall_concrete_air": 0.045, "wall_concrete_soil": 0.805, "floor_insulated": 1.005, "roof_concrete": 0.17}
# Ends: insulation and concrete at their low and high conductivity, 0 and 15 % added.
ENDS = {"u_low": (0.032, 2.0, 1.0), "u_mid": (0.036, 2.3, 1.05), "u_high": (0.042, 2.5, 1.15)}
SOIL_PATH = {"wall_concrete_soil": {"u_low": 1.2, "u_mid": 0.8, "u_high": 0.4},
             "floor_insulated": {"u_low": 1.8, "u_mid": 1.0, "u_high": 0.4}}


def build(id: str) -> str:
    return id.rpartition("_")[0]


def layered() -> list[str]:
    return [row["id"] for row in reference.rows("u_values")
            if build(row["id"]) in LAYERS and float(row["insulation_mm"]) >= 50]


@pytest.mark.parametrize("id", layered())
@pytest.mark.parametrize(("column", "tolerance"), [("u_mid", 0.01), ("u_low", 0.03), ("u_high", 0.03)])
def test_u_values_follow_from_their_layers(id: str, column: str, tolerance: float) -> None:
    """The middle to 1 %; the ends to 3 %, because the row does not say which films they were made with."""
    insulation, concrete, added = ENDS[column]
    films = LAYERS[build(id)]
    if build(id) in SOIL_PATH:
        films += SOIL_PATH[build(id)][column] - SOIL_PATH[build(id)]["u_mid"]
    thick = float(reference.row("u_values", id)["insulation_mm"]) / 1000
    assert reference.figure("u_values", id, column).value == pytest.approx(
        added / (thick / insulation + 0.2 / concrete + films), rel=tolerance)


def test_more_insulation_passes_less_heat() -> None:
    by_build: dict[str, list[tuple[float, float]]] = {}
    for row in reference.rows("u_values"):
        name = build(row["id"])
        if name in LAYERS or name == "wall_steel_air":
            by_build.setdefault(name, []).append((float(row["insulation_mm"]), float(row["u_mid"])))
    assert len(by_build) == 5
    for points in by_build.values():
        heats = [heat for _, heat in sorted(points)]
        assert len(heats) > 1 and heats == sorted(heats, reverse=True)


def test_elements_and_boundaries_are_those_the_checks_know() -> None:
    rows = reference.rows("u_values")
    assert {row["element"] for row in rows} == {"wall", "floor", "roof", "membrane", "pipe"}
    assert {row["boundary"] for row in rows} == {"air", "soil", "dry soil", "wet soil"}
    assert all(row["boundary"] == "air" for row in rows if row["element"] in ("roof", "membrane"))
    assert all("soil" in row["boundary"] for row in rows if row["element"] == "floor")


def test_a_u_value_has_range_unit_and_basis() -> None:
    found = reference.figure("u_values", "roof_double_membrane", "u_mid")
    assert (found.value, found.low, found.high, found.unit) == (2.0, 1.2, 3.4, "W/(m2 K)")
    assert "memory" in found.basis


@pytest.mark.parametrize("row", reference.rows("climates"), ids=lambda row: str(row["id"]))
def test_soil_is_a_late_and_damped_air(row: dict[str, str]) -> None:
    """Mean and swing as the row states, and as late as it states by a Fourier transform of the twelve numbers."""
    air = [float(row[f"t_{month}_degC"]) for month in MONTHS]
    soil = [float(row[f"soil_{month}_degC"]) for month in MONTHS]
    assert sum(soil) / 12 == pytest.approx(float(row["soil_mean_degC"]), abs=0.05)
    assert (max(soil) - min(soil)) / 2 == pytest.approx(float(row["soil_amplitude_K"]), rel=0.05)
    turns = np.angle(np.fft.rfft(air)[1]) - np.angle(np.fft.rfft(soil)[1])  # months taken as equal
    assert (turns / (2 * math.pi) * 365) % 365 == pytest.approx(float(row["soil_lag_days"]), abs=2)
    assert max(soil) - min(soil) < max(air) - min(air)


def test_soil_wave_at_turning_points() -> None:
    """A pure cosine air, coldest on day 20: soil lowest lag days later, at mean less amplitude."""
    air = tuple(10 - 12 * math.cos(2 * math.pi * (day - 20) / 365) for day in (
        15.5, 45, 74.5, 105, 135.5, 166, 196.5, 227.5, 258, 288.5, 319, 349.5))
    assert coldest_day(air) == pytest.approx(20, abs=0.5)
    wave = soil_temperatures(air, mean=11, amplitude=5, lag_days=25)
    assert wave[1] == pytest.approx(6, abs=0.01)  # day 45
    assert wave[7] == pytest.approx(16, abs=0.01)  # day 227.5, half a year later
