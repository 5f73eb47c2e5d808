"""What a lender looks at: cover from all sides, cover over the life of loan and plant, its three tests, signed income."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass, replace

import numpy as np

from appraisal.cash_flow.reserves import overhaul_reserve
from appraisal.constants import CONSTANTS
from appraisal.lines.evaluate import MONTHS, year_sum
from appraisal.measures.arrays import BoolArray, FloatArray, IntArray, Locked
from appraisal.measures.cover import Cover, LeastCover, dscr, least_cover
from appraisal.measures.headline import full_years
from appraisal.measures.loan_cover import rolling_cover
from appraisal.measures.unit_cost import Ratio, ratio_of
from appraisal.measures.waterfall import Waterfall, waterfall

Values = Mapping[str, FloatArray]
CASES = {
    "as_assumed": "cash_available_for_debt_service",
    "family_hours_paid": "cash_with_family_paid",
    "signed_contracts_only": "cash_on_signed_contracts",
}
PART_KEPT = {each.name: each.value for each in CONSTANTS if each.name in ("two_thirds", "one_third")}


@dataclass(frozen=True, eq=False)
class BankView(Locked):
    """A lender's measures of one or many cases.

    covers: by case of `CASES`, by year (draws, years); least: of full operating years. part_year: least cover over years with
    debt that are not full years. rolling: least over any twelve full months (draws,), NaN without debt.
    llcr, plcr: present value of cash over the debt when full operation begins, over the years of the loans (as scheduled, also
    where a sweep ends them sooner) and of the plant, at the loans' own rates.
    signed_share: signed over all cash income by year (draws, years), NaN where there is no income.
    tests: what a lender's order of payments would do from the first full year on; first_year: its first project year, from 1.
    with_overhaul_reserve: least cover as it would be with overhauls saved for three years ahead; as it is where they are.
    """

    covers: Mapping[str, Cover]
    least: Mapping[str, LeastCover]
    part_year: LeastCover
    rolling: FloatArray
    llcr: Ratio
    plcr: Ratio
    signed_share: FloatArray
    tests: Waterfall
    first_year: IntArray
    with_overhaul_reserve: LeastCover


def bank_view(values: Values, *, full: BoolArray) -> BankView:
    """Work out a lender's measures from the lines.

    values: lines and inputs by full name. full: (draws, years) or (1, years), full operating years.
    """
    service = np.maximum(-year_sum(values["debt_service"]), 0.0)
    covers = {case: dscr(*_alike(year_sum(values[line]), service)) for case, line in CASES.items()}
    first = np.argmax(full, axis=1)
    debt = np.broadcast_to(_at(values["loans_owed"], first * MONTHS - 1), (covers["as_assumed"].value.shape[0],))
    cash, rates = values["cash_available_for_debt_service"], loan_rates(values)
    ahead, within = _present(cash, rates, values["loans_owed_as_scheduled"], first * MONTHS)
    income = year_sum(values["cash_income"])
    signed = year_sum(values["signed_income"])
    return BankView(
        covers=covers,
        least={case: least_cover(cover, full_years=full) for case, cover in covers.items()},
        part_year=least_cover(covers["as_assumed"], full_years=~np.atleast_2d(full)),
        rolling=rolling_cover(cash, -values["debt_service"], counted=np.repeat(full * 1.0, MONTHS, axis=1)),
        llcr=ratio_of(within, debt),
        plcr=ratio_of(ahead, debt),
        signed_share=np.where(income > 0.0, signed / np.where(income > 0.0, income, 1.0), np.nan),
        tests=lenders_order(values)[0],
        first_year=first + 1,
        with_overhaul_reserve=least_cover(
            dscr(*_alike(year_sum(cash) + overhauls_smoothed(values), service)), full_years=full
        ),
    )


def overhauls_smoothed(values: Values) -> FloatArray:
    """What a reserve filled three years ahead would move between years (draws, years) [money]; nothing where one is kept.

    The rule is the line `overhaul_reserve` itself. What is put in is negative; over the life it adds to nothing.
    """
    paid = values["overhauls_of_year"]
    if "overhaul_reserve" in values:
        return np.zeros_like(paid)
    ahead = [np.concatenate((paid[:, n:], np.zeros_like(paid[:, :n])), axis=1) for n in (1, 2, 3)]
    kept = overhaul_reserve(*ahead, **PART_KEPT, months_fed_in_year=values["months_fed_in_year"])
    return np.asarray(-np.diff(kept, axis=1, prepend=0.0))


def loan_rates(values: Values) -> FloatArray:
    """Interest of the month over what was owed before it, all loans together (draws, months); the last rate stays."""
    owed = values["loans_owed"]
    opening = np.concatenate((np.zeros_like(owed[:, :1]), owed[:, :-1]), axis=1)
    cost = np.broadcast_to(-values["interest_cost"], opening.shape)
    tiny = 1e-9 * np.maximum(owed.max(axis=1, keepdims=True), 1.0)
    rate = np.where(opening > tiny, cost / np.where(opening > tiny, opening, 1.0), np.nan)
    last = np.zeros(rate.shape[0])
    for month in range(rate.shape[1]):
        last = np.where(np.isnan(rate[:, month]), last, rate[:, month])
        rate[:, month] = last
    return rate


def _present(cash: FloatArray, rates: FloatArray, owed: FloatArray, start: IntArray) -> tuple[FloatArray, FloatArray]:
    """Value of cash from month `start` on (draws,), of all months and of those in which a loan is still owed before them."""
    flows, rate, debt = np.broadcast_arrays(cash, rates, owed)
    tiny = 1e-9 * np.maximum(debt.max(axis=1), 1.0)
    ahead, within, factor = (np.zeros(flows.shape[0]) for _ in range(3))
    factor = factor + 1.0
    for month in range(flows.shape[1]):
        counts = month >= start
        factor = np.where(counts, factor / (1.0 + rate[:, month]), factor)
        value = np.where(counts, flows[:, month] * factor, 0.0)
        ahead = ahead + value
        within = within + np.where((debt[:, month - 1] > tiny) & (month > 0), value, 0.0)
    return ahead, within


def lenders_order(values: Values) -> tuple[Waterfall, IntArray]:
    """The lender's order of payments by project year, and the first full year from 0; what lies before it counts nothing.

    values: lines and inputs by full name.
    """
    first = np.argmax(full_years(values), axis=1)
    cash, due, cost = (
        year_sum(values[name]) for name in ("cash_available_for_debt_service", "debt_service", "interest_cost")
    )
    owed = values["loans_owed"][:, MONTHS - 1 :: MONTHS]
    cash, due, cost, owed = _alike(cash, -due, -cost, owed)
    counts = np.arange(cash.shape[1]) >= np.broadcast_to(first, (cash.shape[0],))[:, None]
    opening = np.concatenate((np.zeros_like(owed[:, :1]), owed[:, :-1]), axis=1)
    rate = np.where(counts & (opening > 0.0), cost / np.where(opening > 0.0, opening, 1.0), 0.0)
    draws = cash.shape[0]
    order = waterfall(
        np.where(counts, cash, 0.0),
        np.where(counts, np.maximum(due, 0.0), 0.0),
        debt=_at(opening, first),
        rate=rate,
        sweep_share=np.broadcast_to(np.ravel(values["funding.sweep_share"]), (draws,)),
        lock_up_cover=np.broadcast_to(np.ravel(values["funding.lock_up_cover"]), (draws,)),
        reserved=np.where(counts, -year_sum(values["debt_reserve_moves"]), 0.0),
        swept=np.broadcast_to(values["swept"], cash.shape) if "swept" in values else None,
    )
    return replace(order, cover=np.where(counts, order.cover, np.nan)), first


def _at(array: FloatArray, place: IntArray) -> FloatArray:
    """One column a row (draws,); a place below zero is nothing."""
    draws = max(array.shape[0], place.shape[0])
    wide, column = np.broadcast_to(array, (draws, array.shape[1])), np.broadcast_to(place, (draws,))
    found = np.take_along_axis(wide, np.maximum(column, 0)[:, None], axis=1)[:, 0]
    return np.where(column < 0, 0.0, found)


def _alike(*arrays: FloatArray) -> list[FloatArray]:
    return [np.ascontiguousarray(array) for array in np.broadcast_arrays(*arrays)]
