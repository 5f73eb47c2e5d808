"""Rates of return: of equal periods and of dated flows, with their status, and the modified rate."""

from __future__ import annotations

from collections.abc import Sequence
from datetime import date
from itertools import pairwise
from typing import ClassVar

import numpy as np

from appraisal.measures.arrays import FloatArray, Measured, as_flows, column, weighted_sum, whole_power
from appraisal.measures.discounting import periodic_rate, rate_vectors
from appraisal.measures.polynomials import Sums, sums, value_and_slope
from appraisal.measures.scan import all_roots, largest_roots

NEGLIGIBLE = 1e-20  # of the row's largest flow: far below the last digit of any sum with it, counted as zero
GRID_RATES = 0.002 * 1.25 ** np.arange(60)  # 1/year, from 0.2 % to some 100,000 %; 0 and infinity are added
FIRST_GUESS = 0.1  # 1/year
DAYS_PER_YEAR = 365


class Rates(Measured):
    """Annual rates of return (draws,) [1/year] with their status; the value is NaN exactly where the status is "none".

    one: a single rate at or above zero, or, where none is, a single one between -100 % and zero.
    several: more than one of them; the value is the one nearest to zero, `irr_roots` lists all.
    none: no rate above -100 % makes the present value zero.
    """

    names: ClassVar[tuple[str, ...]] = ("one", "several", "none")


ONE, SEVERAL, NONE = range(3)


def _grid(periods_per_year: int) -> FloatArray:
    """Discount factors per period (points,) [1] that the scan looks at, rising from 0 to 1."""
    inner = (1.0 + GRID_RATES[::-1]) ** (-1.0 / periods_per_year)
    return np.concatenate(([0.0], inner, [1.0]))


def _scaled(flows: FloatArray) -> FloatArray:
    """Flows as (periods, draws), each row divided by its largest magnitude, negligible ones set to zero [1]."""
    largest = np.abs(flows).max(axis=1)
    terms = np.ascontiguousarray(flows.T) / np.where(largest == 0.0, 1.0, largest)
    terms[np.abs(terms) < NEGLIGIBLE] = 0.0
    return terms


def _rates(of: Sums, periods_per_year: int) -> Rates:
    """Rates from sums whose x is the discount factor per period: first those from zero up, then those below."""
    grid, guess = _grid(periods_per_year), (1.0 + FIRST_GUESS) ** (-1.0 / periods_per_year)
    count, factor = largest_roots(of, grid, guess=guess)
    rate = whole_power(1.0 / factor, periods_per_year) - 1.0
    rate[of.balanced] = 0.0
    count += of.balanced
    below = np.flatnonzero(count == 0)
    if below.size:
        count[below], growth = largest_roots(of.rows(below).mirrored(), grid, guess=guess)
        rate[below] = whole_power(growth, periods_per_year) - 1.0
    status = np.where(count == 0, NONE, np.where(count == 1, ONE, SEVERAL)).astype(np.int64)
    return Rates(rate, status)


def irr(flows: FloatArray, periods_per_year: int) -> Rates:
    """Internal rate of return: the annual effective rate at which the present value is zero.

    Parameters
    ----------
    flows : ndarray (draws, periods) [currency]
        Inflow positive, equal periods, column 0 today.
    periods_per_year : int [1/year]
        12 for months, 1 for years.

    Returns
    -------
    Rates (draws,) [1/year]
        r with sum over k of flows[k] * (1 + r)**(-k / periods_per_year) = 0, and whether it is the only one.

    Raises
    ------
    ValueError
        As `as_flows`.

    Notes
    -----
    Roots at or above zero are counted first; roots below zero only where there are none. A removal cost at the end
    gives nearly every plant a second root near -100 % without meaning; `irr_roots` shows it, the status does not
    count it. Rivals: the root nearest to a guess (spreadsheets), the smallest root, every root.
    Rows whose running total changes sign at most once need no search, as there is then at most one root above zero
    (Norstrom 1972, from memory); that covers a single change of sign in the flows themselves (Descartes). The others
    are searched on a grid from -100 % to without limit. Flows are scaled by the largest of their row, so the result
    does not depend on the currency unit; flows below 1e-20 of the largest count as zero.
    """
    values = as_flows(flows)
    return _rates(sums(_scaled(values), (1,) * (values.shape[1] - 1)), periods_per_year)


