"""Discounting: the timing conventions, discount factors and present value.

Rates are annual and effective. Column 0 of every flow array is today and is not discounted.
"""

from __future__ import annotations

from typing import Literal, get_args

import numpy as np

from appraisal.measures.arrays import FloatArray, as_flows, column, columns, weighted_sum

YearlyTiming = Literal["end of year", "mid year", "start of year", "spread evenly"]
Timing = Literal["dated months", YearlyTiming]


def rate_vectors(*rates: float | FloatArray) -> list[FloatArray]:
    """Rates as contiguous vectors of one length, each checked to be above -1.

    Parameters
    ----------
    rates : float, ndarray (draws,) or ndarray (draws, 1) [1/year or 1/period]
        Rates as fractions: 0.08 is 8 %.

    Returns
    -------
    list of ndarray (draws,) [as given]
        In the order given.

    Raises
    ------
    ValueError
        If a rate is -1 (that is -100 %) or lower, and as `columns`.
    """
    vectors = columns(*rates)
    if any((vector <= -1.0).any() for vector in vectors):
        raise ValueError("a rate must be above -1 (-100 %)")
    return vectors


def periodic_rate(rate: float | FloatArray, periods_per_year: int) -> FloatArray:
    """Rate per period that compounds to an annual effective rate.

    Parameters
    ----------
    rate : float, ndarray (draws,) or ndarray (draws, 1) [1/year]
        Annual effective rate.
    periods_per_year : int [1/year]
        12 for months.

    Returns
    -------
    ndarray (draws,) [1/period]
        (1 + rate)**(1 / periods_per_year) - 1.

    Raises
    ------
    ValueError
        As `rate_vectors`.

    Notes
    -----
    Rival: a loan's quoted annual rate is usually divided by the number of periods instead; that is not done here.
    """
    (annual,) = rate_vectors(rate)
    return annual if periods_per_year == 1 else np.expm1(np.log1p(annual) / periods_per_year)


def timing_shift(rate: float | FloatArray, timing: YearlyTiming) -> FloatArray:
    """Factor that turns an end-of-year present value into that of another yearly convention.

    Parameters
    ----------
    rate : float, ndarray (draws,) or ndarray (draws, 1) [1/year]
        Annual effective rate i.
    timing : str [name]
        Where in its year a yearly flow is taken to fall.

    Returns
    -------
    ndarray (draws,) [1]
        1 (end of year), (1+i)**0.5 (mid year), 1+i (start of year), i/ln(1+i) (spread evenly and continuously).

    Raises
    ------
    ValueError
        If the convention is not one of the four, and as `rate_vectors`.
    """
    (i,) = rate_vectors(rate)
    if timing == "end of year":
        return np.ones_like(i)
    if timing == "mid year":
        return np.sqrt(1.0 + i)
    if timing == "start of year":
        return 1.0 + i
    if timing == "spread evenly":
        return np.where(i == 0.0, 1.0, i / np.where(i == 0.0, 1.0, np.log1p(i)))
    raise ValueError(f"timing must be one of {', '.join(get_args(YearlyTiming))}; got {timing}")


def discount_factors(rate: float | FloatArray, *, periods: int, timing: Timing = "dated months") -> FloatArray:
    """Present value of one unit of money in each period.

    Parameters
    ----------
    rate : float, ndarray (draws,) or ndarray (draws, 1) [1/year]
        Annual effective rate.
    periods : int [months for dated months, else years]
        Number of columns wanted, today's included.
    timing : str [name]
        "dated months": column m falls m/12 years from today. The yearly conventions put column 0 today and column t
        at, within or before the end of year t, see `timing_shift`.

    Returns
    -------
    ndarray (draws, periods) [1]
        v**k with v = 1/(1 + rate per period), from column 1 times the shift of the convention.

    Raises
    ------
    ValueError
        As `timing_shift`.
    """
    (annual,) = rate_vectors(rate)
    ratio = 1.0 / (1.0 + periodic_rate(annual, 12 if timing == "dated months" else 1))
    factor = np.ones_like(annual) if timing == "dated months" else timing_shift(annual, timing)
    factors = np.ones((annual.size, periods))
    for k in range(1, periods):
        factor = factor * ratio
        factors[:, k] = factor
    return factors


def present_value(flows: FloatArray, rate: float | FloatArray, *, periods_per_year: int = 12) -> FloatArray:
    """Value today of flows that fall at the whole periods 0, 1, 2, ...

    Parameters
    ----------
    flows : ndarray (draws, periods) [currency]
        Inflow positive; column 0 is today and is not discounted.
    rate : float, ndarray (draws,) or ndarray (draws, 1) [1/year]
        Annual effective rate, nominal for nominal flows and real for real ones.
    periods_per_year : int [1/year]
        12: column k falls k/12 years from today.

    Returns
    -------
    ndarray (draws,) [currency]
        sum over k of flows[k] * (1 + rate)**(-k / periods_per_year).

    Raises
    ------
    ValueError
        As `as_flows` and `rate_vectors`, and if the rates do not fit the number of draws.

    Notes
    -----
    Rival: a spreadsheet's NPV function discounts its first flow by one whole period.
    """
    values = as_flows(flows)
    annual = column(rate, values.shape[0])
    return weighted_sum(values, 1.0 / (1.0 + periodic_rate(annual, periods_per_year)))


def discounted(flows: FloatArray, rate: float | FloatArray, *, periods_per_year: int = 12) -> FloatArray:
    """Each flow at its value today; `present_value` is the sum of these.

    Parameters
    ----------
    flows : ndarray (draws, periods) [currency]
        Column k falls k/periods_per_year years from today.
    rate : float, ndarray (draws,) or ndarray (draws, 1) [1/year]
        Annual effective rate.
    periods_per_year : int [1/year]
        12 for months.

    Returns
    -------
    ndarray (draws, periods) [currency]
        flows[k] * (1 + rate)**(-k / periods_per_year).

    Raises
    ------
    ValueError
        As `present_value`.
    """
    values = as_flows(flows)
    ratio = 1.0 / (1.0 + periodic_rate(column(rate, values.shape[0]), periods_per_year))
    result, factor = np.empty_like(values), np.ones(values.shape[0])
    for k in range(values.shape[1]):
        result[:, k] = values[:, k] * factor
        factor = factor * ratio
    return result


def npv(flows: FloatArray, rate: float | FloatArray, *, timing: Timing = "dated months") -> FloatArray:
    """Net present value under a named timing convention.

    Parameters
    ----------
    flows : ndarray (draws, periods) [currency]
        Months for "dated months", otherwise column 0 for today and one column per year; inflow positive.
    rate : float, ndarray (draws,) or ndarray (draws, 1) [1/year]
        Annual effective rate.
    timing : str [name]
        State it beside every figure: the conventions differ by half a year's interest and more.

    Returns
    -------
    ndarray (draws,) [currency]
        flows[0] + shift(rate) * sum over t >= 1 of flows[t] * (1 + rate)**-t; months as `present_value`.

    Raises
    ------
    ValueError
        As `present_value` and `timing_shift`.
    """
    if timing == "dated months":
        return present_value(flows, rate, periods_per_year=12)
    values = as_flows(flows)
    annual = column(rate, values.shape[0])
    shift, ratio = timing_shift(annual, timing), 1.0 / (1.0 + annual)
    later = values.copy()
    later[:, 0] = 0.0
    return values[:, 0] + shift * weighted_sum(later, ratio)
