"""Loans, depreciation, tax, reserves, cover and statements against published figures and rules (finance_money.json).

The lines of the model are called as they stand, on their own sheet, with what the record gives; a record by years is put
into the last months of its years. Records that only state a rule say so in their basis.
"""

from __future__ import annotations

import json
from collections.abc import Callable
from pathlib import Path
from typing import Any

import numpy as np
import pytest

from appraisal.cash_flow import (
    balance_sheet,
    dates,
    depreciation,
    income_statement,
    loan,
    loan_schedule,
    loan_sum,
    reserves,
    sales_tax,
    sweep,
    tax,
    tax_basis,
    working_capital,
)
from appraisal.measures.annuity import level_payment
from appraisal.measures.cover import dscr, least_cover
from appraisal.measures.discounting import npv, present_value
from appraisal.measures.loan_cover import debt_carried, life_cover
from appraisal.measures.ratios import modified_benefit_cost_ratio, savings_to_investment
from appraisal.measures.unit_cost import benefit_cost_ratio
from appraisal.measures.uplift import mixed_uplift
from appraisal.measures.waterfall import waterfall
from appraisal.measures.whole_farm import FarmYear, repayment_capacity
from appraisal.scenario.reference import row
from tests.lines_alone import alone, by_year
from tests.published.test_finance_published import leaves, tolerance

FILE = Path(__file__).parent / "finance_money.json"
RECORDS: dict[str, dict[str, Any]] = {record["id"]: record for record in json.loads(FILE.read_text("utf-8"))}
Values = dict[str, Any]
HOURS_PER_YEAR = 8760


def flows(*rows: list[float]) -> np.ndarray:
    """Rows as a (draws, periods) array."""
    return np.array(rows, dtype=np.float64)


# Loans: drawn at the end of the first project year, so that whole years follow.


def loan_of(
    principal: float,
    rate: float,
    *,
    years: int,
    interest_only_months: int = 12,
    every: int = 12,
    first: int = 11,
    **more: Any,
) -> dict[str, np.ndarray]:
    """The loan sheets with a payment every so many months, the whole sum drawn in one month."""
    spent = np.zeros(years * 12)
    spent[first] = -1.0
    choices = {
        "loan_repayment": "level",
        "loan_size": "amount",
        "loan_interest_before_repayment": "paid",
        "funding_debt_reserve": "none",
        "funding_sweep": "shown",
        **{k: v for k, v in more.items() if isinstance(v, str)},
    }
    given = {
        "loan_amount": principal, "loan_rate": rate, "loan_rate_after": rate, "loan_rate_fixed_years": 60,
        "loan_payment_every_months": every, "loan_years": years, "loan_interest_only_months": interest_only_months,
        "loan_fee_share": 0.0, "investment": spent, "feeding": np.ones(years * 12), "loan_reserve_share": 0.0,
        "loan_target_cover": 1.3, "cash_before_tax": 0.0, **{k: v for k, v in more.items() if not isinstance(v, str)},
    }  # fmt: skip
    keep = ("loan_drawn", "loan_interest", "loan_principal", "loan_closing", "loan_capitalised", "loan_accrued")
    return alone(loan_schedule, loan_sum, loan, given=given, choices=choices, years=years, keep=keep)


def service(v: dict[str, np.ndarray]) -> list[float]:
    """Interest and principal by year, as paid."""
    return [-(i + p) for i, p in zip(by_year(v["loan_interest"]), by_year(v["loan_principal"]), strict=True)]


def worth_at_start(v: dict[str, np.ndarray], rate: float) -> float:
    """Value of the debt service at the loan's rate, at the end of the first project year."""
    return sum(paid / (1 + rate) ** year for year, paid in enumerate(service(v)))


