"""Closed factors for level, escalating and indexed yearly flows."""

from __future__ import annotations

import numpy as np

from appraisal.measures.arrays import FloatArray, columns
from appraisal.measures.discounting import YearlyTiming, rate_vectors, timing_shift


def annuity_factor(rate: float | FloatArray, *, periods: int) -> FloatArray:
    """Present value of one unit of money at the end of each period.

    Parameters
    ----------
    rate : float, ndarray (draws,) or ndarray (draws, 1) [1/period]
        Rate per period i; zero is allowed.
    periods : int [count]
        Number of periods n.

    Returns
    -------
    ndarray (draws,) [1]
        (1 - (1+i)**-n) / i, and n at a rate of zero.

    Raises
    ------
    ValueError
        If the number of periods is negative, and as `rate_vectors`.
    """
    if periods < 0:
        raise ValueError(f"the number of periods must not be negative; got {periods}")
    (i,) = rate_vectors(rate)
    safe = np.where(i == 0.0, 1.0, i)
    return np.where(i == 0.0, float(periods), -np.expm1(-periods * np.log1p(i)) / safe)


def present_worth_factor(
    rate: float | FloatArray, *, escalation: float | FloatArray, years: int, timing: YearlyTiming
) -> FloatArray:
    """Present value of a yearly amount, stated in today's prices, whose price escalates from today on.

    Parameters
    ----------
    rate : float, ndarray (draws,) or ndarray (draws, 1) [1/year]
        Annual effective discount rate r.
    escalation : float, ndarray (draws,) or ndarray (draws, 1) [1/year]
        Yearly rise e of this price, on the same footing (nominal or real) as the rate.
    years : int [year]
        Number of years n.
    timing : str [name]
        Where in its year the amount falls; the price escalates up to that moment.

    Returns
    -------
    ndarray (draws,) [year]
        shift(i) * annuity_factor(i, n) at the net rate i = (1+r)/(1+e) - 1.

    Raises
    ------
    ValueError
        As `annuity_factor` and `timing_shift`.

    Notes
    -----
    Handbooks of energy economics spread the flow evenly and continuously through each year [1]_; end-of-year factors
    are 1 to 5 % lower, mid-year factors agree within 0.04 %. Rival: `growing_annuity`, where the first year's amount
    is not escalated.

    References
    ----------
    .. [1] MIL-HDBK-1003/13A, section 3.7.3, page 110 (UFC 3-440-04); factors seen.
    """
    discount, rise = rate_vectors(rate, escalation)
    net = (discount - rise) / (1.0 + rise)
    return timing_shift(net, timing) * annuity_factor(net, periods=years)


def growing_annuity(
    first: float | FloatArray,
    rate: float | FloatArray,
    *,
    growth: float | FloatArray,
    share_indexed: float | FloatArray,
    years: int,
) -> FloatArray:
    """Present value of a yearly end-of-year amount of which a share follows an index.

    Parameters
    ----------
    first : float, ndarray (draws,) or ndarray (draws, 1) [currency/year]
        Amount of year 1; the index starts to act in year 2.
    rate, growth : float, ndarray (draws,) or ndarray (draws, 1) [1/year]
        Annual effective discount rate r, and yearly rise g of the index.
    share_indexed : float, ndarray (draws,) or ndarray (draws, 1) [1]
        Share s of the amount that follows the index, from 0 to 1; the rest stays flat.
    years : int [year]
        Number of years n.

    Returns
    -------
    ndarray (draws,) [currency]
        first * (s * annuity(i)/(1+g) + (1 - s) * annuity(r)) with i = (1+r)/(1+g) - 1.

    Notes
    -----
    Raises ValueError where the share lies outside 0 to 1, and as `annuity_factor`.
    Rival: letting the whole amount grow at s * g. That is another contract, worth less over long terms.
    """
    amount, discount, rise, share = columns(first, rate, growth, share_indexed)
    if ((share < 0.0) | (share > 1.0)).any():
        raise ValueError("the indexed share must lie between 0 and 1")
    rate_vectors(discount, rise)
    net = (discount - rise) / (1.0 + rise)
    indexed = annuity_factor(net, periods=years) / (1.0 + rise)
    return amount * (share * indexed + (1.0 - share) * annuity_factor(discount, periods=years))
