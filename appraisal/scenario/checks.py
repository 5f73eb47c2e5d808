"""All checks across fields, each with the paths it reads: a check that reads a refused value is left out."""

from __future__ import annotations

from collections.abc import Callable, Iterable
from dataclasses import dataclass

from appraisal.errors import Fault
from appraisal.scenario import money_checks as money
from appraisal.scenario import plant_checks as plant
from appraisal.scenario.draft import STAND_IN
from appraisal.scenario.model import Scenario
from appraisal.scenario.plant_checks import Assumptions


@dataclass(frozen=True)
class Check:
    """A function from scenario to faults, and the paths it concludes from (`*` stands for any name)."""

    run: Callable[[Scenario], list[Fault]]
    reads: tuple[str, ...]


@dataclass(frozen=True)
class OriginCheck:
    """A check that asks besides whether a value was written in the file, looked up or defaulted."""

    run: Callable[[Scenario, Assumptions], list[Fault]]
    reads: tuple[str, ...]


def _each(table: str, *fields: str) -> tuple[str, ...]:
    return tuple(f"{table}.{field}" for field in fields)


_POTENTIALS = tuple(f"{table}.*.{field}" for table in ("herd", "feed")
                    for field in ("potential_kind", "achieved_nm3_per_t", "potential_nm3_per_t_vs"))
_PROJECT_TIME = ("project.years", "project.build_months")

CHECKS: tuple[Check, ...] = (
    Check(money.currency_code, ("project.currency",)),
    Check(money.calendar_month, ("project.first_month",)),
    Check(money.time_to_run, (*_PROJECT_TIME, "digester.ramp_months")),
    Check(plant.something_to_digest, ("herd", "feed")),
    Check(plant.one_name_each, (f"herd.{STAND_IN}", f"feed.{STAND_IN}")),
    Check(plant.achieved_yield, _POTENTIALS),
    Check(plant.some_season, ("feed.*.monthly_weight",)),
    Check(plant.measured_gas, _each("digester", "gas_method", "measured_gas_nm3_per_day")),
    Check(plant.hot_enough, ("pasteuriser.treats", "pasteuriser.temperature_degc", "digester.temperature_degc")),
    Check(plant.energy_balance_of_engines, _each(
        "engine.*", "efficiency_full", "efficiency_half", "heat_efficiency_full", "heat_efficiency_half")),
    Check(plant.order_of_overhauls, _each("engine.*", "top_end_interval_hours", "major_interval_hours")),
    Check(plant.overhauls_paid_once, _each("engine.*", "maintenance", "top_end_cost", "major_cost")),
    Check(money.power_bill, _each("farm_now", "power_bill", "power_kwh")),
    Check(money.heating_fuel_bill, _each("farm_now", "heating_fuel_bill", "heating_fuel_kwh")),
    Check(money.payments_within_project, ("project.years", "capital.*.first_month", "capital.*.months")),
    Check(money.grants_within_project, ("project.years", "grant.*.arrives_in_month")),
    Check(money.loan_terms, ("project.years", "loan.*.years", "loan.*.interest_only_months")),
    Check(money.no_more_loan_than_cost, ("loan.*.amount", *_each(
        "capital.*", "amount", "contingency_share", "escalation", "first_month", "months"))),
)

ORIGIN_CHECKS: tuple[OriginCheck, ...] = (
    OriginCheck(plant.overhaul_costs_given, _each("engine.*", "maintenance", "top_end_cost", "major_cost")),
    OriginCheck(plant.declared_retention, _each("digester", "retention", "declared_retention_days")),
    OriginCheck(plant.reference_potential, _POTENTIALS),
    OriginCheck(plant.end_of_contract, _each("feed.*", "supply_by", "contract_years")),
    OriginCheck(plant.fee_after_contract, (*_PROJECT_TIME, *_each(
        "feed.*", "gate_fee_per_t", "gate_fee_after_per_t", "contract_years", "share_after_contract"))),
)


def run_checks(scenario: Scenario, assumptions: Assumptions, *, doubtful: Iterable[str] = ()) -> list[Fault]:
    """Every fault that the checks find.

    Parameters
    ----------
    scenario : whole, or with stand-ins at the doubtful paths.
    assumptions : of every path that is not doubtful.
    doubtful : paths of refused values, tables or sections.
    """
    doubts = [path.split(".") for path in doubtful]
    found: list[Fault] = []
    for check in CHECKS:
        if not _touched(check.reads, doubts):
            found += check.run(scenario)
    for asking in ORIGIN_CHECKS:
        if not _touched(asking.reads, doubts):
            found += asking.run(scenario, assumptions)
    return found


def _touched(reads: Iterable[str], doubts: list[list[str]]) -> bool:
    """True when a pattern and a doubtful path agree as far as the shorter of the two goes."""
    return any(
        all(wanted in ("*", part) for wanted, part in zip(pattern.split("."), doubt, strict=False))
        for pattern in reads for doubt in doubts
    )
