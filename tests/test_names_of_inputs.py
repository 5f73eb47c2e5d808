"""Names of inputs carry their units; every number has limits, a label and a help."""

from __future__ import annotations

from collections.abc import Mapping

from appraisal.scenario.model import declared
from appraisal.scenario.quantity import Declaration

# A name ends in its unit, in one of these spellings.
ENDINGS: Mapping[str, tuple[str, ...]] = {
    "1": ("_parts", "_tests", "ph_low", "ph_high"),
    "day/week": ("_days_per_week",),
    "kg/head/day": ("_kg_per_head_day",),
    "m2": ("_m2",),
    "mm/year": ("_mm_per_year",),
    "share/day": ("_share_per_day",),
    "t": ("_t",),
    "t/m3": ("_t_per_m3",),
    "Nm3/hour": ("_nm3_per_hour",),
    "W/m3": ("_w_per_m3",),
    "kPa": ("_kpa",),
    "kWh/Nm3": ("_kwh_per_nm3",),
    "kg/kg": ("_kg_per_kg",),
    "m": ("_m",),
    "money/Nm3": ("_per_nm3",),
    "week/year": ("_weeks_per_year",),
    "W/m2/K": ("_w_per_m2_k",),
    "W/m": ("_w_per_m",),
    "1/day": ("_per_day",),
    "1/year": ("_per_year",),
    "L/head/day": ("_l_per_head_day",),
    "Nm3/day": ("_nm3_per_day",),
    "Nm3/t": ("_nm3_per_t",),
    "Nm3/t VS": ("_nm3_per_t_vs",),
    "W/K": ("_w_per_k",),
    "day": ("_days",),
    "degC": ("_degc",),
    "head": ("head", "homes"),
    "hour": ("_hours",),
    "hour/t": ("hours_per_t_fed",),
    "hour/year": ("hours_per_year",),
    "hour/week": ("hours_per_week",),
    "kW": ("_kw",),
    "kWh/month": ("_kwh", "_kwh_per_month"),
    "kWh/t": ("_kwh_per_t",),
    "kWh/year": ("_kwh_per_year",),
    "kg/t": ("_kg_per_t",),
    "kg/year": ("_kg",),
    "m3": ("_m3",),
    "m3/kg VS": ("_m3_per_kg_vs",),
    "money": ("amount", "_cost", "_money", "_value"),
    "money/hour": ("_per_hour",),
    "money/kW/month": ("_per_kw_month",),
    "money/kW/year": ("per_kw_year",),
    "money/kWh": ("per_kwh", "per_kwh_gross", "per_kwh_sold"),
    "money/kg": ("_per_kg",),
    "money/month": ("_bill",),
    "money/t": ("_per_t", "per_t_fed", "per_t_digestate"),
    "money/t CO2e": ("_per_t_co2e",),
    "money/year": ("_bill", "per_year"),
    "month": ("months", "_month"),
    "month/year": ("_months_per_year",),
    "times": ("_cover",),
    "share": ("_share", "_efficiency", "_tax_rate", "_credit_rate", "_share_at_most"),
    "share/year": ("rate", "escalation", "_share_per_year", "rate_after", "share_of_capital_per_year"),
    "t CO2e/t": ("gwp_methane", "gwp_nitrous_oxide"),
    "t/head/year": ("_t_per_head_year",),
    "week": ("_weeks",),
    "m3/day": ("m3_per_day",),
    "t/year": ("_t", "tonnes_per_year"),
    "year": ("years", "_year"),
    "ha": ("_ha",),
    "kg/ha": ("_kg_per_ha",),
    "money/t/km": ("_per_t_km",),
    "t/ha": ("_t_per_ha",),
    "L/km": ("_litres_per_km",),
    "kg CO2e/L": ("_kg_co2e_per_l",),
    "km": ("_km",),
    "kg CO2e/kWh": ("_kg_co2e_per_kwh",),
    "kg CO2e/kg": ("_kg_co2e_per_kg",),
    "kg CO2e/t": ("_kg_co2e_per_t",),
    "kg VS/head/day": ("_kg_vs_per_head_day",),
    "t/t": ("_t_per_t",),
}
# Names that read better without their unit at the end, each with the word that carries it.
EXCEPTIONS: Mapping[str, str] = {
    "bedding_vs_share_of_ts": "share stands inside the name",
    "carbon_share_of_vs": "share stands inside the name",
    "fat_share_of_vs": "share stands inside the name",
    "protein_share_of_vs": "share stands inside the name",
    "carbohydrate_share_of_vs": "share stands inside the name",
    "renewal_chance": "a chance is a share",
    "efficiency": "an efficiency is a share",
    "efficiency_three_quarters": "an efficiency is a share",
    "heat_efficiency_three_quarters": "an efficiency is a share",
    "peak_over_mean": "a ratio of two flows",
    "planned_stop_weight": "a ratio to the mean month",
    "share_of_gas": "share stands first",
    "at_most": "a ceiling on an amount of money",
    "size": "in the unit of the reference row that the item names",
    "availability": "a share of time by its meaning",
    "efficiency_full": "an efficiency is a share",
    "efficiency_half": "an efficiency is a share",
    "heat_efficiency_full": "an efficiency is a share",
    "heat_efficiency_half": "an efficiency is a share",
    "imported_share_usable": "share stands inside the name",
    "inflation": "a yearly share by its meaning",
    "month": "the unit is the name",
    "minimum_load": "a share of rated power by its meaning",
    "monthly_weight": "a ratio to the mean month",
    "paid_months_after_year": "months stands inside the name",
    "rate": "of a tax: a share of the profit",
    "share_after_contract": "share stands first",
    "share_kept": "share stands first",
    "share_of_cost": "share stands first",
    "share_of_eligible": "share stands first",
    "test_share_of_ultimate": "share stands inside the name",
    "vs_share_of_ts": "share stands inside the name",
}


def _numbers() -> dict[str, Declaration]:
    return {
        pattern: item for pattern, item in declared().items() if item.kind in ("number", "profile", "path", "count")
    }


def _bare(item: Declaration) -> str:
    """The name without `_by_year`, which every path ends in."""
    return item.name.removesuffix("_by_year") if item.kind == "path" else item.name


def test_every_number_is_named_with_its_unit() -> None:
    unnamed = {
        pattern: item.unit
        for pattern, item in _numbers().items()
        if not _bare(item).endswith(ENDINGS.get(item.unit, ())) and item.name not in EXCEPTIONS
    }
    assert unnamed == {}


def test_no_exception_has_outlived_its_field() -> None:
    names = {item.name for item in _numbers().values() if not _bare(item).endswith(ENDINGS.get(item.unit, ()))}
    assert set(EXCEPTIONS) == names
    assert set(ENDINGS) == {item.unit for item in _numbers().values()}


def test_every_number_has_limits_a_label_and_a_help() -> None:
    assert [pattern for pattern, item in declared().items() if not item.label.strip()] == []
    assert [pattern for pattern, item in _numbers().items() if item.low is None or item.high is None] == []
    assert [pattern for pattern, item in _numbers().items() if not item.help.strip()] == []