def two_repayments(i: Values) -> Values:
    level = loan_of(i["principal"], i["rate"], years=i["n"] + 1)
    equal = loan_of(i["principal"], i["rate"], years=i["n"] + 1, loan_repayment="equal_principal")
    assert service(level)[1:] == pytest.approx([service(level)[1]] * i["n"], rel=1e-12)
    assert level["loan_closing"][0, -1] == equal["loan_closing"][0, -1] == 0.0
    return {
        "annuity_payment": service(level)[1],
        "annuity_total_interest": -level["loan_interest"].sum(),
        "straight_line_payments": service(equal)[1:],
        "straight_line_total_interest": -equal["loan_interest"].sum(),
    }


def grace(i: Values) -> Values:
    years = 1 + i["grace_years"] + i["repayment_years"]
    months = 12 + 12 * i["grace_years"]
    paid, added = (
        loan_of(i["principal"], i["rate"], years=years, interest_only_months=months, loan_interest_before_repayment=how)
        for how in ("paid", "capitalised")
    )
    for v in (paid, added):
        assert worth_at_start(v, i["rate"]) == pytest.approx(i["principal"], rel=1e-12)
    return {
        "interest_only": {
            "grace_payment": service(paid)[1],
            "payment": service(paid)[-1],
            "total_interest": -paid["loan_interest"].sum(),
        },
        "capitalised": {
            "balance_after_grace": added["loan_closing"][0, months - 1],
            "payment": service(added)[-1],
            "total_interest": sum(service(added)) - i["principal"],
        },
    }


def building_interest(i: Values) -> Values:
    spent = np.zeros(36)
    spent[[2, 5, 8, 11]] = -np.array(i["draws"])
    v = loan_of(sum(i["draws"]), i["annual_rate"], years=3, every=3, interest_only_months=18, investment=spent,
                loan_interest_before_repayment="capitalised")  # fmt: skip
    drawn_at_end, one_quarter_more = v["loan_closing"][0, 11], v["loan_closing"][0, 14]
    return {
        "debt_at_completion_draws_at_quarter_end": drawn_at_end,
        "idc_end": v["loan_capitalised"][0, :12].sum(),
        "debt_at_completion_draws_at_quarter_start": one_quarter_more,
        "idc_start": v["loan_capitalised"][0, :15].sum(),
        "simple_half_period_rule_of_thumb": i["annual_rate"] / 2 * sum(i["draws"]),
    }


def at_year_ends(yearly: list[float], years: int) -> np.ndarray:
    """Yearly amounts in the last months of project years 2, 3, ..."""
    months = np.zeros(years * 12)
    months[23::12][: len(yearly)] = yearly
    return months


def sculpted(i: Values) -> Values:
    years = 1 + len(i["cfads"])
    v = loan_of(0.0, i["rate"], years=years, loan_size="to_cover", loan_repayment="sculpted",
                loan_target_cover=i["target_dscr"], cash_before_tax=at_year_ends(i["cfads"], years))  # fmt: skip
    interest, principal = ([-x for x in by_year(v[f"loan_{part}"])][1:] for part in ("interest", "principal"))
    debt = v["loan_sum"][0, 0]
    paid = service(v)[1:]
    rows = [list(row) for row in zip(paid, interest, principal, v["loan_closing"][0, 23::12], strict=True)]
    covers = dscr(flows(i["cfads"]), flows(paid)).value[0]
    assert covers == pytest.approx([i["target_dscr"]] * len(paid), rel=1e-12)
    return {
        "debt": debt,
        "service_interest_principal_balance": rows,
        "llcr_at_close": life_cover(flows(i["cfads"]), debt, i["rate"]).value[0],
    }


def level_cover(i: Values) -> Values:
    n, cash = i["loan_years"], flows(i["cfads"])
    v = loan_of(i["debt"], i["rate"], years=n + 1)
    cover = dscr(cash[:, :n], flows(service(v)[1:]))
    least = least_cover(cover, full_years=np.ones(n, dtype=bool))
    return {
        "payment": service(v)[1],
        "dscr": cover.value[0].tolist(),
        "min_dscr": least.value[0],
        "avg_dscr": least.average[0],
        "llcr": life_cover(cash[:, :n], i["debt"], i["rate"]).value[0],
        "plcr": life_cover(cash, i["debt"], i["rate"]).value[0],
    }


