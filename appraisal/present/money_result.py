"""Everything about the money beyond the headline as plain mappings, for `--json`. Names never change without a schema step."""

from __future__ import annotations

from dataclasses import asdict
from typing import Any

import numpy as np

from appraisal.appraise import Appraisal
from appraisal.measures import worst_months
from appraisal.measures.arrays import FloatArray, Measured
from appraisal.measures.checks import BRIDGE
from appraisal.measures.cover import LeastCover
from appraisal.measures.farm_view import FarmSide
from appraisal.measures.views import TIMING, View
from appraisal.present.years import at_year_end, by_year, signed_by_year

FLOWS = (
    *("cash_income", "evidenced_savings", "modelled_savings", "running_costs", "operating_result", "overhauls_paid"),
    *("written_off", "written_off_at_end", "grants_earned", "disposals", "interest_cost", "fees_paid"),
    *("bridge_interest_paid", "profit_before_tax", "tax_cost", "tax_credits_paid_out", "profit_after_tax"),
)
CASH = (
    *("cash_before_tax", "taxes", "cash_available_for_debt_service", "interest_paid", "principal_paid", "loans_prepaid"),
    *("debt_reserve_moves", "overhaul_reserve_moves", "lock_up_moves", "investment", "grants", "loans_drawn", "bridge_moves"),
    *("sales_tax_moves", "working_capital_moves", "net_cash"),
)
STOCKS = (
    *(
        "cash_held",
        "reserves_held",
        "receivables",
        "sales_tax_to_come",
        "plant_in_books",
        "grants_off_assets",
        "assets",
    ),
    *("loans_owed", "bridge_owed_in_books", "payables", "tax_owed", "grants_among_debts", "debts"),
    *("paid_in_so_far", "equity", "balance_difference"),
)
READERS = {
    "lender": ("cash_income", "evidenced_savings"),
    "family": ("cash_income", "evidenced_savings", "modelled_savings"),
    "public_funder": ("cash_income", "evidenced_savings", "modelled_savings", "benefits_to_others"),
}


def money_object(appraisal: Appraisal) -> dict[str, Any]:
    """Sections views, unit_costs, ratios, bank, stop, whole_farm, family, funding, statements, checks; money as in `yearly`."""
    seen = appraisal.money
    return {
        "views": [_view(view) for view in seen.views],
        "unit_costs": {name: measured(getattr(seen.unit_costs, name)) for name in vars(seen.unit_costs)},
        "ratios": _ratios(appraisal),
        "bank": _bank(appraisal),
        "stop": _stop(appraisal),
        "whole_farm": None if seen.farm is None else _farm(seen.farm, year=appraisal.plant.year),
        "family": _family(appraisal),
        "funding": _funding(appraisal),
        "counted_by": {reader: _floats(by_year(appraisal, *names)) for reader, names in READERS.items()},
        "statements": _statements(appraisal),
        "checks": {
            "passed": sum(each.passed for each in seen.checks),
            "of": len(seen.checks),
            "list": [{**asdict(each), "passed": each.passed} for each in seen.checks],
        },
    }


def measured(measure: Measured) -> dict[str, Any]:
    """Value and status of the first draw; null where there is none."""
    return {"value": number(measure.value[0]), "status": measure.words[0]}


def number(value: float) -> float | None:
    """A finite number, or None where there is none."""
    return float(value) if np.isfinite(value) else None


def _row(array: FloatArray) -> list[float | None]:
    return [number(value) for value in array[0]]


def _floats(series: FloatArray) -> list[float]:
    return [float(value) for value in series]


def _view(view: View) -> dict[str, Any]:
    return {
        "whose": view.whose,
        "tax": view.tax,
        "money": view.money,
        "timing": TIMING,
        "discount_rate": float(view.discount_rate[0]),
        "npv": float(view.npv[0]),
        "npv_year_end": float(view.npv_year_end[0]),
        "equivalent_annual_value": float(view.equivalent_annual_value[0]),
        **{
            name: measured(getattr(view, name)) for name in ("irr", "mirr", "payback_years", "discounted_payback_years")
        },
    }


def _ratios(appraisal: Appraisal) -> dict[str, Any]:
    found = appraisal.money.ratios
    return {
        "benefit_cost_all_costs_below": measured(found.all_costs_below),
        "benefit_cost_capital_below": measured(found.capital_below),
        "savings_to_investment": measured(found.savings.sir),
        "net_savings": float(found.savings.net_savings[0]),
        "adjusted_rate_of_return": number(found.savings.airr[0]),
        "regulatory_payback_years": measured(found.regulatory_payback_years),
    }


