"""Figures that do not change from farm to farm, each with unit, source and how it is known.

A line may hold no number of its own; it reads one of these by name, so that explanation and workbook can show it.
"""

from __future__ import annotations

from dataclasses import dataclass


@dataclass(frozen=True)
class Constant:
    """One fixed figure: value in `unit`, what it means, source and basis."""

    name: str
    value: float
    unit: str
    meaning: str
    source: str
    basis: str


_ARITHMETIC = ("definition", "arithmetic")
_KINETICS = "table kinetics"

CONSTANTS: tuple[Constant, ...] = (
    Constant("months_per_year", 12, "month/year", "Months in a project year", *_ARITHMETIC),
    Constant("days_per_year", 365, "day/year", "Days in every model year; leap days are left out", *_ARITHMETIC),
    Constant("weeks_per_year", 365 / 7, "week/year", "Weeks in a model year", *_ARITHMETIC),
    Constant("kg_per_t", 1000, "kg/t", "Kilograms in a metric tonne", *_ARITHMETIC),
    Constant("w_per_kw", 1000, "W/kW", "Watts in a kilowatt", *_ARITHMETIC),
    Constant(
        "litres_per_m3", 1000, "L/m3", "Litres in a cubic metre; one litre of water weighs one kilogram", *_ARITHMETIC
    ),
    Constant(
        "rounding_tolerance",
        1e-9,
        "1",
        "Added before rounding down, so that round numbers count as reached",
        "floating-point arithmetic",
        "definition",
    ),
    Constant(
        "methane_kwh_per_nm3",
        9.97,
        "kWh/Nm3",
        "Lower heating value of methane at 0 degC, 101.325 kPa",
        "FNR rule-of-thumb figures (table kinetics, ch4_lhv_kwh_trade)",
        "read",
    ),
    Constant(
        "methane_kg_per_nm3",
        0.7175,
        "kg/Nm3",
        "Density of methane, real gas",
        "table kinetics, ch4_density_trade",
        "from memory",
    ),
    Constant(
        "carbon_dioxide_kg_per_nm3",
        1.977,
        "kg/Nm3",
        "Density of carbon dioxide, real gas",
        "table kinetics, co2_density",
        "from memory",
    ),
    Constant(
        "vapour_kg_per_nm3",
        0.0563,
        "kg/Nm3",
        "Water vapour that leaves with the gas at 38 degC",
        "table kinetics, vapour_per_gas_38",
        "computed",
    ),
    Constant(
        "solids_per_dry_gas",
        6.1 / 7.2,
        "t/t",
        "Volatile solids gone per tonne of dry gas; the rest is water taken up",
        "German biogas-plant textbook, table 4.5: 6.1 kg organics for 2.2 kg CH4 and 5.0 kg CO2",
        "read",
    ),
    Constant(
        "mix_t_per_m3", 1.0, "t/m3", "Density of the mixed liquid in the tank", "practice", "common practice, no source"
    ),
    Constant(
        "heat_capacity_kwh_per_t_k",
        4.1 / 3.6,
        "kWh/(t K)",
        "Heat to warm one tonne of feed by one kelvin (4.1 kJ/(kg K))",
        "table kinetics, cp_slurry",
        "from memory",
    ),
    Constant(
        "rate_reference_degc",
        37,
        "degC",
        "Temperature the rate constants stand for",
        "table kinetics: 35-38 degC",
        "from memory",
    ),
    Constant("rate_turning_degc", 40, "degC", "Above this the rate rises more slowly", _KINETICS, "from memory"),
    Constant(
        "rate_factor_below",
        1.04,
        "1/K",
        "Factor on the rate constant per kelvin up to the turning point",
        "table kinetics, theta_20_40",
        "from memory",
    ),
    Constant(
        "rate_factor_above",
        1.02,
        "1/K",
        "Factor on the rate constant per kelvin above the turning point",
        "table kinetics, theta_40_55",
        "from memory",
    ),
    Constant(
        "half_load", 0.5, "share", "Load at which the part-load efficiency is given", "table engines", "definition"
    ),
    Constant(
        "ipcc_methane_kg_per_m3",
        0.67,
        "kg/m3",
        "Methane density behind the methane-producing capacities of IPCC",
        "IPCC 2006, Vol 4 Ch 10, equation 10.23",
        "read",
    ),
)