def two_cases(i: Values) -> Values:
    kw = 1000 * i["mw"]
    cash = [kw * (HOURS_PER_YEAR * cf * i["price_mwh"] / 1000 - i["fixed_om_kw"]) for cf in (i["cf_p50"], i["cf_p99"])]
    debts = [
        debt_carried(each, cover=cover, rate=i["rate"], years=i["years"])[0]
        for each, cover in zip(cash, (1.3, 1.0), strict=True)
    ]
    debt = min(debts)
    return {
        "cfads_p50": cash[0],
        "cfads_p99": cash[1],
        "annual_service_p50": level_payment(debts[0], i["rate"], periods=i["years"])[0],
        "annual_service_p99": level_payment(debts[1], i["rate"], periods=i["years"])[0],
        "debt_capacity": debt,
        "equity_share": 1 - debt / (kw * i["capex_per_kw"]),
    }


# Depreciation and tax.


def depreciated(life: float, *, years: int, method: str = "declining_balance", **more: Any) -> dict[str, np.ndarray]:
    """The sheet of depreciation by tax year for an item used from month 0."""
    choices = {
        "capital_depreciation_method": method, "capital_depreciation_first_year": "half",
        "capital_depreciation_switches": "no", **{k: v for k, v in more.items() if isinstance(v, str)},
    }  # fmt: skip
    given = {
        "capital_depreciation_years": life, "capital_service_start": 0.0, "project_years": years,
        "capital_depreciation_rate": 0.0, **{k: v for k, v in more.items() if not isinstance(v, str)},
    }  # fmt: skip
    return alone(depreciation, given=given, choices=choices, years=years, keep=("capital_share_written",))


def written(life: float, *, years: int, **more: Any) -> list[float]:
    """Part of the basis deducted in each tax year of use."""
    return [float(x) for x in depreciated(life, years=years, **more)["capital_year_share"][0]]


def macrs(life: int, factor: float) -> list[float]:
    """Declining balance at factor / life with the half-year rule and the change to straight line."""
    return written(life, years=life + 1, capital_depreciation_rate=factor / life, capital_depreciation_switches="yes")


def from_table(id: str, years: int) -> list[float]:
    """The same by a row of the reference table."""
    percent = [float(part) for part in row("depreciation", id)["year_percentages"].split(";")]
    shares = np.array([*percent, *[0.0] * (years - len(percent))]) / 100
    return written(0, years=years, method="table", capital_depreciation_share_by_year=shares)


def tables(i: Values) -> Values:
    factors = {name: float(method[:3]) / 100 for name, method in i["method"].items()}
    return {
        "percent": {name: [100 * x for x in from_table(f"macrs{name}", int(name) + 1)] for name in i["classes"]},
        "unrounded": {name: [100 * x for x in macrs(int(name), factors[name])] for name in i["classes"]},
    }


def seven_years(i: Values) -> Values:
    rate = 2 / i["life"]
    v = depreciated(i["life"], years=i["life"] + 1, capital_depreciation_rate=rate, capital_depreciation_switches="yes")
    level = v["capital_level_rate"][0]
    return {
        "depreciation": [i["cost"] * float(share) for share in v["capital_year_share"][0]],
        "switch_year": 1 + int(np.argmax(level > rate * (1 - 1e-12))),
    }


def part_year(i: Values) -> Values:
    """The rule rounds its rate to three decimals, which is the rate a user would then state."""
    rate = round(1 - (i["salvage"] / i["cost"]) ** (1 / i["life"]), 3)
    part = [i["months_first_year"] / 12, *[1.0] * (i["life"] - 1), 1 - i["months_first_year"] / 12]
    start = 12.0 - i["months_first_year"]
    shares = written(60, years=len(part), capital_depreciation_rate=rate, capital_service_start=start,
                     capital_depreciation_first_year="by_months")  # fmt: skip
    last = shares[-1] * part[-1]
    return {"rate_rounded_3dp": rate, "depreciation": [i["cost"] * x for x in (*shares[:-1], last)]}


