"""One year of the plant in figures: sums over the twelve months of a project year."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass

import numpy as np
import numpy.typing as npt

from appraisal.constants import CONSTANTS
from appraisal.lines.evaluate import MONTHS, year_sum

Values = Mapping[str, npt.NDArray[np.float64]]
HOURS_PER_YEAR, DAYS_PER_YEAR = 8760, 365
METHANE_KWH_PER_NM3 = next(constant.value for constant in CONSTANTS if constant.name == "methane_kwh_per_nm3")


@dataclass(frozen=True)
class PlantYear:
    """The plant in one project year. Field names carry the units; gas in Nm3 dry, nutrients as elements.

    year: project year, the first is 1. capacity_factor: gross power over rated power in every hour of the year;
    capacity_factor_sold: the same for power sold. contract_gas_share: share of methane under contracts that may end.
    heat_rate_kwh_per_kwh: gas energy burned in engines, on the lower heating value, for one gross kWh; 0 without power.
    """

    year: int
    tonnes_fed: float
    methane_nm3: float
    biogas_nm3: float
    power_gross_kwh: float
    power_own_use_kwh: float
    power_to_farm_kwh: float
    power_sold_kwh: float
    heat_recoverable_kwh: float
    heat_to_digester_kwh: float
    heat_used_kwh: float
    heat_shortfall_kwh: float
    heat_dumped_kwh: float
    digestate_t: float
    n_kg: float
    p_kg: float
    k_kg: float
    methane_burned_nm3: float
    methane_flared_nm3: float
    methane_to_boiler_nm3: float
    methane_to_upgrading_nm3: float
    methane_sold_nm3: float
    heat_from_boiler_kwh: float
    power_bought_kwh: float
    engine_hours: float
    rated_kw: float
    capacity_factor: float
    capacity_factor_sold: float
    contract_gas_share: float
    heat_rate_kwh_per_kwh: float


SUMS = {
    "tonnes_fed": "tonnes_fed",
    "methane_nm3": "methane_made",
    "biogas_nm3": "biogas_made",
    "power_gross_kwh": "power_gross",
    "power_own_use_kwh": "power_own_use",
    "power_to_farm_kwh": "power_to_farm",
    "power_sold_kwh": "power_sold",
    "heat_recoverable_kwh": "heat_recoverable",
    "heat_to_digester_kwh": "heat_to_digester",
    "heat_used_kwh": "heat_used",
    "heat_shortfall_kwh": "heat_shortfall",
    "heat_dumped_kwh": "heat_dumped",
    "digestate_t": "digestate_mass",
    "n_kg": "digestate_nitrogen",
    "p_kg": "digestate_phosphorus",
    "k_kg": "digestate_potassium",
    "methane_burned_nm3": "methane_burned",
    "methane_flared_nm3": "methane_flared",
    "methane_to_boiler_nm3": "methane_to_boiler",
    "methane_to_upgrading_nm3": "methane_to_upgrading",
    "methane_sold_nm3": "methane_sold",
    "heat_from_boiler_kwh": "heat_from_boiler",
    "power_bought_kwh": "power_bought",
    "engine_hours": "run_hours",
}


def plant_year(values: Values, *, year: int, rated_kw: float) -> PlantYear:
    """Sum the lines of one project year.

    values: lines by full name; the first draw is read. year: project year from 1. rated_kw: of all engines [kW].
    """
    sums = {key: float(year_sum(values[name][:1])[0, year - 1]) for key, name in SUMS.items()}
    may_end = float(year_sum(values["methane_that_may_end"][:1])[0, year - 1])
    full, power = rated_kw * HOURS_PER_YEAR, sums["power_gross_kwh"]
    return PlantYear(
        year=year,
        rated_kw=rated_kw,
        capacity_factor=power / full,
        capacity_factor_sold=sums["power_sold_kwh"] / full,
        contract_gas_share=may_end / sums["methane_nm3"] if sums["methane_nm3"] > 0 else 0.0,
        heat_rate_kwh_per_kwh=sums["methane_burned_nm3"] * METHANE_KWH_PER_NM3 / power if power > 0 else 0.0,
        **sums,
    )


def months_of(values: Values, name: str, *, year: int) -> npt.NDArray[np.float64]:
    """The twelve monthly values of one line in one project year; shape (12,)."""
    return np.asarray(values[name][0, (year - 1) * MONTHS : year * MONTHS])