def _least(least: LeastCover) -> dict[str, Any]:
    year = number(least.year[0])
    return {**measured(least), "year": None if year is None else int(year), "average": number(least.average[0])}


def _bank(appraisal: Appraisal) -> dict[str, Any]:
    bank = appraisal.money.bank
    return {
        "cover": {case: _row(cover.value) for case, cover in bank.covers.items()},
        "least": {case: _least(least) for case, least in bank.least.items()},
        "least_with_overhaul_reserve": _least(bank.with_overhaul_reserve),
        "part_year": _least(bank.part_year),
        "least_over_twelve_months": number(bank.rolling[0]),
        "llcr": measured(bank.llcr),
        "plcr": measured(bank.plcr),
        "signed_share_of_income": _row(bank.signed_share),
        "tests": {
            "first_year": int(bank.first_year[0]),
            **{name: _row(array) for name, array in vars(bank.tests).items()},
        },
    }


def _stop(appraisal: Appraisal) -> dict[str, Any]:
    stop = appraisal.money.stop
    owed = np.broadcast_to(appraisal.values["owed_if_stopped"][:1], (1, appraisal.timeline.years))
    return {
        "owed_at_year_end": _row(owed),
        "losing_to_year": int(stop.year[0]) or None,
        **{name: float(array[0]) for name, array in vars(stop).items() if name != "year"},
    }


def _farm(sides: tuple[FarmSide, FarmSide], *, year: int) -> dict[str, Any]:
    return {
        "year": year,
        **{
            name: {
                "capacity": float(side.capacity.capacity[0]),
                "margin": float(side.capacity.margin[0]),
                "term_debt_coverage": measured(side.capacity.coverage),
                "debt_to_assets": measured(side.debt_to_assets),
                "current_ratio": measured(side.current_ratio),
            }
            for name, side in zip(("without", "with_plant"), sides, strict=True)
        },
    }


def _family(appraisal: Appraisal) -> dict[str, Any]:
    values = appraisal.values
    account, running = worst_months.of_account(values), worst_months.of_running(values)
    return {
        "lowest_balance": _month(appraisal, *worst_months.lowest_balance(values)),
        "worst_month_of_full_operation": _worst(appraisal, account),
        "worst_month_of_running": _worst(appraisal, running),
        "hours": {name: _floats(by_year(appraisal, name)) for name in ("family_hours", "hired_hours", "night_hours")},
        "family_hours_at_hired_wage": _floats(by_year(appraisal, "family_labour_at_hired_wage")),
    }


def _month(appraisal: Appraisal, month: int, amount: float) -> dict[str, Any] | None:
    return None if month < 0 else {"month": month, "name": appraisal.timeline.name(month), "amount": amount}


def _worst(appraisal: Appraisal, worst: worst_months.WorstMonth) -> dict[str, Any] | None:
    found = _month(appraisal, worst.month, worst.cash)
    more = {"set_aside": worst.set_aside, "causes": [asdict(each) for each in worst.causes]}
    return None if found is None else {**found, **more}


def _funding(appraisal: Appraisal) -> dict[str, Any]:
    values, scenario = appraisal.values, appraisal.loaded.scenario
    total = {name: float(values[name][0].sum()) for name in ("fees_paid", "interest_while_building", "grants")}
    return {
        "uses": {
            "capital": float(values["building_cost"][0, 0]),
            "fees": -total["fees_paid"],
            "interest_while_building": -total["interest_while_building"],
            "bridge_interest_while_building": 0.0 - float(values["bridge_cost_while_building"][0].sum()),
            "debt_reserve_from_start": sum(float(values[f"loan.{n}.reserve_from_start"][0, 0]) for n in scenario.loan),
            "in_all": float(values["uses_of_funds"][0, 0]),
        },
        "sources": {
            "grants": total["grants"],
            "loans": {name: float(values[f"loan.{name}.sum"][0, 0]) for name in scenario.loan},
            "own_money": float(values["own_money_needed"][0, 0]),
        },
    }


def _statements(appraisal: Appraisal) -> dict[str, Any]:
    return {
        "income": {name: _floats(by_year(appraisal, name)) for name in FLOWS},
        "cash": {name: _floats(by_year(appraisal, name)) for name in CASH},
        "profit_to_cash": {label: _floats(signed_by_year(appraisal, parts)) for label, parts in BRIDGE},
        "balance_at_year_end": {name: _floats(at_year_end(appraisal, name)) for name in STOCKS},
    }
