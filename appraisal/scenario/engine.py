"""One engine and its generator."""

from __future__ import annotations

from typing import Literal

from appraisal.scenario.farm import PRACTICE
from appraisal.scenario.quantity import Event, Lookup, Section, choice, number, profile


def _by_size(column: str) -> Lookup:
    return Lookup(table="engines", column=column, key="rated_kw", interpolate=True)


class Engine(Section):
    """One engine and its generator."""

    rated_kw: float = number("kW", 5, 20000, label="Rated power", help="Electric, at the generator.")
    running: Literal["modulated", "full_load"] = choice(
        "modulated", "full_load", default="modulated", label="How it follows the gas",
        help="modulated: turned down as far as its minimum load; full_load: full power, with stops.")
    efficiency_full: float = number(
        "share", 0.15, 0.5, lookup=_by_size("efficiency_full"), label="Electric efficiency at full load",
        help="On the lower heating value; a figure on the higher one is multiplied by 1.11.")
    efficiency_half: float = number(
        "share", 0.1, 0.5, lookup=_by_size("efficiency_50"), label="Electric efficiency at half load",
        help="From the maker's sheet; it must be high enough that fuel falls with the load.")
    heat_efficiency_full: float = number(
        "share", 0, 0.7, lookup=_by_size("heat_efficiency_full"), label="Usable heat at full load",
        help="Of gas energy.")
    heat_efficiency_half: float = number(
        "share", 0, 0.7, lookup=_by_size("heat_50"), label="Usable heat at half load", help="Of gas energy.")
    part_load: Literal["usual_shape", "data_sheet"] = choice(
        "usual_shape", "data_sheet", default="usual_shape", label="Between half and full load",
        help="Straight lines through half, three-quarter and full load, the lower one carried on below half. usual_shape: the "
        "point at three quarters lies as on published data sheets (a third of the fall of efficiency, half of the change of "
        "heat); data_sheet: it is given below.")
    efficiency_three_quarters: float = number(
        "share", 0.1, 0.5, lookup=_by_size("efficiency_75"), label="Electric efficiency at three-quarter load",
        help="Used only when part_load is `data_sheet`.")
    heat_efficiency_three_quarters: float = number(
        "share", 0, 0.7, lookup=_by_size("heat_75"), label="Usable heat at three-quarter load",
        help="Of gas energy. Used only when part_load is `data_sheet`.")
    efficiency_drift_share: float = number(
        "share", 0, 0.05, default=0.0, label="Wear of the electric efficiency",
        help="Lost for every 10,000 run hours since the last overhaul, of the efficiency; 0.005 to 0.01 are said to be usual "
        "(from memory). A worn engine burns the fuel of a new one and gives less power.")
    top_end_recovery_share: float = number(
        "share", 0, 1, default=0.5, basis=PRACTICE, label="Wear made good by a top-end overhaul",
        help="Of the wear since the overhaul before; a major overhaul makes good all of it.")
    derating_share: float = number(
        "share", 0, 0.03, default=0.01, source="makers' data sheets", basis="from memory",
        label="Power lost for every 100 m of altitude",
        help="Of rated power, above the altitude below; thin air carries less oxygen. Fuel falls with it.")
    derating_from_m: float = number(
        "m", 0, 3000, default=500.0, source="makers' data sheets", basis="from memory",
        label="Altitude up to which rated power holds", help="On the maker's sheet; at a turbocharged engine higher.")
    minimum_load: float = number("share", 0.2, 1, lookup=_by_size("min_load"), label="Minimum load",
        help="Below it the engine stops and waits for gas.")
    availability: float = number(
        "share", 0.3, 1, lookup=_by_size("availability"), label="Availability",
        help="After planned and unplanned stops; where planned stops are given below, of the hours outside them.")
    planned_stop_weeks_per_year: float = number(
        "week/year", 0, 26, default=0.0, label="Planned stops",
        help="0: they are inside the availability. Overhauls stand apart, below.")
    planned_stop_weight: list[float] = profile(
        "share", 0, 12, default=1.0, label="Season of the planned stops",
        help="Twelve weights around 1: 12 in one month puts all stops there.")
    failure: Literal["not_counted", "counted"] = choice(
        "not_counted", "counted", default="not_counted", label="A long failure",
        help="counted: the engine breaks down once, in the month below. Gas goes to the other engines or the flare meanwhile, "
        "heat and power are bought.")
    failure_month: float = number(
        "month", 0, 720, default=0.0, label="Month in which the engine fails",
        help="Counted from the first feeding, which is month 1; 0 is never. A range of the shape hazard draws it.",
        event=Event("engine {item} fails for a long time", "once"))
    failure_stop_months: float = number(
        "month", 0, 36, default=2.0, basis=PRACTICE, label="Months the engine stands after it failed",
        help="Until it is repaired or another one runs; a new engine may take half a year to come (from memory).")
    failure_cost: float = number(
        "money", 0, 1e8, default=0.0, label="Cost of the failure",
        help="Repair or exchange less what an insurance pays, in the money of month 0. Lost income follows from the stop.")
    slip_share: float = number(
        "share", 0, 0.1, lookup=_by_size("methane_slip_share_mid"), label="Methane slip",
        help="Of the engine's fuel, unburned in the exhaust.")
    auxiliaries_share: float = number(
        "share", 0, 0.2, lookup=Lookup(table="own_use", column="mid", key="=engine_auxiliaries"),
        label="Power for the engine's own pumps and fans", help="Of gross power.")
    maintenance: Literal["routine", "full_service"] = choice(
        "routine", "full_service", default="routine", label="Maintenance",
        help="routine: overhauls are paid apart; full_service: overhauls are inside the price per kWh. Never both.")
    costs_from: Literal["stated", "table"] = choice(
        "stated", "table", default="stated", label="Costs of upkeep and overhauls",
        help="table: what the file leaves out is taken by size from `appraisal reference engines`, in today's money.")
    maintenance_per_kwh: float = number(
        "money/kWh", 0, 0.2, label="Maintenance price", help="Per gross kWh, for the kind of maintenance chosen.")
    top_end_interval_hours: float = number(
        "hour", 1000, 60000, lookup=_by_size("top_end_interval_h_mid"), label="Run hours between top-end overhauls",
        help="Cylinder heads and valves; from the maker's plan.")
    top_end_stop_hours: float = number("hour", 0, 700, default=0.0, label="Hours a top-end overhaul takes",
        help="The engine stands in the month in which it falls due; 0: inside the availability.")
    top_end_cost: float = number("money", 0, 1e7, default=0.0, label="Cost of a top-end overhaul",
        help="Price date's money.")
    major_interval_hours: float = number(
        "hour", 2000, 120000, lookup=_by_size("major_interval_h_mid"), label="Run hours between major overhauls",
        help="Full rebuild or exchange; it includes a top end.")
    major_stop_hours: float = number("hour", 0, 700, default=0.0, label="Hours a major overhaul takes",
        help="The engine stands in the month in which it falls due; 0: inside the availability.")
    major_cost: float = number("money", 0, 1e7, default=0.0, label="Cost of a major overhaul",
        help="Price date's money.")
