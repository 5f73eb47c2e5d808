"""Cover over the life of the loan and of the plant, over any twelve months, and the debt that a cash flow carries."""

from __future__ import annotations

import numpy as np

from appraisal.lines.names import MONTHS
from appraisal.measures.arrays import FloatArray, as_flows, columns
from appraisal.measures.factors import annuity_factor
from appraisal.measures.unit_cost import Ratio, ratio_of


def life_cover(cash: FloatArray, debt: float | FloatArray, rate: float | FloatArray) -> Ratio:
    """Present value of cash available over the debt: LLCR over the years of the loan, PLCR over those of the plant.

    Parameters
    ----------
    cash : ndarray (draws, years) [currency/year]
        Cash available at the ends of the years after today; give the loan's years for LLCR, all years for PLCR.
    debt : float, ndarray (draws,) or ndarray (draws, 1) [currency]
        Owed today.
    rate : float, ndarray (draws,) or ndarray (draws, 1) [1/year]
        Rate of the loan.

    Returns
    -------
    Ratio (draws,) [1]
        sum of cash[t] / (1 + rate)**t from t = 1, over the debt; nothing to divide by without debt.
    """
    flows = as_flows(cash)
    owed, discount = columns(np.broadcast_to(np.ravel(debt), (flows.shape[0],)), rate)
    value, factor = np.zeros(flows.shape[0]), np.ones(flows.shape[0])
    for year in range(flows.shape[1]):
        factor = factor / (1.0 + discount)
        value = value + flows[:, year] * factor
    return ratio_of(value, owed)


def debt_carried(
    cash: float | FloatArray, *, cover: float | FloatArray, rate: float | FloatArray, years: int
) -> FloatArray:
    """Debt whose level yearly payment a level yearly cash flow carries at a wanted cover.

    Parameters
    ----------
    cash : float, ndarray (draws,) or ndarray (draws, 1) [currency/year]
        Cash available each year.
    cover : float, ndarray (draws,) or ndarray (draws, 1) [1]
        Cover wanted.
    rate : float, ndarray (draws,) or ndarray (draws, 1) [1/year]
        Rate of the loan.
    years : int [year]
        Yearly payments.

    Returns
    -------
    ndarray (draws,) [currency]
        cash / cover * annuity factor. A lender takes the smallest over its cases (middle year at a high cover, bad year
        at a low one).
    """
    available, wanted, interest = columns(cash, cover, rate)
    return available / wanted * annuity_factor(interest, periods=years)


def rolling_cover(cash: FloatArray, service: FloatArray, *, counted: FloatArray) -> FloatArray:
    """Least cover over any twelve months in a row.

    Parameters
    ----------
    cash, service : ndarray (draws, months) [currency/month]
        Cash available, and debt service positive as paid.
    counted : ndarray (draws, months) [1]
        1 for months of full operation; only windows of twelve such months count.

    Returns
    -------
    ndarray (draws,) [1]
        Smallest of the quotients; NaN where no such window has debt service.
    """
    available, due, full = (_windows(flows) for flows in np.broadcast_arrays(cash, service, counted))
    some = (full >= MONTHS) & (due > 0.0)
    cover = np.where(some, available / np.where(some, due, 1.0), np.inf).min(axis=1)
    return np.where(np.isinf(cover), np.nan, cover)


def _windows(flows: FloatArray) -> FloatArray:
    """Sums of twelve months in a row (draws, months - 11), added month by month."""
    windows = flows.shape[1] - MONTHS + 1
    total = np.zeros((flows.shape[0], windows))
    for month in range(MONTHS):
        total = total + flows[:, month : month + windows]
    return total
