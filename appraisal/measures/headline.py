"""The headline measures of one or many cases: project view, after tax, nominal, months dated."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass

import numpy as np

from appraisal.lines.evaluate import MONTHS, year_sum
from appraisal.measures.arrays import BoolArray, FloatArray
from appraisal.measures.cover import Cover, LeastCover, dscr, least_cover
from appraisal.measures.discounting import npv
from appraisal.measures.payback import Payback, discounted_payback, simple_payback
from appraisal.measures.returns import Rates, irr, mirr
from appraisal.measures.unit_cost import Ratio, benefit_cost_ratio, levelised_cost

VIEW = "project, after tax, nominal, months dated (month 0 is today)"
Values = Mapping[str, FloatArray]


@dataclass(frozen=True, eq=False)
class Headline:
    """Measures by draw; each that can be missing carries its status.

    npv (draws,) [money]; irr, mirr [1/year]; paybacks [year] from the first spending; levelised_cost [money/kWh] gross of
    by-products and before tax, on power sold and used on the farm; benefit_cost_ratio [1], grants counted as benefits and
    tax as a cost;
    cover (draws, years) [1] and dscr_min over years fed in all twelve months.
    """

    npv: FloatArray
    irr: Rates
    mirr: Rates
    payback_years: Payback
    discounted_payback_years: Payback
    levelised_cost_per_kwh: Ratio
    benefit_cost_ratio: Ratio
    cover: Cover
    dscr_min: LeastCover


def full_years(values: Values) -> BoolArray:
    """Project years in which the plant is fed, or closed for good, in all twelve months; shape (draws, years).

    A plant that closed early still owes its debt: its years without income count in the least cover.
    """
    return np.asarray(year_sum(values["feeding"] + values["closed"]) >= MONTHS)


def headline(values: Values) -> Headline:
    """Work out the headline measures from the lines.

    values: lines and inputs by full name, first axis 1 or draws. Money lines: inflow positive.
    """
    cash, rate = values["project_cash"], values["judging.discount_rate"]
    cover = yearly_cover(values)
    spent = 0.0 - (values["investment"] + values["running_costs"] + values["overhauls_paid"] + values["disposals"])
    before_grants = costs_before_grants(values)
    gained = values["cash_income"] + values["evidenced_savings"] + values["modelled_savings"] + values["grants"]
    tax = gained - spent - cash
    energy = values["power_sold"] + values["power_to_farm"]
    return Headline(
        npv=npv(cash, rate),
        irr=irr(cash, MONTHS),
        mirr=mirr(
            cash,
            finance_rate=values["judging.finance_rate"],
            reinvest_rate=values["judging.reinvest_rate"],
            periods_per_year=MONTHS,
        ),
        payback_years=simple_payback(cash, periods_per_year=MONTHS),
        discounted_payback_years=discounted_payback(cash, rate, periods_per_year=MONTHS),
        levelised_cost_per_kwh=levelised_cost(*_alike(before_grants, energy), rate=rate),
        benefit_cost_ratio=benefit_cost_ratio(*_alike(gained, spent + tax), rate=rate),
        cover=cover,
        dscr_min=least_cover(cover, full_years=full_years(values)),
    )


def costs_before_grants(values: Values) -> FloatArray:
    """All costs but tax and loans, as if no grant came or went back (draws, months) [money/month], positive as spent."""
    built = values["investment"] + values["running_costs"] + values["overhauls_paid"]
    return np.asarray(0.0 - (built + values["disposals_before_grants"]))


def yearly_cover(values: Values) -> Cover:
    """Cover of debt service by project year; shape (draws, years) [1]."""
    cash, service = year_sum(values["cash_available_for_debt_service"]), -year_sum(values["debt_service"])
    return dscr(*_alike(cash, np.maximum(service, 0.0)))


def _alike(*arrays: FloatArray) -> list[FloatArray]:
    return [np.ascontiguousarray(array) for array in np.broadcast_arrays(*arrays)]
