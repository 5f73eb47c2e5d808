"""How the project's own lines answer the records on reserves, order of payments, money that moves in time, and ratios.

The lines of the model are called as they stand, on their own sheet, with what the record gives; a record by years is put
into the last months of its years.
"""

from __future__ import annotations

import numpy as np
import pytest

from appraisal.cash_flow import (
    dates,
    reserves,
    sales_tax,
    sweep,
    working_capital,
)
from appraisal.measures.annuity import level_payment
from appraisal.measures.discounting import npv, present_value
from appraisal.measures.ratios import modified_benefit_cost_ratio, savings_to_investment
from appraisal.measures.unit_cost import benefit_cost_ratio
from appraisal.measures.waterfall import waterfall
from appraisal.measures.whole_farm import FarmYear, repayment_capacity
from tests.lines_alone import alone
from tests.published.money_figures import Values, flows


def reserve_targets(i: Values) -> Values:
    service_by_year = [0.0, *i["next12_service"]]
    monthly = np.zeros(12 * len(service_by_year))
    monthly[11::12] = [-x for x in service_by_year]
    v = alone(
        reserves, sweep, dates,
        given={"debt_service": monthly, "feeding": np.where(np.arange(monthly.size) < 12, 0.0, 1.0),
               "funding_debt_reserve_months": 6.0},
        choices={"funding_debt_reserve": "from_start", "funding_sweep": "shown"}, years=len(service_by_year),
        keep=("debt_reserve_target",),
    )  # fmt: skip
    blocks = [0.0, *i["overhaul_cost_in_month_blocks"]]
    paid = np.zeros(12 * len(blocks))
    paid[11::12] = [-x for x in blocks]
    w = alone(
        reserves, dates, given={"overhauls_paid": paid, "feeding": np.ones_like(paid)},
        choices={"funding_overhaul_reserve": "three_years_ahead"}, years=len(blocks), keep=("overhaul_reserve",),
    )  # fmt: skip
    return {
        "dsra_target": v["debt_reserve_target"][0, :-1].tolist(),
        "mra_target": w["overhaul_reserve"][0, :4].tolist(),
    }


def farm(i: Values) -> Values:
    found = repayment_capacity(FarmYear(
        net_income=i["accrual_net_farm_income"], off_farm_income=i["off_farm_income"], depreciation=i["depreciation"],
        interest=i["term_interest"], living=i["family_living"], tax=i["income_and_se_tax"],
        principal=i["scheduled_principal"]))  # fmt: skip
    return {
        "capital_debt_repayment_capacity": found.capacity[0],
        "margin": found.margin[0],
        "term_debt_coverage": found.coverage.value[0],
    }


def order_of_payments(i: Values) -> Values:
    payment = level_payment(i["debt"], i["rate"], periods=i["scheduled_years"])[0]
    cash = flows(i["cfads"])
    found = waterfall(
        cash, np.full_like(cash, payment), debt=i["debt"], rate=i["rate"], sweep_share=i["sweep_share"],
        lock_up_cover=i["lockup_dscr"],
    )  # fmt: skip
    parts = (found.interest, found.principal, found.sweep, found.distributed, found.trapped)
    assert sum(parts)[0] + found.short[0] == pytest.approx(i["cfads"], rel=1e-12)
    columns = (found.cover, *parts, found.balance)
    return {
        "rows_dscr_interest_principal_sweep_distributed_trapped_balance": [
            [column[0, year] for column in columns] for year in range(len(i["cfads"]))
        ]
    }


def invested_and_returned(i: Values) -> Values:
    """One month stands for a year: 365 days long."""
    months = 12
    income = np.zeros(months)
    income[: len(i["revenue"])] = i["revenue"]
    v = alone(
        working_capital,
        given={"cash_income": income, "running_costs": np.zeros(months), "funding_customer_days": i["debtor_days"],
               "funding_supplier_days": 0.0, "days": np.full(months, 365.0), "last_month": 0.0},
        choices={}, years=1,
    )  # fmt: skip
    moved = v["working_capital_moved"][0, : len(i["revenue"])]
    assert moved.sum() == pytest.approx(0.0, abs=1e-9)
    return {
        "wc": v["receivables"][0, : len(i["revenue"])].tolist(),
        "wc_cash": moved[1:].tolist(),
        "npv_effect": npv(moved[None, :], i["rate"], timing="end of year")[0],
    }


def timing_of_sales_tax(i: Values) -> Values:
    paid = np.zeros(24)
    paid[0] = 1.0
    v = alone(
        sales_tax,
        given={"capital_amount": i["capex_ex_vat"], "capital_contingency_share": 0.0, "capital_sales_tax_rate": i["vat_rate"],
               "tax_sales_tax_recoverable_share": 1.0, "capital_paid_share": paid, "capital_escalation": 0.0,
               "tax_sales_tax_refund_months": i["refund_months"], "capital_first_month": 0.0, "capital_months": 1.0},
        choices={"tax_sales_tax": "counted"}, years=2,
    )  # fmt: skip
    out = np.cumsum(v["capital_sales_tax_paid"][0] + v["capital_sales_tax_refund"][0])
    assert out[-1] == 0.0
    return {
        "vat_paid": -v["capital_sales_tax_paid"].sum(),
        "peak_extra_cash": -out.min(),
        "bridge_interest_simple": -out.sum() * i["bridge_rate"] / 12,
    }


def federal_savings(i: Values) -> Values:
    years, rate = i["study_years"], i["real_rate"]
    saving, spent = np.zeros((1, years + 1)), np.zeros((1, years + 1))
    saving[0, 1:] = i["annual_saving"]
    spent[0, 0] = i["investment"]
    spent[0, i["replacement"]["year"]] += i["replacement"]["cost"]
    spent[0, i["residual"]["year"]] -= i["residual"]["value"]
    saved, invested = (present_value(each, rate, periods_per_year=1) for each in (saving, spent))
    found = savings_to_investment(saved, invested, rate=rate, years=years)
    terminal = (saved[0] / invested[0] * (1 + rate) ** years) ** (1 / years) - 1
    assert found.airr[0] == pytest.approx(terminal, rel=1e-12)
    return {
        "pv_savings": saved[0],
        "pv_investment_related": invested[0],
        "net_savings": found.net_savings[0],
        "sir": found.sir.value[0],
        "airr": found.airr[0],
        "upv_factor": saved[0] / i["annual_saving"],
        "simple_payback_initial_only": i["investment"] / i["annual_saving"],
    }


def two_ratios(i: Values) -> Values:
    benefits, costs = flows(i["benefits"]), flows(i["costs"])
    running, capital = costs.copy(), np.zeros_like(costs)
    capital[:, 0], running[:, 0] = costs[:, 0], 0.0
    kind: Values = {"rate": i["rate"], "timing": "end of year"}
    return {
        "bcr_all_costs_in_denominator": benefit_cost_ratio(benefits, costs, **kind).value[0],
        "bcr_om_netted_in_numerator": modified_benefit_cost_ratio(benefits, running, capital, **kind).value[0],
        "npv": npv(benefits - costs, i["rate"], timing="end of year")[0],
    }
