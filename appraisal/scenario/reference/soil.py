"""Soil temperature of each month, computed when the table of climates is read, from the soil columns of its row.

The yearly wave in the ground is a cosine, damped and late against the air: T(z, t) = mean - amplitude x
cos(2 pi (t - coldest - lag) / 365). Mean, amplitude and lag at the depth of the row stand in the row; the day on which
the air is coldest follows from the twelve air temperatures, so that the southern half of the world is right too.
Form of the wave: Kusuda and Achenbach 1965, ASHRAE Transactions 71 (from memory). Valid for undisturbed ground without
groundwater or a long snow cover, at the depth of the row; beside a heated tank the ground is warmer, so the loss is on
the safe side.
"""

from __future__ import annotations

from collections.abc import Mapping
from math import atan2, cos, pi, sin
from typing import Final

MONTHS: Final = ("jan", "feb", "mar", "apr", "may", "jun", "jul", "aug", "sep", "oct", "nov", "dec")
DAYS_PER_YEAR: Final = 365
MID_MONTH: Final = (15.5, 45, 74.5, 105, 135.5, 166, 196.5, 227.5, 258, 288.5, 319, 349.5)  # day of the year


def coldest_day(air: tuple[float, ...]) -> float:
    """Day of the year on which the yearly wave through twelve monthly means [degC] is lowest; January first."""
    turns = [2 * pi * day / DAYS_PER_YEAR for day in MID_MONTH]
    east = sum(value * cos(turn) for value, turn in zip(air, turns, strict=True))
    north = sum(value * sin(turn) for value, turn in zip(air, turns, strict=True))
    return (atan2(-north, -east) / (2 * pi) * DAYS_PER_YEAR) % DAYS_PER_YEAR


def soil_temperatures(air: tuple[float, ...], *, mean: float, amplitude: float, lag_days: float) -> tuple[float, ...]:
    """Twelve soil temperatures [degC] in the middle of each month.

    air: twelve monthly mean air temperatures [degC]. mean [degC], amplitude [K], lag_days [day]: of the soil wave at
    the depth meant.
    """
    coldest = coldest_day(air) + lag_days
    return tuple(mean - amplitude * cos(2 * pi * (day - coldest) / DAYS_PER_YEAR) for day in MID_MONTH)


def soil_columns(row: Mapping[str, str]) -> dict[str, str]:
    """The twelve columns `soil_jan_degC` to `soil_dec_degC` of a row of table climates, to a hundredth of a kelvin."""
    air = tuple(float(row[f"t_{month}_degC"]) for month in MONTHS)
    wave = soil_temperatures(
        air, mean=float(row["soil_mean_degC"]), amplitude=float(row["soil_amplitude_K"]),
        lag_days=float(row["soil_lag_days"]),
    )
    return {f"soil_{month}_degC": f"{value:.2f}" for month, value in zip(MONTHS, wave, strict=True)}