def pool(i: Values) -> Values:
    """The old pool is past its first year; half of what is added counts in the year it is added."""
    first = written(60, years=2, capital_depreciation_rate=i["rate"])[0]
    whole = written(60, years=2, capital_depreciation_rate=i["rate"], capital_depreciation_first_year="whole")[0]
    claimed = i["opening_ucc"] * whole + i["additions"] * first
    return {"base": claimed / whole, "cca": claimed, "closing_ucc": i["opening_ucc"] + i["additions"] - claimed}


def shield(i: Values) -> Values:
    shares = written(60, years=120, capital_depreciation_rate=i["rate"])
    saved = flows([0.0, *(i["cost"] * i["tax"] * share for share in shares)])
    return {
        "pv_tax_shield": npv(saved, i["discount"], timing="end of year")[0],
        "first_three_cca": [i["cost"] * share for share in shares[:3]],
    }


def basis_of(cost: float, *, grants: float = 0.0, **more: Any) -> dict[str, np.ndarray]:
    """The sheet of the tax basis for one item paid in month 0."""
    spent, received = np.zeros(24), np.zeros(24)
    spent[0], received[0] = -cost, grants
    choices = {
        "tax_depreciation_reduced_by_grants": "yes", "tax_investment_credit": "none", "tax_credit_after_grants": "yes",
        **{k: v for k, v in more.items() if isinstance(v, str)},
    }  # fmt: skip
    given = {
        "investment": spent, "capital_spend": spent, "grants": received, "capital_credit_share": 1.0, "capital_amount": cost,
        "tax_investment_credit_rate": 0.0, "tax_credit_lowers_basis_share": 0.5,
        **{k: v for k, v in more.items() if not isinstance(v, str)},
    }  # fmt: skip
    return alone(tax_basis, given=given, choices=choices, years=2, keep=("capital_basis", "capital_credit"))


def credit_and_basis(i: Values) -> Values:
    v = basis_of(i["cost"], tax_investment_credit="against_tax", tax_investment_credit_rate=i["itc_rate"])
    basis = v["capital_basis"][0, 0]
    return {
        "itc": v["capital_credit"][0, 0],
        "depreciable_basis": basis,
        "depreciation": [basis * share for share in from_table("macrs5", 6)],
    }


def straight_line(basis: float, life: float, years: int) -> list[float]:
    """Yearly sums of straight-line depreciation, as positive amounts."""
    v = alone(
        depreciation,
        given={"capital_basis": basis, "capital_service_part": np.where(np.arange(years * 12) < life * 12, 1.0, 0.0),
               "capital_depreciation_years": life},
        choices={"capital_depreciation_method": "straight_line"}, years=years, keep=("capital_depreciation",),
    )  # fmt: skip
    return [-x for x in by_year(v["capital_depreciation"])]


def grant_netted(i: Values) -> Values:
    net = basis_of(i["cost_ex_vat"], grants=i["grant"])["capital_basis"][0, 0]
    gross = basis_of(i["cost_ex_vat"], grants=i["grant"], tax_depreciation_reduced_by_grants="no")["capital_basis"][
        0, 0
    ]
    life = 1 / i["rate"]
    allowances = straight_line(net, life, 10)
    saved = flows([0.0, *(i["tax_rate"] * each for each in allowances)])
    return {
        "qualifying_cost": net,
        "annual_allowance": allowances[0],
        "years": sum(each > 0 for each in allowances),
        "pv_tax_saving": npv(saved, i["discount"], timing="end of year")[0],
        "wrong_if_gross": straight_line(gross, life, 10)[0],
    }


def losses(i: Values) -> Values:
    names = ("operating_result", "overhauls_paid", "depreciation", "grants_taxed", "disposals", "basis_left_at_end",
             "interest_cost", "fees_paid", "bridge_interest_paid")  # fmt: skip
    given: Values = {name: np.zeros(36) for name in names} | {"tax_loss_use_at_most_share": i["cap"]}
    given["operating_result"][11::12] = i["income"]
    v = alone(tax, given=given, choices={"tax_losses": "carried_forward"}, years=3, keep=("taxed", "loss_pool"))
    return {
        "nol_used": v["loss_used"][0].tolist(),
        "taxable_income": v["taxed"][0].tolist(),
        "nol_left": v["loss_pool"][0, -1],
    }


