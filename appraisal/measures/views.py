"""The same measures from every side: project or owner, before or after tax, nominal or real money; months dated."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass
from itertools import pairwise
from typing import Any, Literal

import numpy as np

from appraisal.lines.evaluate import MONTHS, year_sum
from appraisal.measures.arrays import FloatArray
from appraisal.measures.discounting import npv
from appraisal.measures.headline import costs_before_grants
from appraisal.measures.inflation import deflate, real_rate
from appraisal.measures.payback import Payback, discounted_payback, simple_payback
from appraisal.measures.ratios import (
    SavingsRatio,
    modified_benefit_cost_ratio,
    regulatory_payback,
    savings_to_investment,
)
from appraisal.measures.returns import Rates, irr, mirr
from appraisal.measures.unit_cost import Ratio, benefit_cost_ratio, equivalent_annual_value, levelised_cost

Values = Mapping[str, FloatArray]
Whose = Literal["project", "owner"]
Money = Literal["nominal", "real"]
CASH = {
    ("project", "before tax"): "project_cash_before_tax",
    ("project", "after tax"): "project_cash",
    ("owner", "before tax"): "net_cash_before_tax",
    ("owner", "after tax"): "net_cash",
}
TIMING = "months dated, month 0 is today"
YEARLY = "by project year, year 1 today, the others at their ends"


@dataclass(frozen=True, eq=False)
class View:
    """Measures of one side, each (draws,): worth [money], returns [1/year], paybacks [year], yearly worth [money/year].

    whose: project (no loans) or owner (with them). tax: before or after. money: nominal, or real in prices of month 0.
    npv_year_end: the same flows summed by project year and discounted from the year's end, for comparison with papers that do so.
    """

    whose: str
    tax: str
    money: str
    discount_rate: FloatArray
    npv: FloatArray
    npv_year_end: FloatArray
    irr: Rates
    mirr: Rates
    payback_years: Payback
    discounted_payback_years: Payback
    equivalent_annual_value: FloatArray


@dataclass(frozen=True, eq=False)
class UnitCosts:
    """Levelised cost of power before tax and grants, nominal [money/kWh], each (draws,) with its status.

    gross: all costs; net: costs less all income and savings but power. sold: over power sold and paid for; used: over power
    sold and used on the farm.
    """

    gross_sold: Ratio
    gross_used: Ratio
    net_sold: Ratio
    net_used: Ratio


@dataclass(frozen=True, eq=False)
class Ratios:
    """Quotients of present values before tax (draws,) [1], grants counted as benefits, and the payback of programmes [year].

    all_costs_below: every cost in the divisor. capital_below: running costs taken off the benefits. sir: savings less running
    costs over capital, overhauls and end value, grants taken off the capital.
    """

    all_costs_below: Ratio
    capital_below: Ratio
    savings: SavingsRatio
    regulatory_payback_years: Ratio


def views(values: Values) -> tuple[View, ...]:
    """All eight sides of one or many cases.

    values: lines and inputs by full name. Real flows are nominal ones deflated month by month by general inflation, at the
    real rate that belongs to the nominal one; so their worth is the same and their returns are lower.
    """
    sides = [(whose, tax, money) for whose, tax in CASH for money in ("nominal", "real")]
    flows = [_flows(values, whose, tax, money) for whose, tax, money in sides]
    together = _measures(*(np.concatenate(arrays) for arrays in zip(*flows, strict=True)))
    ends = np.cumsum([0, *(cash.shape[0] for cash, *_ in flows)])
    rows = [slice(start, stop) for start, stop in pairwise(ends)]
    return tuple(
        View(*side, **{name: _part(found, row) for name, found in together.items()})
        for side, row in zip(sides, rows, strict=True)
    )


def _flows(values: Values, whose: str, tax: str, money: str) -> tuple[FloatArray, FloatArray, FloatArray, FloatArray]:
    """Cash (draws, months) of one side, with its discount, finance and reinvestment rates (draws,)."""
    cash, inflation = values[CASH[whose, tax]], values["project.inflation"]
    rates = [values[f"judging.{name}"] for name in ("discount_rate", "finance_rate", "reinvest_rate")]
    if money == "real":
        cash, rates = deflate(cash, inflation), [real_rate(rate, inflation) for rate in rates]
    draws = max(cash.shape[0], *(rate.size for rate in rates))
    discount, finance, reinvest = (np.broadcast_to(np.ravel(rate), (draws,)) for rate in rates)
    return np.broadcast_to(cash, (draws, cash.shape[1])), discount, finance, reinvest


def _measures(cash: FloatArray, discount: FloatArray, finance: FloatArray, reinvest: FloatArray) -> dict[str, Any]:
    """All measures of many rows at once, by the field of `View`: one pass over the months serves every side."""
    worth = npv(cash, discount)
    return {
        "discount_rate": discount,
        "npv": worth,
        "npv_year_end": npv(year_sum(cash), discount, timing="end of year"),
        "irr": irr(cash, MONTHS),
        "mirr": mirr(cash, finance_rate=finance, reinvest_rate=reinvest, periods_per_year=MONTHS),
        "payback_years": simple_payback(cash, periods_per_year=MONTHS),
        "discounted_payback_years": discounted_payback(cash, discount, periods_per_year=MONTHS),
        "equivalent_annual_value": equivalent_annual_value(worth, discount, years=cash.shape[1] // MONTHS),
    }


def _part(found: Any, rows: slice) -> Any:
    """The rows of one side: of an array, or of every array that a measure holds."""
    if isinstance(found, np.ndarray):
        return found[rows]
    return type(found)(**{name: held[rows] for name, held in vars(found).items()})


def unit_costs(values: Values) -> UnitCosts:
    """Levelised cost of power, gross and net of by-products, over kWh sold and over kWh sold and used on the farm."""
    spent = costs_before_grants(values)
    gained = values["cash_income"] + values["evidenced_savings"] + values["modelled_savings"]
    by_products = gained - values["power_gained"]
    sold, used = values["power_sold"], values["power_sold"] + values["power_to_farm"]
    rate = values["judging.discount_rate"]
    return UnitCosts(
        *(
            levelised_cost(*_alike(costs, energy), rate=rate)
            for costs in (spent, spent - by_products)
            for energy in (sold, used)
        )
    )


def ratios(values: Values) -> Ratios:
    """Benefit over cost in both layouts, savings to investment, and the payback of farm-energy programmes."""
    rate = values["judging.discount_rate"]
    gained = values["cash_income"] + values["evidenced_savings"] + values["modelled_savings"]
    running = -(values["running_costs"] + values["overhauls_paid"])
    capital = -(values["investment"] + values["disposals"])
    with_grants, run, spent = _alike(gained + values["grants"], running, capital)
    programme = values["energy_and_by_products"] * values["in_first_full_year"]
    saved = npv(_alike(gained + values["running_costs"])[0], rate)
    invested = npv(_alike(capital - values["overhauls_paid"] - values["grants"])[0], rate)
    return Ratios(
        all_costs_below=benefit_cost_ratio(with_grants, run + spent, rate=rate),
        capital_below=modified_benefit_cost_ratio(with_grants, run, spent, rate=rate),
        savings=savings_to_investment(saved, invested, rate=rate, years=gained.shape[1] / MONTHS),
        regulatory_payback_years=regulatory_payback(_once(values["eligible_cost"]), _once(programme)),
    )


def _once(flows: FloatArray) -> FloatArray:
    """Sum over all months, in the order of the months; (draws,)."""
    return np.cumsum(flows, axis=1)[:, -1]


def _alike(*arrays: FloatArray) -> list[FloatArray]:
    return [np.ascontiguousarray(array) for array in np.broadcast_arrays(*arrays)]
