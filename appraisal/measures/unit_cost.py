"""Cost per unit and per year: levelised cost, capital recovery, equivalent annual value, benefit/cost ratio."""

from __future__ import annotations

from typing import ClassVar

import numpy as np

from appraisal.measures.arrays import FloatArray, Measured, columns
from appraisal.measures.discounting import Timing, npv
from appraisal.measures.factors import annuity_factor


class Ratio(Measured):
    """A quotient (draws,) of two present values with its status; NaN where the divisor is not above zero."""

    names: ClassVar[tuple[str, ...]] = ("given", "nothing to divide by")


def ratio_of(top: FloatArray, bottom: FloatArray) -> Ratio:
    """Quotient of two vectors (draws,) [any unit] with its status."""
    missing = bottom <= 0.0
    value = np.where(missing, np.nan, top / np.where(missing, 1.0, bottom))
    return Ratio(value, missing.astype(np.int64))


def levelised_cost(
    costs: FloatArray, energy: FloatArray, *, rate: float | FloatArray, timing: Timing = "dated months"
) -> Ratio:
    """Constant price per unit of energy whose present value equals that of the costs.

    Parameters
    ----------
    costs : ndarray (draws, periods) [currency]
        Capital and running costs, positive as spent; take by-product income off for the net figure.
    energy : ndarray (draws, periods) [kWh]
        Energy delivered in the same periods.
    rate : float, ndarray (draws,) or ndarray (draws, 1) [1/year]
        Annual effective rate; a real rate with real costs gives a price in today's money.
    timing : str [name]
        Convention of `npv`, the same for money and energy.

    Returns
    -------
    Ratio (draws,) [currency/kWh]
        present value of costs / present value of energy.

    Raises
    ------
    ValueError
        As `npv`.

    Notes
    -----
    Energy is discounted too, as the price is earned when the energy is sold [1]_. Rivals: dividing by undiscounted
    energy, which comes out too low; capital recovery factor times capital plus yearly cost over yearly energy, which
    is equal when every year is alike.

    References
    ----------
    .. [1] Short, Packey, Holt, NREL/TP-462-5173 (1995), total life-cycle cost per unit of energy; definition seen.
    """
    return ratio_of(npv(costs, rate, timing=timing), npv(energy, rate, timing=timing))


def capital_recovery_factor(rate: float | FloatArray, *, years: int) -> FloatArray:
    """Equal end-of-year amount that repays one unit of capital with interest.

    Parameters
    ----------
    rate : float, ndarray (draws,) or ndarray (draws, 1) [1/year]
        Annual effective rate i; zero is allowed.
    years : int [year]
        Number of years n, at least one.

    Returns
    -------
    ndarray (draws,) [1/year]
        i / (1 - (1+i)**-n), and 1/n at a rate of zero.

    Raises
    ------
    ValueError
        If there is no year, and as `annuity_factor`.
    """
    if years < 1:
        raise ValueError(f"capital is recovered over at least one year; got {years}")
    return 1.0 / annuity_factor(rate, periods=years)


def equivalent_annual_value(value: float | FloatArray, rate: float | FloatArray, *, years: int) -> FloatArray:
    """Equal end-of-year amount with a given present value.

    Parameters
    ----------
    value : float, ndarray (draws,) or ndarray (draws, 1) [currency]
        Present value, usually the NPV.
    rate : float, ndarray (draws,) or ndarray (draws, 1) [1/year]
        Annual effective rate.
    years : int [year]
        Number of years, at least one.

    Returns
    -------
    ndarray (draws,) [currency/year]
        value * capital_recovery_factor(rate, years).

    Raises
    ------
    ValueError
        As `capital_recovery_factor`.
    """
    present, factor = columns(value, capital_recovery_factor(rate, years=years))
    return present * factor


def benefit_cost_ratio(
    benefits: FloatArray, costs: FloatArray, *, rate: float | FloatArray, timing: Timing = "dated months"
) -> Ratio:
    """Present value of all benefits over present value of all costs.

    Parameters
    ----------
    benefits : ndarray (draws, periods) [currency]
        Gross benefits, positive.
    costs : ndarray (draws, periods) [currency]
        Capital and running costs, positive as spent.
    rate : float, ndarray (draws,) or ndarray (draws, 1) [1/year]
        Annual effective rate.
    timing : str [name]
        Convention of `npv`.

    Returns
    -------
    Ratio (draws,) [1]
        present value of benefits / present value of costs; above 1 exactly when the NPV is above zero.

    Raises
    ------
    ValueError
        As `npv`.

    Notes
    -----
    Rival: (benefits - running costs) / capital, which lies further from 1 on the same side. The two change places
    when a cost is booked as a negative benefit, so say which is shown; this one counts every cost below the line.
    """
    return ratio_of(npv(benefits, rate, timing=timing), npv(costs, rate, timing=timing))
