"""One engine and its generator."""

from __future__ import annotations

from typing import Literal

from appraisal.scenario.quantity import Lookup, Section, choice, number


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
        help="From the maker's sheet; between half and full load a straight line is drawn.")
    heat_efficiency_full: float = number(
        "share", 0, 0.7, lookup=_by_size("heat_efficiency_full"), label="Usable heat at full load",
        help="Of gas energy.")
    heat_efficiency_half: float = number(
        "share", 0, 0.7, lookup=_by_size("heat_50"), label="Usable heat at half load", help="Of gas energy.")
    minimum_load: float = number("share", 0.2, 1, lookup=_by_size("min_load"), label="Minimum load",
        help="Below it the engine stops and waits for gas.")
    availability: float = number(
        "share", 0.3, 1, lookup=_by_size("availability"), label="Availability",
        help="After planned and unplanned stops.")
    slip_share: float = number(
        "share", 0, 0.1, lookup=_by_size("methane_slip_share_mid"), label="Methane slip",
        help="Of the engine's fuel, unburned in the exhaust.")
    auxiliaries_share: float = number(
        "share", 0, 0.2, lookup=Lookup(table="own_use", column="mid", key="=engine_auxiliaries"),
        label="Power for the engine's own pumps and fans", help="Of gross power.")
    maintenance: Literal["routine", "full_service"] = choice(
        "routine", "full_service", default="routine", label="Maintenance",
        help="routine: overhauls are paid apart; full_service: overhauls are inside the price per kWh. Never both.")
    maintenance_per_kwh: float = number(
        "money/kWh", 0, 0.2, label="Maintenance price", help="Per gross kWh, for the kind of maintenance chosen.")
    top_end_interval_hours: float = number(
        "hour", 1000, 60000, lookup=_by_size("top_end_interval_h_mid"), label="Run hours between top-end overhauls",
        help="Cylinder heads and valves; from the maker's plan.")
    top_end_cost: float = number("money", 0, 1e7, default=0.0, label="Cost of a top-end overhaul",
        help="Price date's money.")
    major_interval_hours: float = number(
        "hour", 2000, 120000, lookup=_by_size("major_interval_h_mid"), label="Run hours between major overhauls",
        help="Full rebuild or exchange; it includes a top end.")
    major_cost: float = number("money", 0, 1e7, default=0.0, label="Cost of a major overhaul",
        help="Price date's money.")
