"""The worst months of one case: of the family's account, and of running the plant, each with what makes it so bad."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass
from typing import Literal

import numpy as np

from appraisal.lines.evaluate import MONTHS, year_sum
from appraisal.measures.arrays import BoolArray, FloatArray

Values = Mapping[str, FloatArray]
Kind = Literal["falls_due", "differs"]
SET_ASIDE = ("debt_reserve_moves", "overhaul_reserve_moves", "lock_up_moves", "loans_prepaid")
Part = tuple[str, Kind, tuple[str, ...]]
PARTS: tuple[Part, ...] = (
    ("income and savings", "differs", ("cash_income", "evidenced_savings", "modelled_savings")),
    ("running costs", "differs", ("running_costs",)),
    ("overhauls, clean-outs and worn parts", "falls_due", ("overhauls_paid",)),
    ("debt service", "falls_due", ("debt_service",)),
    ("tax", "falls_due", ("taxes", "tax_credits_paid_out")),
    ("sales tax and bills of other months", "falls_due", ("working_capital_moves", "sales_tax_moves")),
    ("building and what is sold or removed", "falls_due", ("investment", "disposals")),
)
TELLS = 0.25  # of all that is worse than in an ordinary month: a smaller part is not named


@dataclass(frozen=True)
class Cause:
    """What is worse than in an ordinary month: its name, how it is told, its sum in the month and in an ordinary one [money]."""

    what: str
    kind: Kind
    amount: float
    ordinary: float


@dataclass(frozen=True)
class WorstMonth:
    """Month counted from 0, -1 where there is no year of full operation; its cash [money], and the causes, the gravest first.

    set_aside: money put into reserves, held back or prepaid in that month [money], which stays the family's and is not counted.
    """

    month: int
    cash: float
    set_aside: float = 0.0
    causes: tuple[Cause, ...] = ()


def lowest_balance(values: Values) -> tuple[int, float]:
    """Month in which the family's account stands lowest, and the balance [money]; (-1, 0) when it never goes below zero."""
    balance = values["bank_balance"][0]
    lowest = int(balance.argmin())
    return (lowest, float(balance[lowest])) if balance[lowest] < 0 else (-1, 0.0)


def of_account(values: Values) -> WorstMonth:
    """Month of full operation in which the family's account loses most.

    What is put by at a year's end (reserves, locked cash, a sweep) comes out of the cash of the whole year and is no cost of
    that month; what a reserve pays counts.
    """
    return _worst(values, account_cash(values), _put_by(values), PARTS)


def account_cash(values: Values) -> FloatArray:
    """The family's net cash by month without what is put by (months,) [money]."""
    return np.asarray(values["net_cash"][0] - _put_by(values), dtype=np.float64)


def _put_by(values: Values) -> FloatArray:
    return np.asarray(sum(np.minimum(values[name][0], 0.0) for name in SET_ASIDE))


def of_running(values: Values) -> WorstMonth:
    """Month of full operation in which running the plant brings least, before loan, tax and reserves, overhauls counted."""
    cash = values["operating_result"][0] + values["overhauls_paid"][0]
    return _worst(values, cash, np.zeros_like(cash), PARTS[:3])


def earned_in_full(values: Values) -> FloatArray:
    """Rise of account and reserves since the first full year after the ramp began (draws, months) [money]; NaN before it."""
    held = values["bank_balance"] + values["reserves_held"]
    start = (values["first_full_year"].astype(np.int64) - 1) * MONTHS
    place = np.broadcast_to(np.clip(start - 1, 0, held.shape[1] - 1), (held.shape[0], 1))
    before = np.where(start > 0, np.take_along_axis(held, place, axis=1), 0.0)
    return np.where(np.arange(held.shape[1]) >= start, held - before, np.nan)


def least_in_full(values: Values) -> FloatArray:
    """Lowest such rise (draws,) [money], below zero where the family pays in again; NaN without a full year."""
    rise = earned_in_full(values)
    least = np.where(np.isnan(rise), np.inf, rise).min(axis=1)
    return np.where(np.isinf(least), np.nan, least)


def full_months(values: Values) -> BoolArray:
    """Months of years in which the plant is fed in all months, or closed (months,)."""
    on = np.repeat(year_sum((values["feeding"] + values["closed"])[:1])[0] >= MONTHS, MONTHS)
    return np.broadcast_to(on, values["net_cash"][0].shape)


def _worst(values: Values, cash: FloatArray, aside: FloatArray, parts: tuple[Part, ...]) -> WorstMonth:
    full = full_months(values)
    if not full.any():
        return WorstMonth(-1, 0.0)
    month = int(np.where(full, cash, np.inf).argmin())
    ordinary = full & (np.broadcast_to(values["feeding"][0], full.shape) > 0)
    found = [_cause(values, month, ordinary if ordinary.any() else full, part) for part in parts]
    worse = sum(max(each.ordinary - each.amount, 0.0) for each in found)
    told = sorted(
        (each for each in found if each.ordinary - each.amount > TELLS * worse), key=lambda each: each.amount - each.ordinary
    )
    return WorstMonth(month, float(cash[month]), float(np.broadcast_to(aside, cash.shape)[month]), tuple(told))


def _cause(values: Values, month: int, ordinary: BoolArray, part: Part) -> Cause:
    """A part of one month against the middle of the ordinary ones, in which the plant is fed."""
    what, kind, names = part
    series = sum(np.broadcast_to(values[name][0], ordinary.shape) for name in names)
    return Cause(what, kind, float(np.asarray(series)[month]), float(np.median(np.asarray(series)[ordinary])))