def irr_roots(flows_row: FloatArray, periods_per_year: int) -> FloatArray:
    """Every rate above -100 % at which the present value of one row is zero.

    Parameters
    ----------
    flows_row : ndarray (periods,) [currency]
        One row of flows, column 0 today.
    periods_per_year : int [1/year]
        12 for months, 1 for years.

    Returns
    -------
    ndarray (roots,) [1/year]
        Annual effective rates in rising order; empty when there is none.

    Raises
    ------
    ValueError
        If there is more than one row, and as `as_flows`.
    """
    row = np.asarray(flows_row, dtype=np.float64)
    if row.ndim != 1:
        raise ValueError(f"expected one row of flows, shape (periods,); got {row.shape}")
    values, grid = as_flows(row[np.newaxis, :]), _grid(periods_per_year)
    of = sums(_scaled(values), (1,) * (values.shape[1] - 1))
    if of.size[0] == 0.0:
        return np.empty(0)
    above = whole_power(1.0 / all_roots(of, grid)[1], periods_per_year) - 1.0
    below = whole_power(all_roots(of.mirrored(), grid)[1], periods_per_year) - 1.0
    at_zero = np.zeros(int(of.balanced[0]))
    return np.concatenate((below[::-1], at_zero, above))


def mirr(
    flows: FloatArray,
    *,
    finance_rate: float | FloatArray,
    reinvest_rate: float | FloatArray,
    periods_per_year: int,
) -> Rates:
    """Modified internal rate of return, always single.

    Parameters
    ----------
    flows : ndarray (draws, periods) [currency]
        Inflow positive, equal periods, column 0 today.
    finance_rate : float, ndarray (draws,) or ndarray (draws, 1) [1/year]
        Annual effective rate at which the outflows are brought to today.
    reinvest_rate : float, ndarray (draws,) or ndarray (draws, 1) [1/year]
        Annual effective rate at which the inflows are carried to the last period.
    periods_per_year : int [1/year]
        12 for months, 1 for years.

    Returns
    -------
    Rates (draws,) [1/year]
        (future value of inflows / -present value of outflows)**(periods_per_year / (periods - 1)) - 1; "none" when
        a row has no inflow, no outflow, or only one period.

    Raises
    ------
    ValueError
        As `present_value`.
    """
    values = as_flows(flows)
    draws, periods = values.shape
    finance, reinvest = (periodic_rate(column(rate, draws), periods_per_year) for rate in (finance_rate, reinvest_rate))
    spent = weighted_sum(np.maximum(-values, 0.0), 1.0 / (1.0 + finance))
    earned = weighted_sum(np.maximum(values, 0.0)[:, ::-1], 1.0 + reinvest)
    none = (spent <= 0.0) | (earned <= 0.0) | (periods == 1)
    ratio = np.where(none, 1.0, earned) / np.where(none, 1.0, spent)
    rate = ratio ** (periods_per_year / max(periods - 1, 1)) - 1.0
    return Rates(np.where(none, np.nan, rate), np.where(none, NONE, ONE).astype(np.int64))


def _day_gaps(dates: Sequence[date], periods: int) -> tuple[int, ...]:
    """Days from each date to the next (dates - 1) [day]; raises where they do not rise or do not fit the flows."""
    gaps = tuple((later - earlier).days for earlier, later in pairwise(dates))
    if len(dates) != periods or any(gap < 1 for gap in gaps):
        raise ValueError("there must be one date for each flow, each later than the one before")
    return gaps


def xnpv(flows: FloatArray, rate: float | FloatArray, *, dates: Sequence[date]) -> FloatArray:
    """Net present value, at the first date, of flows on calendar dates.

    Parameters
    ----------
    flows : ndarray (draws, dates) [currency]
        Inflow positive.
    rate : float, ndarray (draws,) or ndarray (draws, 1) [1/year]
        Annual effective rate.
    dates : sequence of date (dates) [day]
        Rising; flows of one day belong in one column.

    Returns
    -------
    ndarray (draws,) [currency]
        sum over k of flows[k] * (1 + rate)**(-days[k] / 365), leap years included (actual/365).

    Raises
    ------
    ValueError
        If the dates do not rise or do not fit the flows, and as `present_value`.
    """
    values = as_flows(flows)
    (annual,) = rate_vectors(column(rate, values.shape[0]))
    factor = 1.0 / (1.0 + periodic_rate(annual, DAYS_PER_YEAR))
    return value_and_slope(np.ascontiguousarray(values.T), _day_gaps(dates, values.shape[1]), factor)[0]


def xirr(flows: FloatArray, dates: Sequence[date]) -> Rates:
    """Internal rate of return of flows on calendar dates, actual/365.

    Parameters
    ----------
    flows : ndarray (draws, dates) [currency]
        Inflow positive.
    dates : sequence of date (dates) [day]
        Rising; flows of one day belong in one column.

    Returns
    -------
    Rates (draws,) [1/year]
        r at which `xnpv` is zero, with the status rules of `irr`.

    Raises
    ------
    ValueError
        As `xnpv`.
    """
    values = as_flows(flows)
    return _rates(sums(_scaled(values), _day_gaps(dates, values.shape[1])), DAYS_PER_YEAR)
