"""Yearly statements in whole amounts that foot and tie: what stands on the year's end is rounded, flows follow from it.

Each balance is rounded by itself; what moves it in a year is rounded so that it gives the difference of two balances; the
running of the plant takes the rest, so that the year's cash is the difference of two accounts. Sums are sums of what is
shown. Hence no amount can differ between two tables, opening and flow give closing, and assets are debts and equity.
"""

from __future__ import annotations

from collections.abc import Mapping

import numpy as np

from appraisal.appraise import Appraisal
from appraisal.present.footing import Whole, whole
from appraisal.present.years import Array, at_year_end, by_year

STOCKS = (
    "bank_balance", "paid_in_so_far", "reserves_held", "receivables", "sales_tax_to_come", "plant_in_books",
    "grants_off_assets", "grants_among_debts", "loans_owed", "bridge_owed_in_books", "payables", "tax_owed",
)  # fmt: skip
NOTHING = 1e-6  # of a unit of money: what two equal sums may differ by
ALONE = ("fees_paid", "bridge_interest_paid", "disposals", "tax_credits_paid_out", "debt_service")
RUNNING = ("cash_income", "evidenced_savings", "modelled_savings", "running_costs", "overhauls_paid")
NOT_RUNNING = (
    "investment", "grants", "loans_drawn", "fees_paid", "bridge_moves", "bridge_interest_paid", "disposals",
    "sales_tax_moves", "working_capital_moves", "debt_reserve_moves", "overhaul_reserve_moves", "lock_up_moves",
    "debt_service", "loans_prepaid", "taxes", "tax_credits_paid_out",
)  # fmt: skip
PROFIT = (
    *RUNNING, "written_off", "written_off_at_end", "grants_earned", "disposals", "interest_cost", "fees_paid",
    "bridge_interest_paid",
)  # fmt: skip
ASSETS = ("cash_held", "reserves_held", "receivables", "sales_tax_to_come", "plant_in_books")
DEBTS = ("loans_owed", "bridge_owed_in_books", "payables", "tax_owed", "grants_among_debts")
AVAILABLE = (
    "cash_income", "evidenced_savings", "running_costs", "overhauls_paid", "working_capital_moves",
    "overhaul_reserve_moves", "taxes",
)  # fmt: skip


def whole_years(appraisal: Appraisal) -> Mapping[str, Whole]:
    """Lines of the statements by project year (years,) in whole units of money, by name; balances are those of the year's end."""
    made = {name: np.rint(at_year_end(appraisal, name)).astype(np.int64) for name in STOCKS}
    made |= {name: np.rint(by_year(appraisal, name)).astype(np.int64) for name in ALONE}
    moves = {name: np.diff(made[name], prepend=0) for name in STOCKS}
    made |= _parts(appraisal, moves["plant_in_books"], {"investment": -1, "written_off": 1, "written_off_at_end": 1})
    not_earned = moves["grants_off_assets"] + moves["grants_among_debts"]
    made |= _parts(appraisal, not_earned, {"grants": 1, "grants_earned": -1})
    reserves = ("debt_reserve_moves", "overhaul_reserve_moves", "lock_up_moves")
    made |= _parts(appraisal, moves["reserves_held"], dict.fromkeys(reserves, -1))
    made |= _parts(appraisal, moves["tax_owed"], {"taxes": 1, "tax_cost": -1})
    made |= _loans(appraisal, moves["loans_owed"], made["debt_service"])
    made["working_capital_moves"] = moves["payables"] - moves["receivables"]
    made["sales_tax_moves"] = -moves["sales_tax_to_come"]
    made["bridge_moves"], made["net_cash"] = moves["bridge_owed_in_books"], moves["bank_balance"]
    made |= _parts(appraisal, made["net_cash"] - _sum(made, NOT_RUNNING), dict.fromkeys(RUNNING, 1))
    return made | _totals(made)


def _parts(appraisal: Appraisal, total: Whole, signs: Mapping[str, int]) -> dict[str, Whole]:
    """Some lines in whole amounts which, with their signs, give a total in every year."""
    return _split({name: sign * by_year(appraisal, name) for name, sign in signs.items()}, total, signs)


def _split(exact: Mapping[str, Array], total: Whole, signs: Mapping[str, int]) -> dict[str, Whole]:
    columns = np.array(list(exact.values())).T
    made = np.array([whole(row, total=int(sum_)) for row, sum_ in zip(columns, total, strict=True)], dtype=np.int64).T
    return {name: signs[name] * row for name, row in zip(exact, made, strict=True)}


def _loans(appraisal: Appraisal, total: Whole, service: Whole) -> dict[str, Whole]:
    """What moves the loans: drawn, paid back, prepaid, and interest that is owed and not yet paid."""
    names = ("loans_drawn", "principal_paid", "loans_prepaid")
    exact = {name: by_year(appraisal, name) for name in names}
    exact["unpaid"] = by_year(appraisal, "interest_paid") - by_year(appraisal, "interest_cost")
    exact["unpaid"][np.abs(exact["unpaid"]) < NOTHING] = 0.0
    made = _split(exact, total, dict.fromkeys(exact, 1))
    unpaid = made.pop("unpaid")
    made["interest_paid"] = service - made["principal_paid"]
    made["interest_cost"] = made["interest_paid"] - unpaid
    return made


def _totals(made: dict[str, Whole]) -> dict[str, Whole]:
    """Sums of what is shown."""
    profit = _sum(made, PROFIT)
    after = profit + made["tax_cost"] + made["tax_credits_paid_out"]
    held = {"cash_held": made["bank_balance"] + made["paid_in_so_far"]}
    assets = _sum(made | held, ASSETS) - made["grants_off_assets"]
    debts, kept = _sum(made, DEBTS), np.cumsum(after)
    equity = made["paid_in_so_far"] + kept
    return held | {
        "profit_before_tax": profit, "profit_after_tax": after, "profit_so_far": kept, "assets": assets, "debts": debts,
        "equity": equity, "balance_difference": assets - debts - equity,
        "cash_available_for_debt_service": _sum(made, AVAILABLE),
    }  # fmt: skip


def _sum(made: Mapping[str, Whole], names: tuple[str, ...]) -> Whole:
    return np.asarray(sum(made[name] for name in names), dtype=np.int64)
