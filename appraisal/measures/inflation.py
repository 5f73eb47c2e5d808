"""Real and nominal money: rates and flows with and without the general rise of prices. Never mix the two kinds."""

from __future__ import annotations

from appraisal.measures.arrays import FloatArray
from appraisal.measures.discounting import discounted, rate_vectors


def real_rate(nominal: float | FloatArray, inflation: float | FloatArray) -> FloatArray:
    """Rate in money of constant purchasing power.

    Parameters
    ----------
    nominal : float, ndarray (draws,) or ndarray (draws, 1) [1/year]
        Rate in money of the day.
    inflation : float, ndarray (draws,) or ndarray (draws, 1) [1/year]
        General rise of prices.

    Returns
    -------
    ndarray (draws,) [1/year]
        (1 + nominal)/(1 + inflation) - 1.

    Raises
    ------
    ValueError
        As `rate_vectors`.

    Notes
    -----
    Rival: nominal - inflation, an approximation that misses by inflation times the real rate.
    """
    money, prices = rate_vectors(nominal, inflation)
    return (money - prices) / (1.0 + prices)


def nominal_rate(real: float | FloatArray, inflation: float | FloatArray) -> FloatArray:
    """Rate in money of the day, the inverse of `real_rate`.

    Parameters
    ----------
    real : float, ndarray (draws,) or ndarray (draws, 1) [1/year]
        Rate in money of constant purchasing power.
    inflation : float, ndarray (draws,) or ndarray (draws, 1) [1/year]
        General rise of prices.

    Returns
    -------
    ndarray (draws,) [1/year]
        (1 + real)(1 + inflation) - 1.

    Raises
    ------
    ValueError
        As `rate_vectors`.
    """
    power, prices = rate_vectors(real, inflation)
    return power + prices + power * prices


def deflate(flows: FloatArray, inflation: float | FloatArray, *, periods_per_year: int = 12) -> FloatArray:
    """Flows in money of today's purchasing power.

    Parameters
    ----------
    flows : ndarray (draws, periods) [currency, money of the day]
        Column k falls k/periods_per_year years from today.
    inflation : float, ndarray (draws,) or ndarray (draws, 1) [1/year]
        General rise of prices.
    periods_per_year : int [1/year]
        12 for months.

    Returns
    -------
    ndarray (draws, periods) [currency, money of today]
        flows[k] / (1 + inflation)**(k / periods_per_year).

    Raises
    ------
    ValueError
        As `present_value`.
    """
    return discounted(flows, inflation, periods_per_year=periods_per_year)
