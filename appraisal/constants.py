"""Figures that do not change from farm to farm, each with unit, source and how it is known.

A line may hold no number of its own; it reads one of these by name, so that explanation and workbook can show it.
"""

from __future__ import annotations

import math
from dataclasses import dataclass

from appraisal.constants_digestion import DIGESTION_CONSTANTS
from appraisal.constants_emissions import EMISSION_CONSTANTS
from appraisal.constants_gas import GAS_CONSTANTS
from appraisal.stoichiometry import CARBOHYDRATE, FAT, PROTEIN, solids_per_gas


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
_RESERVE = ("look-forward of maintenance reserves in project finance, 100, 66.67 and 33.33 %", "read")
_BY_MILK = ("ASABE D384.2 (2005), lactating cows; after Nennich et al. 2005, J Dairy Sci 88:3721", "from memory")

CONSTANTS: tuple[Constant, ...] = (
    Constant("months_per_year", 12, "month/year", "Months in a project year", *_ARITHMETIC),
    Constant("days_per_year", 365, "day/year", "Days in every model year; leap days are left out", *_ARITHMETIC),
    Constant("weeks_per_year", 365 / 7, "week/year", "Weeks in a model year", *_ARITHMETIC),
    Constant("kg_per_t", 1000, "kg/t", "Kilograms in a metric tonne", *_ARITHMETIC),
    Constant("w_per_kw", 1000, "W/kW", "Watts in a kilowatt", *_ARITHMETIC),
    Constant(
        "litres_per_m3", 1000, "L/m3", "Litres in a cubic metre; one litre of water weighs one kilogram", *_ARITHMETIC
    ),
    Constant("days_per_week", 7, "day/week", "Days in a week", *_ARITHMETIC),
    Constant("mm_per_m", 1000, "mm/m", "Millimetres in a metre", *_ARITHMETIC),
    Constant(
        "manure_per_milk", 0.647, "kg/kg", "Manure of a lactating cow that goes with a kilogram of milk", *_BY_MILK
    ),
    Constant(
        "manure_without_milk_kg_per_head_day",
        43.2,
        "kg/head/day",
        "Manure of a lactating cow that does not go with her milk",
        *_BY_MILK,
    ),
    Constant(
        "dry_matter_per_milk", 0.0874, "kg/kg", "Dry matter in manure that goes with a kilogram of milk", *_BY_MILK
    ),
    Constant(
        "dry_matter_without_milk_kg_per_head_day",
        5.6,
        "kg/head/day",
        "Dry matter in manure that does not go with milk",
        *_BY_MILK,
    ),
    Constant(
        "methane_of_lost_solids_nm3_per_t_vs",
        470,
        "Nm3/t VS",
        "Methane that manure solids lost by rotting would have given: what their make-up can give at most",
        "table feedstocks, ceiling of dairy slurry; 439 to 513 for other manures",
        "computed",
    ),
    Constant("circle_ratio", math.pi, "1", "Circumference of a circle over its diameter", *_ARITHMETIC),
    Constant("circle_area_factor", math.pi / 4, "1", "Area of a circle over its diameter squared", *_ARITHMETIC),
    Constant(
        "ice_melting_kwh_per_t",
        334 / 3.6,
        "kWh/t",
        "Heat to melt one tonne of ice at 0 degC (334 kJ/kg)",
        "physics tables",
        "from memory",
    ),
    Constant(
        "rounding_tolerance",
        1e-9,
        "1",
        "Added before rounding down, so that round numbers count as reached",
        "floating-point arithmetic",
        "definition",
    ),
    Constant("half_year", 0.5, "share", "Part of a year that the half-year rule counts", *_ARITHMETIC),
    Constant("two_thirds", 2 / 3, "share", "Part of the overhauls two years on that is put by", *_RESERVE),
    Constant("one_third", 1 / 3, "share", "Part of the overhauls three years on that is put by", *_RESERVE),
    Constant(
        "statement_tolerance",
        1e-9,
        "1",
        "A difference in the statements below this part of the sum it belongs to is rounding, and shown as nothing",
        "floating-point arithmetic",
        "definition",
    ),
    Constant(
        "gas_per_fat_solids",
        1 / solids_per_gas(FAT),
        "t/t",
        "Dry methane and carbon dioxide from a tonne of digested fat: more than a tonne, because water is taken up",
        "Buswell and Boyle stoichiometry of triolein C57H104O6",
        "computed",
    ),
    Constant(
        "gas_per_protein_solids",
        1 / solids_per_gas(PROTEIN),
        "t/t",
        "Dry methane and carbon dioxide from a tonne of digested protein: more than a tonne, because water is taken up",
        "Buswell and Boyle stoichiometry of C5H7NO2, its nitrogen staying in the liquid",
        "computed",
    ),
    Constant(
        "gas_per_carbohydrate_solids",
        1 / solids_per_gas(CARBOHYDRATE),
        "t/t",
        "Dry methane and carbon dioxide from a tonne of digested carbohydrate: more than a tonne, because water is taken up",
        "Buswell and Boyle stoichiometry of starch and cellulose C6H10O5",
        "computed",
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
        "three_quarter_load",
        0.75,
        "share",
        "Load at which the middle point of the part-load curve is given",
        "table engines",
        "definition",
    ),
    Constant(
        "usual_fall_by_three_quarters",
        (1 - 0.971) / (1 - 0.915),
        "share",
        "Part of the fall of efficiency to half load that has come by three-quarter load",
        "table engines: data sheets of 330 and 1,063 kW, 0.971 and 0.915 of full load",
        "computed from read figures",
    ),
    Constant(
        "least_three_quarters_over_full",
        0.8,
        "1",
        "Least efficiency at three-quarter load over that at full load; at 0.75 fuel would no longer fall with the load",
        "arithmetic, with a margin",
        "judged",
    ),
    Constant(
        "least_half_over_three_quarters",
        0.7,
        "1",
        "Least efficiency at half load over that at three-quarter load; at 2/3 fuel would no longer fall with the load",
        "arithmetic, with a margin",
        "judged",
    ),
    Constant("hours_per_week", 168, "hour/week", "Hours in a week", *_ARITHMETIC),
    Constant("wear_hours", 10000, "hour", "Run hours that the wear of the efficiency is given for", *_ARITHMETIC),
    Constant("derating_step_m", 100, "m", "Altitude that the loss of power is given for", *_ARITHMETIC),
    Constant(
        "oxygen_demand_kg_per_nm3",
        64 / 22.414,
        "kg/Nm3",
        "Chemical oxygen demand of a normal cubic metre of methane",
        "CH4 + 2 O2; table kinetics, cod_per_ch4_volume",
        "computed",
    ),
    Constant(
        "oxygen_demand_of_microbes",
        160 / 113.116,
        "kg/kg",
        "Chemical oxygen demand of a kilogram of microbes C5H7NO2",
        "C5H7NO2 + 5 O2; table kinetics, cod_protein",
        "computed",
    ),
    Constant(
        "nitrogen_of_microbes", 14.007 / 113.116, "kg/kg", "Nitrogen in microbes C5H7NO2", "molar masses", "computed"
    ),
    Constant(
        "microbes_yield",
        0.08,
        "kg/kg",
        "Microbes grown on a kilogram of digested chemical oxygen demand, all steps together; 0.05 to 0.1",
        "Metcalf & Eddy, Wastewater Engineering, table of anaerobic growth",
        "from memory",
    ),
    Constant(
        "microbes_decay_per_day",
        0.03,
        "1/day",
        "Microbes that die and are digested again, all steps together; 0.02 to 0.04",
        "Metcalf & Eddy, Wastewater Engineering, table of anaerobic growth",
        "from memory",
    ),
    *(Constant(*row) for row in (*GAS_CONSTANTS, *DIGESTION_CONSTANTS, *EMISSION_CONSTANTS)),
)