def grant_in_books(i: Values) -> Values:
    """The plant is paid and granted in month 0 and used from then on; figures at the end of the first year."""
    months = i["life"] * 12
    spent, received = np.zeros(months), np.zeros(months)
    spent[0], received[0] = -i["cost"], i["grant"]
    written_off = np.full(months, -i["cost"] / months)
    shown = {}
    for how in ("off_the_plant", "as_owed_income"):
        shown[how] = alone(
            income_statement, balance_sheet,
            given={"capital_written_off": written_off, "grants": received, "investment": spent, "building_cost": i["cost"],
                   "last_month": 0.0, "written_off_at_end": np.zeros(months)},
            choices={"funding_grants_shown": how}, years=i["life"],
            keep=("grants_earned", "grants_off_assets", "plant_in_books", "written_off"),
        )  # fmt: skip
    net, gross = shown["off_the_plant"], shown["as_owed_income"]
    off = -by_year(gross["written_off"])[0], by_year(gross["grants_earned"])[0]
    return {
        "net_method": {
            "annual_depreciation": off[0] - off[1],
            "year1_carrying": (net["plant_in_books"] - net["grants_off_assets"])[0, 11],
        },
        "deferred_income_method": {
            "annual_depreciation": off[0],
            "annual_release": off[1],
            "year1_asset": (gross["plant_in_books"] - gross["grants_off_assets"])[0, 11],
            "year1_deferred_income": (gross["grants_not_earned"] - gross["grants_off_assets"])[0, 11],
        },
        "profit_effect_each_year": off[1] - off[0],
    }


# Reserves, capacity, order of payments, working capital, sales tax.


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


CASES: dict[str, Callable[[Values], Values]] = {
    "FO-13": two_repayments,
    "FO-14": grace,
    "FO-15": building_interest,
    "FO-17": federal_savings,
    "FO-19": two_ratios,
    "FO-25": tables,
    "FO-26": seven_years,
    "FO-27": part_year,
    "FO-28": pool,
    "FO-29": shield,
    "FO-30": credit_and_basis,
    "FO-31": grant_netted,
    "FO-32": losses,
    "FO-33": grant_in_books,
    "FO-34": sculpted,
    "FO-35": level_cover,
    "FO-36": two_cases,
    "FO-37": reserve_targets,
    "FO-38": farm,
    "FO-39": order_of_payments,
    "FO-40": lambda i: {
        "capex_uplift_pct": mixed_uplift(i["share_nonstandard"], tuple(i["capex_upper"])),
        "duration_uplift_pct": mixed_uplift(i["share_nonstandard"], tuple(i["duration_upper"])),
    },
    "FO-60": invested_and_returned,
    "FO-61": timing_of_sales_tax,
}


def allowed(record: Values, path: tuple[str, ...]) -> float:
    """Absolute tolerance of one figure; a record that gives none for a count or a rounded rate wants it exactly."""
    stated = path[-1] in record["tolerance"] or path[0] in record["tolerance"] or "default" in record["tolerance"]
    return tolerance(record, path) if stated else 0.0


def test_every_record_has_its_case() -> None:
    assert set(RECORDS) == set(CASES)


@pytest.mark.parametrize("name", sorted(CASES))
def test_published_figure(name: str) -> None:
    record = RECORDS[name]
    ours, theirs = dict(leaves(CASES[name](record["inputs"]))), dict(leaves(record["expected"]))
    about = f"{record['topic']}; source: {record['source']}; known: {record['basis']}"
    assert set(ours) == set(theirs), about
    for path, figure in theirs.items():
        assert ours[path] == pytest.approx(figure, abs=allowed(record, path), rel=0.0), f"{path}: {about}"
